// Motors that the sources of an island have to start.

#include "study/standby.h"

#include <fmt/format.h>

#include "code/standby_rules.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

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

/// What runs meanwhile: the stated average.
std::optional<Term<Amps>> running_beside(Work& work) {
    if (!work.system.backup || work.system.backup->average.value <= Watts{0})
        return {};
    return given("P_avg", work.system.backup->average.value,
                 "average of the backed-up loads, as stated") /
           power_voltage(work);
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

} // namespace

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
    const auto starting =
        *starting_current(desk, {.locked_rotor = motor->circuit->locked_rotor->value});
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

void check_storage_start(Work& work, const Island& island) {
    if (const auto* inverter = work.system.ratings<StringInverterRatings>(island.device)) {
        check_motor_start(work, island, island.subject(), *work.system.record(island.device),
                          inverter->backup.surge, 1);
        return;
    }
    const auto records = records_of(work.system, island.batteries);
    if (records.size() != 1)
        return; // unlike units share a surge in ways that no nameplate tells
    const Record& record = at(work.system.catalogue.records, records.front());
    if (std::get<BatteryRatings>(record.ratings).direct_current())
        return; // what starts a motor is the inverter's to say
    check_motor_start(work, island, island.subject(), record,
                      std::get<BatteryRatings>(record.ratings).surge,
                      static_cast<int>(island.batteries.size()));
}

} // namespace ohmfolio::workings
