// What a description says of the building and of what guards its circuits.
#include "input/common_keys.h"

namespace ohmfolio {
namespace {

constexpr std::array<std::string_view, 1> load_controller_records = {"load_controller"};
constexpr std::array<std::string_view, 4> method_words = {"optional", "existing", "metered",
                                                          "standard"};

constexpr Key load_calculation_keys[] = {
    {.name = "method",
     .kind = Kind::choice,
     .fallback = "\"optional\"",
     .meaning = "Which calculation of Article 220: for a dwelling, an existing dwelling, by its "
                "metered demand, or the standard one",
     .example = "\"optional\"",
     .words = method_words},
    {.name = "floor_area",
     .kind = Kind::area,
     .meaning = "Floor area of the dwelling",
     .example = "\"2150 ft2\""},
    {.name = "small_appliance_circuits",
     .kind = Kind::count,
     .fallback = "2",
     .meaning = "Small-appliance branch circuits",
     .example = "2"},
    {.name = "laundry_circuits",
     .kind = Kind::count,
     .fallback = "1",
     .meaning = "Laundry branch circuits",
     .example = "1"},
    {.name = "peak_demand",
     .kind = Kind::power,
     .meaning = "Highest metered demand of a year",
     .example = "\"9.6 kW\""},
};

constexpr Key power_control_keys[] = {
    {.name = "at",
     .kind = Kind::equipment,
     .required = true,
     .meaning = "Equipment whose bus it guards",
     .example = "\"MSP\""},
    {.name = "sources",
     .kind = Kind::current,
     .meaning = "Setting: most current that the sources on the bus deliver together",
     .example = "\"32 A\""},
    {.name = "bus",
     .kind = Kind::current,
     .meaning = "Setting: most current that utility and sources together bring to the bus",
     .example = "\"200 A\""},
    {.name = "listing", .meaning = "Standard that it is listed to", .example = "\"UL 1741 PCS\""},
    {.name = "by",
     .kind = Kind::equipment,
     .meaning = "Equipment that is, or holds, the power control system",
     .example = "\"CP-1\""},
};

constexpr Key load_controller_keys[] = {
    model_key(load_controller_records),
    {.name = "mid",
     .kind = Kind::equipment,
     .required = true,
     .meaning = "Interconnect device that commands it",
     .example = "\"MID-1\""},
    {.name = "existing",
     .kind = Kind::flag,
     .fallback = "false",
     .meaning = "Was there before this work",
     .example = "true"},
};

constexpr Key backup_keys[] = {
    {.name = "average",
     .kind = Kind::power,
     .required = true,
     .meaning = "What the backed-up loads draw on average",
     .example = "\"900 W\""},
};

constexpr Key control_wiring_keys[] = {
    {.name = "length",
     .kind = Kind::length,
     .required = true,
     .meaning = "All control wiring together",
     .example = "\"140 ft\""},
};

} // namespace

const Shape load_calculation_shape = {"load calculation", load_calculation_keys, {}};
const Shape power_control_shape = {"power control", power_control_keys, {}};
const Shape load_controller_shape = {"load controller", load_controller_keys, {}};
const Shape backup_shape = {"backup", backup_keys, {}};
const Shape control_wiring_shape = {"control wiring", control_wiring_keys, {}};

} // namespace ohmfolio
