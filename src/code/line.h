/// The heading of a line about the subject of a desk. Private to the room.
#pragma once

#include <algorithm>
#include <string>
#include <utility>

#include "code/desk.h"

namespace ohmfolio {

inline Heading line_for(const Desk& desk, std::string name, std::string symbol, std::string title,
                        Citation cite, ShownAs as = ShownAs::plain) {
    return {.subject = desk.subject,
            .name = std::move(name),
            .symbol = std::move(symbol),
            .title = std::move(title),
            .cite = std::move(cite),
            .as = as};
}

/// Names of lines take no blanks: "west garage" names a line "west_garage".
inline std::string as_line(std::string text) {
    while (text.ends_with(' '))
        text.pop_back();
    std::replace(text.begin(), text.end(), ' ', '_');
    return text;
}

/// A value that the rule was given, with a line that says what it is; written once.
template <class Q>
Term<Q> told(const Desk& desk, std::string name, std::string symbol, std::string title,
             std::string source, Q value, ShownAs as = ShownAs::plain) {
    return desk.sheet.state_once({.subject = desk.subject,
                                  .name = std::move(name),
                                  .symbol = std::move(symbol),
                                  .title = std::move(title),
                                  .source = std::move(source),
                                  .as = as},
                                 value);
}

} // namespace ohmfolio
