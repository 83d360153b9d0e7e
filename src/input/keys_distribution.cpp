// Equipment that power goes through.
#include "input/common_keys.h"

namespace ohmfolio {
namespace {

using Words = std::array<std::string_view, 1>;
constexpr Words junction_box_records = {"junction_box"};
constexpr Words combiner_records = {"combiner"};
constexpr Words disconnect_records = {"disconnect"};
constexpr Words mid_records = {"mid"};
constexpr Words panel_records = {"panel"};
constexpr Words meter_records = {"meter"};
constexpr Words transfer_switch_records = {"transfer_switch"};
constexpr Words supply_connection_records = {"supply_connection"};

constexpr std::array<std::string_view, 4> disconnect_uses = {"utility", "rapid shutdown", "storage",
                                                             "service"};

constexpr std::array<std::string_view, 2> surge_types = {"Type 1", "Type 2"};
constexpr Key surge_keys[] = {
    {.name = "type",
     .kind = Kind::choice,
     .required = true,
     .meaning = "What it is listed as",
     .example = "\"Type 2\"",
     .words = surge_types},
    {.name = "discharge",
     .kind = Kind::current,
     .meaning = "Nominal discharge current",
     .example = "\"20 kA\""},
};
constexpr Shape surge_shape = {"surge-protective device", surge_keys, {}};
constexpr Key surge_device_key = {
    .name = "surge_device",
    .kind = Kind::table,
    .meaning = "Surge-protective device in it or right beside it; none: it has none",
    .example = "{ type = \"Type 2\", discharge = \"20 kA\" }",
    .shape = &surge_shape};

constexpr Key junction_box_keys[] = {model_key(junction_box_records), feeds_key, breaker_key,
                                     run_key};
constexpr Key combiner_keys[] = {model_key(combiner_records), feeds_key, breaker_key, run_key};
constexpr Key disconnect_keys[] = {
    model_key(disconnect_records),
    {.name = "use",
     .kind = Kind::choice,
     .many = true,
     .meaning = "What it is there for",
     .example = "[\"utility\", \"rapid shutdown\"]",
     .words = disconnect_uses},
    {.name = "shutdown_contact",
     .kind = Kind::flag,
     .fallback = "false",
     .meaning = "A contact of it tells the inverters, or the electronics at the modules, to shut "
                "down: opening the circuit alone does not where a source carries on islanded",
     .example = "true"},
    feeds_key,
    breaker_key,
    run_key,
    ground_fault_key,
    surge_device_key,
    electrodes_key,
    electrode_conductor_key,
    electrode_material_key,
};
constexpr Key mid_keys[] = {
    model_key(mid_records),
    feeds_key,
    breaker_key,
    run_key,
    {.name = "power_control",
     .kind = Kind::flag,
     .fallback = "false",
     .meaning = "The larger storage limit of the nameplate holds, as a listed power control system "
                "is set up",
     .example = "true"},
    backs_up_key,
    backup_breaker_key,
    backup_run_key,
    electrodes_key,
    electrode_conductor_key,
    electrode_material_key,
};
constexpr std::array<std::string_view, 9> load_words = {"general",   "appliance", "range",
                                                        "dryer",     "cooling",   "heating",
                                                        "heat pump", "vehicle",   "motor"};
constexpr Key load_keys[] = {
    {.name = "breaker",
     .kind = Kind::load_breaker,
     .required = true,
     .meaning = "Its breaker",
     .example = "\"50 A 2P\""},
    {.name = "kind",
     .kind = Kind::choice,
     .fallback = "\"general\"",
     .meaning = "How it counts in a load calculation",
     .example = "\"range\"",
     .words = load_words},
    {.name = "power", .kind = Kind::power, .meaning = "Nameplate", .example = "\"12 kVA\""},
    {.name = "locked_rotor",
     .kind = Kind::current,
     .meaning = "Locked-rotor current of its largest motor",
     .example = "\"68 A\""},
    {.name = "added",
     .kind = Kind::flag,
     .fallback = "false",
     .meaning = "Comes with this work",
     .example = "true"},
    {.name = "shed_by",
     .meaning = "Load controller that may cut it off while islanded",
     .example = "\"LC-1\""},
};
constexpr Shape load = {"load", load_keys, {}};
constexpr Key panel_keys[] = {
    model_key(panel_records),
    {.name = "main",
     .kind = Kind::current,
     .meaning = "Main breaker; none: lugs only",
     .example = "\"200 A\""},
    {.name = "center_fed",
     .kind = Kind::flag,
     .fallback = "false",
     .meaning = "The main stands in the middle of the bus, sources at one end",
     .example = "true"},
    {.name = "through_lugs",
     .kind = Kind::flag,
     .fallback = "false",
     .meaning = "Fed from the feed-through lugs of the panel it feeds, without a breaker",
     .example = "true"},
    {.name = "collects",
     .kind = Kind::flag,
     .fallback = "false",
     .meaning = "Joins sources and holds no breakers of loads",
     .example = "true"},
    {.name = "loads",
     .kind = Kind::values_by_name,
     .meaning = "All load circuits and their breakers, {} where there are none; left out: not "
                "described, so that no rule may count on them",
     .example = "{ \"Range\" = \"50 A 2P\", \"Lights\" = \"15 A\" }",
     .shape = &load},
    {.name = "opposite_end",
     .kind = Kind::flag,
     .fallback = "false",
     .meaning = "Source breakers sit at the end of the bus opposite the main",
     .example = "true"},
    not_required(feeds_key),
    breaker_key,
    not_required(run_key),
    surge_device_key,
    ground_fault_key,
    electrodes_key,
    electrode_conductor_key,
    electrode_material_key,
};
constexpr Key meter_keys[] = {
    model_key(meter_records),
    {.name = "feeds",
     .kind = Kind::equipment,
     .meaning = "Neighbor toward the utility; none: the utility itself",
     .example = "\"MSP\""},
    breaker_key,
    not_required(run_key),
};
constexpr Key transfer_switch_keys[] = {
    model_key(transfer_switch_records),
    feeds_key,
    breaker_key,
    run_key,
    backs_up_key,
    backup_run_key,
    electrodes_key,
    electrode_conductor_key,
    electrode_material_key,
};
constexpr Key supply_connection_keys[] = {
    model_key(supply_connection_records),
    {.name = "meter_adapter",
     .kind = Kind::flag,
     .fallback = "false",
     .meaning = "An adapter at the meter socket",
     .example = "true"},
    feeds_key,
    run_key,
};

} // namespace

const Shape junction_box_shape = {"junction box", junction_box_keys, described_keys};
const Shape combiner_shape = {"combiner", combiner_keys, described_keys};
const Shape disconnect_shape = {"disconnect", disconnect_keys, described_keys};
const Shape mid_shape = {"MID", mid_keys, described_keys};
const Shape panel_shape = {"panel", panel_keys, described_keys};
const Shape meter_shape = {"meter", meter_keys, described_keys};
const Shape transfer_switch_shape = {"transfer switch", transfer_switch_keys, described_keys};
const Shape supply_connection_shape = {"supply connection", supply_connection_keys, described_keys};

} // namespace ohmfolio
