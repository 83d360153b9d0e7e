#include "app/start_kinds.h"

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <utility>

#include <fmt/format.h>

#include "toml/written.h"

namespace ohmfolio {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view says = "#! ";
constexpr std::string_view for_each_group = "#*";

/// What a line of the head says.
std::string head_line(std::istream& in, const fs::path& path) {
    std::string line;
    if (!std::getline(in, line) || !line.starts_with(says)) {
        throw std::runtime_error(path.string() + " does not begin with two lines of \"#! \"");
    }
    return line.substr(says.size());
}

StartKind read_kind(const fs::path& path) {
    std::ifstream in(path);
    StartKind kind;
    kind.name = path.stem().string();
    kind.meaning = head_line(in, path);
    const std::string division = head_line(in, path);
    if (std::sscanf(division.c_str(), "%d groups of %d to %d modules", &kind.groups, &kind.least,
                    &kind.most) != 3) {
        throw std::runtime_error(path.string() + " does not state its groups of modules");
    }
    std::ostringstream rest;
    rest << in.rdbuf();
    kind.text = rest.str();
    return kind;
}

using Slots = std::vector<std::pair<std::string_view, std::string>>;

/// What is put in is not looked at again: an address may hold "@name@".
std::string filled(std::string_view line, const Slots& slots) {
    std::string out;
    while (!line.empty()) {
        const auto slot = std::ranges::find_if(
            slots, [line](const auto& each) { return line.starts_with(each.first); });
        if (slot == slots.end()) {
            out += line.front();
            line.remove_prefix(1);
        } else {
            out += slot->second;
            line.remove_prefix(slot->first.size());
        }
    }
    return out;
}

} // namespace

std::vector<StartKind> start_kinds(const fs::path& folder) {
    std::vector<fs::path> files;
    for (const fs::directory_entry& entry : fs::directory_iterator(folder)) {
        if (entry.path().extension() == ".toml") {
            files.push_back(entry.path());
        }
    }
    std::ranges::sort(files);
    std::vector<StartKind> kinds;
    for (const fs::path& file : files) {
        kinds.push_back(read_kind(file));
    }
    return kinds;
}

std::vector<int> divided(const StartKind& kind, int modules) {
    if (modules < 1 || modules > kind.groups * kind.most) {
        return {};
    }
    const int groups = (modules + kind.most - 1) / kind.most;
    const int share = modules / groups;
    if (share < kind.least) {
        return {};
    }
    std::vector<int> shares(static_cast<std::size_t>(groups), share);
    for (int more = modules % groups; more > 0; --more) {
        ++shares[static_cast<std::size_t>(more - 1)];
    }
    return shares;
}

std::string filled_start(const StartKind& kind, const StartAnswers& answers) {
    const Slots common{{"@name@", toml_text::escaped(answers.name)},
                       {"@address@", toml_text::escaped(answers.address)},
                       {"@date@", answers.date},
                       {"@file@", toml_text::escaped(answers.file)}};
    const std::vector<int> shares = divided(kind, answers.modules);
    std::string out;
    std::istringstream lines(kind.text);
    for (std::string line; std::getline(lines, line);) {
        if (!line.starts_with(for_each_group)) {
            out += filled(line, common) + "\n";
            continue;
        }
        for (std::size_t group = 0; group < shares.size(); ++group) {
            out += filled(line.substr(for_each_group.size()),
                          {{"@group@", std::to_string(group + 1)},
                           {"@share@", std::to_string(shares[group])}}) +
                   "\n";
        }
    }
    return out;
}

} // namespace ohmfolio
