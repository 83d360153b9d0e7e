// What stays on when the grid fails: whether its sources carry and start it, and for how long.
//
// Where a generator or a transfer switch is in it, Article 702 asks for the full load or for what
// load management connects; storage behind its own interconnect device answers to 710.15 alone,
// which asks for the largest single load (reviewers differ on whether 702 applies to it too).

#include "study/standby.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
#include "code/backup_rules.h"
#include "code/standby_rules.h"
#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

Term<Watts> rated_output(Work& work, const Record& record, const std::string& symbol,
                         const std::string& title, Watts output) {
    return state_once(work,
                      {.subject = "record:" + record.key,
                       .name = "output",
                       .symbol = symbol,
                       .title = title,
                       .cite = nameplate(),
                       .source = nameplate_of(record),
                       .as = ShownAs::apparent_power},
                      output);
}

Term<Watts> define_once(Work& work, const Heading& heading, const Term<Watts>& expression) {
    const std::string id = std::string(key_of(heading.subject)) + "." + heading.name;
    return work.study.worksheet.find(id) != nullptr
               ? recall<Watts>(work, id)
               : work.study.worksheet.define(heading, expression);
}

std::vector<int> records_of(const System& system, const std::vector<int>& equipment) {
    std::vector<int> records;
    for (const int i : equipment) {
        if (std::ranges::find(records, at(system.equipment, i).record) == records.end())
            records.push_back(at(system.equipment, i).record);
    }
    return records;
}

int number_of(const System& system, const std::vector<int>& equipment, int record) {
    return static_cast<int>(std::ranges::count_if(
        equipment, [&](int i) { return at(system.equipment, i).record == record; }));
}

std::string called(const PanelLoad& load) {
    return fmt::format("{} on {}", load.circuit->name, load.panel->id);
}

// The largest single load.

struct SingleLoad {
    PanelLoad load;
    Watts power;
};

/// A load of its own, not lighting and receptacles in general.
bool is_single(const LoadCircuit& load) {
    return load.power || load.kind != LoadKind::general || load.poles > 1;
}

/// The largest by nameplate; with `shed` among those that may be cut off too.
std::optional<SingleLoad> largest_load(const Island& island, bool shed) {
    std::optional<SingleLoad> largest;
    for (const PanelLoad& load : island.loads) {
        if (!load.circuit->power || (!shed && !load.circuit->shed_by.empty()))
            continue;
        if (!largest || largest->power < load.circuit->power->value)
            largest = SingleLoad{load, load.circuit->power->value};
    }
    return largest;
}

