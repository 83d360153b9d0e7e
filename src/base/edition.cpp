#include "base/edition.h"

namespace ohmfolio {

namespace {

constexpr std::string_view prefix = "NEC ";

} // namespace

std::string name(Edition edition) {
    return std::string(prefix) + std::to_string(static_cast<int>(edition));
}

std::optional<Edition> parse_edition(std::string_view text) {
    if (text.starts_with(prefix))
        text.remove_prefix(prefix.size());
    for (const Edition edition : all_editions) {
        if (text == std::to_string(static_cast<int>(edition)))
            return edition;
    }
    return std::nullopt;
}

} // namespace ohmfolio
