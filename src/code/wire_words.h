/// Conductor sizes in the words and areas that grounding and bonding share. Private to the room.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/wire.h"
#include "code/desk.h"
#include "code/rounding.h"

namespace ohmfolio {

inline std::string words(WireSize size, Material material) {
    return name(size) + " " + std::string(name(material));
}

/// Smallest listed size whose area is not below `area`.
inline std::optional<WireSize> size_of_area(const CodeBook& book, CircularMils area) {
    for (int step = 0; step < static_cast<int>(wire_size_names.size()); ++step) {
        const auto of_step = book.circular_mils(WireSize{step});
        if (of_step && at_most(area, *of_step))
            return WireSize{step};
    }
    return std::nullopt;
}

/// A stated size against the one needed. True when nothing is stated.
inline bool check_stated(const Desk& desk, const std::string& line, const std::string& title,
                         const Citation& cite, std::optional<WireSize> stated, WireSize needed,
                         const std::vector<std::string>& from) {
    if (!stated)
        return true;
    const bool passes = *stated >= needed;
    return desk.sheet.judge(
        {.subject = desk.subject, .name = line, .title = title, .cite = cite},
        name(*stated) + (passes ? " is not smaller than " : " is smaller than ") + name(needed),
        passes, from);
}

} // namespace ohmfolio
