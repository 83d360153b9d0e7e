// Equipment that power comes from.
#include "input/common_keys.h"

namespace ohmfolio {
namespace {

using Words = std::array<std::string_view, 1>;
constexpr Words module_records = {"module"};
constexpr Words microinverter_records = {"microinverter"};
constexpr Words module_electronics_records = {"module_electronics"};
constexpr Words inverter_records = {"inverter"};
constexpr Words battery_records = {"battery"};
constexpr Words generator_records = {"generator"};

constexpr std::array<std::string_view, 2> orientation_words = {"portrait", "landscape"};
constexpr std::array<std::string_view, 5> storage_place_words = {
    "attached garage", "detached garage", "exterior wall", "outdoors", "utility closet"};

constexpr Key shed_by_key = {.name = "shed_by",
                             .meaning = "Load controller that may cut it off while islanded",
                             .example = "\"LC-1\""};
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
    {.name = "orientation",
     .kind = Kind::choice,
     .meaning = "How the modules lie, for the drops of the trunk cable",
     .example = "\"portrait\"",
     .words = orientation_words},
    shed_by_key,
    feeds_key,
    breaker_key,
    {.name = "run",
     .kind = Kind::table,
     .required = true,
     .meaning = "Trunk cable to what it feeds",
     .example = "{ length = \"28 ft\" }",
     .shape = &trunk},
};
constexpr Key string_keys[] = {
    {.name = "modules",
     .kind = Kind::count,
     .required = true,
     .meaning = "Modules in series in each string",
     .example = "10"},
    {.name = "strings",
     .kind = Kind::count,
     .fallback = "1",
     .meaning = "Equal strings in parallel on the input",
     .example = "2"},
    {.name = "roof",
     .required = true,
     .meaning = "Roof plane that carries them",
     .example = "\"South roof\""},
    {.name = "input",
     .kind = Kind::count,
     .required = true,
     .meaning = "Input of the inverter, from 1",
     .example = "1"},
    {.name = "module",
     .kind = Kind::record,
     .meaning = "Module; none: that of [modules]",
     .example = "\"solvane-405\"",
     .words = module_records},
    {.name = "fuse",
     .kind = Kind::current,
     .meaning = "Fuse in series with each string; none: there are no fuses",
     .example = "\"20 A\""},
    {.name = "electronics",
     .kind = Kind::record,
     .meaning = "Electronics at each module; none: there are none, or they are not described",
     .example = "\"wickhollow-x500\"",
     .words = module_electronics_records},
    {.name = "module_shutdown",
     .kind = Kind::flag,
     .fallback = "false",
     .meaning = "Electronics at each module bring its conductors down on rapid shutdown",
     .example = "true"},
    {.name = "title", .meaning = "What the drawing calls it", .example = "\"PV string 1\""},
    {.name = "existing",
     .kind = Kind::flag,
     .fallback = "false",
     .meaning = "Was there before this work",
     .example = "true"},
    feeds_key,
    run_key,
};
constexpr Key inverter_keys[] = {
    model_key(inverter_records), feeds_key,      breaker_key, run_key, backs_up_key,
    backup_breaker_key,          backup_run_key,
};
constexpr Key battery_keys[] = {
    model_key(battery_records),
    {.name = "place",
     .kind = Kind::choice,
     .meaning = "Where it stands, in the words of the residential code, for the limits there",
     .example = "\"attached garage\"",
     .words = storage_place_words},
    {.name = "spacing",
     .kind = Kind::distance,
     .meaning = "Clear distance to the next unit",
     .example = "\"3 ft\""},
    feeds_key,
    breaker_key,
    run_key,
};
constexpr Key generator_keys[] = {
    model_key(generator_records),
    {.name = "bonded",
     .kind = Kind::flag,
     .fallback = "false",
     .meaning = "Its neutral is bonded to its frame",
     .example = "true"},
    feeds_key,
    breaker_key,
    run_key,
};

} // namespace

const Shape branch_shape = {"branch", branch_keys, {}};
const Shape string_shape = {"string", string_keys, {}};
const Shape inverter_shape = {"inverter", inverter_keys, described_keys};
const Shape battery_shape = {"battery", battery_keys, described_keys};
const Shape generator_shape = {"generator", generator_keys, described_keys};

} // namespace ohmfolio
