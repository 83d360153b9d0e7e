// Overcurrent devices: a stated rating is checked, one left out is chosen.

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/text.h"
#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

std::string_view overcurrent_rule(const Work& work, const Breaker& breaker) {
    return at(work.system.circuits, breaker.circuit).use == CircuitUse::storage
               ? paragraph::storage_overcurrent
               : paragraph::source_overcurrent;
}

Complaint too_small(const Work& work, const Breaker& breaker, const Term<Amps>& required) {
    const Circuit& circuit = at(work.system.circuits, breaker.circuit);
    const auto standard = work.book.standard_rating_up(required.value);
    return {.rule = "breaker.rating",
            .span = breaker.stated->span,
            .message = fmt::format(
                "{} is {}, below {} % of {}'s {}: {}", breaker.tag, shown(breaker.stated->value),
                trimmed(100 * work.book.number(paragraph::continuous_source), 0), circuit.tag,
                shown(at(work.sources, breaker.circuit)->value), shown(required.value)),
            .expected = standard ? fmt::format("{}, the next standard rating", shown(*standard))
                                 : std::string("a smaller circuit: no standard rating is enough")};
}

Complaint not_standard(const Work& work, const Breaker& breaker) {
    const auto standard = work.book.standard_rating_up(breaker.stated->value);
    return {.rule = "breaker.rating",
            .span = breaker.stated->span,
            .message = fmt::format("{} is {}, which is not a standard rating", breaker.tag,
                                   shown(breaker.stated->value)),
            .expected = standard ? fmt::format("{}, the next standard rating", shown(*standard))
                                 : std::string("a standard rating")};
}

Complaint none_fits(const Work& work, const Breaker& breaker, const Term<Amps>& required) {
    const Equipment& place = at(work.system.equipment, breaker.at);
    return {.rule = "breaker.none",
            .span = place.span,
            .message = fmt::format("{} at {}: no breaker that fits there carries the {} of {}",
                                   breaker.tag, place.id, shown(required.value),
                                   called(work.system, at(work.system.circuits, breaker.circuit))),
            .expected = "a smaller circuit"};
}

/// A failing check made by a rule of the code book since the worksheet held `before` lines.
void complain_of_failures(Work& work, std::size_t before, const Complaint& complaint) {
    for (const std::string& id : ids_since(work.study, before)) {
        if (work.study.derivation(id).verdict == Verdict::fail)
            complain(work, id, complaint);
    }
}

/// Too small is said first: a size that is both is mended by one change.
void check_stated(Work& work, const Breaker& breaker, const Term<Amps>& stated,
                  const Term<Amps>& required) {
    const std::string subject = subject_of(breaker);
    if (check_overcurrent_rating(work.desk(subject), stated, required,
                                 overcurrent_rule(work, breaker)))
        return;
    const std::string sufficient = breaker.tag + ".rating_sufficient";
    if (work.study.derivation(sufficient).verdict == Verdict::fail) {
        complain(work, sufficient, too_small(work, breaker, required));
    } else {
        complain(work, breaker.tag + ".rating_standard", not_standard(work, breaker));
    }
}

std::vector<Amps> offered_at(const System& system, const Breaker& breaker) {
    const auto* combiner = system.ratings<CombinerRatings>(at(system.equipment, breaker.at));
    return combiner == nullptr ? std::vector<Amps>{} : combiner->breaker_sizes;
}

std::string offered_by(const System& system, const Breaker& breaker) {
    const Record* record = system.record(at(system.equipment, breaker.at));
    return record == nullptr ? std::string("the enclosure")
                             : fmt::format("{} {}", record->maker, record->model);
}

/// What an unstated breaker must carry: its sources times 125 %, and on a feeder that also serves
/// backed-up loads the breaker of those loads.
Term<Amps> demand_on(const Work& work, int circuit, Term<Amps> demand) {
    for (const int feeder : feeding(work.system, circuit)) {
        const int loads = breaker_of(work.system, feeder);
        if (loads < 0) { // a disconnect on the way
            demand = demand_on(work, feeder, demand);
        } else if (at(work.system.circuits, feeder).use == CircuitUse::backup_feeder &&
                   at(work.breaker_rating, loads) &&
                   at(work.breaker_rating, loads)->value > demand.value) {
            demand = *at(work.breaker_rating, loads);
        }
    }
    return demand;
}

Term<Amps> required_of(Work& work, const Breaker& breaker) {
    return required_rating(work.desk(subject_of(breaker)), *at(work.sources, breaker.circuit),
                           overcurrent_rule(work, breaker));
}

