// Limits of a combiner: branch inputs, size and make of each branch breaker, their sum. Its bus is
// the business of connection.cpp.

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

struct Place {
    const Equipment& combiner;
    const Record& record;
    const CombinerRatings& ratings;
    std::string subject;
};

Heading line(const Work& work, const Place& place, std::string name, std::string title) {
    return {.subject = place.subject,
            .name = std::move(name),
            .symbol = {},
            .title = std::move(title),
            .cite = work.book.cite(paragraph::equipment_limit)};
}

void check_inputs(Work& work, const Place& place, int branches) {
    Term<Ratio> inputs = from_nameplate(work, place.record, "branch_inputs", "N_inputs",
                                        "Branch inputs of the combiner",
                                        Ratio{static_cast<double>(place.ratings.branch_inputs)});
    require(
        work, line(work, place, "inputs_kept", "Branches within the inputs of the combiner"),
        count(work, place.subject, "branches", "N_branches", "Branches on the combiner", branches),
        "≤", inputs,
        {.rule = "combiner.inputs",
         .span = place.combiner.span,
         .message = fmt::format("{} has {} branches; it takes {}", place.combiner.id, branches,
                                place.ratings.branch_inputs),
         .expected = fmt::format("at most {} branches", place.ratings.branch_inputs),
         .hint = "join two short branches, or feed one into a second combiner"});
}

std::string offered(const CombinerRatings& ratings) {
    std::vector<std::string> sizes;
    for (const Amps size : ratings.breaker_sizes) {
        sizes.push_back(shown(size));
    }
    return join(sizes, ", ");
}

/// A branch breaker must be one that the combiner takes, and small enough for it and for the
/// microinverters behind it.
void check_branch_breaker(Work& work, const Place& place, int index) {
    const Breaker& breaker = at(work.system.breakers, index);
    const Span span = breaker.stated ? breaker.stated->span : place.combiner.span;
    const auto rating = *rating_of(work, index);
    const auto limit = from_nameplate(work, place.record, "branch_breaker_limit", "I_comb,max",
                                      "Largest branch breaker of the combiner",
                                      place.ratings.branch_breaker_limit);
    require(work,
            line(work, place, "limit_" + breaker.tag, breaker.tag + " within the combiner's limit"),
            rating, "≤", limit,
            {.rule = "combiner.breaker.limit",
             .span = span,
             .message = fmt::format("{} in {}: a {} branch breaker; the combiner takes {} at most",
                                    breaker.tag, place.combiner.id, shown(rating.value),
                                    shown(limit.value)),
             .expected = fmt::format("{} or less", shown(limit.value))});
    const auto& sizes = place.ratings.breaker_sizes;
    if (sizes.empty() || std::ranges::find(sizes, rating.value) != sizes.end())
        return;
    work.study.worksheet.judge(
        line(work, place, "fits_" + breaker.tag, breaker.tag + " fits"),
        fmt::format("{} is not among {}", shown(rating.value), offered(place.ratings)), false,
        rating.from);
    complain(work, work.study.worksheet.all().back().id,
             {.rule = "combiner.breaker.fit",
              .span = span,
              .message = fmt::format("{} in {}: no {} branch breaker is made for this combiner",
                                     breaker.tag, place.combiner.id, shown(rating.value)),
              .expected = "one of " + offered(place.ratings)});
}

void check_breakers_total(Work& work, const Place& place, const Term<Amps>& sum) {
    const auto total = work.study.worksheet.define(
        [&] {
            Heading heading = line(work, place, "breakers", "Branch breakers, added up");
            heading.symbol = "I_sum";
            return heading;
        }(),
        sum);
    const auto limit =
        from_nameplate(work, place.record, "branch_breakers_total", "I_sum,max",
                       "Branch breakers in all, at most", place.ratings.branch_breakers_total);
    require(work, line(work, place, "total_kept", "Branch breakers within the total"), total, "≤",
            limit,
            {.rule = "combiner.breakers.total",
             .span = place.combiner.span,
             .message = fmt::format("{}: branch breakers of {} in all; the combiner takes {}",
                                    place.combiner.id, shown(total.value), shown(limit.value)),
             .expected = fmt::format("branch breakers of {} or less in all", shown(limit.value))});
}

void check_combiner(Work& work, const Place& place, int equipment) {
    const auto branches = circuits_into(work.system, equipment);
    check_inputs(work, place, static_cast<int>(branches.size()));
    std::optional<Term<Amps>> sum;
    for (const int circuit : branches) {
        const int breaker = breaker_of(work.system, circuit);
        if (breaker < 0 || !at(work.breaker_rating, breaker))
            continue;
        check_branch_breaker(work, place, breaker);
        const auto rating = *rating_of(work, breaker);
        add_to(sum, rating);
    }
    if (sum)
        check_breakers_total(work, place, *sum);
}

/// The microinverter's own limit on the breaker that its trunk cable may be on.
void check_trunk_breaker(Work& work, int equipment, const BranchArray& branch) {
    const Equipment& e = at(work.system.equipment, equipment);
    const Record& inverter = at(work.system.catalogue.records, branch.microinverter);
    const auto circuits = circuits_from(work.system, equipment);
    const int breaker = circuits.empty() ? -1 : protecting_breaker(work.system, circuits.front());
    if (breaker < 0 || !at(work.breaker_rating, breaker))
        return;
    const Breaker& device = at(work.system.breakers, breaker);
    const auto rating = *rating_of(work, breaker);
    const auto limit =
        from_nameplate(work, inverter, "branch_breaker_limit", "I_brk,max",
                       "Largest breaker of a branch of this microinverter",
                       std::get<MicroinverterRatings>(inverter.ratings).branch_breaker_limit);
    require(work,
            {.subject = subject_of(e),
             .name = "breaker_kept",
             .symbol = {},
             .title = "Branch breaker within the limit of the microinverter",
             .cite = work.book.cite(paragraph::equipment_limit)},
            rating, "≤", limit,
            {.rule = "branch.breaker.limit",
             .span = device.stated ? device.stated->span : e.span,
             .message = fmt::format("{} on {}: the {} of {} may be on {} at most", device.tag, e.id,
                                    inverter.model, shown(rating.value), shown(limit.value)),
             .expected = fmt::format("{} or less", shown(limit.value))});
}

} // namespace

void check_combiners(Work& work) {
    for (int i = 0; i < static_cast<int>(work.system.equipment.size()); ++i) {
        const Equipment& e = at(work.system.equipment, i);
        if (const auto* branch = e.as<BranchArray>())
            check_trunk_breaker(work, i, *branch);
        if (const auto* ratings = work.system.ratings<CombinerRatings>(e))
            check_combiner(work, {e, *work.system.record(e), *ratings, subject_of(e)}, i);
    }
}

} // namespace ohmfolio::workings
