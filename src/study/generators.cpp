// Generators beside the sources they share an island with, their neutral, and the switch or device
// that takes the loads to them.

#include <algorithm>

#include <fmt/format.h>

#include "code/generator_rules.h"
#include "code/transfer_rules.h"
#include "study/standby.h"
#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

const GeneratorRatings& ratings_of(const System& system, const Equipment& generator) {
    return std::get<GeneratorRatings>(system.record(generator)->ratings);
}

/// Output of all PV inverters that run on beside the generator.
std::optional<Term<Watts>> pv_output(Work& work, const Island& island) {
    Watts sum{};
    for (const int i : work.system.subtree(island.head)) {
        const Equipment& e = at(work.system.equipment, i);
        if (const auto* branch = e.as<BranchArray>()) {
            sum = sum + std::get<MicroinverterRatings>(
                            at(work.system.catalogue.records, branch->microinverter).ratings)
                                .output *
                            branch->count;
        } else if (const auto* inverter = work.system.ratings<StringInverterRatings>(e)) {
            sum = sum + inverter->output;
        }
    }
    if (sum <= Watts{0})
        return {};
    return state_once(work,
                      {.subject = island.subject(),
                       .name = "pv_output",
                       .symbol = "S_pv",
                       .title = "Output of the PV inverters together",
                       .cite = nameplate(),
                       .source = "sum of the nameplates",
                       .as = ShownAs::apparent_power},
                      sum);
}

void check_smallest(Work& work, const Island& island, const Equipment& generator) {
    const Desk desk = work.desk(subject_of(generator));
    // Interlocked storage is off while the generator runs.
    const auto storage =
        is_interlocked(work.system, island) ? std::nullopt : storage_output(work, island);
    const auto pv = pv_output(work, island);
    const auto least = smallest_generator(desk, pv, storage);
    if (!least)
        return;
    const auto total = *generator_output(work, island);
    require(work,
            {.subject = subject_of(generator),
             .name = "large_enough",
             .symbol = {},
             .title = "Generator not smaller than what runs beside it",
             .cite = work.book.cite("generator.smallest"),
             .as = ShownAs::apparent_power},
            total, "≥", *least,
            {.rule = "generator.smallest",
             .severity = Severity::warning,
             .span = generator.span,
             .message = fmt::format("{}: {} beside sources that ask for {}; they may drive it "
                                    "backward",
                                    generator.id, shown_va(total.value), shown_va(least->value)),
             .expected = fmt::format("a generator of {} or more, or a load controller that cuts PV "
                                     "branches off",
                                     shown_va(least->value))});
}

int circuit_of(const System& system, int generator) {
    const auto circuits = circuits_from(system, generator);
    return circuits.empty() ? -1 : circuits.front();
}

void check_device_limit(Work& work, const Island& island, int generator) {
    const auto* mid = work.system.ratings<MidRatings>(island.device);
    const int circuit = circuit_of(work.system, generator);
    const int index = circuit < 0 ? -1 : protecting_breaker(work.system, circuit);
    if (mid == nullptr || index < 0 || !at(work.breaker_rating, index))
        return;
    const Equipment& e = at(work.system.equipment, generator);
    const Breaker& breaker = at(work.system.breakers, index);
    const auto rating = *rating_of(work, index);
    const auto limit = from_nameplate(
        work, *work.system.record(island.device), "generator_breaker_limit", "I_gen,max",
        "Largest breaker of the generator input", mid->generator_breaker_limit);
    const bool none = mid->generator_breaker_limit <= Amps{0};
    require(work,
            {.subject = subject_of(island.device),
             .name = "generator_breaker_kept",
             .symbol = {},
             .title = fmt::format("{} within the limit of the generator input", breaker.tag),
             .cite = work.book.cite(paragraph::equipment_limit)},
            rating, "≤", limit,
            {.rule = "mid.generator.breaker",
             .span = breaker.stated ? breaker.stated->span : e.span,
             .message = none ? fmt::format("{}: its record states no generator input, and {} feeds "
                                           "it",
                                           island.device.id, e.id)
                             : fmt::format("{}: the generator breaker {} is {}; {} is the largest "
                                           "it takes",
                                           island.device.id, breaker.tag, shown(rating.value),
                                           shown(limit.value)),
             .expected = none ? std::string("a device with a generator input")
                              : fmt::format("{} or less", shown(limit.value))});
}

