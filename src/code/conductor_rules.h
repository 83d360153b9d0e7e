/// Conductors: terminations, corrections and protection (310.14-310.16, 110.14(C), 240.4).
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/wire.h"
#include "code/desk.h"

namespace ohmfolio {

/// What a terminal says of the conductors it takes. 110.14(C)(1) reads the marked sizes before the
/// rating of the circuit: equipment of 125 A marked for 14-1 AWG keeps to the rule of small ones.
enum class MarkedSizes { none, to_1_awg, above_1_awg };

/// One end of a circuit.
struct Termination {
    std::string at;                     ///< "main breaker", for the calculation's text
    std::optional<Celsius> marked = {}; ///< temperature marking; nothing: not marked
    MarkedSizes sizes = MarkedSizes::none;
    bool separate_connector = false; ///< a splice or lug of its own, with its own rating
};

/// A conductor that 240.4(E) or (F) leaves to a rule of 240.21 (tap_rules.h), or (G) to the article
/// of its equipment: its ampacity is held against `least` in place of 240.4(B) to (D).
struct OtherProtection {
    Term<Amps> least;
    std::string rule; ///< "tap.10_ft", "conductor.protection.specific"
};

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
    int current_carrying = 2;            ///< in the raceway, those of other sets and circuits too
    std::optional<WireSize> stated = {};
    WireSize smallest{3};          ///< start of the search: 12 AWG
    bool dwelling_service = false; ///< 83 % rule applies (310.12), see dwelling_rules.h
    bool ambient_stated = false;   ///< `ambient` was stated for this run, not for the site
    std::string terminals_by = {}; ///< whose nameplates `terminals` rests on, in words
    bool free_air = false;         ///< single conductors in free air: insulation by Table 310.17
    /// Rule by which the corrected ampacity carries the current.
    std::string carries_by = "conductor.corrected";
    /// Nothing protects it, as 690.9(A) allows; `overcurrent` only tells how large the circuit is.
    bool unprotected = false;

    std::vector<Termination> terminations = {}; ///< where given, they decide, not `terminals`
    int sets_in_parallel = 1;                   ///< the size is that of one conductor of each set
    std::optional<Feet> bundled_length = {};    ///< to 24 in nothing is adjusted for bundling
    bool ambient_by_equation = false;           ///< the equation of 310.15 in place of its table
    /// The device is a fuse: its standard ratings are more than those of breakers.
    DeviceKind device = DeviceKind::breaker;
    /// A branch circuit to receptacles for portable loads: 240.4(B)(1) allows no next size up.
    bool portable_loads = false;
    bool dwelling_feeder = false; ///< of the two that `dwelling_service` covers
    /// Ampacity of the service conductors, which a dwelling's feeder need not exceed.
    std::optional<Term<Amps>> service_ampacity = {};
    std::optional<OtherProtection> other_protection = {};
};

struct ConductorResult {
    bool found = false; ///< false: no size of the table complies
    WireSize size{};
    Amps ampacity_terminals{}, ampacity_corrected{}; ///< of one conductor
    Amps ampacity{};                                 ///< in use, of all sets together
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
/// protection (240.4(B), (C)) of the ampacity by the device; small conductors (240.4(D)); sets in
/// parallel not below 1/0 AWG (310.10). Conductors whose opening would be a hazard in itself
/// (240.4(A), fire pumps and lifting magnets) have no place in what the program draws.
ConductorResult size_conductor(const Desk&, const ConductorInput&);

} // namespace ohmfolio
