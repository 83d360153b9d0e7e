/// Inside the revision room: words of headings and titles within a sentence.
#pragma once

#include <string>

namespace ohmfolio::revision {

/// A word begins small; abbreviations keep their capitals: "Current A" to "current A", "EGC" as it
/// is.
inline std::string in_a_sentence(std::string title) {
    const auto small = [](char c) { return c >= 'a' && c <= 'z'; };
    if (title.size() > 1 && title[0] >= 'A' && title[0] <= 'Z' &&
        (small(title[1]) || title[1] == ' '))
        title[0] = static_cast<char>(title[0] - 'A' + 'a');
    for (char& c : title) {
        if (c == '\n')
            c = ' ';
    }
    return title;
}

} // namespace ohmfolio::revision
