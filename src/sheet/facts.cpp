#include "sheet/facts.h"

#include <fmt/format.h>

#include "base/text.h"
#include "sheet/places.h"

namespace ohmfolio::sheets {

namespace {

std::string thousands(double value) { return value > 0 ? trimmed(value / 1000, 2) : std::string{}; }
std::string number_or_nothing(double value, int decimals) {
    return value > 0 ? trimmed(value, decimals) : std::string{};
}

/// "Larkmoor Solar Works, 8 Kiln Yard" is name and address in one when no address is given.
void designer_facts(const Project& project, Facts& facts) {
    const auto comma = project.designer.find(", ");
    const bool in_one = project.designer_address.empty() && comma != std::string::npos;
    facts["designer_name"] = in_one ? project.designer.substr(0, comma) : project.designer;
    facts["designer_address"] =
        in_one ? project.designer.substr(comma + 2) : project.designer_address;
}

void project_facts(const System& system, Facts& facts) {
    const Project& project = system.project;
    designer_facts(project, facts);
    facts["license"] = project.licence;
    facts["project"] = project.name;
    facts["owner"] = project.owner;
    facts["address"] = project.address;
    facts["parcel"] = project.parcel;
    facts["jurisdiction"] = project.jurisdiction;
    facts["utility"] = project.utility;
    facts["occupancy"] = project.occupancy;
    facts["scope"] = project.scope;
    facts["date"] = project.date;
    facts["number"] = project.number;
    facts["drawn_by"] = project.drawn_by;
    facts["checked_by"] = project.checked_by;
    facts["edition"] = name(system.edition);
    facts["other_codes"] = join(project.other_codes, "; ");
}

void site_facts(const Site& site, Facts& facts) {
    facts["coldest"] = trimmed(site.coldest.value, 1) + " °C";
    facts["hottest"] = trimmed(site.hottest.value, 1) + " °C";
    facts["climate_source"] = site.climate_source;
    facts["voltage"] = trimmed(site.voltage.value, 1);
    facts["to_neutral"] = trimmed(site.to_neutral.value, 1);
    facts["service_amps"] = number_or_nothing(site.service.value, 1);
    facts["fault_current"] = thousands(site.fault_current.value);
}

void size_facts(const Totals& totals, Facts& facts) {
    facts["modules"] = number_or_nothing(totals.modules, 0);
    facts["size_dc"] = thousands(totals.dc.value);
    facts["size_ac"] = thousands(totals.ac.value);
    facts["size_storage"] = thousands(totals.storage.value);
    facts["storage_ac"] = thousands(totals.storage_ac.value);
    facts["pv_current"] = number_or_nothing(totals.pv_current.value, 2);
    facts["storage_current"] = number_or_nothing(totals.storage_current.value, 2);
}

/// "SW-1, WEST WALL" for the first of a list.
std::string id_and_location(const System& system, const std::vector<int>& list) {
    if (list.empty())
        return {};
    const Equipment& e = system.at(list.front());
    return e.location.empty() ? e.id : fmt::format("{}, {}", e.id, e.location);
}

/// The sources of the premises, each on a line.
std::string source_names(const System& system) {
    std::vector<std::string> names;
    for (const SourceRow& row : source_directory(system))
        names.push_back(row.source);
    return join(names, "\n");
}

void place_facts(const System& system, Facts& facts) {
    const auto switches = rapid_shutdown_switches(system);
    facts["shutdown_switch"] =
        id_and_location(system, switches.empty() ? pv_disconnects(system) : switches);
    facts["pv_disconnect"] = id_and_location(system, pv_disconnects(system));
    facts["storage_disconnect"] = id_and_location(system, storage_disconnects(system));
    facts["service_location"] = id_and_location(system, service_equipment(system));
    facts["storage_location"] = locations(system, batteries(system));
    facts["sources"] = source_names(system);
}

void connection_facts(const System& system, const Study& study, Facts& facts) {
    std::string& panel = facts["connection_panel"];
    std::string& breaker = facts["connection_breaker"];
    std::string& rule = facts["connection_rule"];
    for (const ConnectionStudy& connection : study.connections) {
        if (connection.panel < 0 || !panel.empty())
            continue;
        const Equipment& e = system.at(connection.panel);
        panel = fmt::format("{} {}", e.id, e.title);
        if (connection.breaker >= 0) {
            const auto index = static_cast<std::size_t>(connection.breaker);
            breaker = fmt::format("{} A", trimmed(study.breakers[index].rating.value, 1));
        }
        for (const ConnectionOption& option : connection.options) {
            if (option.chosen)
                rule = fmt::format("{}, {}", option.rule, text(option.cite));
        }
    }
}

} // namespace

Facts facts_of(const System& system, const Study& study) {
    Facts facts;
    project_facts(system, facts);
    site_facts(system.site, facts);
    size_facts(study.totals, facts);
    place_facts(system, facts);
    connection_facts(system, study, facts);
    return facts;
}

std::optional<std::string> filled(std::string_view text, const Facts& facts, Findings& findings) {
    std::string out;
    bool slots = false;
    bool values = false;
    while (!text.empty()) {
        const auto open = text.find('{');
        const auto close = text.find('}', open == std::string_view::npos ? 0 : open);
        if (open == std::string_view::npos || close == std::string_view::npos)
            break;
        out += text.substr(0, open);
        const auto slot = text.substr(open + 1, close - open - 1);
        const auto fact = facts.find(slot);
        slots = true;
        if (fact == facts.end()) {
            Finding finding;
            finding.rule = "sheet.slot_unknown";
            finding.message = fmt::format("no fact is called {{{}}}", slot);
            std::vector<std::string> names;
            for (const auto& [known, value] : facts)
                names.push_back(known);
            finding.expected = join(names, ", ");
            findings.push_back(std::move(finding));
        } else {
            values = values || !fact->second.empty();
            out += fact->second;
        }
        text.remove_prefix(close + 1);
    }
    out += text;
    if (slots && !values)
        return std::nullopt;
    return out;
}

} // namespace ohmfolio::sheets
