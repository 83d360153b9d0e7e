/// A number with its unit, as text.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "input/keys.h"

namespace ohmfolio {

struct Unit {
    std::string_view spelling;
    double factor = 1; ///< to the unit that the program keeps
    double offset = 0; ///< added before the factor: 15 F is (15 - 32) * 5/9 C
};

/// Quantities of one kind: their units, and the range beyond which a number is a slip.
struct UnitFamily {
    Kind kind;
    std::string_view noun;          ///< "a length"
    std::span<const Unit> units;    ///< the one to advise first
    double least = 0, greatest = 0; ///< in the unit that the program keeps

    const Unit* find(std::string_view spelling) const;
    std::string spellings() const; ///< "ft, in, m, cm or mm"
};

const UnitFamily* unit_family(Kind kind); ///< nullptr where the kind has no units
/// The family that has a unit of this spelling.
const UnitFamily* family_of_unit(std::string_view spelling);

struct Amount {
    double number = 0;
    std::string unit;
};
/// "46 ft", "3/4 in", "1 1/2 in", "-0.26 %/C". Nothing unless it starts with a finite number.
std::optional<Amount> parse_amount(std::string_view text);
std::string_view trim(std::string_view text);

} // namespace ohmfolio
