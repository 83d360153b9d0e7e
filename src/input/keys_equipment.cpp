#include "input/key_tables.h"

#include <array>

namespace ohmfolio {
namespace {

using Words = std::array<std::string_view, 1>;
constexpr Words module_records = {"module"};
constexpr Words microinverter_records = {"microinverter"};
constexpr Words junction_box_records = {"junction_box"};
constexpr Words combiner_records = {"combiner"};
constexpr Words disconnect_records = {"disconnect"};
constexpr Words battery_records = {"battery"};
constexpr Words mid_records = {"mid"};
constexpr Words panel_records = {"panel"};
constexpr Words meter_records = {"meter"};

constexpr std::array<std::string_view, 3> disconnect_uses = {"utility", "rapid shutdown",
                                                             "storage"};
constexpr std::array<std::string_view, 5> electrode_words = {
    "ground rod", "two ground rods", "concrete-encased", "water pipe", "ground ring"};

// ---- wiring ----------------------------------------------------------------------------------

constexpr Key run_keys[] = {
    {.name = "length",
     .kind = Kind::length,
     .required = true,
     .meaning = "One-way length",
     .example = "\"46 ft\""},
    {.name = "raceway",
     .kind = Kind::raceway,
     .fallback = "\"EMT\"",
     .meaning = "Wiring method",
     .example = "\"EMT\""},
    {.name = "trade_size",
     .kind = Kind::trade_size,
     .meaning = "Trade size of the raceway; none: the smallest that complies",
     .example = "\"3/4\""},
    {.name = "size",
     .kind = Kind::wire_size,
     .meaning = "Size of the phase conductors; none: the smallest that complies",
     .example = "\"10 AWG\""},
    {.name = "ground",
     .kind = Kind::wire_size,
     .meaning = "Size of the equipment ground; none: the smallest that complies",
     .example = "\"10 AWG\""},
    {.name = "material",
     .kind = Kind::material,
     .fallback = "\"copper\"",
     .meaning = "Metal of the conductors",
     .example = "\"copper\""},
    {.name = "insulation",
     .kind = Kind::insulation,
     .fallback = "\"THWN-2\"",
     .meaning = "Insulation of the conductors",
     .example = "\"THWN-2\""},
    {.name = "neutral",
     .kind = Kind::flag,
     .meaning = "Carries a neutral; none: as the equipment at its ends needs",
     .example = "true"},
    {.name = "above_roof",
     .kind = Kind::distance,
     .meaning = "Over a roof in sunlight: from the roof to the underside of the raceway",
     .example = "\"1 in\""},
    {.name = "ambient",
     .kind = Kind::temperature,
     .meaning = "Where hotter or cooler than the site's hottest temperature",
     .example = "\"50 C\""},
};
constexpr Shape run = {"run", run_keys, {}};

constexpr Key trunk_keys[] = {
    {.name = "length",
     .kind = Kind::length,
     .required = true,
     .meaning = "One-way length of trunk cable, from the far microinverter",
     .example = "\"28 ft\""},
    {.name = "ambient",
     .kind = Kind::temperature,
     .meaning = "Draws a warning: trunk cable is a listed assembly with an ampacity of its own",
     .example = "\"50 C\""},
};
constexpr Shape trunk = {"trunk cable", trunk_keys, {}};

constexpr Key feeds_key = {.name = "feeds",
                           .kind = Kind::equipment,
                           .required = true,
                           .meaning = "Neighbor toward the utility",
                           .example = "\"MSP\""};
constexpr Key breaker_key = {
    .name = "breaker",
    .kind = Kind::current,
    .meaning = "Overcurrent device at what it feeds; none: the smallest that complies",
    .example = "\"20 A\""};
constexpr Key run_key = {.name = "run",
                         .kind = Kind::table,
                         .required = true,
                         .meaning = "Raceway and conductors to what it feeds",
                         .example = "{ length = \"10 ft\", raceway = \"EMT\" }",
                         .shape = &run};
constexpr Key electrodes_key = {.name = "electrodes",
                                .kind = Kind::choice,
                                .many = true,
                                .meaning = "Grounding electrodes, where neutral and ground are "
                                           "bonded",
                                .example = "[\"concrete-encased\", \"two ground rods\"]",
                                .words = electrode_words};
constexpr Key electrode_conductor_key = {
    .name = "electrode_conductor",
    .kind = Kind::wire_size,
    .meaning = "Grounding electrode conductor; none: the smallest that complies",
    .example = "\"4 AWG\""};
constexpr Key electrode_material_key = {.name = "electrode_material",
                                        .kind = Kind::material,
                                        .fallback = "\"copper\"",
                                        .meaning = "Metal of that conductor",
                                        .example = "\"copper\""};

constexpr Key model_key(std::span<const std::string_view> records) {
    return {.name = "model",
            .kind = Kind::record,
            .required = true,
            .meaning = "Catalogue record",
            .example = "\"brackenway-60\"",
            .words = records};
}

constexpr Key not_required(Key key) {
    key.required = false;
    return key;
}

constexpr Key described_keys[] = {
    {.name = "title",
     .meaning = "What the drawing calls it; none: the name of its kind",
     .example = "\"PV AC disconnect\""},
    {.name = "location", .meaning = "Where it stands", .example = "\"Garage, west wall\""},
    {.name = "existing",
     .kind = Kind::flag,
     .fallback = "false",
     .meaning = "Was there before this work",
     .example = "true"},
    {.name = "fault_current",
     .kind = Kind::current,
     .meaning = "Fault current available here and beyond, away from the service, by calculation or "
                "field data; none: as nearer the service",
     .example = "\"7.4 kA\""},
};

// ---- equipment -------------------------------------------------------------------------------

constexpr Key branch_keys[] = {
    {.name = "modules",
     .kind = Kind::count,
     .required = true,
     .meaning = "Modules of the branch, each with its microinverter",
     .example = "8"},
    {.name = "roof",
     .required = true,
     .meaning = "Roof plane that carries them",
     .example = "\"South roof\""},
    {.name = "module",
     .kind = Kind::record,
     .meaning = "Module; none: that of [modules]",
     .example = "\"solvane-405\"",
     .words = module_records},
    {.name = "microinverter",
     .kind = Kind::record,
     .meaning = "Microinverter; none: that of [modules]",
     .example = "\"wickhollow-340\"",
     .words = microinverter_records},
    {.name = "title", .meaning = "What the drawing calls it", .example = "\"PV branch 1\""},
    {.name = "existing",
     .kind = Kind::flag,
     .fallback = "false",
     .meaning = "Was there before this work",
     .example = "true"},
    feeds_key,
    breaker_key,
    {.name = "run",
     .kind = Kind::table,
     .required = true,
     .meaning = "Trunk cable to what it feeds",
     .example = "{ length = \"28 ft\" }",
     .shape = &trunk},
};
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
    feeds_key,
    breaker_key,
    run_key,
    electrodes_key,
    electrode_conductor_key,
    electrode_material_key,
};
constexpr Key battery_keys[] = {model_key(battery_records), feeds_key, breaker_key, run_key};
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
    {.name = "backs_up",
     .kind = Kind::equipment,
     .meaning = "Panel on its backup side",
     .example = "\"BLP\""},
    {.name = "backup_breaker",
     .kind = Kind::current,
     .meaning = "Overcurrent device of the backup feeder; none: the smallest that complies",
     .example = "\"100 A\""},
    {.name = "backup_run",
     .kind = Kind::table,
     .meaning = "Raceway and conductors to the backed-up panel",
     .example = "{ length = \"24 ft\" }",
     .shape = &run},
    electrodes_key,
    electrode_conductor_key,
    electrode_material_key,
};
constexpr Key panel_keys[] = {
    model_key(panel_records),
    {.name = "main",
     .kind = Kind::current,
     .meaning = "Main breaker; none: lugs only",
     .example = "\"200 A\""},
    {.name = "loads",
     .kind = Kind::values_by_name,
     .meaning = "All load circuits and their breakers, {} where there are none; left out: not "
                "described, so that no rule may count on them",
     .example = "{ \"Range\" = \"50 A 2P\", \"Lights\" = \"15 A\" }"},
    {.name = "opposite_end",
     .kind = Kind::flag,
     .fallback = "false",
     .meaning = "Source breakers sit at the end of the bus opposite the main",
     .example = "true"},
    not_required(feeds_key),
    breaker_key,
    not_required(run_key),
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

} // namespace

const Shape branch_shape = {"branch", branch_keys, {}};
const Shape junction_box_shape = {"junction box", junction_box_keys, described_keys};
const Shape combiner_shape = {"combiner", combiner_keys, described_keys};
const Shape disconnect_shape = {"disconnect", disconnect_keys, described_keys};
const Shape battery_shape = {"battery", battery_keys, described_keys};
const Shape mid_shape = {"MID", mid_keys, described_keys};
const Shape panel_shape = {"panel", panel_keys, described_keys};
const Shape meter_shape = {"meter", meter_keys, described_keys};

} // namespace ohmfolio
