// How long an island lasts, and what it carries by the sun alone.

#include "study/standby.h"

#include <fmt/format.h>

#include "base/text.h"
#include "code/backup_rules.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

/// What no number tells: nothing is backed up at night, and what a cloud takes away goes off.
void state_availability(Work& work, const Island& island) {
    const auto kept = kept_loads(island.loads);
    std::vector<std::string> names;
    for (const PanelLoad& load : kept) {
        names.push_back(load.circuit->name);
    }
    work.study.worksheet.choose(
        {.subject = island.subject(),
         .name = "availability",
         .title = "Backup without storage",
         .cite = work.book.cite("backup.noon"),
         .source = names.empty() ? "no loads are described" : "for " + join(names, ", ")},
        "only while the sun shines; a cloud may drop the loads", {});
}

} // namespace

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
    const auto solar = solar_output(work, island);
    if (!solar)
        return;
    NoonInput input{.output = solar->value};
    const auto largest = largest_load(island, false);
    if (by_sun_alone(island))
        state_availability(work, island);
    if (by_sun_alone(island) && largest)
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
