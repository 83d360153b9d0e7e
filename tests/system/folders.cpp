#include "folders.h"
#include "without_plans.h"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <stdexcept>

namespace ohmfolio::test {

namespace fs = std::filesystem;

std::string read_file(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    if (!in) {
        throw std::runtime_error("cannot read " + path.string());
    }
    return {std::istreambuf_iterator<char>(in), {}};
}

void write_file(const fs::path& path, const std::string& bytes) {
    fs::create_directories(path.parent_path());
    std::ofstream out(path, std::ios::binary);
    out << bytes;
    if (!out.flush()) {
        throw std::runtime_error("cannot write " + path.string());
    }
}

std::map<std::string, std::string> files_below(const fs::path& folder) {
    std::map<std::string, std::string> files;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        if (entry.is_regular_file()) {
            files[entry.path().lexically_relative(folder).string()] = read_file(entry.path());
        }
    }
    return files;
}

std::vector<std::string> names_in(const fs::path& folder) {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator(folder)) {
        names.push_back(entry.path().filename().string());
    }
    std::sort(names.begin(), names.end());
    return names;
}

namespace {

bool is_description(const fs::path& file) {
    return file.extension() == ".toml" &&
           ("\n" + read_file(file)).find("\n[project]") != std::string::npos;
}

} // namespace

std::vector<fs::path> example_systems() {
    std::vector<fs::path> systems;
    for (const auto& entry : fs::recursive_directory_iterator(OHMFOLIO_SOURCE "/examples")) {
        if (is_description(entry.path())) {
            systems.push_back(entry.path());
        }
    }
    std::sort(systems.begin(), systems.end());
    return systems;
}

fs::path ashgrove() { return OHMFOLIO_SOURCE "/examples/tolliver-bend/ashgrove.toml"; }

namespace {

bool replaced_once(const fs::path& file, const std::string& from, const std::string& to) {
    std::string text = read_file(file);
    const std::size_t at = text.find(from);
    if (at == std::string::npos) {
        return false;
    }
    write_file(file, text.replace(at, from.size(), to));
    return true;
}

/// PDFs that descriptions and catalogues append stand in folders of their own.
void copy_documents(const fs::path& from, const fs::path& to) {
    for (const auto& entry : fs::recursive_directory_iterator(from)) {
        if (entry.path().extension() == ".pdf") {
            const fs::path copy = to / entry.path().lexically_relative(from);
            fs::create_directories(copy.parent_path());
            fs::copy_file(entry.path(), copy, fs::copy_options::overwrite_existing);
        }
    }
}

} // namespace

fs::path copied(const fs::path& system, const fs::path& folder, const Replacements& replacements) {
    fs::create_directories(folder);
    std::vector<fs::path> files;
    for (const auto& entry : fs::directory_iterator(system.parent_path())) {
        const bool logo = entry.path().extension() == ".svg";
        if (logo || (entry.path().extension() == ".toml" &&
                     (entry.path() == system || !is_description(entry.path())))) {
            files.push_back(folder / entry.path().filename());
            fs::copy_file(entry.path(), files.back(), fs::copy_options::overwrite_existing);
        }
    }
    copy_documents(system.parent_path(), folder);
    const fs::path copy = folder / system.filename();
    if (!replacements.empty())
        write_file(copy, without_plans(read_file(copy)) + "\n");
    for (const auto& [from, to] : replacements) {
        const bool done = std::any_of(files.begin(), files.end(), [&](const fs::path& file) {
            return replaced_once(file, from, to);
        });
        if (!done) {
            throw std::logic_error("no file beside " + system.string() + " holds " + from);
        }
    }
    return copy;
}

} // namespace ohmfolio::test
