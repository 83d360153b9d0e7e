#include "input/keys.h"

#include <array>
#include <span>

namespace ohmfolio {
namespace {

/// Of every record; then those of what has an enclosure.
constexpr Key enclosed_keys[] = {
    {.name = "extends",
     .meaning = "Record of the same kind that says what this one does not",
     .example = "\"wickhollow-b10\""},
    {.name = "maker", .required = true, .meaning = "Maker", .example = "\"Solvane\""},
    {.name = "model", .required = true, .meaning = "Model", .example = "\"SV-405M\""},
    {.name = "listing", .meaning = "Standards of its listing", .example = "\"UL 1741\""},
    {.name = "enclosure", .meaning = "Type of its enclosure", .example = "\"NEMA 3R\""},
    {.name = "terminals",
     .kind = Kind::temperature,
     .fallback = "\"60 C\"",
     .meaning = "Temperature marked for its terminations; 60 C where none is marked",
     .example = "\"75 C\""},
    {.name = "cut_sheet",
     .meaning = "PDF of its maker to append to the set, relative to the catalogue",
     .example = "\"datasheets/sv-405m.pdf\""},
    {.name = "width",
     .kind = Kind::length,
     .meaning = "Width of its enclosure",
     .example = "\"12 in\""},
    {.name = "height",
     .kind = Kind::length,
     .meaning = "Height of its enclosure",
     .example = "\"20 in\""},
    {.name = "depth",
     .kind = Kind::length,
     .meaning = "Depth of its enclosure",
     .example = "\"6 in\""},
};
constexpr std::size_t sizes_of_enclosure = 3;
constexpr std::span<const Key> record_keys =
    std::span(enclosed_keys).first(std::size(enclosed_keys) - sizes_of_enclosure);

constexpr Key required(std::string_view name, Kind kind, std::string_view meaning,
                       std::string_view example) {
    return {.name = name, .kind = kind, .required = true, .meaning = meaning, .example = example};
}

constexpr Key optional(std::string_view name, Kind kind, std::string_view meaning,
                       std::string_view example) {
    return {.name = name, .kind = kind, .meaning = meaning, .example = example};
}

constexpr Key flag_key(std::string_view name, std::string_view meaning) {
    return {.name = name,
            .kind = Kind::flag,
            .fallback = "false",
            .meaning = meaning,
            .example = "true"};
}

constexpr Key neutral_key(std::string_view meaning) { return flag_key("neutral", meaning); }

constexpr Key efficiency_key = {.name = "efficiency",
                                .kind = Kind::percent,
                                .fallback = "\"96.5 %\"",
                                .meaning = "Weighted efficiency, for the estimate of clipping",
                                .example = "\"97 %\""};

constexpr Key output_voltage_key =
    required("output_voltage", Kind::voltage,
             "Nominal output voltage, between lines where it has two or three", "\"240 V\"");

constexpr Key phases_key(std::string_view meaning) {
    return {
        .name = "phases", .kind = Kind::count, .fallback = "1", .meaning = meaning, .example = "3"};
}
constexpr Key output_phases_key =
    phases_key("Phases of its output: 3, or 1 between two lines or a line and the neutral");
constexpr Key bus_phases_key = phases_key("Phases of its bus or terminals, 1 or 3");

constexpr Key ratio_limit_key = {.name = "ratio_limit",
                                 .kind = Kind::number,
                                 .fallback = "1.2",
                                 .meaning = "Largest DC/AC ratio before advice",
                                 .example = "1.2"};

constexpr Key tracking_key(std::string_view example) {
    return {.name = "tracking",
            .kind = Kind::voltage,
            .required = true,
            .many = true,
            .meaning = "Lowest and highest voltage of maximum power tracking",
            .example = example};
}

constexpr Key interrupting_key =
    required("interrupting", Kind::current, "Interrupting or withstand rating", "\"10 kA\"");

constexpr std::array<std::string_view, 1> breaker_records = {"breaker"};
constexpr std::array<std::string_view, 1> trunk_cable_records = {"trunk_cable"};
constexpr std::array<std::string_view, 2> orientation_words = {"portrait", "landscape"};

constexpr Key breakers_key = {.name = "breakers",
                              .kind = Kind::record,
                              .many = true,
                              .meaning = "Breakers that its label lists; none: not stated here",
                              .example = "[\"dunmere-q1\", \"dunmere-q2\"]",
                              .words = breaker_records};

constexpr Key module_keys[] = {
    required("power", Kind::power, "Power at standard test conditions", "\"405 W\""),
    required("voc", Kind::voltage, "Open-circuit voltage", "\"37.20 V\""),
    required("vmp", Kind::voltage, "Voltage at maximum power", "\"31.10 V\""),
    required("isc", Kind::current, "Short-circuit current", "\"13.85 A\""),
    required("imp", Kind::current, "Current at maximum power", "\"13.03 A\""),
    required("voc_temperature", Kind::per_celsius, "Temperature coefficient of voc",
             "\"-0.26 %/C\""),
    required("vmp_temperature", Kind::per_celsius, "Temperature coefficient of vmp",
             "\"-0.31 %/C\""),
    required("series_fuse", Kind::current, "Largest series overcurrent device", "\"25 A\""),
    optional("system_limit", Kind::voltage, "Highest system voltage", "\"1000 V\""),
    optional("width", Kind::length, "Short side of the frame", "\"1.13 m\""),
    optional("height", Kind::length, "Long side of the frame", "\"1.72 m\""),
};
constexpr Shape module_shape = {"module", module_keys, record_keys};

constexpr Key microinverter_keys[] = {
    required("output", Kind::power, "Continuous output", "\"340 VA\""),
    output_voltage_key,
    required("output_current", Kind::current, "Continuous output current", "\"1.42 A\""),
    required("input_limit", Kind::voltage, "Input voltage never to be exceeded", "\"60 V\""),
    tracking_key("[\"22 V\", \"48 V\"]"),
    ratio_limit_key,
    required("branch_breaker_limit", Kind::current, "Largest breaker the trunk may be on",
             "\"20 A\""),
    required("trunk_size", Kind::wire_size, "Conductors of the trunk cable", "\"12 AWG\""),
    required("trunk_ampacity", Kind::current, "Listed ampacity of the trunk cable", "\"20 A\""),
    required("drop_spacing_portrait", Kind::length, "Between drops, modules in portrait",
             "\"3.3 ft\""),
    required("drop_spacing_landscape", Kind::length, "Between drops, modules in landscape",
             "\"5.6 ft\""),
    neutral_key("The trunk cable carries a neutral"),
    optional("trunk_ground", Kind::wire_size,
             "Equipment ground in the trunk cable; none: the cable has none", "\"12 AWG\""),
    optional("input_current_limit", Kind::current,
             "Short-circuit current of a module never to be exceeded", "\"20 A\""),
    flag_key("grid_forming", "Holds a microgrid without storage while the sun shines"),
    efficiency_key,
    output_phases_key,
    {.name = "trunk_cables",
     .kind = Kind::record,
     .many = true,
     .meaning = "Trunk cables that it plugs into, one for each orientation",
     .example = "[\"wickhollow-tp\", \"wickhollow-tl\"]",
     .words = trunk_cable_records},
};
constexpr Shape microinverter = {"microinverter", microinverter_keys, record_keys};

constexpr Key inverter_keys[] = {
    required("output", Kind::power, "Continuous output", "\"7.6 kVA\""),
    output_voltage_key,
    required("output_current", Kind::current, "Continuous output current", "\"31.7 A\""),
    required("input_limit", Kind::voltage, "Input voltage never to be exceeded", "\"600 V\""),
    tracking_key("[\"90 V\", \"530 V\"]"),
    optional("start", Kind::voltage, "Lowest voltage at which it starts", "\"110 V\""),
    required("inputs", Kind::count, "Inputs, each with a tracker of its own", "3"),
    required("strings_per_input", Kind::count, "Strings that the terminals of one input take", "1"),
    required("input_current", Kind::current, "Current that one tracker uses", "\"15 A\""),
    required("input_short_circuit", Kind::current,
             "Short-circuit current of the strings on one input, never to be exceeded", "\"22 A\""),
    required("breaker_limit", Kind::current, "Largest overcurrent device of its output",
             "\"50 A\""),
    ratio_limit_key,
    efficiency_key,
    flag_key("arc_fault", "Arc-fault protection of its DC circuits built in"),
    flag_key("ground_fault", "Ground-fault protection of its DC circuits built in"),
    flag_key("disconnect", "DC disconnecting means built in"),
    neutral_key("Its output carries a neutral"),
    output_phases_key,
    optional("battery_inputs", Kind::count,
             "Battery inputs of a hybrid inverter; none: it has none", "1"),
    {.name = "battery_voltage",
     .kind = Kind::voltage,
     .many = true,
     .meaning = "Lowest and highest voltage of the storage on its battery input",
     .example = "[\"340 V\", \"480 V\"]"},
    optional("battery_current", Kind::current, "Continuous current of one battery input",
             "\"28 A\""),
    optional("battery_breaker_limit", Kind::current,
             "Largest overcurrent device of one battery input", "\"50 A\""),
    optional("backup_output", Kind::power,
             "Continuous output to what it backs up; none: it backs up nothing", "\"7.6 kVA\""),
    optional("backup_breaker_limit", Kind::current, "Largest breaker of its backup output",
             "\"60 A\""),
    optional("backup_surge", Kind::current, "Current of the backup output for seconds", "\"46 A\""),
    flag_key("by_sun_alone", "Backs up without storage while the sun shines"),
    optional("interrupting", Kind::current,
             "Interrupting rating of AC breakers that it holds, such as that of its backup output",
             "\"10 kA\""),
};
constexpr Shape inverter = {"inverter", inverter_keys, enclosed_keys};

constexpr Shape junction_box = {"junction box", {}, enclosed_keys};

constexpr Key combiner_keys[] = {
    required("bus", Kind::current, "Rating of the bus", "\"125 A\""),
    required("branch_inputs", Kind::count, "Spaces for branch breakers of two poles, or three",
             "4"),
    required("branch_breaker_limit", Kind::current, "Largest branch breaker", "\"20 A\""),
    required("branch_breakers_total", Kind::current, "Largest sum of the branch breakers",
             "\"80 A\""),
    {.name = "breaker_sizes",
     .kind = Kind::current,
     .required = true,
     .many = true,
     .meaning = "Branch breakers it takes, smallest first",
     .example = "[\"15 A\", \"20 A\"]"},
    flag_key("gateway", "Holds a communications gateway with a production CT"),
    neutral_key("Its output carries a neutral"),
    interrupting_key,
    bus_phases_key,
    breakers_key,
};
constexpr Shape combiner = {"combiner", combiner_keys, enclosed_keys};

constexpr Key disconnect_keys[] = {
    required("rating", Kind::current, "Rating of the switch", "\"60 A\""),
    required("poles", Kind::count, "Switched poles", "2"),
    flag_key("fused", "Holds fuses"),
    flag_key("lockable", "Can be locked open"),
    flag_key("service_equipment", "Suitable for use as service equipment"),
    optional("dc_voltage", Kind::voltage,
             "Direct voltage that it opens; none: for alternating current only", "\"600 V\""),
    interrupting_key,
};
constexpr Shape disconnect = {"disconnect", disconnect_keys, enclosed_keys};

constexpr Key battery_keys[] = {
    required("energy", Kind::energy, "Usable energy", "\"10.08 kWh\""),
    required("output", Kind::power, "Continuous output", "\"3.84 kVA\""),
    output_voltage_key,
    {.name = "window",
     .kind = Kind::voltage,
     .many = true,
     .meaning = "Lowest and highest voltage of direct-current terminals; none: they are AC",
     .example = "[\"360 V\", \"450 V\"]"},
    optional("breaker", Kind::current, "Overcurrent device that a direct-current unit holds",
             "\"40 A\""),
    optional("fault_current", Kind::current,
             "Current that a direct-current unit feeds into a short circuit", "\"1.2 kA\""),
    required("output_current", Kind::current, "Continuous output current", "\"16 A\""),
    required("breaker_limit", Kind::current, "Largest overcurrent device of a chain", "\"60 A\""),
    required("chain_limit", Kind::count, "Most units on one circuit", "3"),
    neutral_key("Its output carries a neutral"),
    flag_key("disconnect", "Each unit holds a disconnecting means of its own"),
    optional("surge", Kind::current, "Current for seconds, to start motors", "\"40 A\""),
    optional("spacing", Kind::length,
             "To the next unit, where its listing permits less than the fire code", "\"6 in\""),
    output_phases_key,
};
constexpr Shape battery = {"battery", battery_keys, enclosed_keys};

constexpr Key mid_keys[] = {
    required("bus", Kind::current, "Rating of the bus", "\"200 A\""),
    required("pv_continuous", Kind::current, "Continuous current of the PV input", "\"64 A\""),
    required("pv_breaker_limit", Kind::current, "Largest breaker of the PV input", "\"80 A\""),
    required("storage_inputs", Kind::count, "Storage inputs", "1"),
    required("storage_continuous", Kind::current, "Continuous current of a storage input",
             "\"64 A\""),
    required("storage_breaker_limit", Kind::current, "Largest breaker of a storage input",
             "\"80 A\""),
    optional("storage_limit", Kind::energy, "Most storage on it", "\"40.32 kWh\""),
    optional("storage_limit_power_control", Kind::energy,
             "Most storage on it where a listed power control system limits the sources",
             "\"80.64 kWh\""),
    required("backup_breaker_limit", Kind::current, "Largest breaker of the backup feeder",
             "\"200 A\""),
    optional("generator_breaker_limit", Kind::current,
             "Largest breaker of its generator input; none: it has no such input", "\"100 A\""),
    flag_key("interlocked", "Its storage and generator inputs are interlocked, never on together"),
    flag_key(
        "forms_neutral",
        "Forms a neutral while islanded, as with an autotransformer: its sources may be of two "
        "wires and its loads from line to neutral"),
    optional("load_controllers", Kind::count, "Most load controllers that it commands", "2"),
    optional("control_limit", Kind::length, "Most control wiring in all", "\"250 ft\""),
    interrupting_key,
    bus_phases_key,
    breakers_key,
};
constexpr Shape mid = {"MID", mid_keys, enclosed_keys};

constexpr Key panel_keys[] = {
    required("bus", Kind::current, "Rating of the bus", "\"200 A\""),
    optional("main_limit", Kind::current, "Largest main breaker; none: lugs only", "\"200 A\""),
    interrupting_key,
    bus_phases_key,
    breakers_key,
};
constexpr Shape panel = {"panel", panel_keys, enclosed_keys};

constexpr Key meter_keys[] = {
    required("rating", Kind::current, "Rating of the meter socket", "\"200 A\""),
    bus_phases_key,
    {.name = "transformer_ratio",
     .meaning = "Of the current transformers in its cabinet; none: it carries the current itself",
     .example = "\"400:5\""},
};
constexpr Shape meter = {"meter", meter_keys, enclosed_keys};

constexpr Key generator_keys[] = {
    required("output", Kind::power, "Continuous output", "\"14 kVA\""),
    output_voltage_key,
    required("output_current", Kind::current, "Continuous output current", "\"58.3 A\""),
    optional("breaker", Kind::current, "Overcurrent device that it holds", "\"70 A\""),
    optional("surge", Kind::current, "Current for seconds, to start motors", "\"120 A\""),
    output_phases_key,
};
constexpr Shape generator = {"generator", generator_keys, enclosed_keys};

constexpr Key transfer_switch_keys[] = {
    required("rating", Kind::current, "Rating of the switch", "\"200 A\""),
    required("poles", Kind::count,
             "Switched poles: as many as lines, or one more where the neutral is switched", "2"),
    flag_key("automatic", "Transfers by itself"),
    flag_key("service_equipment", "Suitable for use as service equipment"),
    interrupting_key,
};
constexpr Shape transfer_switch = {"transfer switch", transfer_switch_keys, enclosed_keys};

constexpr Key load_controller_keys[] = {
    required("loads_240", Kind::count, "Most loads at 240 V, where it has no others", "2"),
    required("loads_120", Kind::count, "Most loads at 120 V, where it has no others", "4"),
    optional("contact", Kind::current, "Rating of one relay", "\"50 A\""),
};
constexpr Shape load_controller = {"load controller", load_controller_keys, enclosed_keys};

constexpr Key supply_connection_keys[] = {
    required("rating", Kind::current, "Rating of its bus or lugs", "\"200 A\""),
    interrupting_key,
    bus_phases_key,
};
constexpr Shape supply_connection = {"supply connection", supply_connection_keys, enclosed_keys};

constexpr Key module_electronics_keys[] = {
    required("input_limit", Kind::voltage, "Voltage of a module never to be exceeded", "\"60 V\""),
    required("input_current_limit", Kind::current,
             "Short-circuit current of a module never to be exceeded", "\"15 A\""),
    required("power", Kind::power, "Largest module", "\"500 W\""),
    flag_key("shutdown", "Brings its conductors down on rapid shutdown"),
    optional("shutdown_voltage", Kind::voltage,
             "Voltage that one leaves on its output after rapid shutdown, by its instructions",
             "\"0.6 V\""),
    optional("shutdown_time", Kind::number,
             "Seconds from initiation until then, by its instructions", "15"),
    optional("output_current", Kind::current,
             "Continuous output current of a converter; none: it does not convert", "\"15 A\""),
    optional("string_voltage", Kind::voltage,
             "Highest voltage of converters in series, by their instructions", "\"480 V\""),
    optional("fewest", Kind::count, "Fewest converters in series, by their instructions", "8"),
    optional("most", Kind::count, "Most converters in series, by their instructions", "20"),
    optional("string_power", Kind::power,
             "Most power of the modules of a string, by their instructions", "\"6 kW\""),
};
constexpr Shape module_electronics = {"module electronics", module_electronics_keys, record_keys};

constexpr Key breaker_keys[] = {
    required("poles", Kind::count, "Poles", "2"),
    {.name = "sizes",
     .kind = Kind::current,
     .required = true,
     .many = true,
     .meaning = "Ratings in which it is made, smallest first",
     .example = "[\"15 A\", \"20 A\"]"},
    interrupting_key,
};
constexpr Shape breaker = {"breaker", breaker_keys, record_keys};

constexpr Key trunk_cable_keys[] = {
    required("size", Kind::wire_size, "Size of its conductors", "\"12 AWG\""),
    {.name = "orientation",
     .kind = Kind::choice,
     .required = true,
     .meaning = "How the modules stand whose distance its drops have",
     .example = "\"portrait\"",
     .words = orientation_words},
    required("drop_spacing", Kind::length, "Between its drops", "\"4.3 ft\""),
    optional("drops", Kind::count, "Drops of one piece as sold; none: cut to any number", "240"),
    {.name = "end_cap", .meaning = "Model that closes its far end", .example = "\"WT-E\""},
    {.name = "drop_cap",
     .meaning = "Model that closes a drop without microinverter",
     .example = "\"WT-S\""},
};
constexpr Shape trunk_cable = {"trunk cable", trunk_cable_keys, record_keys};

constexpr Key records(std::string_view name, std::string_view meaning, const Shape& shape) {
    return {.name = name,
            .kind = Kind::tables_by_id,
            .meaning = meaning,
            .example = "",
            .shape = &shape};
}

constexpr Key catalogue_keys[] = {
    records("module", "PV modules", module_shape),
    records("microinverter", "Microinverters with their trunk cable", microinverter),
    records("inverter", "Inverters fed by strings", inverter),
    records("junction_box", "Junction boxes", junction_box),
    records("combiner", "Panels that combine branches", combiner),
    records("disconnect", "Switches", disconnect),
    records("battery", "Storage units, for alternating or direct current", battery),
    records("mid", "Microgrid interconnect devices", mid),
    records("panel", "Panelboards", panel),
    records("meter", "Meters and meter sockets", meter),
    records("generator", "Generators", generator),
    records("transfer_switch", "Transfer switches", transfer_switch),
    records("load_controller", "Relays that shed loads", load_controller),
    records("supply_connection", "Enclosures and adapters for a supply-side connection",
            supply_connection),
    records("module_electronics", "Electronics at the modules of strings", module_electronics),
    records("breaker", "Circuit breakers that panels list", breaker),
    records("trunk_cable", "Trunk cables of microinverters", trunk_cable),
};
constexpr Shape catalogue = {"catalogue", catalogue_keys, {}};

} // namespace

const Shape& catalogue_shape() { return catalogue; }

} // namespace ohmfolio
