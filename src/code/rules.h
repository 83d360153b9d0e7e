/// Rules of the code as pure functions. Each takes quantities, writes its derivations to the
/// worksheet under the subject given, and returns the outcome. They know no system and no drawing,
/// so that each can be tried alone on a published example.
///
/// `subject` is "circuit:C5", "breaker:Q5" ...; derivation ids start with what follows the colon.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/finding.h"
#include "code/code_book.h"
#include "code/derivation.h"

namespace ohmfolio {

/// Where a rule writes: the worksheet, the book it reads, and the subject it speaks of.
struct Desk {
    Worksheet& sheet;
    const CodeBook& book;
    std::string subject;
};

// ---- module and inverter input (690.7, equipment limits) -------------------------------------

struct ColdVoltageInput {
    Volts voc;
    std::optional<double> per_celsius =
        {}; ///< fraction per C, negative; nothing: use Table 690.7(A)
    Celsius coldest;
    int in_series = 1;
};
/// Highest open-circuit voltage of modules in series, by coefficient or by table. Without a
/// coefficient the table must reach to `coldest`: ask `CodeBook::voltage_table_factor` first.
Term<Volts> cold_open_circuit_voltage(const Desk&, const ColdVoltageInput&);
/// Most modules in series whose cold voltage stays within `limit` (rounded down).
int most_in_series(const Desk&, const Term<Volts>& cold_voltage_of_one, Volts limit);
/// Fewest modules in series whose hot voltage reaches `floor` (rounded up).
int fewest_in_series(const Desk&, const Term<Volts>& hot_voltage_of_one, Volts floor);
/// Voltage at maximum power at a cell temperature.
Term<Volts> power_point_voltage(const Desk&, std::string name, Volts vmp, double per_celsius,
                                Celsius cell, std::string title);

// ---- source circuit currents -----------------------------------------------------------------

/// DC source circuit: 125 % of the sum of parallel short-circuit currents (690.8(A)).
Term<Amps> source_circuit_current(const Desk&, Amps isc, int parallel);
/// 125 % of a continuous current: the ampacity or rating needed before corrections. The line is
/// named for the rule: "conductor_continuous", "overcurrent".
Term<Amps> required_rating(const Desk&, const Term<Amps>& continuous, std::string_view rule_id);

// ---- overcurrent devices (240.4, 240.6) ------------------------------------------------------

/// Smallest standard rating not below `required`; among `offered` when not empty (compatible
/// breakers of an enclosure).
std::optional<Term<Amps>> overcurrent_rating(const Desk&, const Term<Amps>& required,
                                             const std::vector<Amps>& offered = {},
                                             const std::string& offered_by = "the enclosure");
/// A stated rating against what is required, by the paragraph of `rule_id`, and what is standard:
/// lines "rating_sufficient" and "rating_standard".
bool check_overcurrent_rating(const Desk&, const Term<Amps>& stated, const Term<Amps>& required,
                              std::string_view rule_id = "overcurrent.standard");

// ---- conductors (310.14-310.16, 110.14(C), 240.4) --------------------------------------------

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

/// Circular mils that an equipment grounding conductor grows to when the phase conductors do.
struct EquipmentGroundInput {
    Term<Amps> overcurrent;
    Material material = Material::copper;
    WireSize phase_needed{}, phase_installed{}; ///< smallest that complies, and the one used
    std::optional<WireSize> stated = {};
    bool pv_circuit = false; ///< 690.45: no increase for voltage drop
};
struct EquipmentGroundResult {
    WireSize size{};
    bool passes = true; ///< of a stated size; false also when the table ends below the device
    std::optional<WireSize> needed = {}; ///< smallest that complies
};
EquipmentGroundResult size_equipment_ground(const Desk&, const EquipmentGroundInput&);

struct GroundingElectrodeInput {
    WireSize service{};
    Material service_material = Material::copper;
    Material material = Material::copper;
    /// Electrode kinds present, in words of the code: "rod", "concrete-encased", "ring", "water
    /// pipe".
    std::vector<std::string> electrodes = {};
    std::optional<WireSize> stated = {};
};
struct GroundingElectrodeResult {
    WireSize size{};
    bool passes = true;
    std::optional<WireSize> needed = {}; ///< smallest that complies
};
GroundingElectrodeResult size_grounding_electrode(const Desk&, const GroundingElectrodeInput&);

// ---- raceways (Chapter 9) --------------------------------------------------------------------

struct FillConductor {
    int count = 0;
    WireSize size{};
    Insulation insulation = Insulation::thwn_2; ///< bare for a bare equipment ground
};
struct RacewayInput {
    RacewayKind kind = RacewayKind::emt;
    std::vector<FillConductor> conductors = {};
    Feet length{};
    std::optional<TradeSize> stated = {};
};
struct RacewayResult {
    bool found = false;
    TradeSize size{};
    SquareInches conductors{}, allowed{}, inside{};
    double fill = 0;
    bool passes = true;
};
RacewayResult size_raceway(const Desk&, const RacewayInput&);

// ---- voltage change (Chapter 9 Tables 8 and 9) -----------------------------------------------

struct VoltageChangeInput {
    Term<Amps> current;
    Feet one_way{};
    WireSize size{};
    Material material = Material::copper;
    RacewayKind raceway = RacewayKind::emt;
    Volts nominal{240};
    int phases = 1;          ///< 1: two-wire factor 2; 3: square root of 3
    bool dc = false;         ///< Table 8 in place of Table 9
    double power_factor = 1; ///< inverters run at unity: the reactance drops out
};
struct VoltageChangeResult {
    Volts volts{};
    double fraction = 0;
};
VoltageChangeResult voltage_change(const Desk&, const VoltageChangeInput&);

// ---- point of connection (705.12) ------------------------------------------------------------

struct BusInput {
    Term<Amps> bus;         ///< rating of the busbar
    Term<Amps> main;        ///< overcurrent device that protects the bus from the utility
    Term<Amps> sources_125; ///< 125 % of the output currents of all sources on it
    std::vector<Term<Amps>> breakers = {}; ///< all load and source breakers, main excluded
    bool opposite_end = false;             ///< false: not stated
    bool centre_fed = false;
    bool dwelling = true;
    bool loads_described = true; ///< false: `breakers` may lack those of the loads
};
struct BusOption {
    std::string rule;    ///< "Sum of main and sources"
    std::string rule_id; ///< "bus.sum"
    Citation cite;
    bool applies = true;
    bool passes = false;
    std::string reason;
    std::vector<std::string> steps = {};
};
/// Every load-side rule for busbars, tried in the order of the edition.
std::vector<BusOption> try_bus_rules(const Desk&, const BusInput&);

} // namespace ohmfolio
