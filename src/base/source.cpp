#include "base/source.h"

#include <utility>

namespace ohmfolio {

int SourceFiles::add(std::string name, std::string text) {
    files_.push_back({std::move(name), std::move(text)});
    return count() - 1;
}

const std::string& SourceFiles::name(int file) const {
    return files_.at(static_cast<std::size_t>(file)).name;
}

const std::string& SourceFiles::text(int file) const {
    return files_.at(static_cast<std::size_t>(file)).text;
}

std::string_view SourceFiles::line(int file, int line) const {
    std::string_view rest = text(file);
    for (int skipped = 1; skipped < line; ++skipped) {
        const auto end = rest.find('\n');
        if (end == std::string_view::npos)
            return {};
        rest.remove_prefix(end + 1);
    }
    if (line < 1)
        return {};
    auto found = rest.substr(0, rest.find('\n'));
    if (found.ends_with('\r'))
        found.remove_suffix(1);
    return found;
}

} // namespace ohmfolio
