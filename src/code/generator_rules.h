/// Generators: their current and conductors (445.12, 445.13), what they must have (445.11, 445.18
/// to 445.20), and what is left of their rating on a hill, in the heat and beside other sources.
#pragma once

#include <optional>
#include <vector>

#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

/// Current that belongs to the nameplate's volt-amperes.
Term<Amps> generator_current(const Desk&, const Term<Watts>& rating, Volts,
                             bool three_phase = false);
/// Ampacity of the conductors up to the first overcurrent device: 115 % of the current, 100 % where
/// design and operation keep the generator from overload.
Term<Amps> generator_conductor(const Desk&, const Term<Amps>& current, bool overload_prevented);

struct GeneratorFacts {
    Watts rating{};
    bool portable = false; ///< connected by cord and plug
    bool one_or_two_family = true;
    bool nameplate_complete = true;
    bool overload_protected = false; ///< by a device or by inherent design
    bool disconnect = false;         ///< lockable in the open position
    bool outdoor_stop = false;       ///< emergency stop outside the dwelling, readily accessible
    bool remote_stop = false;        ///< emergency stop outside room or enclosure
    bool neutral_bonded = false;     ///< to the frame
    bool receptacles = false;        ///< of 125 V, 15 or 20 A, are in use
    bool ground_fault_protected = false;
    bool interlocked = false; ///< those receptacles are dead while the 125/250 V one is in use
};
RuleVerdicts judge_generator(const Desk&, const GeneratorFacts&);

/// Smallest generator beside PV inverters and storage that keep running on it: a custom of the
/// trade. Nothing: there is neither.
std::optional<Term<Watts>> smallest_generator(const Desk&, const std::optional<Term<Watts>>& pv,
                                              const std::optional<Term<Watts>>& storage);

/// How a generator's rating shrinks; the generator's own figures where it states them.
struct GeneratorDerating {
    double altitude_share; ///< lost for each `altitude_step` above `altitude_from`
    Feet altitude_step;
    Feet altitude_from;
    PerCelsius temperature_share; ///< lost for each degree above `temperature_from`
    Celsius temperature_from;
    bool stated = true; ///< by the nameplate or manual
};
GeneratorDerating usual_derating(const CodeBook&); ///< a custom of the trade
Term<Watts> derated_generator(const Desk&, const Term<Watts>& rating, Feet altitude,
                              Celsius ambient, const GeneratorDerating&);

} // namespace ohmfolio
