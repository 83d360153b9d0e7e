/// Nameplates of equipment, as a catalogue file states them. A record describes a product; what a
/// job does with it stands in system.h.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/quantity.h"
#include "base/source.h"
#include "base/wire.h"

namespace ohmfolio {

struct ModuleRatings {
    Watts power;            ///< at standard test conditions
    Volts voc, vmp;         ///< open circuit, maximum power
    Amps isc, imp;          ///< short circuit, maximum power
    double voc_per_celsius; ///< fraction per C, negative: -0.0026
    double vmp_per_celsius; ///< fraction per C, negative
    Amps series_fuse;       ///< largest series overcurrent device
    Volts system_limit{};   ///< highest system voltage; zero: none stated
    Feet width{}, height{}; ///< of the frame, the short side first; zero: not stated
};

struct MicroinverterRatings {
    Watts output; ///< continuous, VA at nominal voltage
    Volts output_voltage;
    Amps output_current;                                ///< continuous, from the nameplate
    Volts input_limit;                                  ///< never to be exceeded
    Volts tracking_low, tracking_high;                  ///< maximum power point window
    double ratio_limit;                                 ///< DC/AC, default 1.20 (common practice)
    Amps branch_breaker_limit;                          ///< largest breaker the trunk may be on
    WireSize trunk_size;                                ///< conductors of the trunk cable
    Amps trunk_ampacity;                                ///< listed ampacity of the trunk cable
    Feet drop_spacing_portrait, drop_spacing_landscape; ///< between connectors of the trunk cable
    bool neutral = false;                               ///< the trunk cable carries a neutral
    Amps input_current_limit{}; ///< short-circuit current of a module; zero: none stated
    std::optional<WireSize>
        trunk_ground{};        ///< equipment ground in the trunk cable; none: it has none
    bool grid_forming = false; ///< can hold a microgrid without storage while the sun shines
    double efficiency = 0.965; ///< weighted; for the estimate of clipped energy
    int phases = 1;            ///< 3: on three lines; 1: between two, or a line and the neutral
};

/// What a hybrid inverter states of the storage on its direct-current side.
struct BatteryInputRatings {
    int inputs = 0;       ///< battery terminals; 0: it takes no storage
    Volts low{}, high{};  ///< window of battery voltage
    Amps current{};       ///< continuous, of one input at the lowest voltage
    Amps breaker_limit{}; ///< largest overcurrent device of one input
};

/// What an inverter states of the loads that it carries by itself when the grid is away.
struct BackupOutputRatings {
    Watts output{};            ///< continuous, VA; zero: it has no backup output
    Amps breaker_limit{};      ///< largest overcurrent device of the backup output
    Amps surge{};              ///< for seconds, to start motors; zero: none stated
    bool by_sun_alone = false; ///< carries loads without storage while the sun shines
};

/// An inverter fed by strings, with one tracker for each of its inputs.
struct StringInverterRatings {
    Watts output; ///< continuous, VA at nominal voltage
    Volts output_voltage;
    Amps output_current;               ///< continuous, from the nameplate
    Volts input_limit;                 ///< never to be exceeded
    Volts tracking_low, tracking_high; ///< maximum power point window
    Volts start{};                     ///< lowest voltage at which it starts; zero: none stated
    int inputs;                        ///< trackers, each an input of its own
    int strings_per_input;             ///< terminals of one input
    Amps input_current;                ///< that a tracker uses; more is clipped
    Amps input_short_circuit;          ///< of the strings on one input together
    Amps breaker_limit;                ///< largest overcurrent device of its output
    double ratio_limit;                ///< DC/AC, default 1.20 (common practice)
    double efficiency;                 ///< weighted
    bool arc_fault = false;            ///< arc-fault protection built in, 690.11
    bool ground_fault = false;         ///< ground-fault protection built in, 690.41(B)
    bool disconnect = false;           ///< DC disconnecting means built in
    bool neutral = false;              ///< its output carries a neutral
    BatteryInputRatings battery{};
    BackupOutputRatings backup{};
    int phases = 1;
    Amps interrupting{}; ///< of AC breakers that it holds, A rms symmetrical; zero: not stated
    bool hybrid() const { return battery.inputs > 0; }
};

/// Electronics at each module of a string. Where they convert, they set the voltage and the current
/// of the string; else the string is as its modules make it.
struct ModuleElectronicsRatings {
    Volts input_limit;        ///< of the module, never to be exceeded
    Amps input_current_limit; ///< short-circuit current of the module, never to be exceeded
    Watts power;              ///< largest module
    bool shutdown = false;    ///< brings its conductors down on rapid shutdown
    Volts shutdown_voltage{}; ///< that one then leaves on its output; zero: not stated
    double shutdown_time = 0; ///< seconds until then; zero: not stated
    Amps output_current{};    ///< continuous, of a converter; zero: it does not convert
    Volts string_voltage{};   ///< highest of converters in series, by their instructions
    int fewest = 0, most = 0; ///< converters in series, by their instructions
    Watts string_power{};     ///< most of modules in series, by their instructions; zero: none
    bool converts() const { return output_current.value > 0; }
};

struct CombinerRatings {
    Amps bus;
    int branch_inputs;               ///< spaces for branch breakers of two poles, or three
    Amps branch_breaker_limit;       ///< largest single branch breaker
    Amps branch_breakers_total;      ///< sum of the branch breakers
    std::vector<Amps> breaker_sizes; ///< compatible branch breakers, smallest first
    bool gateway;                    ///< holds a communications gateway with a production CT
    Amps interrupting;               ///< A rms symmetrical
    bool neutral = false;            ///< its output carries a neutral, as a gateway may need
    int phases = 1;                  ///< of its bus
};

struct MidRatings {
    Amps bus;
    Amps pv_continuous, pv_breaker_limit;
    int storage_inputs;
    Amps storage_continuous, storage_breaker_limit; ///< per input
    WattHours storage_limit;                        ///< zero: none stated
    WattHours storage_limit_power_control;          ///< the same under power control; zero: none
    Amps backup_breaker_limit;
    Amps interrupting;
    Amps generator_breaker_limit{}; ///< of its generator input; zero: it has none
    int load_controllers = 0;       ///< most that it commands; zero: none stated
    Feet control_limit{};           ///< most control wiring in all; zero: none stated
    int phases = 1;                 ///< of its bus
    bool interlocked = false;       ///< storage and generator inputs are never closed together
    bool forms_neutral = false;     ///< for loads from line to neutral, while islanded
};

/// A storage unit, which delivers alternating current, or direct current where its nameplate gives
/// a window of battery voltage.
struct BatteryRatings {
    WattHours energy;          ///< usable
    Watts output;              ///< continuous
    Amps output_current;       ///< continuous, from the nameplate
    Volts output_voltage;      ///< nominal
    Amps breaker_limit;        ///< largest overcurrent device of a chain
    int chain_limit;           ///< most units on one circuit
    bool neutral = false;      ///< its output carries a neutral
    bool disconnect = false;   ///< holds a disconnecting means of its own
    Amps surge{};              ///< for seconds, to start motors; zero: none stated
    Feet spacing{};            ///< to the next unit, by its listing; zero: what the fire code says
    Volts lowest{}, highest{}; ///< of its DC terminals; zero: they are AC
    Amps breaker{};            ///< overcurrent device that a DC unit holds; zero: it has none
    Amps fault_current{};      ///< that a DC unit feeds into a short circuit; zero: none stated
    int phases = 1;
    bool direct_current() const { return highest.value > 0; }
};

struct PanelRatings {
    Amps bus;
    Amps main_limit; ///< largest main breaker; zero: lugs only
    Amps interrupting;
    int phases = 1; ///< of its bus
};

struct DisconnectRatings {
    Amps rating;
    int poles;
    bool fused;
    bool lockable;
    Amps interrupting;
    bool service_equipment = false; ///< suitable for use as service equipment
    Volts dc_voltage{};             ///< that it opens; zero: for alternating current only
};

struct JunctionBoxRatings {};
struct MeterRatings {
    Amps rating;
    std::string transformer_ratio{}; ///< of the current transformers in its cabinet, "400:5";
                                     ///< empty: it carries the current itself
    int phases = 1;
};

struct GeneratorRatings {
    Watts output; ///< continuous, VA at nominal voltage
    Volts output_voltage;
    Amps output_current; ///< continuous, from the nameplate
    Amps breaker{};      ///< its own overcurrent device; zero: it has none
    Amps surge{};        ///< for seconds, to start motors; zero: none stated
    int phases = 1;
};

struct TransferSwitchRatings {
    Amps rating;
    int poles;                      ///< one more than lines: the neutral is switched too
    bool automatic;                 ///< transfers by itself
    bool service_equipment = false; ///< suitable for use as service equipment
    Amps interrupting;              ///< short-circuit current that it withstands and closes on
};

struct LoadControllerRatings {
    int loads_240, loads_120; ///< most loads of each voltage, either the one or the other
    Amps contact{};           ///< of one relay; zero: none stated
};

struct SupplyConnectionRatings {
    Amps rating; ///< of its bus or its lugs
    Amps interrupting;
    int phases = 1;
};

/// Circuit breakers of one frame, as the labels of panels list them.
struct BreakerFamilyRatings {
    int poles;
    std::vector<Amps> sizes; ///< smallest first
    Amps interrupting;       ///< A rms symmetrical
};

/// Trunk cable of a microinverter, for modules that stand in one orientation.
struct TrunkCableRatings {
    WireSize size;        ///< of its conductors
    bool portrait;        ///< else landscape
    Feet drop_spacing;    ///< between its connectors
    int drops = 0;        ///< of one piece as sold; zero: cut to any number
    std::string end_cap;  ///< model that closes its far end; empty: none of its own
    std::string drop_cap; ///< model that closes a connector without microinverter; empty: none
};

using Ratings = std::variant<ModuleRatings, MicroinverterRatings, StringInverterRatings,
                             CombinerRatings, MidRatings, BatteryRatings, PanelRatings,
                             DisconnectRatings, JunctionBoxRatings, MeterRatings, GeneratorRatings,
                             TransferSwitchRatings, LoadControllerRatings, SupplyConnectionRatings,
                             ModuleElectronicsRatings, BreakerFamilyRatings, TrunkCableRatings>;

struct Record {
    std::string key; ///< "solvane-405"
    std::string maker, model;
    std::string listing;   ///< "UL 1741, UL 1741 SB"
    std::string enclosure; ///< "NEMA 3R"; empty where it has none of its own
    /// Marked temperature of its terminations; 60 C where none is marked, 110.14(C)(1)(a).
    Celsius terminals{60};
    /// Records of the breakers that its label lists, and of the trunk cables that it plugs into.
    std::vector<Spanned<std::string>> breakers{}, trunk_cables{};
    Spanned<std::string> cut_sheet;  ///< a PDF, relative to the catalogue file; empty: none
    Feet width{}, height{}, depth{}; ///< of its enclosure; zero: not stated
    Span span;
    Ratings ratings;
};

struct Catalogue {
    std::vector<Record> records;
    const Record* find(std::string_view key) const;
};

/// The first breaker that the label of `holder` lists with this rating and these poles; nullptr
/// when it lists none such.
const Record* listed_breaker(const Catalogue&, const Record& holder, Amps rating, int poles);
/// The trunk cable of `microinverter` for this orientation; nullptr when its record names none.
const Record* trunk_cable_of(const Catalogue&, const Record& microinverter, bool portrait);

/// Phases that the nameplate states; nothing of what goes by poles, or has none.
std::optional<int> phases_of(const Ratings&);
/// Nominal voltage of a source's output; nothing of what is no source.
std::optional<Volts> output_voltage_of(const Ratings&);

} // namespace ohmfolio
