#include "input/files.h"

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <fmt/format.h>
#include <memory>
#include <system_error>

#include "input/faults.h"

namespace ohmfolio {
namespace {

constexpr std::size_t largest_file = std::size_t{16} * 1024 * 1024;

struct Close {
    void operator()(std::FILE* file) const { std::fclose(file); }
};
using File = std::unique_ptr<std::FILE, Close>;

/// Stops soon after `largest_file`, so that an endless device does too.
std::string read_all(std::FILE& file, const std::string& name) {
    std::string text;
    std::string block(std::size_t{64} * 1024, '\0');
    while (text.size() <= largest_file) {
        const std::size_t count = std::fread(block.data(), 1, block.size(), &file);
        text.append(block, 0, count);
        if (count < block.size()) {
            break;
        }
    }
    if (std::ferror(&file) != 0) {
        throw std::system_error(errno, std::generic_category(), name);
    }
    return text;
}

} // namespace

bool lies_in(const std::filesystem::path& path, const std::filesystem::path& folder) {
    namespace fs = std::filesystem;
    std::error_code failed;
    const fs::path inner = fs::weakly_canonical(path, failed);
    const fs::path outer = fs::weakly_canonical(folder.empty() ? "." : folder, failed);
    const auto [differs, ignored] =
        std::mismatch(outer.begin(), outer.end(), inner.begin(), inner.end());
    return !failed && differs == outer.end();
}

std::optional<int> read_source(const std::filesystem::path& path, std::string_view as_written,
                               Span named_at, SourceFiles& sources, Findings& findings,
                               std::string_view wanted) {
    const auto report = [&](std::string_view why) {
        findings.push_back(input_fault("input.file", named_at, "",
                                       fmt::format("cannot read \"{}\": {}", as_written, why),
                                       {std::string(wanted), ""}));
        return std::nullopt;
    };
    std::error_code ignored;
    if (std::filesystem::is_directory(path, ignored)) {
        return report("it is a folder");
    }
    // What a file names may not wait for ever, as a pipe or a device does. A user may name one.
    if (named_at.known() && std::filesystem::exists(path, ignored) &&
        !std::filesystem::is_regular_file(path, ignored)) {
        return report("it is no plain file");
    }
    const File file(std::fopen(path.c_str(), "rb"));
    if (!file) {
        return report(std::generic_category().message(errno));
    }
    std::string text = read_all(*file, path.string());
    if (text.size() > largest_file) {
        return report("it is larger than 16 MiB");
    }
    return sources.add(path.string(), std::move(text));
}

} // namespace ohmfolio
