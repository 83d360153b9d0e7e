#include "render/anchor_id.h"

#include <fmt/format.h>

namespace ohmfolio {

std::string anchor_id(std::string_view name) {
    std::string id;
    for (const char c : name) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
                           (c >= '0' && c <= '9') || c == ':' || c == '-' || c == '.' || c == '/';
        if (plain) {
            id += c;
        } else {
            id += fmt::format("_{:02X}_", static_cast<unsigned char>(c));
        }
    }
    return id;
}

} // namespace ohmfolio
