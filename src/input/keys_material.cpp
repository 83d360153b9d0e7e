// What a description says of the material list.
#include "input/key_tables.h"

namespace ohmfolio {
namespace {

constexpr Key spare(std::string_view name, std::string_view meaning) {
    return {.name = name, .kind = Kind::count, .meaning = meaning, .example = "1"};
}

constexpr Key spare_keys[] = {
    spare("modules", "More modules of each model"),
    spare("microinverters", "More microinverters of each model"),
    spare("electronics", "More module electronics of each model"),
    spare("end_caps", "More end caps of trunk cable"),
    spare("drop_caps", "More caps of unused drops"),
    spare("clips", "More cable clips"),
    spare("connectors", "More pairs of connectors for strings"),
    spare("breakers", "More breakers of each rating"),
    spare("fuses", "More fuses of each rating"),
};
constexpr Shape spares = {"spares", spare_keys, {}};

constexpr Key material_keys[] = {
    {.name = "waste",
     .kind = Kind::percent,
     .meaning = "Added to the lengths of wire and raceway; none: common practice",
     .example = "\"10 %\""},
    {.name = "electrode_conductor",
     .kind = Kind::length,
     .meaning = "Length of a new grounding electrode conductor; none: measured on site",
     .example = "\"20 ft\""},
    {.name = "spare_drops",
     .kind = Kind::count,
     .meaning = "Drops of trunk cable beyond the microinverters, in each branch",
     .example = "1"},
    {.name = "spares",
     .kind = Kind::table,
     .meaning = "Pieces beyond those that are drawn",
     .example = "{ microinverters = 1 }",
     .shape = &spares},
};

} // namespace

const Shape material_shape = {"material", material_keys, {}};

} // namespace ohmfolio
