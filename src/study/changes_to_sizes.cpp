// Breakers, conductors, grounds and raceways of another size.

#include "study/changes.h"

#include <algorithm>
#include <functional>

#include <fmt/format.h>

#include "study/topology.h"

namespace ohmfolio::workings {

namespace {

/// Standard ratings above the breaker's, smallest first.
Candidates larger_breakers(const Situation& here, int breaker) {
    Candidates candidates;
    if (breaker < 0 || !at(here.system.breakers, breaker).stated)
        return candidates;
    auto rating = at(here.system.breakers, breaker).stated->value;
    while (candidates.size() < most_remedies) {
        const auto next = here.book.standard_rating_up(Amps{rating.value + 1});
        if (!next)
            break;
        rating = *next;
        Candidate candidate{
            fmt::format("{} for {}", shown(rating), at(here.system.breakers, breaker).tag),
            here.system};
        at(candidate.system.breakers, breaker).stated->value = rating;
        candidates.push_back(std::move(candidate));
    }
    return candidates;
}

} // namespace

Candidates larger_branch_breaker(const Situation& here) {
    const int index = here.equipment();
    const auto circuits = index < 0 ? std::vector<int>{} : circuits_from(here.system, index);
    return circuits.empty()
               ? Candidates{}
               : larger_breakers(here, protecting_breaker(here.system, circuits.front()));
}

Candidates larger_breaker(const Situation& here) {
    return larger_breakers(here, here.tagged(here.system.breakers));
}

Candidate left_to_be_sized(const Situation& here, std::size_t breaker) {
    Candidate candidate{
        fmt::format("the rating of {} left to be sized", here.system.breakers[breaker].tag),
        here.system};
    candidate.system.breakers[breaker].stated.reset();
    return candidate;
}

/// Every stated breaker of the finding's place left to be sized.
Candidates breaker_left_out(const Situation& here) {
    Candidates candidates;
    for (std::size_t i = 0; i < here.system.breakers.size(); ++i) {
        const Breaker& breaker = here.system.breakers[i];
        if (!breaker.stated || breaker.stated->span != here.finding.span)
            continue;
        candidates.push_back(left_to_be_sized(here, i));
    }
    return candidates;
}

Candidates smallest_conductor(const Situation& here) {
    const int index = here.tagged(here.system.circuits);
    if (index < 0 || !at(here.system.circuits, index).stated_size)
        return {};
    const WireSize size = at(here.study.circuits, index).smallest;
    Candidate candidate{fmt::format("{} for {}", name(size), here.key()), here.system};
    at(candidate.system.circuits, index).stated_size->value = size;
    return {candidate};
}

namespace {

/// Circuits that a voltage rise runs through, the one that adds most first; trunk cable is what it
/// is.
std::vector<int> circuits_of_rise(const Situation& here) {
    std::vector<int> circuits;
    const Derivation* total = here.study.worksheet.find("rise.total");
    for (int i = 0; total != nullptr && i < static_cast<int>(here.system.circuits.size()); ++i) {
        const std::string line = at(here.system.circuits, i).tag + ".voltage_change";
        if (std::ranges::find(total->from, line) != total->from.end() &&
            !at(here.study.circuits, i).listed_assembly)
            circuits.push_back(i);
    }
    std::ranges::stable_sort(circuits, std::greater{}, [&](int i) {
        return at(here.study.circuits, i).voltage_change_volts;
    });
    return circuits;
}

} // namespace

/// Larger sizes for a whole run, as the description states them, until one is enough.
Candidates larger_conductors(const Situation& here) {
    Candidates candidates;
    for (const int index : circuits_of_rise(here)) {
        const Circuit& circuit = at(here.system.circuits, index);
        for (const WireSize size : here.book.listed_sizes(circuit.material)) {
            if (size <= at(here.study.circuits, index).size)
                continue;
            Candidate candidate{fmt::format("{} for {}", name(size), called(here.system, circuit)),
                                here.system};
            for (const int other : at(here.system.runs, circuit.run).circuits) {
                at(candidate.system.circuits, other).stated_size = Spanned<WireSize>{size, {}};
            }
            candidates.push_back(std::move(candidate));
        }
    }
    return candidates;
}

Candidates ground_left_out(const Situation& here) {
    const int index = here.tagged(here.system.circuits);
    if (index < 0)
        return {};
    Candidate candidate{
        fmt::format("equipment grounding conductor of {} left to be sized", here.key()),
        here.system};
    at(candidate.system.circuits, index).stated_equipment_ground.reset();
    return {candidate};
}

Candidates larger_raceway(const Situation& here) {
    const int index = here.tagged(here.system.runs);
    if (index < 0 || !at(here.system.runs, index).stated_trade_size)
        return {};
    Candidates candidates;
    for (int step = at(here.system.runs, index).stated_trade_size->value.step + 1;
         step < static_cast<int>(trade_size_names.size()); ++step) {
        Candidate candidate{fmt::format("{} in for {}", name(TradeSize{step}), here.key()),
                            here.system};
        at(candidate.system.runs, index).stated_trade_size->value = TradeSize{step};
        candidates.push_back(std::move(candidate));
    }
    return candidates;
}

/// The device ahead of the disconnect left to be sized: the smallest that complies.
Candidates protection_left_out(const Situation& here) {
    const int index = here.equipment();
    const auto circuits = index < 0 ? std::vector<int>{} : circuits_from(here.system, index);
    const int breaker = circuits.empty() ? -1 : protecting_breaker(here.system, circuits.front());
    if (breaker < 0 || !at(here.system.breakers, breaker).stated)
        return {};
    Candidate candidate{
        fmt::format("the rating of {} left to be sized", at(here.system.breakers, breaker).tag),
        here.system};
    at(candidate.system.breakers, breaker).stated.reset();
    return {candidate};
}

/// The breaker that protects the bus of the finding, or through which its sources arrive, left to
/// be sized: the smallest that complies leaves the most room.
Candidates smaller_feeder(const Situation& here) {
    Candidates candidates;
    const int index = here.equipment();
    for (std::size_t i = 0; index >= 0 && i < here.system.breakers.size(); ++i) {
        const Breaker& breaker = here.system.breakers[i];
        const Circuit& circuit = at(here.system.circuits, breaker.circuit);
        const bool near = breaker.at == index || here.system.child_of(circuit) == index;
        if (!near || !breaker.stated)
            continue;
        candidates.push_back(left_to_be_sized(here, i));
    }
    return candidates;
}

} // namespace ohmfolio::workings
