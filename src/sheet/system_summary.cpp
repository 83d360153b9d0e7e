#include "sheet/system_summary.h"

#include <map>

#include <fmt/format.h>

#include "base/text.h"

namespace ohmfolio::sheets {

namespace {

std::string product(const System& system, int record) {
    const Record& each = system.catalogue.records[static_cast<std::size_t>(record)];
    return fmt::format("{} {}", each.maker, each.model);
}

/// "(28) Solvane SV-405M; (2) ..." of counts by record, in the order of the catalogue.
std::string counted(const System& system, const std::map<int, int>& counts) {
    std::vector<std::string> parts;
    for (const auto& [record, count] : counts) {
        if (record >= 0 && count > 0)
            parts.push_back(fmt::format("({}) {}", count, product(system, record)));
    }
    return join(parts, "; ");
}

struct Counts {
    std::map<int, int> modules, microinverters, inverters, electronics, batteries, mids, generators,
        transfer_switches, load_controllers;
    int branches = 0;
    std::map<int, int> strings; ///< by modules in series
};

Counts counts_of(const System& system) {
    Counts counts;
    for (const Equipment& e : system.equipment) {
        if (const auto* array = e.as<BranchArray>()) {
            counts.modules[array->module] += array->count;
            counts.microinverters[array->microinverter] += array->count;
            ++counts.branches;
        }
        if (const auto* array = e.as<StringArray>()) {
            counts.modules[array->module] += array->modules();
            counts.electronics[array->electronics] += array->modules();
            counts.strings[array->in_series] += array->strings;
        }
        if (e.is<Inverter>())
            ++counts.inverters[e.record];
        if (e.is<Battery>())
            ++counts.batteries[e.record];
        if (e.is<Mid>())
            ++counts.mids[e.record];
        if (e.is<Generator>())
            ++counts.generators[e.record];
        if (e.is<TransferSwitch>())
            ++counts.transfer_switches[e.record];
    }
    for (const LoadController& controller : system.load_controllers)
        ++counts.load_controllers[controller.record];
    return counts;
}

/// "2 of 8, 1 of 7 modules".
std::string strings_text(const std::map<int, int>& strings) {
    std::vector<std::string> parts;
    for (auto it = strings.rbegin(); it != strings.rend(); ++it)
        parts.push_back(fmt::format("{} of {}", it->second, it->first));
    return parts.empty() ? std::string{} : join(parts, ", ") + " modules";
}

/// Loads that come with this work: "EV SUPPLY EQUIPMENT, 50 A, 9.6 kVA".
std::string added_loads(const System& system) {
    std::vector<std::string> parts;
    for (const Equipment& e : system.equipment) {
        const auto* panel = e.as<Panel>();
        if (panel == nullptr)
            continue;
        for (const LoadCircuit& load : panel->loads) {
            if (!load.added)
                continue;
            std::string text =
                fmt::format("{}, {} A", load.name, trimmed(load.breaker.value.value, 1));
            if (load.power)
                text += fmt::format(", {} kVA", trimmed(load.power->value.value / 1000, 2));
            parts.push_back(text);
        }
    }
    return join(parts, "; ");
}

std::string ratio(const Totals& totals) {
    return totals.ac.value > 0 ? decimal(totals.dc.value / totals.ac.value, 2) : std::string{};
}

std::string with(const std::string& value, std::string_view unit) {
    return value.empty() ? value : fmt::format("{} {}", value, unit);
}

const std::string& fact(const Facts& facts, std::string_view name) {
    static const std::string nothing;
    const auto found = facts.find(name);
    return found == facts.end() ? nothing : found->second;
}

/// "8.91 kW DC, of which 4.86 existing".
std::string with_existing(const std::string& value, std::string_view unit, double existing) {
    const std::string all = with(value, unit);
    return value.empty() || existing <= 0
               ? all
               : fmt::format("{}, of which {} existing", all, trimmed(existing / 1000, 2));
}

std::string inverter_output(const Facts& facts, const Totals& totals) {
    if (fact(facts, "size_ac").empty())
        return {};
    return fmt::format("{}, {} A at {} V",
                       with_existing(fact(facts, "size_ac"), "kW AC", totals.existing_ac.value),
                       fact(facts, "pv_current"), fact(facts, "voltage"));
}

std::string storage(const Facts& facts, const Totals& totals) {
    if (fact(facts, "size_storage").empty())
        return {};
    std::string text =
        with_existing(fact(facts, "size_storage"), "kWh", totals.existing_storage.value);
    // On the direct-current side of an inverter the output is the inverter's.
    if (!fact(facts, "storage_ac").empty())
        text += fmt::format(", {} kVA, {} A", fact(facts, "storage_ac"),
                            fact(facts, "storage_current"));
    return text;
}

/// "(1) Tarnmoor TG-18, 18 kVA".
std::string generator(const System& system, const std::map<int, int>& counts) {
    const std::string products = counted(system, counts);
    if (counts.size() != 1)
        return products;
    const auto& record = system.catalogue.records[static_cast<std::size_t>(counts.begin()->first)];
    const auto& ratings = std::get<GeneratorRatings>(record.ratings);
    return fmt::format("{}, {} kVA", products, trimmed(ratings.output.value / 1000, 2));
}

std::string connection(const Facts& facts) {
    if (fact(facts, "connection_panel").empty())
        return {};
    std::string text = fact(facts, "connection_panel");
    if (!fact(facts, "connection_breaker").empty())
        text += ", " + fact(facts, "connection_breaker");
    if (!fact(facts, "connection_rule").empty())
        text += fmt::format(". {}", fact(facts, "connection_rule"));
    if (!fact(facts, "connection_ahead").empty())
        text += fmt::format(". Onward through {}", fact(facts, "connection_ahead"));
    return text;
}

std::string service(const Facts& facts) {
    return fmt::format("{}, {} A", fact(facts, "supply"), fact(facts, "service_amps"));
}

} // namespace

std::vector<Fact> project_rows(const System& system) {
    const Project& project = system.project;
    return {{"Owner", project.owner},
            {"Address", project.address},
            {"Parcel", project.parcel},
            {"Occupancy", project.occupancy},
            {"Jurisdiction", project.jurisdiction},
            {"Utility", project.utility}};
}

std::vector<Fact> system_rows(const System& system, const Study& study, const Facts& facts) {
    const Counts counts = counts_of(system);
    return {{"Modules", counted(system, counts.modules)},
            {"Microinverters", counted(system, counts.microinverters)},
            {"Module electronics", counted(system, counts.electronics)},
            {"Inverters", counted(system, counts.inverters)},
            {"Branch circuits", counts.branches > 0 ? trimmed(counts.branches, 0) : ""},
            {"Strings", strings_text(counts.strings)},
            {"Array, STC",
             with_existing(fact(facts, "size_dc"), "kW DC", study.totals.existing_dc.value)},
            {"Inverter output", inverter_output(facts, study.totals)},
            {"DC to AC ratio", ratio(study.totals)},
            {"Storage units", counted(system, counts.batteries)},
            {"Storage", storage(facts, study.totals)},
            {"Interconnect device", counted(system, counts.mids)},
            {"Generator", generator(system, counts.generators)},
            {"Transfer switch", counted(system, counts.transfer_switches)},
            {"Load controllers", counted(system, counts.load_controllers)},
            {"Power control", fact(facts, "power_control_system")},
            {"Added loads", added_loads(system)},
            {"Service", service(facts)},
            {"Point of connection", connection(facts)}};
}

std::vector<Fact> site_rows(const Facts& facts) {
    return {{"Coldest", fact(facts, "coldest")},
            {"Hottest", fact(facts, "hottest")},
            {"Climate source", fact(facts, "climate_source")},
            {"Design wind", fact(facts, "wind")},
            {"Ground snow", fact(facts, "snow")},
            {"Seismic category", fact(facts, "seismic")},
            {"Available fault current", with(fact(facts, "fault_current"), "kA at the service")}};
}

} // namespace ohmfolio::sheets
