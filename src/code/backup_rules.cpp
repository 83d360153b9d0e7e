// How long storage carries what is backed up, and what PV carries without it.
#include "code/backup_rules.h"

#include <stdexcept>

#include "code/line.h"

namespace ohmfolio {

namespace {

/// A line whose paragraph, or lack of one, is that of a rule.
Heading line_of(const Desk& desk, std::string name, std::string symbol, std::string title,
                std::string_view rule) {
    return line_for(desk, std::move(name), std::move(symbol), std::move(title),
                    desk.book.cite(rule));
}

/// A share as the job states it, else the book's.
Term<Ratio> share(const Desk& desk, std::string name, std::string symbol, std::string title,
                  std::optional<Ratio> stated, std::string_view number) {
    Heading heading = line_for(desk, std::move(name), std::move(symbol), std::move(title), {});
    heading.cite = {{}, stated ? "as stated" : "common practice"};
    heading.as = ShownAs::percent;
    return desk.sheet.state(heading, stated ? *stated : Ratio{desk.book.number(number)});
}

} // namespace

Term<Watts> stated_average_load(const Desk& desk, Watts average) {
    return desk.sheet.state(line_for(desk, "average_load", "P_avg",
                                     "Average of the backed-up loads", {{}, "as stated"}),
                            average);
}

Term<Watts> average_load_by_share(const Desk& desk, Watts connected, Ratio running) {
    const auto load = desk.sheet.state(line_for(desk, "connected_load", "P_connected",
                                                "Connected backed-up loads", {{}, "as stated"}),
                                       connected);
    const auto part = share(desk, "load_share", "f", "Share of them that runs, on average", running,
                            "backup.load");
    return desk.sheet.define(
        line_of(desk, "average_load", "P_avg", "Average of the backed-up loads", "backup.load"),
        part * load);
}

BackupDuration backup_duration(const Desk& desk, const BackupInput& input) {
    if (input.average.value.value <= 0)
        throw std::logic_error("without a load there is no duration to work out");
    const auto usable =
        desk.sheet.state(line_for(desk, "usable_energy", "E_usable", "Usable energy of storage",
                                  {{}, "equipment nameplate"}),
                         input.usable);
    const auto depth = share(desk, "backup_depth", "f_depth", "Share that is counted on",
                             input.depth, "backup.depth");
    const auto efficiency = share(desk, "backup_efficiency", "η", "Efficiency, storage to loads",
                                  input.efficiency, "backup.efficiency");
    BackupDuration result;
    result.energy = desk.sheet.define(
        line_of(desk, "backup_energy", "E_backup", "Energy for backup", "backup.energy"),
        depth * efficiency * usable);
    result.duration = desk.sheet.define(
        line_of(desk, "backup_duration", "t_backup",
                "Time that full storage carries the loads, without sun", "backup.duration"),
        result.energy / input.average);
    if (input.wanted) {
        result.as_long_as_wanted = desk.sheet.check(
            line_of(desk, "backup_lasts", "", "Storage lasts for as long as is wanted",
                    "backup.duration.wanted"),
            result.duration, "≥", given("t_wanted", *input.wanted, "wanted"));
    }
    return result;
}

NoonPower noon_power(const Desk& desk, const NoonInput& input) {
    const auto output = desk.sheet.state(line_for(desk, "forming_output", "P_ac",
                                                  "Continuous output of the PV that forms the grid",
                                                  {{}, "equipment nameplate"}),
                                         input.output);
    const auto part = share(desk, "noon_share", "f_noon", "Share of it at noon, clear sky",
                            input.share, "backup.noon");
    NoonPower result;
    result.at_noon = desk.sheet.define(
        line_of(desk, "noon_power", "P_noon", "Power of PV alone at noon", "backup.noon"),
        part * output);
    if (input.largest_load) {
        result.carries_largest = desk.sheet.check(
            line_of(desk, "noon_largest", "", "PV alone carries the largest single load",
                    "backup.noon.largest"),
            result.at_noon, "≥", given("P_largest", *input.largest_load, "largest single load"));
    }
    return result;
}

} // namespace ohmfolio
