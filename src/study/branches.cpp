// How many microinverters a branch may hold: 125 % of their continuous output must stay within the
// branch breaker and within the listed ampacity of the trunk cable.

#include "study/branches.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/text.h"
#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

/// Largest branch breaker that the combiner takes: its limit, or less where none so large is made
/// for it.
Term<Amps> largest_in(Work& work, const Record& record, const CombinerRatings& combiner) {
    const auto& sizes = combiner.breaker_sizes;
    const Amps made =
        sizes.empty() ? combiner.branch_breaker_limit : *std::ranges::max_element(sizes);
    if (made < combiner.branch_breaker_limit) {
        return from_nameplate(work, record, "largest_breaker", "I_made,max",
                              "Largest compatible branch breaker", made);
    }
    return from_nameplate(work, record, "branch_breaker_limit", "I_comb,max",
                          "Largest branch breaker of the combiner", combiner.branch_breaker_limit);
}

/// Largest breaker that microinverter and combiner allow, for a branch whose breaker is not stated.
Term<Amps> largest_allowed(Work& work, const Equipment& branch, const Record& inverter,
                           const Breaker* breaker) {
    auto by_inverter =
        from_nameplate(work, inverter, "branch_breaker_limit", "I_brk,max",
                       "Largest breaker of a branch of this microinverter",
                       std::get<MicroinverterRatings>(inverter.ratings).branch_breaker_limit);
    const Equipment* place = breaker == nullptr ? nullptr : &at(work.system.equipment, breaker->at);
    const auto* combiner =
        place == nullptr ? nullptr : work.system.ratings<CombinerRatings>(*place);
    if (combiner == nullptr)
        return by_inverter;
    const auto by_combiner = largest_in(work, *work.system.record(*place), *combiner);
    return work.study.worksheet.define({.subject = subject_of(branch),
                                        .name = "breaker_allowed",
                                        .symbol = "I_allowed",
                                        .title = "Largest breaker that both allow",
                                        .cite = work.book.cite(paragraph::equipment_limit)},
                                       lesser(by_inverter, by_combiner));
}

Term<Amps> breaker_of_branch(Work& work, const Equipment& branch, const Record& inverter,
                             int circuit) {
    const int protecting = protecting_breaker(work.system, circuit);
    const Breaker* breaker = protecting < 0 ? nullptr : &at(work.system.breakers, protecting);
    return breaker != nullptr && breaker->stated ? stated_rating(work, *breaker)
                                                 : largest_allowed(work, branch, inverter, breaker);
}

void limit_branch(Work& work, const Equipment& e, const BranchArray& branch, int circuit) {
    const Record& inverter = at(work.system.catalogue.records, branch.microinverter);
    const auto& ratings = std::get<MicroinverterRatings>(inverter.ratings);
    const auto output = output_current(work, inverter);
    const auto breaker = breaker_of_branch(work, e, inverter, circuit);
    const auto trunk = from_nameplate(work, inverter, "trunk_ampacity", "I_trunk",
                                      "Listed ampacity of the trunk cable", ratings.trunk_ampacity);

    const Desk desk = work.desk(subject_of(e));
    const auto by_breaker = most_inverters(desk, "breaker", breaker, output);
    const auto by_trunk = most_inverters(desk, "trunk", trunk, output);
    const bool breaker_governs = by_breaker.value <= by_trunk.value;
    const Ratio most_value = std::min(by_breaker.value, by_trunk.value);
    const auto most = work.study.worksheet.state(
        {.subject = desk.subject,
         .name = "most",
         .symbol = "N_max",
         .title = "Most microinverters on this branch",
         .cite = work.book.cite(paragraph::source_overcurrent),
         .source = "the smaller of the two",
         .governs = breaker_governs ? "branch breaker governs" : "trunk cable governs"},
        most_value, detail::merged(by_breaker.from, by_trunk.from));
    const std::string limit =
        fmt::format("{} {}", shown(breaker_governs ? breaker.value : trunk.value),
                    breaker_governs ? "breaker" : "trunk cable");
    require(
        work,
        {.subject = desk.subject,
         .name = "count_kept",
         .symbol = {},
         .title = "Microinverters on this branch",
         .cite = work.book.cite(paragraph::source_overcurrent)},
        modules_on(work, e, branch), "≤", most,
        {.rule = "branch.inverters",
         .span = e.span,
         .message = fmt::format(
             "{} has {} microinverters of {}; 125 % of their {} is {}, more than its {} carries",
             e.id, branch.count, shown(output.value), shown(branch.count * output.value),
             shown(work.book.number(paragraph::continuous_source) * branch.count * output.value),
             limit),
         .expected = fmt::format("at most {} microinverters on this branch",
                                 trimmed(most_value.value, 0))});
}

} // namespace

Term<Ratio> most_inverters(Desk desk, const std::string& by, const Term<Amps>& limit,
                           const Term<Amps>& output) {
    const auto expression =
        limit / (factor(desk.book.number(paragraph::continuous_source)) * output);
    // Exact multiples must not lose one to binary arithmetic: 20 ÷ (1.25 × 1.6) is ten.
    const double whole = std::floor(expression.value.value + 1e-9);
    return desk.sheet.define_rounded(
        {.subject = desk.subject,
         .name = "most_by_" + by,
         .symbol = "N_" + by,
         .title = "Most microinverters by the " + by,
         .cite = desk.book.cite(by == "trunk" ? paragraph::source_conductor
                                              : paragraph::source_overcurrent),
         .rounding = "rounded down"},
        expression, Ratio{whole});
}

void limit_branches(Work& work) {
    for (int i = 0; i < static_cast<int>(work.system.equipment.size()); ++i) {
        const Equipment& e = at(work.system.equipment, i);
        const auto* branch = e.as<BranchArray>();
        const auto circuits = circuits_from(work.system, i);
        if (branch != nullptr && !circuits.empty())
            limit_branch(work, e, *branch, circuits.front());
    }
}

} // namespace ohmfolio::workings
