#include "study/topology.h"

#include <algorithm>

#include "base/text.h"

namespace ohmfolio::workings {

namespace {

std::string_view number_at_end(std::string_view terminal) {
    const auto last_letter = terminal.find_last_not_of("0123456789");
    return last_letter == std::string_view::npos ? terminal : terminal.substr(last_letter + 1);
}

template <class Kind> std::vector<int> all_below(const System& system, int equipment) {
    std::vector<int> result;
    for (const int i : system.subtree(equipment)) {
        if (at(system.equipment, i).is<Kind>())
            result.push_back(i);
    }
    std::ranges::sort(result);
    return result;
}

/// `taken` tells, by circuit, whether it is in `order`.
void append_with_feeders(const System& system, int circuit, std::vector<bool>& taken,
                         std::vector<int>& order) {
    if (taken[static_cast<std::size_t>(circuit)])
        return;
    for (const int feeder : feeding(system, circuit)) {
        append_with_feeders(system, feeder, taken, order);
    }
    taken[static_cast<std::size_t>(circuit)] = true;
    order.push_back(circuit);
}

} // namespace

const std::vector<int>& circuits_from(const System& system, int equipment) {
    return at(system.relations.circuits_from, equipment);
}

const std::vector<int>& circuits_into(const System& system, int equipment) {
    return at(system.relations.circuits_into, equipment);
}

int next_circuit(const System& system, int circuit) {
    const Circuit& here = at(system.circuits, circuit);
    if (here.direct_current && at(system.equipment, system.parent_of(here)).is<Inverter>())
        return -1; // a converter: another circuit begins behind it
    const auto& onward = circuits_from(system, system.parent_of(here));
    if (onward.empty())
        return -1;
    if (onward.size() == 1)
        return onward.front();
    const auto spliced = std::ranges::find_if(onward, [&](int i) {
        return number_at_end(at(system.circuits, i).from) == number_at_end(here.to);
    });
    return spliced == onward.end() ? onward.front() : *spliced;
}

std::vector<int> feeding(const System& system, int circuit) {
    std::vector<int> result;
    for (const int i : circuits_into(system, system.child_of(at(system.circuits, circuit)))) {
        if (next_circuit(system, i) == circuit)
            result.push_back(i);
    }
    return result;
}

std::vector<int> sources_first(const System& system) {
    std::vector<int> order;
    std::vector<bool> taken(system.circuits.size());
    for (int i = 0; i < static_cast<int>(system.circuits.size()); ++i) {
        append_with_feeders(system, i, taken, order);
    }
    return order;
}

int breaker_of(const System& system, int circuit) {
    return at(system.relations.breaker_of, circuit);
}

int protecting_breaker(const System& system, int circuit) {
    for (int i = circuit; i >= 0; i = next_circuit(system, i)) {
        const int breaker = breaker_of(system, i);
        if (breaker >= 0)
            return breaker;
        if (is_bus(at(system.equipment, system.parent_of(at(system.circuits, i)))))
            return -1;
    }
    return -1;
}

int device_behind(const System& system, int circuit) {
    for (const int feeder : feeding(system, circuit)) {
        const int breaker = breaker_of(system, feeder);
        if (breaker >= 0)
            return breaker;
    }
    return -1;
}

int run_of(const System& system, int equipment) { return at(system.relations.run_from, equipment); }

bool is_bus(const Equipment& e) {
    return e.is<Combiner>() || e.is<Mid>() || e.is<Panel>() || e.is<TransferSwitch>() ||
           e.is<SupplyConnection>();
}

bool has_device_ahead(const System& system, int equipment) {
    const auto has_device = [&](int i) {
        const Equipment& e = at(system.equipment, i);
        const auto* panel = e.as<Panel>();
        const auto* transfer = system.ratings<TransferSwitchRatings>(e);
        return (panel != nullptr && panel->main) ||
               (transfer != nullptr && transfer->service_equipment) ||
               std::ranges::any_of(circuits_from(system, i),
                                   [&](int circuit) { return breaker_of(system, circuit) >= 0; });
    };
    return first_upward(system, equipment, has_device) >= 0;
}

bool is_source(const Equipment& e) {
    return e.is<BranchArray>() || e.is<Inverter>() || e.is<Battery>();
}

bool is_dc_storage(const Circuit& circuit) {
    return circuit.direct_current && circuit.use == CircuitUse::storage;
}

bool backs_up(const System& system, int inverter) {
    return at(system.equipment, inverter).is<Inverter>() &&
           std::ranges::any_of(circuits_into(system, inverter), [&](int i) {
               return at(system.circuits, i).use == CircuitUse::backup_feeder;
           });
}

bool forms_by_sun(const System& system, const Equipment& e) {
    if (const auto* branch = e.as<BranchArray>()) {
        return std::get<MicroinverterRatings>(
                   at(system.catalogue.records, branch->microinverter).ratings)
            .grid_forming;
    }
    const auto* ratings = system.ratings<StringInverterRatings>(e);
    return ratings != nullptr && ratings->backup.by_sun_alone &&
           std::ranges::any_of(system.children(system.find(e.id)), [&](int child) {
               return at(system.equipment, child).is<StringArray>();
           });
}

bool has_sources(const System& system, int equipment) {
    return std::ranges::any_of(system.subtree(equipment),
                               [&](int i) { return is_source(at(system.equipment, i)); });
}

bool is_on_supply_side(const System& system, int equipment) {
    const auto is_of_sources = [&](int circuit) {
        return at(system.circuits, circuit).use == CircuitUse::supply_side;
    };
    return first_upward(system, equipment, [&](int i) {
               return std::ranges::any_of(circuits_from(system, i), is_of_sources);
           }) >= 0;
}

std::vector<int> branches_below(const System& system, int equipment) {
    return all_below<BranchArray>(system, equipment);
}

std::vector<int> batteries_below(const System& system, int equipment) {
    return all_below<Battery>(system, equipment);
}

std::vector<int> generators_below(const System& system, int equipment) {
    return all_below<Generator>(system, equipment);
}

int island_head(const System& system, int equipment) {
    return first_upward(system, equipment, [&](int i) {
        const Equipment& e = at(system.equipment, i);
        return e.is<Mid>() || e.is<TransferSwitch>() || backs_up(system, i);
    });
}

const MicroinverterRatings& microinverter_of(const System& system, const Circuit& trunk) {
    const auto& branch = std::get<BranchArray>(at(system.equipment, system.child_of(trunk)).detail);
    return std::get<MicroinverterRatings>(
        at(system.catalogue.records, branch.microinverter).ratings);
}

bool is_dwelling(const System& system) {
    const std::string occupancy = upper(system.project.occupancy);
    return occupancy.find("DWELLING") != std::string::npos ||
           occupancy.find("R-3") != std::string::npos;
}

Celsius terminals(const System& system, const Circuit& circuit) {
    Celsius lowest{90};
    for (const int end : {system.child_of(circuit), system.parent_of(circuit)}) {
        if (const Record* record = system.record(at(system.equipment, end)))
            lowest = std::min(lowest, record->terminals);
    }
    return lowest;
}

std::string ends(const System& system, const Circuit& circuit) {
    return at(system.equipment, system.child_of(circuit)).id + " to " +
           at(system.equipment, system.parent_of(circuit)).id;
}

std::string called(const System& system, const Circuit& circuit) {
    return circuit.tag + " (" + ends(system, circuit) + ")";
}

std::string subject_of(const Circuit& circuit) { return "circuit:" + circuit.tag; }
std::string subject_of(const Breaker& breaker) { return "breaker:" + breaker.tag; }
std::string subject_of(const Run& run) { return "run:" + run.tag; }
std::string subject_of(const Equipment& equipment) { return "equipment:" + equipment.id; }

std::string pair_subject(const System& system, const BranchArray& branch) {
    return "pair:" + at(system.catalogue.records, branch.module).key + "+" +
           at(system.catalogue.records, branch.microinverter).key;
}

} // namespace ohmfolio::workings
