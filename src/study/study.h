/// What the code book says of a system: every size chosen or checked, every derivation, every
/// finding. Diagram and sheets read this header and nothing else of the study.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/finding.h"
#include "base/quantity.h"
#include "base/wire.h"
#include "code/code_book.h"
#include "code/derivation.h"
#include "model/system.h"

namespace ohmfolio {

/// Result for one circuit. Ids in `steps` lead into `Study::worksheet`, in reading order.
struct CircuitStudy {
    bool sized = false; ///< false for the utility's conductors
    Amps current{};     ///< continuous, in normal operation
    Amps required{};    ///< 125 % of the continuous current
    Amps overcurrent{}; ///< rating of the device that protects it; 0: none of ours
    int breaker = -1;   ///< index into System::breakers of that device, -1: none of ours
    WireSize size{};
    WireSize smallest{};      ///< smallest that complies, also when another one is stated
    WireSize needed{};        ///< the same, were sizes used that are smaller than the trade uses
    int phase_conductors = 2; ///< ungrounded, of one set
    int parallel_sets = 1;    ///< each in a raceway of its own; ampacities are of all together
    bool neutral = false;
    WireSize equipment_ground{};
    bool has_equipment_ground = true;
    Amps ampacity_terminals{}; ///< in the column of the terminations
    int terminal_column = 75;  ///< 60 or 75 C; 0: none, of a listed assembly
    /// Trunk cable: its listing gives the ampacity, so that no column of the terminations, no
    /// ambient temperature and no factor was used; the factors stand at 1.
    bool listed_assembly = false;
    Celsius ambient{}; ///< rooftop adder included
    double ambient_factor = 1;
    int current_carrying = 2; ///< conductors counted in the raceway
    double bundling_factor = 1;
    Amps ampacity_corrected{};
    double voltage_change = 0; ///< fraction of nominal; rise for sources
    Volts voltage_change_volts{};
    std::string governs; ///< what decided the size
    bool stated = false; ///< size stated by the drafter and checked, not chosen
    std::vector<std::string> steps;
    bool passes = true;
};

struct RunStudy {
    bool sized = false; ///< false for trunk cable in free air
    TradeSize trade_size{};
    SquareInches conductors{}, allowed{}, inside{};
    double fill = 0; ///< fraction of the inside area
    std::vector<std::string> steps;
    bool passes = true;
};

struct BreakerStudy {
    Amps rating{};
    Amps minimum{};      ///< 125 % of the continuous current, before rounding up
    Amps interrupting{}; ///< of the equipment it sits in, 0: unknown
    bool stated = false;
    std::vector<std::string> steps;
    bool passes = true;
};

/// How the service disconnect of sources on the supply side is bonded and grounded.
struct SourceGrounding {
    int disconnect = -1; ///< equipment
    WireSize jumper{};   ///< main bonding jumper
    WireSize electrode{};
};

/// One rule tried for a point of connection.
struct ConnectionOption {
    std::string rule;    ///< "Sum of breakers"
    std::string rule_id; ///< "bus.breakers"
    Citation cite;
    bool applies = true; ///< false: not available in this edition or arrangement
    bool passes = false;
    bool chosen = false;
    bool counted = false; ///< does not apply by itself, but limits what the others count
    std::string reason;   ///< why it does not apply, or the comparison
    std::vector<std::string> steps;
};

struct ConnectionStudy {
    int panel = -1; ///< equipment whose bus it is
    int breaker = -1;
    std::vector<ConnectionOption> options;
};

/// A group of derivations as the checker reads them, in the order of the sheet.
struct CalculationGroup {
    std::string title;   ///< "MODULE AND MICROINVERTER", "CIRCUIT C5: JB-1 TO CP-1"
    std::string anchor;  ///< "calc:C5"
    std::string subject; ///< "circuit:C5"
    std::vector<std::string> steps;
};

/// A finding that the drafter's waiver accepts, as it was before: severity, section, message. (In
/// `Study::findings` it stands as advice.)
struct WaivedFinding {
    Finding finding;
    std::string reason;
    std::string by; ///< who ruled so
};

/// What is to be kept free in front of equipment that hangs on a wall (110.26).
struct KeptSpace {
    int equipment = -1;
    Feet left{}, right{}; ///< along the wall
    Feet height{}, depth{};
    Volts to_ground{};
};

/// How high the handles on a wall may be.
struct HandleLimit {
    Feet height{};
    std::string sections; ///< "404.8(A)"
};

struct WallStudy {
    std::vector<KeptSpace> spaces;      ///< from the left
    std::optional<HandleLimit> handles; ///< nothing: nothing to switch hangs there
};

/// A strip of a roof plane from its lowest edge to the ridge, kept free for the fire service.
struct RoofPathway {
    std::size_t plane = 0; ///< index into Site::roofs
    RoofArea area;
};

struct Totals {
    int modules = 0;
    Watts dc{};
    Watts ac{}; ///< continuous inverter output
    WattHours storage{};
    Watts storage_ac{};
    Amps pv_current{}, storage_current{};
    int existing_modules = 0; ///< of those above, what was there before this work
    Watts existing_dc{}, existing_ac{};
    WattHours existing_storage{};
};

struct Study {
    Worksheet worksheet;
    std::vector<CircuitStudy> circuits; ///< parallel to System::circuits
    std::vector<RunStudy> runs;         ///< parallel to System::runs
    std::vector<BreakerStudy> breakers; ///< parallel to System::breakers
    WireSize grounding_electrode{};
    std::vector<std::string> grounding_steps;
    std::vector<SourceGrounding> source_groundings;
    std::vector<ConnectionStudy> connections;
    std::vector<WallStudy> walls;      ///< parallel to System::walls
    std::vector<RoofPathway> pathways; ///< all that the calculation counts
    std::vector<CalculationGroup> groups;
    Totals totals;
    Findings findings;
    std::vector<WaivedFinding> waived; ///< in the order of the waivers

    const Derivation& derivation(const std::string& id) const; ///< throws when absent
};

/// Applies the code book of the system's edition to every part of it.
Study make_study(const System& system, const CodeBook& book);

/// The derivation tree of `id` ("C3", "Q2", "MSP", or a derivation id) as text for a terminal;
/// empty when nothing has that id.
std::string explain(const System& system, const Study& study, std::string_view id);
/// All ids that `explain` knows, for "did you mean".
std::vector<std::string> explainable(const System& system, const Study& study);

} // namespace ohmfolio
