/// The heading of a line about the subject of a desk. Private to the room.
#pragma once

#include <string>
#include <utility>

#include "code/desk.h"

namespace ohmfolio {

inline Heading line_for(const Desk& desk, std::string name, std::string symbol, std::string title,
                        Citation cite) {
    return {.subject = desk.subject,
            .name = std::move(name),
            .symbol = std::move(symbol),
            .title = std::move(title),
            .cite = std::move(cite)};
}

} // namespace ohmfolio