std::optional<Term<Amps>> rate_source_breaker(Work& work, const Breaker& breaker) {
    const std::string subject = subject_of(breaker);
    const auto required = required_of(work, breaker);
    at(work.study.breakers, breaker_of(work.system, breaker.circuit)).minimum = required.value;
    const std::size_t before = work.study.worksheet.all().size();
    if (breaker.stated) {
        const auto stated = stated_rating(work, breaker);
        check_stated(work, breaker, stated, required);
        return stated;
    }
    auto rating =
        overcurrent_rating(work.desk(subject), demand_on(work, breaker.circuit, required),
                           offered_at(work.system, breaker), offered_by(work.system, breaker));
    // Of a branch the count of microinverters is already at fault (branches.cpp).
    if (!rating && at(work.system.circuits, breaker.circuit).use != CircuitUse::branch)
        complain_of_failures(work, before, none_fits(work, breaker, required));
    return rating;
}

/// Largest standard rating not above `limit`.
Amps standard_rating_down(const CodeBook& book, Amps limit) {
    double rating = std::floor(limit.value);
    while (rating > 1 && !book.is_standard_rating(Amps{rating})) {
        rating -= 1;
    }
    return Amps{rating};
}

/// Largest breaker that the device at the head of a backup feeder takes.
std::optional<Term<Amps>> backup_limit_at(Work& work, const Equipment& place) {
    if (place.is<Inverter>())
        return backup_breaker_limit(work, *work.system.record(place));
    const auto* mid = work.system.ratings<MidRatings>(place);
    if (mid == nullptr)
        return {};
    return from_nameplate(work, *work.system.record(place), "backup_breaker_limit", "I_backup,max",
                          "Largest breaker of the backup side", mid->backup_breaker_limit);
}

/// A feeder of loads alone takes the largest breaker that its panel and its device allow.
Term<Amps> rate_load_feeder(Work& work, const Breaker& breaker) {
    if (breaker.stated)
        return stated_rating(work, breaker);
    const System& system = work.system;
    const Circuit& circuit = at(system.circuits, breaker.circuit);
    auto limit = bus_rating(work, at(system.equipment, system.child_of(circuit)));
    const auto by_device = backup_limit_at(work, at(system.equipment, breaker.at));
    if (by_device && (!limit || by_device->value < limit->value))
        limit = by_device;
    const auto largest = limit ? *limit : service_rating(work);
    return work.study.worksheet.state({.subject = subject_of(breaker),
                                       .name = "rating",
                                       .symbol = "I_" + breaker.tag,
                                       .title = "Breaker chosen for the panel it feeds",
                                       .cite = work.book.cite(paragraph::standard_ratings),
                                       .rounding = "down to a standard rating",
                                       .governs = "bus of the panel and limit of the device"},
                                      standard_rating_down(work.book, largest.value), largest.from);
}

/// The input of a generator takes a device of the rating of the generator's own; where it has none,
/// the next standard rating that its nameplate current reaches.
std::optional<Term<Amps>> rate_generator_breaker(Work& work, const Breaker& breaker) {
    if (breaker.stated)
        return stated_rating(work, breaker);
    const System& system = work.system;
    const auto generators =
        generators_below(system, system.child_of(at(system.circuits, breaker.circuit)));
    if (generators.empty())
        return {};
    const Record& record = *system.record(at(system.equipment, generators.front()));
    const auto& ratings = std::get<GeneratorRatings>(record.ratings);
    const auto least = ratings.breaker > Amps{0}
                           ? from_nameplate(work, record, "breaker", "I_gen,brk",
                                            "Overcurrent device at the generator", ratings.breaker)
                           : output_current(work, record);
    return overcurrent_rating(work.desk(subject_of(breaker)), least, {}, "the enclosure");
}

void rate_breaker(Work& work, int index) {
    const Breaker& breaker = at(work.system.breakers, index);
    BreakerStudy& result = at(work.study.breakers, index);
    result.stated = breaker.stated.has_value();
    if (at(work.sources, breaker.circuit)) {
        at(work.breaker_rating, index) = rate_source_breaker(work, breaker);
    } else if (at(work.system.circuits, breaker.circuit).use == CircuitUse::generator) {
        at(work.breaker_rating, index) = rate_generator_breaker(work, breaker);
        if (at(work.breaker_rating, index))
            result.minimum = at(work.breaker_rating, index)->value;
    } else {
        at(work.breaker_rating, index) = rate_load_feeder(work, breaker);
        result.minimum = at(work.breaker_rating, index)->value;
    }
    if (at(work.breaker_rating, index))
        result.rating = at(work.breaker_rating, index)->value;
}

} // namespace

void rate_breakers(Work& work) {
    for (const int circuit : sources_first(work.system)) {
        const int breaker = breaker_of(work.system, circuit);
        if (breaker >= 0)
            rate_breaker(work, breaker);
    }
}

} // namespace ohmfolio::workings
