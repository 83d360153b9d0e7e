// Sources that join the service conductors ahead of the main.

#include <fmt/format.h>

#include "code/supply_side_rules.h"
#include "study/steps.h"
#include "study/strings.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

/// All sources of the service, on either side of its main.
std::optional<Term<Amps>> all_sources(const Work& work, int connection) {
    std::optional<Term<Amps>> sum;
    for (const int circuit : circuits_into(work.system, connection)) {
        const auto& sources = at(work.sources, circuit);
        if (sources)
            add_to(sum, *sources);
    }
    return sum;
}

/// The devices of the sources on the supply side: 2017 adds them up.
std::optional<Term<Amps>> all_devices(const Work& work, int connection) {
    std::optional<Term<Amps>> sum;
    for (const int circuit : circuits_into(work.system, connection)) {
        if (at(work.system.circuits, circuit).use != CircuitUse::supply_side ||
            !at(work.sources, circuit) || !at(work.load, circuit))
            continue;
        const Term<Amps> device = at(work.load, circuit)->overcurrent;
        add_to(sum, device);
    }
    return sum;
}

/// What is between the sources and the connection: the disconnect that serves as theirs.
const Disconnect* disconnect_of(const System& system, const Circuit& circuit) {
    return at(system.equipment, system.child_of(circuit)).as<Disconnect>();
}

SupplySideInput input_for(Work& work, int index, int connection) {
    const Circuit& circuit = at(work.system.circuits, index);
    const Equipment& here = at(work.system.equipment, connection);
    const Equipment& switched = at(work.system.equipment, work.system.child_of(circuit));
    const Record* record = work.system.record(here);
    const auto* ratings = work.system.ratings<DisconnectRatings>(switched);
    const Disconnect* disconnect = disconnect_of(work.system, circuit);
    const bool stated = disconnect != nullptr && disconnect->service;
    const bool listed = record != nullptr && !record->listing.empty();
    const auto* supply = here.as<SupplyConnection>();
    SupplySideInput input{
        .route = SupplyRoute::ahead_of_disconnect,
        .service = service_rating(work),
        .sources = *all_sources(work, connection),
        .connected = *at(work.sources, index),
        .conductor = at(work.study.circuits, index).size,
        .material = circuit.material,
        .ampacity = conductor_ampacity(work, index),
        .device = at(work.load, index)->overcurrent,
        .devices = all_devices(work, connection),
        .dwelling = is_dwelling(work.system),
        .place = {.length = at(work.system.runs, circuit.run).length,
                  .connection_outside = true,
                  .readily_accessible = stated,
                  .with_disconnect = stated && ratings != nullptr && ratings->fused},
        .connectors_suitable = listed,
        .service_rated = ratings != nullptr && ratings->service_equipment,
        .opens_all = ratings != nullptr && ratings->poles >= 2,
        .bonded_as_service = stated};
    const auto* rated = work.system.ratings<SupplyConnectionRatings>(here);
    if (supply->meter_adapter && rated != nullptr) {
        input.adapter = from_nameplate(work, *record, "rating", "I_adapter",
                                       "Rating of the meter-socket adapter", rated->rating);
        input.adapter_listed = listed;
    }
    return input;
}

void check_connection(Work& work, int connection) {
    for (const int index : circuits_into(work.system, connection)) {
        const Circuit& circuit = at(work.system.circuits, index);
        if (circuit.use != CircuitUse::supply_side || !at(work.sources, index) ||
            !at(work.study.circuits, index).sized)
            continue;
        const Equipment& switched = at(work.system.equipment, work.system.child_of(circuit));
        complain_of_verdicts(
            work,
            // Several sources may join here, each through a disconnect of its own.
            check_supply_side(work.desk(subject_of(switched)), input_for(work, index, connection)),
            {.rule = {},
             .span = switched.span,
             .message =
                 fmt::format("{} at {}", switched.id, at(work.system.equipment, connection).id),
             .expected = "a fused disconnect suitable as service equipment, whose use names "
                         "\"service\""});
    }
}

} // namespace

void check_supply_connections(Work& work) {
    for (int i = 0; i < static_cast<int>(work.system.equipment.size()); ++i) {
        if (at(work.system.equipment, i).is<SupplyConnection>())
            check_connection(work, i);
    }
}

} // namespace ohmfolio::workings
