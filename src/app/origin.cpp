#include "app/origin.h"

#include <algorithm>

namespace ohmfolio {
namespace {

/// "MSP" of "bus:MSP" and of "port:MSP/in1".
std::string_view name_in(std::string_view shows) {
    const std::string_view name = shows.substr(shows.find(':') + 1);
    return name.substr(0, name.find('/'));
}

template <class Things, class Key>
const typename Things::value_type* called(const Things& things, Key key, std::string_view name) {
    const auto found = std::ranges::find(things, name, key);
    return found == things.end() ? nullptr : &*found;
}

Span of_circuit(const System& system, const Circuit& circuit) {
    return circuit.stated_size ? circuit.stated_size->span
           : circuit.run >= 0  ? system.runs[static_cast<std::size_t>(circuit.run)].span
                               : Span{};
}

Span of_breaker(const System& system, const Breaker& breaker) {
    return breaker.stated ? breaker.stated->span
           : breaker.circuit >= 0
               ? of_circuit(system, system.circuits[static_cast<std::size_t>(breaker.circuit)])
               : Span{};
}

Span place_of(const System& system, std::string_view name) {
    if (const Circuit* circuit = called(system.circuits, &Circuit::tag, name)) {
        return of_circuit(system, *circuit);
    }
    if (const Breaker* breaker = called(system.breakers, &Breaker::tag, name)) {
        return of_breaker(system, *breaker);
    }
    if (const Run* run = called(system.runs, &Run::tag, name)) {
        return run->span;
    }
    if (const int index = system.find(name); index >= 0) {
        return system.at(index).span;
    }
    if (const auto* controller = called(system.load_controllers, &LoadController::id, name)) {
        return controller->span;
    }
    if (const Record* record = called(system.catalogue.records, &Record::key, name)) {
        return record->span;
    }
    const auto& electrodes = system.grounding.electrodes;
    return name == "GEC" && !electrodes.empty() ? electrodes.front().span : Span{};
}

/// Derivations that say to be about it, where it has no name that `explain` knows.
std::string derivations_about(const System& system, const Study& study, std::string_view subject) {
    std::string text;
    for (const Derivation& derivation : study.worksheet.all()) {
        if (derivation.subject == subject) {
            text += explain(system, study, derivation.id);
        }
    }
    return text;
}

} // namespace

Origin origin_of(const System& system, const Study& study, std::string_view shows) {
    const std::string_view name = name_in(shows);
    Origin origin{place_of(system, name), explain(system, study, name)};
    if (origin.derivation.empty()) {
        origin.derivation = derivations_about(system, study, shows);
    }
    return origin;
}

} // namespace ohmfolio
