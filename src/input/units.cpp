#include "input/units.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <vector>

#include "base/text.h"

namespace ohmfolio {
namespace {

constexpr double feet_per_metre = 1 / 0.3048; // the international foot, exact by definition

constexpr Unit power_units[] = {{"W"}, {"kW", 1000}, {"VA"}, {"kVA", 1000}};
constexpr Unit voltage_units[] = {{"V"}, {"kV", 1000}};
constexpr Unit current_units[] = {{"A"}, {"kA", 1000}};
constexpr Unit energy_units[] = {{"kWh", 1000}, {"Wh"}};
constexpr Unit length_units[] = {{"ft"},
                                 {"in", 1.0 / 12},
                                 {"m", feet_per_metre},
                                 {"cm", feet_per_metre / 100},
                                 {"mm", feet_per_metre / 1000}};
constexpr Unit paper_units[] = {{"pt", 1.0 / 864}, // 72 points to the inch
                                {"mm", feet_per_metre / 1000},
                                {"in", 1.0 / 12}};
constexpr Unit temperature_units[] = {
    {"C"}, {"F", 5.0 / 9, -32}, {"\u00B0C"}, {"\u00B0F", 5.0 / 9, -32}};
constexpr Unit percent_units[] = {{"%", 0.01}};
constexpr Unit per_celsius_units[] = {{"%/C", 0.01}, {"%/K", 0.01}, {"%/\u00B0C", 0.01}};

constexpr Unit area_units[] = {{"ft2"}, {"m2", feet_per_metre* feet_per_metre}};
constexpr Unit angle_units[] = {{"deg"}, {"\u00B0"}};

constexpr UnitFamily families[] = {
    {Kind::power, "a power", power_units, 0.1, 1e9},
    {Kind::voltage, "a voltage", voltage_units, 0.1, 1e5},
    {Kind::current, "a current", current_units, 0.001, 1e6},
    {Kind::energy, "an energy", energy_units, 1, 1e9},
    {Kind::length, "a length", length_units, 0.01, 1e5},
    {Kind::distance, "a distance", length_units, 0, 1e5},
    {Kind::paper, "a length on paper", paper_units, 0.0001, 0.5},
    {Kind::temperature, "a temperature", temperature_units, -90, 150},
    {Kind::area, "an area", area_units, 1, 1e7},
    {Kind::angle, "an angle", angle_units, -90, 360},
    {Kind::percent, "a percentage", percent_units, 1e-4, 1},
    {Kind::per_celsius, "a temperature coefficient", per_celsius_units, -0.02, 0.02},
};

/// Takes a sign from the front of `rest`, as typed or as printed in data sheets. (A plain minus
/// belongs to the number.)
double take_sign(std::string_view& rest) {
    for (const std::string_view sign : {"+", "\u2212"}) {
        if (rest.starts_with(sign) && !rest.substr(sign.size()).starts_with('-')) {
            rest.remove_prefix(sign.size());
            return sign == "+" ? 1 : -1;
        }
    }
    return 1;
}

/// Takes a number from the front of `rest`.
std::optional<double> take_number(std::string_view& rest) {
    const double sign = take_sign(rest);
    double number = 0;
    const auto [end, fault] = std::from_chars(rest.data(), rest.data() + rest.size(), number);
    if (fault != std::errc{} || !std::isfinite(number)) {
        return std::nullopt;
    }
    rest.remove_prefix(static_cast<std::size_t>(end - rest.data()));
    return sign * number;
}

/// Takes "/4" from the front of `rest`.
std::optional<double> take_divisor(std::string_view& rest) {
    std::string_view after = rest;
    if (!after.starts_with('/')) {
        return std::nullopt;
    }
    after.remove_prefix(1);
    const auto divisor = take_number(after);
    if (!divisor || *divisor <= 0) {
        return std::nullopt;
    }
    rest = after;
    return divisor;
}

/// Takes " 1/2" or "-1/2" from the front of `rest`: the fraction of a mixed number.
double take_fraction(std::string_view& rest) {
    std::string_view after = rest;
    if (after.size() < 2 || (after[0] != ' ' && after[0] != '-') || after[1] < '0' ||
        after[1] > '9') {
        return 0;
    }
    after.remove_prefix(1);
    const auto numerator = take_number(after);
    const auto divisor = numerator ? take_divisor(after) : std::nullopt;
    if (!divisor) {
        return 0;
    }
    rest = after;
    return *numerator / *divisor;
}

} // namespace

const Unit* UnitFamily::find(std::string_view spelling) const {
    const auto found = std::ranges::find(units, spelling, &Unit::spelling);
    return found == units.end() ? nullptr : &*found;
}

std::string UnitFamily::spellings() const {
    std::vector<std::string> all;
    for (const Unit& unit : units) {
        all.emplace_back(unit.spelling);
    }
    if (all.size() == 1) {
        return all.front();
    }
    const std::string last = all.back();
    all.pop_back();
    return join(all, ", ") + " or " + last;
}

const UnitFamily* unit_family(Kind kind) {
    const auto found = std::ranges::find(families, kind, &UnitFamily::kind);
    return found == std::end(families) ? nullptr : &*found;
}

const UnitFamily* family_of_unit(std::string_view spelling) {
    const auto found = std::ranges::find_if(
        families, [&](const UnitFamily& family) { return family.find(spelling) != nullptr; });
    return found == std::end(families) ? nullptr : &*found;
}

std::string_view trim(std::string_view text) {
    const auto first = text.find_first_not_of(' ');
    if (first == std::string_view::npos) {
        return {};
    }
    return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

std::optional<Amount> parse_amount(std::string_view text) {
    std::string_view rest = trim(text);
    const auto whole = take_number(rest);
    if (!whole) {
        return std::nullopt;
    }
    double number = *whole;
    if (const auto divisor = take_divisor(rest)) {
        number /= *divisor;
    } else {
        number += take_fraction(rest);
    }
    return Amount{number, std::string(trim(rest))};
}

} // namespace ohmfolio
