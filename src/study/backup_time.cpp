// How long an island lasts, and what it carries by the sun alone.

#include "study/standby.h"

#include <fmt/format.h>

#include "code/backup_rules.h"
#include "study/terms.h"

namespace ohmfolio::workings {

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

} // namespace ohmfolio::workings