void check_neutral(Work& work, const Island& island, int generator) {
    const Equipment& e = at(work.system.equipment, generator);
    const auto* transfer = work.system.ratings<TransferSwitchRatings>(island.device);
    const auto& bonded = e.as<Generator>()->bonded;
    const int circuit = circuit_of(work.system, generator);
    const bool switched =
        transfer != nullptr && transfer->poles > work.system.lines_at(island.head);
    const auto result =
        judge_neutral(work.desk(subject_of(e)),
                      {.switched = switched,
                       .carried = circuit >= 0 && at(work.system.circuits, circuit).neutral,
                       .bonded_at_source = bonded.value});
    for (const RuleVerdict& verdict : result.verdicts) {
        const bool electrode = verdict.rule == "neutral.derived.electrode";
        complain_of_verdicts(
            work, {verdict},
            {.rule = {},
             // What the description has no words for is for the drafter to see to.
             .severity = electrode ? Severity::advice : Severity::violation,
             .span = e.span,
             .message = fmt::format("{} at {}", e.id, island.device.id),
             .expected = electrode ? "a grounding electrode conductor at the generator"
                         : switched
                             ? "a generator whose neutral is bonded, or a switch that leaves "
                               "the neutral closed"
                             : "a floating neutral at the generator, or a switch that opens "
                               "the neutral",
             .hint = electrode ? ""
                               : "bonded = true or false at the generator; poles of the "
                                 "transfer switch"});
    }
}

/// What the switch carries: the calculated load where all loads lie behind it, else as much as the
/// device ahead of it lets through.
Term<Amps> load_on(Work& work, const Island& island) {
    if (work.calculated_load && island.loads.size() == all_loads(work.system).size())
        return *work.calculated_load / power_voltage(work);
    return main_of(work, island.head);
}

void check_transfer_switch(Work& work, const Island& island) {
    const auto* ratings = work.system.ratings<TransferSwitchRatings>(island.device);
    if (ratings == nullptr)
        return;
    const auto rating =
        from_nameplate(work, *work.system.record(island.device), "rating", "I_switch",
                       "Rating of the transfer switch", ratings->rating);
    const auto verdicts = judge_transfer(
        work.desk(subject_of(island.device)),
        {.kind = ratings->automatic ? TransferKind::automatic_switch : TransferKind::manual_switch,
         .rating = rating,
         .load = load_on(work, island),
         .overcurrent = main_of(work, island.head),
         .is_service_disconnect = work.system.grounding.at == island.head,
         .suitable_as_service = ratings->service_equipment});
    complain_of_verdicts(
        work, verdicts,
        {.rule = {},
         .span = island.device.span,
         .message = island.device.id,
         .expected = "a transfer switch of a rating that fits, marked for its use"});
}

void check_start(Work& work, const Island& island, const Equipment& generator) {
    check_motor_start(work, island, subject_of(generator), *work.system.record(generator),
                      ratings_of(work.system, generator).surge, 1);
}

} // namespace

void check_generators(Work& work) {
    for (const Island& island : islands(work.system)) {
        for (const int i : island.generators) {
            const Equipment& generator = at(work.system.equipment, i);
            check_smallest(work, island, generator);
            check_device_limit(work, island, i);
            check_neutral(work, island, i);
            check_start(work, island, generator);
        }
        if (!island.generators.empty())
            check_transfer_switch(work, island);
    }
}

} // namespace ohmfolio::workings
