#include "input/keys.h"

#include <algorithm>

#include "input/key_tables.h"

namespace ohmfolio {
namespace {

constexpr Key by_id(std::string_view name, std::string_view meaning, const Shape& shape) {
    return {.name = name,
            .kind = Kind::tables_by_id,
            .meaning = meaning,
            .example = "",
            .shape = &shape};
}

constexpr Key required_table(std::string_view name, std::string_view meaning, const Shape& shape) {
    return {.name = name,
            .kind = Kind::table,
            .required = true,
            .meaning = meaning,
            .example = "",
            .shape = &shape};
}

constexpr Key description_keys[] = {
    {.name = "catalogue",
     .required = true,
     .many = true,
     .meaning = "Catalogue files, relative to the description",
     .example = "\"catalogue.toml\""},
    {.name = "code",
     .kind = Kind::edition,
     .required = true,
     .meaning = "Edition of the National Electrical Code in force",
     .example = "\"NEC 2023\""},
    required_table("project", "What the title block and the general sheet say", project_shape),
    required_table("site", "Climate and service", site_shape),
    {.name = "modules",
     .kind = Kind::table,
     .meaning = "Module and microinverter of all branches",
     .example = "",
     .shape = &modules_shape},
    {.name = "limits",
     .kind = Kind::table,
     .meaning = "Limits that are custom rather than code",
     .example = "",
     .shape = &limits_shape},
    by_id("branch", "Branch circuits of modules with microinverters", branch_shape),
    by_id("junction_box", "Junction boxes between trunk cable and raceway", junction_box_shape),
    by_id("combiner", "Panels that combine branches", combiner_shape),
    by_id("disconnect", "Switches", disconnect_shape),
    by_id("battery", "Storage units; one may feed the next", battery_shape),
    by_id("mid", "Microgrid interconnect devices", mid_shape),
    by_id("panel", "Panelboards, the service panel among them", panel_shape),
    by_id("meter", "Meters; one without `feeds` is the utility's", meter_shape),
    {.name = "waiver",
     .kind = Kind::table_list,
     .meaning = "Findings accepted with a reason, which is printed",
     .example = "",
     .shape = &waiver_shape},
};
constexpr Shape description = {"description", description_keys, {}};

} // namespace

const Key* Shape::find(std::string_view key) const {
    for (const auto keys : {shared, own}) {
        const auto found = std::ranges::find(keys, key, &Key::name);
        if (found != keys.end()) {
            return &*found;
        }
    }
    return nullptr;
}

std::vector<const Key*> Shape::keys() const {
    std::vector<const Key*> result;
    for (const auto part : {shared, own}) {
        for (const Key& key : part) {
            result.push_back(&key);
        }
    }
    return result;
}

std::vector<std::string> Shape::names() const {
    std::vector<std::string> result;
    for (const Key* key : keys()) {
        result.emplace_back(key->name);
    }
    return result;
}

const Shape& description_shape() { return description; }

} // namespace ohmfolio
