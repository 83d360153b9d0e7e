/// The command `start`: what was not given by option is asked for, where somebody is there to ask.
#include <ctime>
#include <iostream>

#include <fmt/chrono.h>
#include <fmt/format.h>

#include "app/commands.h"
#include "app/files.h"
#include "app/start_kinds.h"
#include "base/text.h"

namespace ohmfolio {
namespace {

std::string list_of(const std::vector<StartKind>& kinds) {
    std::string out;
    for (const StartKind& kind : kinds) {
        out += fmt::format("  {:10} {}\n", kind.name, kind.meaning);
    }
    return out;
}

const StartKind* kind_called(const std::vector<StartKind>& kinds, const std::string& name) {
    const auto found = std::ranges::find(kinds, name, &StartKind::name);
    return found == kinds.end() ? nullptr : &*found;
}

/// The numbers of modules that the kind can be started with.
std::string range_of(const StartKind& kind) {
    std::vector<std::string> ranges;
    for (int groups = 1; groups <= kind.groups; ++groups) {
        const int from = std::max(groups * kind.least, (groups - 1) * kind.most + 1);
        ranges.push_back(fmt::format("{} to {}", from, groups * kind.most));
    }
    return kind.least == 1 ? fmt::format("1 to {}", kind.groups * kind.most) : join(ranges, " or ");
}

/// A line from the drafter; nothing at the end of input.
std::string asked(const std::string& question, std::ostream& out) {
    out << question << ": " << std::flush;
    std::string answer;
    std::getline(std::cin, answer);
    return answer;
}

/// Fills in what is missing by asking for it.
void ask(StartOptions& options, const std::vector<StartKind>& kinds, std::ostream& out) {
    if (options.kind.empty()) {
        out << list_of(kinds);
        options.kind = asked("Kind of system", out);
    }
    if (options.name.empty()) {
        options.name = asked("Name of the project", out);
    }
    if (options.address.empty()) {
        options.address = asked("Address of the site", out);
    }
    if (const StartKind* kind = kind_called(kinds, options.kind);
        kind != nullptr && options.modules == 0) {
        const std::string answer =
            asked(fmt::format("Number of modules ({})", range_of(*kind)), out);
        options.modules = std::atoi(answer.c_str());
    }
}

/// What is still missing or wrong, each on a line; empty: nothing.
std::string obstacles(const StartOptions& options, const std::vector<StartKind>& kinds) {
    std::string out;
    const StartKind* kind = kind_called(kinds, options.kind);
    if (kind == nullptr) {
        std::vector<std::string> names;
        for (const StartKind& each : kinds) {
            names.push_back(each.name);
        }
        const std::string near = did_you_mean(options.kind, names);
        out += options.kind.empty() ? "no kind of system was named"
                                    : fmt::format("there is no kind \"{}\"", options.kind);
        out +=
            fmt::format("{}; the kinds are\n{}", near.empty() ? "" : "; " + near, list_of(kinds));
    } else if (divided(*kind, options.modules).empty()) {
        out += fmt::format("--modules: {} modules cannot be divided for \"{}\", which takes {}; "
                           "start with one of these and add to the file\n",
                           options.modules, kind->name, range_of(*kind));
    }
    if (options.name.empty()) {
        out += "--name: the name of the project is missing\n";
    }
    if (options.address.empty()) {
        out += "--address: the address of the site is missing\n";
    }
    if (std::filesystem::exists(options.out)) {
        out +=
            fmt::format("--out: {} is there already and is left as it is\n", options.out.string());
    }
    return out;
}

std::string today() {
    const std::time_t now = std::time(nullptr);
    return fmt::format("{:%Y-%m-%d}", fmt::localtime(now));
}

} // namespace

int start(StartOptions options, const Surroundings& where, std::ostream& out, std::ostream& err) {
    const std::vector<StartKind> kinds = start_kinds(where.data / "starts");
    if (options.interactive) {
        ask(options, kinds, out);
    }
    const std::string wrong = obstacles(options, kinds);
    if (!wrong.empty()) {
        err << wrong << "Nothing was written.\n";
        return exit_usage;
    }
    const std::string date = options.date.empty() ? today() : options.date;
    const std::string text = filled_start(
        *kind_called(kinds, options.kind),
        {options.name, options.address, date, options.out.filename().string(), options.modules});
    const auto folder = options.out.has_parent_path() ? options.out.parent_path() : ".";
    write_all(folder, {{options.out.filename().string(), text}});
    out << fmt::format("{}\nLines marked \"survey\" are assumptions until somebody has measured.\n"
                       "Next: ohmfolio draw {}\n",
                       options.out.string(), options.out.string());
    return exit_clean;
}

} // namespace ohmfolio
