// What stays on when the grid fails: whether its sources carry it.
//
// Where a generator or a transfer switch is in it, Article 702 asks for the full load or for what
// load management connects; storage behind its own interconnect device answers to 710.15 alone,
// which asks for the largest single load (reviewers differ on whether 702 applies to it too).

#include "study/standby.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
#include "code/standby_rules.h"
#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

// The largest single load.

/// A load of its own, not lighting and receptacles in general.
bool is_single(const LoadCircuit& load) {
    return load.power || load.kind != LoadKind::general || load.poles > 1;
}

/// Those without a nameplate that stay connected: they draw no more than their breaker lets them.
std::vector<SingleLoad> loads_by_breaker(const System& system, const Island& island) {
    std::vector<SingleLoad> loads;
    for (const PanelLoad& load : island.loads) {
        if (load.circuit->power || !load.circuit->shed_by.empty() || !is_single(*load.circuit))
            continue;
        const Ratio lines = load.circuit->poles == 3 ? root_three().value : Ratio{1};
        loads.push_back(
            {load, voltage_of(system, *load.circuit) * load.circuit->breaker.value * lines.value});
    }
    return loads;
}

/// Loads that might be too large, for all that is stated.
void advise_of_unknown(Work& work, const Island& island, const Term<Watts>& capacity) {
    std::vector<std::string> unknown;
    for (const SingleLoad& one : loads_by_breaker(work.system, island)) {
        if (capacity.value < one.power)
            unknown.push_back(called(one.load));
    }
    if (unknown.empty())
        return;
    complain_of_missing(
        work, "standby.island",
        {.rule = "backup.power",
         .severity = Severity::advice,
         .span = island.device.span,
         .message = fmt::format("{}: no power is stated for {}, so it is not checked whether its "
                                "{} carry it",
                                island.device.id, join(unknown, ", "), shown_va(capacity.value)),
         .expected = "the power on its nameplate",
         .hint = "power = \"... kVA\" on the load",
         .subject = subject_of(island.device)});
}

void state_with_shed(Work& work, const Island& island, const Term<Watts>& capacity) {
    const auto all = largest_load(island, true);
    const auto kept = largest_load(island, false);
    if (!all || (kept && kept->power.value >= all->power.value))
        return;
    const bool carried = all->power.value <= capacity.value.value;
    work.study.worksheet.choose(
        {.subject = island.subject(),
         .name = "largest_with_shed",
         .title = "Largest single load, were nothing shed",
         .cite = work.book.cite("standby.island"),
         .source = fmt::format("{}, shed by {}", called(all->load), all->load.circuit->shed_by)},
        fmt::format("{}, {}", shown_va(all->power),
                    carried ? "which the sources carry too" : "more than they carry"),
        {});
}

void check_largest(Work& work, const Island& island, const Term<Watts>& capacity) {
    std::optional<SingleLoad> largest = largest_load(island, false);
    if (!largest) {
        for (const SingleLoad& one : loads_by_breaker(work.system, island)) {
            if (one.power <= capacity.value && (!largest || largest->power < one.power))
                largest = one;
        }
    }
    advise_of_unknown(work, island, capacity);
    if (!largest)
        return;
    const bool by_breaker = !largest->load.circuit->power;
    const auto load = work.study.worksheet.state(
        {.subject = island.subject(),
         .name = "largest_load",
         .symbol = "S_largest",
         .title = "Largest single load that stays connected, " + called(largest->load),
         .cite = {},
         .source = by_breaker ? "no more than its breaker lets it draw"
                              : "nameplate, as stated in the description",
         .as = ShownAs::apparent_power},
        largest->power);
    const auto verdict = island_capacity(work.desk(island.subject()), capacity, load,
                                         !island.device.is<TransferSwitch>());
    complain_of_verdicts(
        work, {verdict},
        {.rule = {},
         .span = largest->load.circuit->breaker.span,
         .message = fmt::format("{} is backed up by {}", called(largest->load), island.device.id),
         .expected = "larger sources, or a load controller that sheds it",
         .subject = subject_of(island.device)});
    state_with_shed(work, island, capacity);
}

// The whole of the load, where Article 702 asks for it.

bool anything_shed(const std::vector<PanelLoad>& loads) {
    return std::ranges::any_of(
        loads, [](const PanelLoad& load) { return !load.circuit->shed_by.empty(); });
}

/// All nameplates together; nothing unless each is stated.
std::optional<Term<Watts>> sum_of_nameplates(const std::vector<PanelLoad>& loads) {
    std::optional<Term<Watts>> sum;
    for (const PanelLoad& load : loads) {
        if (!load.circuit->power)
            return {};
        const auto one = nameplate_load(load.circuit->name, load.circuit->power->value);
        add_to(sum, one);
    }
    return sum;
}

std::optional<Term<Watts>> defined(Work& work, const Island& island, const std::string& name,
                                   const std::string& symbol, const std::string& title,
                                   const std::optional<Term<Watts>>& sum) {
    if (!sum)
        return {};
    return work.study.worksheet.define({.subject = island.subject(),
                                        .name = name,
                                        .symbol = symbol,
                                        .title = title,
                                        .cite = work.book.cite("standby.automatic"),
                                        .as = ShownAs::apparent_power},
                                       *sum);
}

