#include "code/term.h"

#include <algorithm>
#include <cmath>

#include "base/text.h"

namespace ohmfolio {

namespace {

/// A value this close to a whole number is shown as one.
constexpr double whole_number_error = 1e-9;

/// Decimals of `Digits::full`: more than any input is stated with.
constexpr int full_decimals = 6;

/// A number with a proper minus sign.
std::string number(double value, int decimals) {
    const std::string text = trimmed(value, decimals);
    return text.starts_with('-') ? "−" + text.substr(1) : text;
}

/// The same with all decimals written out: 14.20.
std::string number_in(double value, int decimals) {
    const std::string text = decimal(value, decimals);
    return text.starts_with('-') ? "−" + text.substr(1) : text;
}

std::string number(double value, int usual_decimals, Digits digits) {
    return number(value, digits == Digits::full ? full_decimals : usual_decimals);
}

/// Watts and watt-hours: in thousands from a thousand on, with two decimals.
std::string in_thousands(double value, std::string_view unit, Digits digits) {
    if (std::abs(value) < 1000)
        return number(value, 2, digits) + " " + std::string(unit);
    return number(value / 1000, 2, digits) + " k" + std::string(unit);
}

bool is_whole(double value) {
    return std::abs(value - std::round(value)) <=
           whole_number_error * std::max(1.0, std::abs(value));
}

std::string bracketed(const std::string& text, bool brackets) {
    return brackets ? "(" + text + ")" : text;
}

} // namespace

std::string shown(Ratio v, Digits digits) { return number(v.value, 4, digits); }
std::string shown(Volts v, Digits digits) { return number(v.value, 2, digits) + " V"; }
std::string shown(Amps v, Digits digits) {
    // Ratings read as the trade writes them, 20 A; currents with both decimals, 14.20 A.
    if (digits == Digits::full || is_whole(v.value))
        return number(v.value, full_decimals) + " A";
    return number_in(v.value, 2) + " A";
}
std::string shown_kiloamps(Amps v, Digits digits) {
    if (std::abs(v.value) < 1000)
        return shown(v, digits);
    return number(v.value / 1000, 2, digits) + " kA";
}
std::string shown_va(Watts v, Digits digits) { return in_thousands(v.value, "VA", digits); }
std::string shown_percent(Ratio v, Digits digits) {
    const double percent = v.value * 100;
    if (digits == Digits::full || is_whole(percent))
        return number(percent, full_decimals) + " %";
    return number_in(percent, 2) + " %";
}
std::string shown(Watts v, Digits digits) { return in_thousands(v.value, "W", digits); }
std::string shown(WattHours v, Digits digits) { return in_thousands(v.value, "Wh", digits); }
std::string shown(Ohms v, Digits digits) { return number(v.value, 4, digits) + " Ω"; }
std::string shown(Hours v, Digits digits) { return number(v.value, 2, digits) + " h"; }
std::string shown(Feet v, Digits digits) { return number(v.value, 2, digits) + " ft"; }
std::string shown(SquareFeet v, Digits digits) { return number(v.value, 1, digits) + " ft²"; }
std::string shown(WattsPerSquareFoot v, Digits digits) {
    return number(v.value, 2, digits) + " VA/ft²";
}
std::string shown(OhmsPerFoot v, Digits digits) {
    return number(v.value * 1000, 4, digits) + " Ω/kft";
}
std::string shown(FeetPerOhm v, Digits digits) { return number(v.value, 0, digits) + " ft/Ω"; }
std::string shown(SquareInches v, Digits digits) {
    return decimal(v.value, digits == Digits::full ? full_decimals : 4) + " in²";
}
std::string shown(CircularMils v, Digits digits) { return number(v.value, 0, digits) + " cmil"; }
std::string shown(Celsius v, Digits digits) { return number(v.value, 1, digits) + " °C"; }
std::string shown(CelsiusDelta v, Digits digits) { return number(v.value, 1, digits) + " °C"; }
std::string shown(PerCelsius v, Digits digits) {
    return number(v.value * 100, 4, digits) + " %/°C";
}

namespace detail {

std::string joined(const std::string& a, Binding a_binding, std::string_view op,
                   const std::string& b, Binding b_binding, Binding result, bool guard_right) {
    const bool left = a_binding < result;
    const bool right =
        b_binding < result || (guard_right && b_binding == result) || b.starts_with("−");
    return bracketed(a, left) + std::string(op) + bracketed(b, right);
}

} // namespace detail

Term<Ratio> factor(double value) { return constant(Ratio{value}); }

Term<Ratio> root_three() { return {Ratio{std::sqrt(3.0)}, "√3", "√3", Binding::atom, {}}; }

} // namespace ohmfolio
