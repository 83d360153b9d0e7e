#include "base/file_name.h"

#include <algorithm>

namespace ohmfolio {

bool stays_in_folder(std::string_view name) {
    const auto unsafe = [](char c) {
        return static_cast<unsigned char>(c) < 0x20 || c == '\\' || c == ':' || c == 0x7F;
    };
    if (std::ranges::any_of(name, unsafe)) {
        return false;
    }
    while (true) {
        const auto slash = name.find('/');
        const auto part = name.substr(0, slash);
        if (part.empty() || part == "." || part == "..") {
            return false;
        }
        if (slash == std::string_view::npos) {
            return true;
        }
        name.remove_prefix(slash + 1);
    }
}

} // namespace ohmfolio