/// What is transferred: the calculated load where all of the building is, else the nameplates.
StandbyInput transferred(Work& work, const Island& island, const Term<Watts>& capacity) {
    StandbyInput input{.transfer = TransferKind::interconnect_device, .capacity = capacity};
    if (const auto* ratings = work.system.ratings<TransferSwitchRatings>(island.device)) {
        input.transfer =
            ratings->automatic ? TransferKind::automatic_switch : TransferKind::manual_switch;
    }
    const bool whole = island.loads.size() == all_loads(work.system).size();
    const auto kept = kept_loads(island.loads);
    if (whole && work.calculated_load) {
        input.full = work.calculated_load;
        if (anything_shed(island.loads)) {
            if (const auto managed =
                    calculated_load(work, "managed:" + island.device.id, kept, false))
                input.managed = defined(work, island, "managed", "S_managed",
                                        "Calculated load that management connects", managed->load);
        }
        return input;
    }
    input.full = defined(work, island, "transferred", "S_load", "Load that is transferred",
                         sum_of_nameplates(island.loads));
    if (anything_shed(island.loads)) {
        input.managed = defined(work, island, "managed", "S_managed",
                                "Load that management connects", sum_of_nameplates(kept));
    }
    return input;
}

void check_full_load(Work& work, const Island& island, const Term<Watts>& capacity) {
    const StandbyInput input = transferred(work, island, capacity);
    const bool stated = is_automatic(input.transfer) && (input.managed || input.full);
    if (stated) {
        complain_of_verdicts(
            work, {standby_capacity(work.desk(island.subject()), input)},
            {.rule = {},
             .span = island.device.span,
             .message = fmt::format("{}: automatic transfer of the {}", island.device.id,
                                    input.managed ? "load that management connects" : "full load"),
             .expected = "larger sources, fewer backed-up loads, or load controllers that shed "
                         "more of them",
             .subject = subject_of(island.device)});
        return;
    }
    const bool manual = !is_automatic(input.transfer);
    complain_of_missing(
        work, manual ? "standby.manual" : "standby.automatic",
        {.rule = manual ? "standby.manual" : "standby.automatic",
         .severity = Severity::advice,
         .span = island.device.span,
         .message = fmt::format("{}: {}, so it is not checked whether its sources carry it",
                                island.device.id,
                                manual ? "what the user lets run at one time is not stated"
                                       : "the load that is transferred is not stated"),
         .expected = manual ? "a selection of loads that the source carries"
                            : "a load calculation, or the power of each backed-up load",
         .hint = manual ? "" : "[load_calculation] method = \"optional\", floor_area = \"... ft2\"",
         .subject = subject_of(island.device)});
}

Term<Watts> together(Work& work, const Island& island, const Term<Watts>& storage,
                     const Term<Watts>& generators) {
    return define_once(work,
                       {.subject = island.subject(),
                        .name = "capacity",
                        .symbol = "S_source",
                        .title = "Storage and generator together",
                        .cite = work.book.cite("standby.automatic"),
                        .as = ShownAs::apparent_power},
                       storage + generators);
}

Term<Watts> weaker(Work& work, const Island& island, const Term<Watts>& storage,
                   const Term<Watts>& generators) {
    return define_once(work,
                       {.subject = island.subject(),
                        .name = "weaker",
                        .symbol = "S_least",
                        .title = "Storage or generator, interlocked: the smaller one",
                        .cite = work.book.cite("standby.island"),
                        .as = ShownAs::apparent_power},
                       lesser(storage, generators));
}

/// Each alone carries the largest load. The full load is asked of the generator: storage behind an
/// interconnect device answers to 710.15.
void check_by_turns(Work& work, const Island& island, const Term<Watts>& storage,
                    const Term<Watts>& generators) {
    check_largest(work, island, weaker(work, island, storage, generators));
    check_full_load(work, island, generators);
}

/// The generator may be at rest: while there is storage, that alone holds the island.
void check_side_by_side(Work& work, const Island& island, const std::optional<Term<Watts>>& storage,
                        const std::optional<Term<Watts>>& generators) {
    if (storage || generators)
        check_largest(work, island, storage ? *storage : *generators);
    else if (const auto solar = solar_output(work, island))
        check_largest(work, island, *solar);
    if (generators) {
        check_full_load(work, island,
                        storage ? together(work, island, *storage, *generators) : *generators);
    }
}

void check_island(Work& work, const Island& island) {
    const auto storage = storage_output(work, island);
    const auto generators = generator_output(work, island);
    if (storage && generators && is_interlocked(work.system, island))
        check_by_turns(work, island, *storage, *generators);
    else
        check_side_by_side(work, island, storage, generators);
    check_island_neutral(work, island);
    check_storage_start(work, island);
    derive_duration(work, island);
    derive_noon_power(work, island);
}

} // namespace

void check_standby(Work& work) {
    for (const Island& island : islands(work.system)) {
        check_island(work, island);
    }
}

} // namespace ohmfolio::workings
