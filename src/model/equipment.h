/// What stands in a system: each kind of equipment with what a job says of it, beyond its
/// nameplate (catalogue.h). The terminals named here are those that circuits go to.
///
/// Direction: the *parent* of a piece of equipment is its neighbour toward the utility.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/length.h"
#include "base/quantity.h"
#include "base/source.h"
#include "model/load.h"

namespace ohmfolio {

enum class Orientation { portrait, landscape };

/// A branch circuit of modules with a microinverter each, on trunk cable. Terminal: "out".
struct BranchArray {
    int module = -1;        ///< record
    int microinverter = -1; ///< record
    int count = 0;          ///< modules, and so microinverters
    std::string roof;       ///< plane, "SOUTH ROOF"
    std::optional<Spanned<Orientation>> orientation = {};
    std::string shed_by = {}; ///< id of the load controller that may cut it off; empty: none
};
/// Equal strings of modules on one input of an inverter. Terminal: "out".
struct StringArray {
    int module = -1;                   ///< record
    int in_series = 0;                 ///< modules in each string
    int strings = 1;                   ///< in parallel
    std::string roof;                  ///< plane, "SOUTH ROOF"
    Spanned<int> input;                ///< of the inverter, from 1
    std::optional<Spanned<Amps>> fuse; ///< in series with each string
    bool module_shutdown = false;      ///< electronics at each module bring its conductors down
    int electronics = -1;              ///< record of those electronics; -1: none named
    int modules() const { return in_series * strings; }
};
/// An inverter fed by strings; a hybrid one takes storage on its direct-current side and may back
/// up a panel. Terminals: "pv1" (input 1), "pv1.2" (second array there).., "battery1".., "backup",
/// "out".
struct Inverter {};
/// Ground-fault protection of equipment in a main or a service disconnect (230.95).
enum class GroundFaultProtection {
    none,
    yes,         ///< nothing is said of sources on its load side
    all_sources, ///< protects from all sources of fault current, listed for backfeed (705.32)
};

/// A surge-protective device in a panel or a service disconnect, or right beside it.
struct SurgeDevice {
    int type = 2;                    ///< 1 or 2, of UL 1449
    std::optional<Amps> discharge{}; ///< nominal discharge current; nothing: not stated
    Span span;
};
std::string name(const SurgeDevice&); ///< "Type 2, 20 kA"

/// Splices a branch from trunk cable to the wiring method below. Terminals: "in1".., "out1"..
struct JunctionBox {};
/// Branch breakers on a bus. Terminals: "in1".., "out".
struct Combiner {};
/// Terminals: "load" (away from the utility), "line".
struct Disconnect {
    bool rapid_shutdown = false; ///< initiates rapid shutdown of the array
    /// A contact of it tells inverters or electronics to shut down, whether they have power or not.
    bool shutdown_contact = false;
    bool utility = false; ///< the lockable disconnect that the utility asks for
    bool storage = false; ///< the disconnecting means of the storage
    /// The service disconnect of sources on the supply side: readily accessible where 705.11 wants
    /// it, and bonded as service equipment.
    bool service = false;
    GroundFaultProtection ground_fault = GroundFaultProtection::none;
    std::optional<SurgeDevice> surge_device;
};
/// Terminals: "pv1".., "storage1".., "generator", "backup", "grid".
struct Mid {
    /// A listed power control system is set up: the larger storage limit of the nameplate holds.
    bool power_control = false;
};

/// Where storage may stand, in the words of the residential and fire codes.
enum class StoragePlace {
    not_stated,
    attached_garage,
    detached_garage,
    exterior_wall,
    outdoors,
    utility_closet
};
/// Terminals: "out" (toward the utility), "in" (next unit of the chain).
struct Battery {
    Spanned<StoragePlace> place{};
    std::optional<Spanned<Feet>> spacing; ///< clear distance to the next unit
    /// To the nearest opening that enters the dwelling, where a wall draws one.
    std::optional<Spanned<Feet>> to_opening = {};
};
/// Terminals: "in1".. for what feeds its bus, "main" toward the utility.
struct Panel {
    std::optional<Spanned<Amps>> main; ///< main breaker; none: lugs
    std::vector<LoadCircuit> loads;
    bool loads_described = false; ///< `loads` is all of them; false: nothing is said of them
    bool service_equipment = false;
    bool opposite_end = false; ///< sources sit at the end of the bus opposite the main
    bool backed_up = false;    ///< lies on the backup side of a MID, transfer switch or inverter
    bool center_fed = false;   ///< the main stands in the middle of the bus, sources at one end
    bool through_lugs = false; ///< fed from the feed-through lugs of its parent, without a breaker
    GroundFaultProtection ground_fault = GroundFaultProtection::none; ///< of its main
    bool collects = false; ///< holds breakers of sources only, as a panel that joins storage
    std::optional<SurgeDevice> surge_device;
};
/// Terminal: "out".
struct Generator {
    Spanned<bool> bonded; ///< its neutral is bonded to its frame
};
/// Takes the loads from the utility to the generator. Terminals: "generator", "backup", "line".
struct TransferSwitch {};
/// Where sources join the service conductors ahead of the main. Terminals: "in1".., "line".
struct SupplyConnection {
    bool meter_adapter = false; ///< in an adapter at the meter socket
};
/// Terminals: "load", "line".
struct Meter {};
/// The root. Terminal: "service".
struct Utility {};

using Detail =
    std::variant<BranchArray, StringArray, Inverter, JunctionBox, Combiner, Disconnect, Mid,
                 Battery, Panel, Generator, TransferSwitch, SupplyConnection, Meter, Utility>;

struct Equipment {
    std::string id;       ///< as written, and as drawn: "JB-1"
    std::string title;    ///< "ROOF JUNCTION BOX"
    std::string location; ///< "SOUTH ROOF", "GARAGE, WEST WALL"
    bool existing = false;
    int record = -1; ///< index into Catalogue::records, -1: none (a branch names two of its own)
    int parent = -1; ///< index into System::equipment; -1 only for the utility
    /// Available at its terminals, by calculation or field data; nothing: as at its parent.
    std::optional<Spanned<Amps>> fault_current;
    Span span;
    Detail detail;

    template <class T> bool is() const { return std::holds_alternative<T>(detail); }
    template <class T> const T* as() const { return std::get_if<T>(&detail); }
};

/// What a panel or a disconnect has; null: none.
const SurgeDevice* surge_device(const Equipment&);

} // namespace ohmfolio
