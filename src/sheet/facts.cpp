#include "sheet/facts.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/name_runs.h"
#include "base/text.h"
#include "diagram/callouts.h"
#include "sheet/places.h"
#include "study/fault_currents.h"

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
    facts["designer_phone"] = project.designer_phone;
    facts["designer_web"] = project.designer_web;
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
    facts["wind"] = site.wind;
    facts["snow"] = site.snow;
    facts["seismic"] = site.seismic;
    facts["voltage"] = trimmed(site.voltage.value, 1);
    facts["to_neutral"] = trimmed(site.to_neutral.value, 1);
    facts["supply"] = supply_words(site, lines_of(site.supply));
    facts["service_amps"] = number_or_nothing(site.service.value, 1);
}

/// When the fault current was worked out, as its marking says: here at the date of the issue, or by
/// the utility, whose date is not ours to state and is written in.
void fault_facts(const System& system, const Study& study, Facts& facts) {
    const ServiceFault fault = fault_at_service(system, study);
    facts["fault_current"] = thousands(fault.current.value);
    facts["fault_calculated"] = fault.calculated ? system.project.date : "____________";
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

/// Highest voltage of these units for direct current; empty where there are none.
std::string storage_dc_voltage(const System& system, const std::vector<int>& units) {
    double highest = 0;
    for (const int e : units) {
        if (const auto* ratings = system.ratings<BatteryRatings>(system.at(e)))
            highest = std::max(highest, ratings->highest.value);
    }
    return number_or_nothing(std::ceil(highest - 1e-9), 0);
}

/// "32 A"; of several breakers "16 A (Q3, Q4), 24 A (Q5)".
std::string current_words(const System& system, const Study& study,
                          const std::vector<int>& circuits) {
    std::map<std::string, std::vector<std::string>> tags; // by current
    std::vector<std::string> currents;
    for (const int c : circuits) {
        const std::string current =
            trimmed(study.circuits[static_cast<std::size_t>(c)].current.value, 2) + " A";
        const Breaker* breaker = system.breaker_of(c);
        auto& of_current = tags[current];
        if (of_current.empty())
            currents.push_back(current);
        of_current.push_back(breaker ? breaker->tag
                                     : system.circuits[static_cast<std::size_t>(c)].tag);
    }
    if (circuits.size() > 1) {
        for (std::string& current : currents)
            current += fmt::format(" ({})", runs(tags[current], " to ", all_pieces));
    }
    return join(currents, ", ");
}

/// Circuits for direct current, or for alternating current, among these.
std::vector<int> circuits_of_kind(const System& system, std::vector<int> circuits, bool direct) {
    std::erase_if(circuits, [&](int c) {
        return system.circuits[static_cast<std::size_t>(c)].direct_current != direct;
    });
    return circuits;
}

/// Of the source that `disconnect` cuts off, by the calculation of the circuits there.
void cut_off_facts(const System& system, const Study& study, const Place& place, int disconnect,
                   Facts& facts) {
    const CutOff cut_off = cut_off_by(system, place.source, disconnect);
    auto ac = circuits_of_kind(system, cut_off.circuits, false);
    // Strings meet the other sources at the output of their inverter.
    if (ac.empty() && system.at(disconnect).is<Inverter>())
        ac = circuits_of_kind(
            system, system.relations.circuits_from[static_cast<std::size_t>(disconnect)], false);
    const auto dc = circuits_of_kind(system, cut_off.circuits, true);
    facts["source_current"] = current_words(system, study, ac);
    facts["source_voltage"] =
        ac.empty() ? std::string{} : trimmed(system.site.voltage.value, 1) + " V";
    facts["source_dc_current"] = current_words(system, study, dc);
    facts["source_dc_voltage"] = storage_dc_voltage(system, cut_off.units);
    std::vector<int> others = place.list(system, study);
    std::erase(others, disconnect);
    facts["other_disconnects"] = ids(system, others);
    facts["source_units"] = others.empty() ? std::string{} : ids(system, cut_off.units);
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
    const bool generator_apart = !generator_runs_beside(system);
    for (const SourceRow& row : source_directory(system)) {
        // Behind a transfer switch it never meets the others on a bus.
        if (row.source == generator_source && generator_apart)
            continue;
        if (std::find(names.begin(), names.end(), row.source) == names.end())
            names.push_back(row.source);
    }
    return join(names, "\n");
}

/// Type and place of each source that supplies loads while the utility is absent, on lines of their
/// own, as the sign at the service has them.
std::string standby_sources(const System& system, const Study& study) {
    std::vector<std::string> lines;
    const auto backs_up =
        std::any_of(system.equipment.begin(), system.equipment.end(), [](const Equipment& e) {
            const auto* panel = e.as<Panel>();
            return e.is<Mid>() || (panel && panel->backed_up);
        });
    const auto units = batteries(system);
    if (backs_up && !units.empty()) {
        lines.push_back(fmt::format("Type: energy storage system, {} kWh",
                                    thousands(study.totals.storage.value)));
        lines.push_back("Location: " + locations(system, units));
    }
    for (const int e : generators(system)) {
        const auto* ratings = system.ratings<GeneratorRatings>(system.at(e));
        lines.push_back(ratings ? fmt::format("Type: standby generator, {} kVA",
                                              thousands(ratings->output.value))
                                : std::string("Type: standby generator"));
        lines.push_back("Location: " + system.at(e).location);
    }
    return join(lines, "\n");
}

/// The highest voltage and current of the strings of these inverters, as their calculation has
/// them.
void string_facts(const System& system, const Study& study, const std::vector<int>& inverters,
                  Facts& facts) {
    double voltage = 0;
    double current = 0;
    for (std::size_t i = 0; i < system.circuits.size(); ++i) {
        const Circuit& circuit = system.circuits[i];
        if (circuit.use != CircuitUse::string ||
            std::ranges::find(inverters, system.parent_of(circuit)) == inverters.end())
            continue;
        const std::string& id = system.at(system.child_of(circuit)).id;
        for (const std::string_view name : {".string_voltage", ".converter_voltage"}) {
            if (const Derivation* found = study.worksheet.find(id + std::string(name)))
                voltage = std::max(voltage, found->value);
        }
        current = std::max(current, study.circuits[i].current.value);
    }
    // A highest value is told rounded up.
    facts["dc_voltage"] = number_or_nothing(std::ceil(voltage - 1e-9), 0);
    facts["dc_current"] = number_or_nothing(std::ceil(current * 10 - 1e-9) / 10, 1);
}

/// "MSP: sources 30 A, bus 200 A", each bus on a line.
std::string power_control_settings(const System& system) {
    std::vector<std::string> lines;
    for (const PowerControl& control : system.power_controls)
        lines.push_back(diagram::settings_of(system, control));
    return join(lines, "\n");
}

/// The same with what holds them: "MSP: sources 30 A, held by CP-1, UL 1741 PCS".
std::string power_control_systems(const System& system) {
    std::vector<std::string> lines;
    for (const PowerControl& control : system.power_controls) {
        std::string line = diagram::settings_of(system, control);
        if (control.by >= 0)
            line += fmt::format(", held by {}", system.at(control.by).id);
        if (!control.listing.empty())
            line += ", " + control.listing;
        lines.push_back(std::move(line));
    }
    return join(lines, "; ");
}

void place_facts(const System& system, Facts& facts) {
    const auto switches = rapid_shutdown_switches(system);
    facts["shutdown_switch"] =
        id_and_location(system, switches.empty() ? pv_disconnects(system) : switches);
    facts["pv_disconnect"] = id_and_location(system, pv_disconnects(system));
    facts["storage_disconnect"] = id_and_location(system, storage_disconnects(system));
    facts["service_location"] = id_and_location(system, service_equipment(system));
    facts["storage_dc_voltage"] = storage_dc_voltage(system, batteries(system));
    facts["storage_location"] = locations(system, batteries(system));
    facts["sources"] = source_names(system);
    facts["generator_location"] = locations(system, generators(system));
    facts["power_control"] = power_control_settings(system);
    facts["power_control_system"] = power_control_systems(system);
}

/// "40 A and 20 A breakers": those through which sources reach the bus.
std::string source_breaker_words(const System& system, const Study& study, int panel) {
    std::vector<std::string> ratings;
    for (const int i : source_breakers(system, panel)) {
        const Amps rating = study.breakers[static_cast<std::size_t>(i)].rating;
        ratings.push_back(fmt::format("{} A", trimmed(rating.value, 1)));
    }
    if (ratings.empty())
        return {};
    return join(ratings, " and ") + (ratings.size() == 1 ? " breaker" : " breakers");
}

/// Sources ahead of the service disconnect: where, and the paragraph that permits it.
bool supply_side_facts(const System& system, const Study& study, Facts& facts) {
    const auto disconnects = source_service_disconnects(system);
    if (disconnects.empty())
        return false;
    std::vector<std::string> connections, through, sections;
    const auto add_once = [](std::vector<std::string>& list, const std::string& words) {
        if (!words.empty() && std::ranges::find(list, words) == list.end())
            list.push_back(words);
    };
    for (const int disconnect : disconnects) {
        const Equipment& e = system.at(disconnect);
        const Equipment& connection = system.at(e.parent);
        add_once(connections, fmt::format("{} {}", connection.id, connection.title));
        add_once(sections, diagram::supply_section(system, study, e));
        through.push_back(e.id);
    }
    facts["connection_panel"] = join(connections, ", ");
    std::string rule = fmt::format("Ahead of the service disconnect through {}",
                                   runs(through, " to ", all_pieces));
    if (!sections.empty())
        rule += ", " + join(sections, ", ");
    facts["connection_rule"] = rule;
    return true;
}

/// True where all sources reach the bus from the bus of a further panel.
bool only_through_panels(const System& system, int panel) {
    const auto children = system.children(panel);
    return std::none_of(children.begin(), children.end(), [&](int child) {
        return brings_power(system, child) && !system.at(child).is<Panel>();
    });
}

void connection_facts(const System& system, const Study& study, Facts& facts) {
    std::string& panel = facts["connection_panel"];
    std::string& breaker = facts["connection_breaker"];
    std::string& rule = facts["connection_rule"];
    if (supply_side_facts(system, study, facts))
        return;
    std::vector<std::string> ahead; // panels that the sources pass on their way
    for (const ConnectionStudy& connection : study.connections) {
        if (connection.panel < 0 || !panel.empty())
            continue;
        const Equipment& e = system.at(connection.panel);
        if (only_through_panels(system, connection.panel)) {
            ahead.push_back(e.id);
            continue;
        }
        panel = fmt::format("{} {}", e.id, e.title);
        breaker = source_breaker_words(system, study, connection.panel);
        for (const ConnectionOption& option : connection.options) {
            if (option.chosen)
                rule = fmt::format("{}, {}", option.rule, text(option.cite));
        }
        if (const auto reliance = diagram::reliance_of(system, study, connection);
            !reliance.empty())
            rule += ", " + reliance;
    }
    std::reverse(ahead.begin(), ahead.end());
    facts["connection_ahead"] = join(ahead, ", ");
}

} // namespace

std::string supply_words(const Site& site, int lines) {
    std::string words = site.to_neutral.value > 0 ? trimmed(site.to_neutral.value, 1) + "/" : "";
    words += trimmed(site.voltage.value, 1) + " V";
    if (lines == 3)
        words += ", 3 phase, 4 wire";
    if (lines == 2 && is_wye(site.supply))
        words += ", 1 phase, 3 wire, of a wye";
    return words;
}

Facts facts_of(const System& system, const Study& study) {
    Facts facts;
    project_facts(system, facts);
    site_facts(system.site, facts);
    fault_facts(system, study, facts);
    size_facts(study.totals, facts);
    place_facts(system, facts);
    facts["standby_sources"] = standby_sources(system, study);
    string_facts(system, study, string_inverters(system), facts);
    connection_facts(system, study, facts);
    return facts;
}

Facts facts_at(const System& system, const Study& study, const Place& place, int equipment) {
    Facts facts;
    if (place.source != Source::neither)
        cut_off_facts(system, study, place, equipment, facts);
    if (system.at(equipment).is<Inverter>())
        string_facts(system, study, {equipment}, facts);
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
