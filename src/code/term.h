/// Terms: values on their way through a calculation. The operators build the value, the formula in
/// symbols and the formula in figures together, with brackets where reading needs them.
#pragma once

#include <algorithm>
#include <compare>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "base/quantity.h"

namespace ohmfolio {

/// How tightly the outermost operation of an expression binds; tells where brackets are needed.
enum class Binding { sum, product, power, atom };

/// A value that stands in a formula without a line of its own, and what it is.
struct Leaf {
    std::string symbol;  ///< "N_small"
    std::string figure;  ///< "2"
    std::string meaning; ///< "small-appliance circuits"
    friend bool operator==(const Leaf&, const Leaf&) = default;
};

/// A value on its way through a calculation.
template <class Q> struct Term {
    Q value{};
    std::string symbols; ///< "1.25 × I"
    std::string figures; ///< "1.25 × 11.36 A"
    Binding binding = Binding::atom;
    std::vector<std::string> from;
    std::vector<Leaf> givens = {};
};

/// A temperature coefficient: fraction per degree, "−0.26 %/°C".
struct PerCelsius {
    double value = 0.0;
    friend constexpr auto operator<=>(PerCelsius, PerCelsius) = default;
};

/// How many digits a result is shown with: `usual` for reading; `full` where the usual ones would
/// hide why a comparison fails.
enum class Digits { usual, full };
std::string shown(Ratio, Digits = Digits::usual), shown(Volts, Digits = Digits::usual),
    shown(Amps, Digits = Digits::usual), shown(Watts, Digits = Digits::usual),
    shown(Ohms, Digits = Digits::usual), shown(WattHours, Digits = Digits::usual),
    shown(Hours, Digits = Digits::usual), shown(Feet, Digits = Digits::usual),
    shown(SquareFeet, Digits = Digits::usual), shown(WattsPerSquareFoot, Digits = Digits::usual),
    shown(OhmsPerFoot, Digits = Digits::usual), shown(FeetPerOhm, Digits = Digits::usual),
    shown(SquareInches, Digits = Digits::usual), shown(CircularMils, Digits = Digits::usual),
    shown(Celsius, Digits = Digits::usual), shown(CelsiusDelta, Digits = Digits::usual),
    shown(PerCelsius, Digits = Digits::usual);

/// A share as the trade reads it: "40 %", "1.91 %".
std::string shown_percent(Ratio, Digits = Digits::usual);
/// Apparent power, as inverters and storage state their output: "340 VA", "3.84 kVA".
std::string shown_va(Watts, Digits = Digits::usual);
/// Fault currents, what interrupts or withstands them, and nominal discharge currents, which the
/// trade states in thousands: "9.2 kA". Below a thousand amperes as any other current.
std::string shown_kiloamps(Amps, Digits = Digits::usual);

/// How a value is shown where its type alone does not say.
enum class ShownAs { plain, percent, apparent_power, kiloamps };
template <class Q> std::string shown_as(ShownAs how, Q value, Digits digits = Digits::usual) {
    if constexpr (std::is_same_v<Q, Ratio>) {
        if (how == ShownAs::percent)
            return shown_percent(value, digits);
    }
    if constexpr (std::is_same_v<Q, Watts>) {
        if (how == ShownAs::apparent_power)
            return shown_va(value, digits);
    }
    if constexpr (std::is_same_v<Q, Amps>) {
        if (how == ShownAs::kiloamps)
            return shown_kiloamps(value, digits);
    }
    return shown(value, digits);
}

namespace detail {
/// `a op b` with brackets where the binding asks for them. `guard_right`: the operation is not
/// associative, so an equally loose right side is bracketed: a − (b + c), a ÷ (b × c). A right side
/// that starts with a minus sign is always bracketed: two operators never meet.
std::string joined(const std::string& a, Binding a_binding, std::string_view op,
                   const std::string& b, Binding b_binding, Binding result, bool guard_right);
/// Both lists, what stands in both once.
template <class T> std::vector<T> merged(std::vector<T> a, const std::vector<T>& b) {
    for (const T& one : b) {
        if (std::find(a.begin(), a.end(), one) == a.end())
            a.push_back(one);
    }
    return a;
}
} // namespace detail

/// A plain number written into a formula, shown as it stands: 1.25.
Term<Ratio> factor(double value);
/// A constant with a unit written into a formula: 25 C.
template <class Q> Term<Q> constant(Q value, ShownAs as = ShownAs::plain) {
    return {value, shown_as(as, value), shown_as(as, value), Binding::atom, {}};
}
/// A value that goes into a formula under its name without a line of its own; `meaning` says what
/// it is, "floor area".
template <class Q>
Term<Q> given(std::string symbol, Q value, std::string meaning = {}, ShownAs as = ShownAs::plain) {
    Leaf one{symbol, shown_as(as, value), std::move(meaning)};
    return {value, std::move(symbol), one.figure, Binding::atom, {}, {std::move(one)}};
}
/// The same for apparent power: "25 kVA".
inline Term<Watts> given_va(std::string symbol, Watts value, std::string meaning = {}) {
    return given(std::move(symbol), value, std::move(meaning), ShownAs::apparent_power);
}
/// The square root of three of three-phase circuits, written √3.
Term<Ratio> root_three();

template <Dimension A, Dimension B>
auto operator*(const Term<Quantity<A>>& a, const Term<Quantity<B>>& b) {
    using namespace detail;
    return Term<Quantity<A + B>>{
        Quantity<A + B>{a.value.value * b.value.value},
        joined(a.symbols, a.binding, " × ", b.symbols, b.binding, Binding::product, false),
        joined(a.figures, a.binding, " × ", b.figures, b.binding, Binding::product, false),
        Binding::product,
        merged(a.from, b.from),
        merged(a.givens, b.givens)};
}
template <Dimension A, Dimension B>
auto operator/(const Term<Quantity<A>>& a, const Term<Quantity<B>>& b) {
    using namespace detail;
    return Term<Quantity<A - B>>{
        Quantity<A - B>{a.value.value / b.value.value},
        joined(a.symbols, a.binding, " ÷ ", b.symbols, b.binding, Binding::product, true),
        joined(a.figures, a.binding, " ÷ ", b.figures, b.binding, Binding::product, true),
        Binding::product,
        merged(a.from, b.from),
        merged(a.givens, b.givens)};
}
template <Dimension D>
Term<Quantity<D>> operator+(const Term<Quantity<D>>& a, const Term<Quantity<D>>& b) {
    using namespace detail;
    return {a.value + b.value,
            joined(a.symbols, a.binding, " + ", b.symbols, b.binding, Binding::sum, false),
            joined(a.figures, a.binding, " + ", b.figures, b.binding, Binding::sum, false),
            Binding::sum,
            merged(a.from, b.from),
            merged(a.givens, b.givens)};
}
template <Dimension D>
Term<Quantity<D>> operator-(const Term<Quantity<D>>& a, const Term<Quantity<D>>& b) {
    using namespace detail;
    return {a.value - b.value,
            joined(a.symbols, a.binding, " − ", b.symbols, b.binding, Binding::sum, true),
            joined(a.figures, a.binding, " − ", b.figures, b.binding, Binding::sum, true),
            Binding::sum,
            merged(a.from, b.from),
            merged(a.givens, b.givens)};
}

// Temperatures: a point and a difference never mix.
inline Term<Celsius> operator+(const Term<Celsius>& a, const Term<CelsiusDelta>& b) {
    using namespace detail;
    return {a.value + b.value,
            joined(a.symbols, a.binding, " + ", b.symbols, b.binding, Binding::sum, false),
            joined(a.figures, a.binding, " + ", b.figures, b.binding, Binding::sum, false),
            Binding::sum,
            merged(a.from, b.from),
            merged(a.givens, b.givens)};
}
inline Term<CelsiusDelta> operator-(const Term<Celsius>& a, const Term<Celsius>& b) {
    using namespace detail;
    return {a.value - b.value,
            joined(a.symbols, a.binding, " − ", b.symbols, b.binding, Binding::sum, true),
            joined(a.figures, a.binding, " − ", b.figures, b.binding, Binding::sum, true),
            Binding::sum,
            merged(a.from, b.from),
            merged(a.givens, b.givens)};
}
inline Term<Ratio> operator*(const Term<PerCelsius>& a, const Term<CelsiusDelta>& b) {
    using namespace detail;
    return {Ratio{a.value.value * b.value.value},
            joined(a.symbols, a.binding, " × ", b.symbols, b.binding, Binding::product, false),
            joined(a.figures, a.binding, " × ", b.figures, b.binding, Binding::product, false),
            Binding::product,
            merged(a.from, b.from),
            merged(a.givens, b.givens)};
}
/// "lesser of I_cor and I_term".
template <class Q> Term<Q> lesser(const Term<Q>& a, const Term<Q>& b) {
    return {a.value < b.value ? a.value : b.value,
            "lesser of " + a.symbols + " and " + b.symbols,
            "lesser of " + a.figures + " and " + b.figures,
            Binding::sum,
            detail::merged(a.from, b.from),
            detail::merged(a.givens, b.givens)};
}
/// Adds to a sum that may hold nothing yet: a first "0 +" would stand in the formula.
template <class Q> void add_to(std::optional<Term<Q>>& sum, const Term<Q>& term) {
    sum = sum ? *sum + term : term;
}
/// "larger of I_device and I_src".
template <class Q> Term<Q> larger(const Term<Q>& a, const Term<Q>& b) {
    return {a.value < b.value ? b.value : a.value,
            "larger of " + a.symbols + " and " + b.symbols,
            "larger of " + a.figures + " and " + b.figures,
            Binding::sum,
            detail::merged(a.from, b.from),
            detail::merged(a.givens, b.givens)};
}

/// A rating picked from a list: "next standard rating ≥ I_req", whose value is `picked`.
template <class Q>
Term<Q> smallest_not_below(std::string_view list, const Term<Q>& required, Q picked) {
    const std::string words = std::string(list) + " ≥ ";
    return {picked,        words + required.symbols, words + required.figures, Binding::sum,
            required.from, required.givens};
}
/// "standard rating ≤ I_bus − I_src".
template <class Q>
Term<Q> largest_not_above(std::string_view list, const Term<Q>& allowed, Q picked) {
    const std::string words = std::string(list) + " ≤ ";
    return {picked,       words + allowed.symbols, words + allowed.figures, Binding::sum,
            allowed.from, allowed.givens};
}

} // namespace ohmfolio
