/// Conductors: terminations, corrections and protection (310.14-310.16, 110.14(C), 240.4).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/wire.h"
#include "code/desk.h"

namespace ohmfolio {

struct ConductorInput {
    Term<Amps> continuous;  ///< the current itself, as derived
    Term<Amps> required;    ///< 125 % of it
    Term<Amps> overcurrent; ///< rating of the device that protects it
    Material material = Material::copper;
    int insulation_column = 90;          ///< temperature rating of the insulation
    Celsius terminals{75};               ///< lowest marked temperature of its terminations
    Celsius ambient{30};                 ///< design temperature, without rooftop adder
    bool on_roof = false;                ///< in sunlight on a roof
    std::optional<Feet> above_roof = {}; ///< distance of the underside; nothing: lies on it
    bool adder_exempt = false;           ///< XHHW-2 and the like
    int current_carrying = 2;            ///< in the raceway
    std::optional<WireSize> stated = {};
    WireSize smallest{3};          ///< start of the search: 12 AWG
    bool dwelling_service = false; ///< 83 % rule applies (310.12)
    bool ambient_stated = false;   ///< `ambient` was stated for this run, not for the site
    std::string terminals_by = {}; ///< whose nameplates `terminals` rests on, in words
    bool free_air = false;         ///< single conductors in free air: insulation by Table 310.17
    /// Rule by which the corrected ampacity carries the current.
    std::string carries_by = "conductor.corrected";
    /// Nothing protects it, as 690.9(A) allows; `overcurrent` only tells how large the circuit is.
    bool unprotected = false;
};

struct ConductorResult {
    bool found = false; ///< false: no size of the table complies
    WireSize size{};
    Amps ampacity_terminals{}, ampacity_corrected{};
    int terminal_column = 75;
    Celsius ambient{}; ///< adder included
    double ambient_factor = 1, bundling_factor = 1;
    std::string governs;                  ///< "terminal ampacity governs", "bundling governs" ...
    bool passes = true;                   ///< of a stated size
    std::vector<std::string> faults = {}; ///< which checks a stated size fails, in words
    std::vector<std::string> fault_rules = {}; ///< their rule ids
    /// The smallest size that complies, also when another one is stated.
    std::optional<WireSize> smallest_that_complies = {};
};

/// The smallest conductor that complies, or the verdict on a stated one. The checks, all shown:
/// terminals (110.14(C)) against the required ampacity; corrected ampacity against the current;
/// protection (240.4(B)) of the corrected ampacity by the device; small conductors (240.4(D)).
ConductorResult size_conductor(const Desk&, const ConductorInput&);

} // namespace ohmfolio
