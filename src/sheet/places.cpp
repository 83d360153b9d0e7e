#include "sheet/places.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/name_runs.h"
#include "base/text.h"

namespace ohmfolio::sheets {

namespace {

template <class Wanted> std::vector<int> all_of_kind(const System& system, Wanted wanted) {
    std::vector<int> list;
    for (int i = 0; i < static_cast<int>(system.equipment.size()); ++i) {
        if (wanted(system.at(i)))
            list.push_back(i);
    }
    return list;
}

/// Which source lies at and beyond `equipment`. A panel or interconnect device takes part in more
/// than one system, whatever hangs on it.
Source source_beyond(const System& system, int equipment) {
    bool pv = false;
    bool storage = false;
    for (const int e : system.subtree(equipment)) {
        const Equipment& each = system.at(e);
        const auto* panel = each.as<Panel>();
        if ((panel && !panel->collects) || each.is<Mid>() || each.is<SupplyConnection>() ||
            each.is<Utility>())
            return Source::mixed;
        pv = pv || each.is<BranchArray>() || each.is<StringArray>();
        storage = storage || each.is<Battery>();
    }
    if (pv && storage)
        return Source::mixed;
    return pv ? Source::photovoltaic : storage ? Source::storage : Source::neither;
}

bool is_source(const Equipment& e) {
    return e.is<BranchArray>() || e.is<StringArray>() || e.is<Battery>();
}

/// Units that hold a disconnecting means of their own.
bool disconnects_itself(const System& system, int equipment) {
    const auto* ratings = system.ratings<BatteryRatings>(system.at(equipment));
    return ratings && ratings->disconnect;
}

int count_of_source(const System& system, int equipment) {
    const auto below = system.subtree(equipment);
    return static_cast<int>(
        std::count_if(below.begin(), below.end(), [&](int e) { return is_source(system.at(e)); }));
}

/// The disconnect nearest the utility behind which all of the source below `top` lies; where there
/// is none, units that hold one, else the equipment above, which holds the breaker or, of strings,
/// the switch.
int disconnect_of(const System& system, int top) {
    const int all = count_of_source(system, top);
    int e = top;
    while (count_of_source(system, e) == all) {
        if (system.at(e).is<Disconnect>())
            return e;
        const auto children = system.children(e);
        if (children.empty())
            break;
        e = children.front();
    }
    return disconnects_itself(system, top) ? top : system.at(top).parent;
}

/// The equipment nearest the utility at and beyond which this source lies alone.
std::vector<int> tops_of(const System& system, Source source) {
    std::vector<int> list;
    for (int e = 0; e < static_cast<int>(system.equipment.size()); ++e) {
        const int parent = system.at(e).parent;
        if (parent >= 0 && source_beyond(system, e) == source &&
            source_beyond(system, parent) != source)
            list.push_back(e);
    }
    return list;
}

std::vector<int> disconnects_of(const System& system, Source source) {
    std::vector<int> list;
    for (const int top : tops_of(system, source)) {
        const int found = disconnect_of(system, top);
        if (std::find(list.begin(), list.end(), found) == list.end())
            list.push_back(found);
    }
    return list;
}

std::vector<int> connection_panels(const Study& study) {
    std::vector<int> list;
    for (const ConnectionStudy& connection : study.connections) {
        if (std::find(list.begin(), list.end(), connection.panel) == list.end())
            list.push_back(connection.panel);
    }
    return list;
}

/// Lugs, as of feed-through conductors, hold no breaker that could be relocated.
std::vector<int> source_breaker_panels(const System& system, const Study& study) {
    std::vector<int> list = connection_panels(study);
    std::erase_if(list, [&](int panel) { return source_breakers(system, panel).empty(); });
    return list;
}

bool holds_several_sources(const System& system, int equipment) {
    const Equipment& each = system.at(equipment);
    // A combiner is fed by its branches and back from the bus it feeds.
    if (!each.is<Panel>() && !each.is<Mid>() && !each.is<Combiner>())
        return false;
    const auto below = system.subtree(equipment);
    return std::any_of(below.begin(), below.end(), [&](int e) { return is_source(system.at(e)); });
}

std::vector<int> several_sources(const System& system, const Study&) {
    std::vector<int> list;
    for (int e = 0; e < static_cast<int>(system.equipment.size()); ++e) {
        if (holds_several_sources(system, e))
            list.push_back(e);
    }
    return list;
}

std::vector<int> bonding_point(const System& system, const Study&) {
    return system.grounding.at >= 0 ? std::vector<int>{system.grounding.at} : std::vector<int>{};
}

/// One list after the other, nothing twice.
std::vector<int> joined(const std::vector<std::vector<int>>& lists) {
    std::vector<int> all;
    for (const auto& list : lists) {
        for (const int e : list) {
            if (std::find(all.begin(), all.end(), e) == all.end())
                all.push_back(e);
        }
    }
    return all;
}

/// "MSP main breaker", "SD-1".
std::string utility_disconnect(const System& system, int equipment) {
    const Equipment& e = system.at(equipment);
    return e.is<Disconnect>() ? e.id : e.id + " main breaker";
}

std::string generator_disconnect(const System& system, int equipment) {
    const Equipment& e = system.at(equipment);
    return e.is<Disconnect>() ? e.id : e.id + " breaker";
}

SourceRow row(const System& system, std::string source, std::string disconnect, int equipment) {
    return {std::move(source), std::move(disconnect), system.at(equipment).location, {equipment}};
}

/// The rows of one source; where several disconnects share it, each tells what it cuts off.
void add_rows(const System& system, Source source, const std::string& name,
              std::vector<SourceRow>& rows) {
    const auto disconnects = disconnects_of(system, source);
    for (const int e : disconnects) {
        rows.push_back(row(system, name, system.at(e).id, e));
        if (disconnects.size() > 1)
            rows.back().units = cut_off_by(system, source, e).units;
    }
}

} // namespace

CutOff cut_off_by(const System& system, Source source, int disconnect) {
    CutOff result;
    for (const int top : tops_of(system, source)) {
        if (disconnect_of(system, top) != disconnect)
            continue;
        // What holds the breaker is told by what comes to it, a switch by what leaves it.
        const bool holds_breaker = disconnect == system.at(top).parent;
        const int end = holds_breaker ? top : disconnect;
        const auto& circuits = system.relations.circuits_from[static_cast<std::size_t>(end)];
        result.circuits.insert(result.circuits.end(), circuits.begin(), circuits.end());
        for (const int e : system.subtree(top)) {
            if (is_source(system.at(e)))
                result.units.push_back(e);
        }
    }
    return result;
}

bool brings_power(const System& system, int equipment) {
    return count_of_source(system, equipment) > 0;
}

std::vector<int> source_breakers(const System& system, int panel) {
    std::vector<int> list;
    for (std::size_t i = 0; i < system.breakers.size(); ++i) {
        const Breaker& breaker = system.breakers[i];
        if (breaker.at != panel || breaker.circuit < 0)
            continue;
        const Circuit& circuit = system.circuits[static_cast<std::size_t>(breaker.circuit)];
        if (brings_power(system, system.child_of(circuit)))
            list.push_back(static_cast<int>(i));
    }
    return list;
}

std::vector<int> service_equipment(const System& system) {
    auto list = all_of_kind(system, [](const Equipment& e) {
        const auto* panel = e.as<Panel>();
        return panel && panel->service_equipment;
    });
    if (list.empty() && system.grounding.at >= 0)
        list.push_back(system.grounding.at);
    return list;
}

std::vector<int> pv_disconnects(const System& system) {
    return disconnects_of(system, Source::photovoltaic);
}

std::vector<int> storage_disconnects(const System& system) {
    return disconnects_of(system, Source::storage);
}

std::vector<int> rapid_shutdown_switches(const System& system) {
    return all_of_kind(system, [](const Equipment& e) {
        const auto* disconnect = e.as<Disconnect>();
        return disconnect && disconnect->rapid_shutdown;
    });
}

std::vector<int> source_service_disconnects(const System& system) {
    return all_of_kind(system, [&](const Equipment& e) {
        return e.is<Disconnect>() && e.parent >= 0 && system.at(e.parent).is<SupplyConnection>() &&
               e.as<Disconnect>()->service;
    });
}

std::vector<int> generators(const System& system) {
    return all_of_kind(system, [](const Equipment& e) { return e.is<Generator>(); });
}

std::vector<int> generator_disconnects(const System& system) {
    std::vector<int> list;
    for (const int e : generators(system)) {
        const int parent = system.at(e).parent;
        list.push_back(parent >= 0 && system.at(parent).is<Disconnect>() ? parent : e);
    }
    return list;
}

bool generator_runs_beside(const System& system) {
    const auto list = generators(system);
    return std::any_of(list.begin(), list.end(), [&](int e) {
        while (e >= 0 && !system.at(e).is<Mid>() && !system.at(e).is<TransferSwitch>())
            e = system.at(e).parent;
        return e >= 0 && system.at(e).is<Mid>();
    });
}

std::vector<int> string_inverters(const System& system) {
    return all_of_kind(system, [](const Equipment& e) { return e.is<Inverter>(); });
}

std::vector<int> power_control_places(const System& system) {
    std::vector<int> systems, guarded;
    for (const PowerControl& control : system.power_controls) {
        if (control.by >= 0)
            systems.push_back(control.by);
        guarded.push_back(control.at);
    }
    return joined({systems, guarded});
}

std::vector<int> batteries(const System& system) {
    return all_of_kind(system, [](const Equipment& e) { return e.is<Battery>(); });
}

const std::vector<Place>& places() {
    static const std::vector<Place> list = {
        {"service_equipment", "the service disconnecting means",
         [](const System& system, const Study&) { return service_equipment(system); }},
        {"pv_disconnects", "each disconnecting means of the photovoltaic system",
         [](const System& system, const Study&) { return pv_disconnects(system); },
         Source::photovoltaic},
        {"storage_disconnects", "each disconnecting means of the energy storage system",
         [](const System& system, const Study&) { return storage_disconnects(system); },
         Source::storage},
        {"generator_disconnects", "what disconnects each generator",
         [](const System& system, const Study&) { return generator_disconnects(system); }},
        {"rapid_shutdown_switches", "each disconnect that initiates rapid shutdown",
         [](const System& system, const Study&) { return rapid_shutdown_switches(system); }},
        {"connection_panels", "each panel whose bus a power source connects to",
         [](const System&, const Study& study) { return connection_panels(study); }},
        {"source_breaker_panels", "of these, each that holds a breaker of a power source",
         source_breaker_panels},
        {"service_and_sources", "the service and each disconnecting means of a source",
         [](const System& system, const Study&) {
             return joined({service_equipment(system), pv_disconnects(system),
                            storage_disconnects(system), generator_disconnects(system)});
         }},
        {"services", "the service disconnecting means, and that of sources ahead of the main",
         [](const System& system, const Study&) {
             return joined({service_equipment(system), source_service_disconnects(system)});
         }},
        {"source_service_disconnects", "the service disconnect of sources ahead of the main",
         [](const System& system, const Study&) { return source_service_disconnects(system); }},
        {"string_inverters", "each inverter that strings run to as direct current",
         [](const System& system, const Study&) { return string_inverters(system); }},
        {"power_control", "each power control system, and each panel or device whose bus it guards",
         [](const System& system, const Study&) { return power_control_places(system); }},
        {"several_sources",
         "combiners, panels and interconnect devices that more than one source supplies",
         several_sources},
        {"bonding_point", "where the neutral is bonded and the electrode conductor ends",
         bonding_point},
    };
    return list;
}

const Place* find_place(std::string_view name) {
    for (const Place& place : places()) {
        if (place.name == name)
            return &place;
    }
    return nullptr;
}

namespace {

/// Rows of one source at one location as one, "SW-1 to SW-12".
std::vector<SourceRow> gathered(const std::vector<SourceRow>& rows) {
    std::vector<SourceRow> out;
    std::vector<std::vector<std::string>> disconnects;
    for (const SourceRow& row : rows) {
        const auto known = std::find_if(out.begin(), out.end(), [&](const SourceRow& other) {
            return other.source == row.source && other.location == row.location;
        });
        if (known == out.end()) {
            out.push_back(row);
            disconnects.push_back({row.disconnect});
        } else {
            disconnects[static_cast<std::size_t>(known - out.begin())].push_back(row.disconnect);
            known->at.insert(known->at.end(), row.at.begin(), row.at.end());
            known->units.insert(known->units.end(), row.units.begin(), row.units.end());
        }
    }
    for (std::size_t i = 0; i < out.size(); ++i)
        out[i].disconnect = runs(disconnects[i], " to ", all_pieces);
    return out;
}

} // namespace

std::vector<SourceRow> source_directory(const System& system) {
    constexpr std::size_t many = 8; // more lines than a sign is read with
    std::vector<SourceRow> rows;
    for (const int e : service_equipment(system))
        rows.push_back(row(system, "Utility", utility_disconnect(system, e), e));
    add_rows(system, Source::photovoltaic, "Photovoltaic system", rows);
    add_rows(system, Source::storage, "Energy storage system", rows);
    for (const int e : generator_disconnects(system))
        rows.push_back(
            row(system, std::string(generator_source), generator_disconnect(system, e), e));
    return rows.size() > many ? gathered(rows) : rows;
}

std::string ids(const System& system, const std::vector<int>& equipment) {
    std::vector<std::string> names;
    for (const int e : equipment)
        names.push_back(system.at(e).id);
    return runs(names, " to ", all_pieces);
}

std::string locations(const System& system, const std::vector<int>& equipment) {
    std::vector<std::string> names;
    for (const int e : equipment) {
        const std::string& location = system.at(e).location;
        if (!location.empty() && std::find(names.begin(), names.end(), location) == names.end())
            names.push_back(location);
    }
    return join(names, "; ");
}

} // namespace ohmfolio::sheets
