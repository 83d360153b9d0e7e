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

constexpr Key table(std::string_view name, std::string_view meaning, const Shape& shape) {
    return {.name = name, .kind = Kind::table, .meaning = meaning, .example = "", .shape = &shape};
}

constexpr Key table_list(std::string_view name, std::string_view meaning, const Shape& shape) {
    return {
        .name = name, .kind = Kind::table_list, .meaning = meaning, .example = "", .shape = &shape};
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
    {.name = "sheet",
     .fallback = "\"ansi-b\"",
     .meaning = "Format of the sheets: a file of layouts/ that states a paper",
     .example = "\"ansi-d\""},
    required_table("project", "What the title block and the general sheet say", project_shape),
    required_table("site", "Climate and service", site_shape),
    table("modules", "Module and microinverter of all branches", modules_shape),
    table("limits", "Limits that are custom rather than code", limits_shape),
    by_id("roof", "Roof planes, under the names that arrays give them", roof_shape),
    table("plan", "The parcel and its buildings, for the site plan", site_plan_shape),
    table("load_calculation", "Load of the building by Article 220", load_calculation_shape),
    table("backup", "What the backed-up loads draw", backup_shape),
    table("control_wiring", "Control wiring as run", control_wiring_shape),
    table("material", "What is ordered beyond what is drawn", material_shape),
    by_id("branch", "Branch circuits of modules with microinverters", branch_shape),
    by_id("string", "Strings of modules on the inputs of inverters", string_shape),
    by_id("inverter", "Inverters fed by strings", inverter_shape),
    by_id("junction_box", "Junction boxes between trunk cable and raceway", junction_box_shape),
    by_id("combiner", "Panels that combine branches", combiner_shape),
    by_id("disconnect", "Switches", disconnect_shape),
    by_id("battery", "Storage units; one may feed the next", battery_shape),
    by_id("generator", "Generators", generator_shape),
    by_id("mid", "Microgrid interconnect devices", mid_shape),
    by_id("panel", "Panelboards, the service panel among them", panel_shape),
    by_id("meter", "Meters; one without `feeds` is the utility's", meter_shape),
    by_id("transfer_switch", "Switches between utility and generator", transfer_switch_shape),
    by_id("supply_connection", "Where sources join the service ahead of the main",
          supply_connection_shape),
    by_id("load_controller", "Relays that shed loads while islanded", load_controller_shape),
    by_id("wall", "Walls with equipment on them, for the elevations", wall_shape),
    table_list("power_control", "Control systems that limit sources on a bus", power_control_shape),
    table_list("appendix", "PDFs of others to append, such as a structural letter", appendix_shape),
    table_list("revision", "Rows of the revision block, oldest first", revision_shape),
    table_list("comment", "Comments of a plan check, with their answers", comment_shape),
    table_list("waiver", "Findings accepted with a reason, which is printed", waiver_shape),
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