/// Those without a nameplate that stay connected: they draw no more than their breaker lets them.
std::vector<SingleLoad> loads_by_breaker(const System& system, const Island& island) {
    std::vector<SingleLoad> loads;
    for (const PanelLoad& load : island.loads) {
        if (load.circuit->power || !load.circuit->shed_by.empty() || !is_single(*load.circuit))
            continue;
        loads.push_back({load, voltage_of(system, *load.circuit) * load.circuit->breaker.value});
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
    const auto verdict =
        island_capacity(work.desk(island.subject()), capacity, load, island.device.is<Mid>());
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

std::vector<PanelLoad> kept_loads(std::vector<PanelLoad> loads) {
    std::erase_if(loads, [](const PanelLoad& load) { return !load.circuit->shed_by.empty(); });
    return loads;
}

/// All nameplates together; nothing unless each is stated.
std::optional<Term<Watts>> sum_of_nameplates(const std::vector<PanelLoad>& loads) {
    std::optional<Term<Watts>> sum;
    for (const PanelLoad& load : loads) {
        if (!load.circuit->power)
            return {};
        const auto one = nameplate_load(load.circuit->name, load.circuit->power->value);
        sum = sum ? *sum + one : one;
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

// Starting motors.

const PanelLoad* largest_motor(const std::vector<PanelLoad>& loads) {
    const PanelLoad* largest = nullptr;
    for (const PanelLoad& load : loads) {
        if (load.circuit->locked_rotor &&
            (largest == nullptr ||
             largest->circuit->locked_rotor->value < load.circuit->locked_rotor->value))
            largest = &load;
    }
    return largest;
}

Term<Amps> locked_rotor(const PanelLoad& load) {
    return given("I_LR", load.circuit->locked_rotor->value, "locked-rotor current, nameplate");
}

/// What runs meanwhile: the stated average.
std::optional<Term<Amps>> running_beside(Work& work) {
    if (!work.system.backup || work.system.backup->average.value <= Watts{0})
        return {};
    return given("P_avg", work.system.backup->average.value,
                 "average of the backed-up loads, as stated") /
           nominal_voltage(work);
}

void state_motor_with_shed(Work& work, const Island& island, const std::string& subject, Amps surge,
                           int count) {
    const PanelLoad* all = largest_motor(island.loads);
    const auto kept = kept_loads(island.loads);
    const PanelLoad* stays = largest_motor(kept);
    if (all == nullptr || (stays != nullptr && stays->circuit->locked_rotor->value >=
                                                   all->circuit->locked_rotor->value))
        return;
    const bool starts = all->circuit->locked_rotor->value <= Amps{surge.value * count};
    work.study.worksheet.choose(
        {.subject = subject,
         .name = "motor_with_shed",
         .title = "Largest locked-rotor current, were nothing shed",
         .cite = work.book.cite("standby.starting"),
         .source = fmt::format("{}, shed by {}", called(*all), all->circuit->shed_by)},
        fmt::format("{}, {}", shown(all->circuit->locked_rotor->value),
                    starts ? "which the source starts too" : "more than the source gives"),
        {});
}

void advise_of_surge(Work& work, const Island& island, const Record& source,
                     const PanelLoad& motor) {
    complain_of_missing(
        work, "standby.starting",
        {.rule = "backup.surge",
         .severity = Severity::advice,
         .span = source.span,
         .message = fmt::format("{} {}: no surge current is stated, so it is not checked whether "
                                "it starts {}",
                                source.maker, source.model, called(motor)),
         .expected = "the current that it gives for seconds",
         .hint = "surge = \"... A\" in the catalogue",
         .subject = subject_of(island.device)});
}

void check_storage_start(Work& work, const Island& island) {
    const auto records = records_of(work.system, island.batteries);
    if (records.size() != 1)
        return; // unlike units share a surge in ways that no nameplate tells
    const Record& record = at(work.system.catalogue.records, records.front());
    check_motor_start(work, island, island.subject(), record,
                      std::get<BatteryRatings>(record.ratings).surge,
                      static_cast<int>(island.batteries.size()));
}

// How long, and what by the sun alone.

void derive_duration(Work& work, const Island& island) {
    if (island.batteries.empty() || !work.system.backup ||
        work.system.backup->average.value <= Watts{0})
        return;
    WattHours usable{};
    for (const int i : island.batteries) {
        usable = usable + work.system.ratings<BatteryRatings>(at(work.system.equipment, i))->energy;
    }
    const Desk desk = work.desk(island.subject());
    const auto average = stated_average_load(desk, work.system.backup->average.value);
    backup_duration(desk, {.usable = usable, .average = average});
}

void derive_noon_power(Work& work, const Island& island) {
    Watts output{};
    for (const int i : island.forming_branches) {
        const auto& branch = std::get<BranchArray>(at(work.system.equipment, i).detail);
        const auto& ratings = std::get<MicroinverterRatings>(
            at(work.system.catalogue.records, branch.microinverter).ratings);
        output = output + ratings.output * branch.count;
    }
    if (output <= Watts{0})
        return;
    NoonInput input{.output = output};
    const auto largest = largest_load(island, false);
    const bool alone = island.batteries.empty() && island.generators.empty();
    if (alone && largest)
        input.largest_load = largest->power;
    if (noon_power(work.desk(island.subject()), input).carries_largest)
        return;
    complain(
        work, std::string(key_of(island.subject())) + ".noon_largest",
        {.rule = "backup.noon",
         .severity = Severity::advice,
         .span = largest->load.circuit->breaker.span,
         .message = fmt::format("{}: PV alone does not carry it even at noon under a clear sky",
                                called(largest->load)),
         .expected = "storage, or a load controller that sheds it",
         .subject = subject_of(island.device)});
}

void check_island(Work& work, const Island& island) {
    const auto storage = storage_output(work, island);
    const auto generators = generator_output(work, island);
    // The generator may be at rest: while there is storage, that alone holds the island.
    if (storage || generators)
        check_largest(work, island, storage ? *storage : *generators);
    if (generators) {
        check_full_load(work, island,
                        storage ? define_once(work,
                                              {.subject = island.subject(),
                                               .name = "capacity",
                                               .symbol = "S_source",
                                               .title = "Storage and generator together",
                                               .cite = work.book.cite("standby.automatic"),
                                               .as = ShownAs::apparent_power},
                                              *storage + *generators)
                                : *generators);
    }
    check_storage_start(work, island);
    derive_duration(work, island);
    derive_noon_power(work, island);
}

} // namespace

std::vector<Island> islands(const System& system) {
    std::vector<Island> result;
    for (int i = 0; i < static_cast<int>(system.equipment.size()); ++i) {
        const Equipment& e = at(system.equipment, i);
        if (island_head(system, i) != i)
            continue;
        Island island{i,
                      e,
                      batteries_below(system, i),
                      generators_below(system, i),
                      {},
                      backed_up_loads(system, i)};
        for (const int branch : branches_below(system, i)) {
            const auto& array = std::get<BranchArray>(at(system.equipment, branch).detail);
            if (std::get<MicroinverterRatings>(
                    at(system.catalogue.records, array.microinverter).ratings)
                    .grid_forming)
                island.forming_branches.push_back(branch);
        }
        if (!island.batteries.empty() || !island.generators.empty() ||
            !island.forming_branches.empty())
            result.push_back(std::move(island));
    }
    return result;
}

std::optional<Term<Watts>> storage_output(Work& work, const Island& island) {
    std::optional<Term<Watts>> sum;
    for (const int index : records_of(work.system, island.batteries)) {
        const Record& record = at(work.system.catalogue.records, index);
        const auto units = number_of(work.system, island.batteries, index);
        const auto one = count(work, island.subject(), "units_" + record.key, "N_units",
                               "Battery units, " + record.model, units) *
                         rated_output(work, record, "S_ess", "Continuous output of one unit",
                                      std::get<BatteryRatings>(record.ratings).output);
        sum = sum ? *sum + one : one;
    }
    if (!sum)
        return {};
    return define_once(work,
                       {.subject = island.subject(),
                        .name = "storage_output",
                        .symbol = "S_storage",
                        .title = "Continuous output of the storage",
                        .cite = work.book.cite("standby.continuous"),
                        .as = ShownAs::apparent_power},
                       *sum);
}

std::optional<Term<Watts>> generator_output(Work& work, const Island& island) {
    std::optional<Term<Watts>> sum;
    for (const int i : island.generators) {
        const Record& record = *work.system.record(at(work.system.equipment, i));
        const auto one = rated_output(work, record, "S_gen", "Continuous output of the generator",
                                      std::get<GeneratorRatings>(record.ratings).output);
        sum = sum ? *sum + one : one;
    }
    return sum;
}

void check_motor_start(Work& work, const Island& island, const std::string& subject,
                       const Record& source, Amps surge, int units) {
    state_motor_with_shed(work, island, subject, surge, units);
    const auto kept = kept_loads(island.loads);
    const PanelLoad* motor = largest_motor(kept);
    if (motor == nullptr)
        return;
    if (surge <= Amps{0}) {
        advise_of_surge(work, island, source, *motor);
        return;
    }
    const Desk desk = work.desk(subject);
    const auto starting = *starting_current(desk, {.locked_rotor = locked_rotor(*motor)});
    const auto verdict =
        check_starting(desk, {.starting = starting,
                              .running_beside = running_beside(work),
                              .peak = from_nameplate(work, source, "surge", "I_peak",
                                                     "Current for seconds, to start motors", surge),
                              .count = units});
    complain_of_verdicts(
        work, {verdict},
        {.rule = {},
         .span = motor->circuit->locked_rotor->span,
         .message =
             fmt::format("{}: {} {} may not start it", called(*motor), source.maker, source.model),
         .expected = "a source with a larger surge, a soft starter, or a load controller that "
                     "sheds it",
         .subject = subject_of(island.device)});
}

void check_standby(Work& work) {
    for (const Island& island : islands(work.system)) {
        check_island(work, island);
    }
}

} // namespace ohmfolio::workings
