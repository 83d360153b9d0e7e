#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "sheet/conductor_words.h"
#include "sheet/facts.h"
#include "sheet/schedule_rows.h"
#include "sheet/schedules.h"

namespace ohmfolio::sheets {

namespace {

/// What one row of the panel holds, in words.
struct Space {
    std::string number; ///< tag of the device, or the number of the load
    std::string circuit;
    Amps rating{};
    int poles = 2;
    std::string lines; ///< of a bus of three: "A-B"; empty otherwise
    std::string kind;
    bool existing = false;
};

Row row_of(const std::string& shows, const Space& space) {
    RowMaker row(shows);
    row.tag(space.number).add(space.circuit).add(schedule_amps(space.rating));
    row.add(fmt::format("{}", space.poles));
    if (!space.lines.empty())
        row.add(space.lines);
    row.add(space.kind);
    row.add(space.existing ? "existing" : "new");
    return row.row();
}

/// Which lines poles sit on is said where there are three.
std::string lines_on(const System& system, int panel, const Phases& phases) {
    return system.lines_at(panel) == 3 ? phases.name() : std::string{};
}

/// "power source, opposite end": where its breaker must stay under the 120 % rule.
std::string source_words(const System& system, int holder) {
    const auto* panel = system.at(holder).as<Panel>();
    return panel != nullptr && panel->opposite_end ? "power source, end opposite main"
                                                   : "power source";
}

Space source_space(const System& system, const Study& study, std::size_t index) {
    const Breaker& breaker = system.breakers[index];
    const Circuit& circuit = system.circuits[static_cast<std::size_t>(breaker.circuit)];
    const bool toward_loads = system.source_end(circuit) == system.parent_of(circuit);
    const Equipment& far = system.at(system.child_of(circuit));
    return {breaker.tag,
            fmt::format("{}, {} {}", circuit.tag, toward_loads ? "to" : "from", far.id),
            study.breakers[index].rating,
            breaker.poles,
            lines_on(system, breaker.at, circuit.phases),
            toward_loads ? "feeder" : source_words(system, breaker.at),
            is_existing(system, circuit)};
}

/// "MSP (E) MAIN SERVICE PANEL / 120/240 V, 200 A BUS, 200 A MAIN, 22 kA SCCR"
std::string panel_title(const System& system, int index, const Panel& panel) {
    const Equipment& e = system.at(index);
    std::string title = fmt::format("{} {}\n{}", id_with_status(e), e.title,
                                    supply_words(system.site, system.lines_at(index)));
    const auto* ratings = system.ratings<PanelRatings>(e);
    if (ratings)
        title += fmt::format(", {} A bus", trimmed(ratings->bus.value, 1));
    if (panel.center_fed)
        title += ", center-fed";
    title += panel.main           ? fmt::format(", {} A main", trimmed(panel.main->value.value, 1))
             : panel.through_lugs ? ", on feed-through lugs"
                                  : ", main lugs only";
    if (ratings && ratings->interrupting.value > 0)
        title += fmt::format(", {} kA SCCR", schedule_kiloamps(ratings->interrupting));
    if (panel.surge_device)
        title += "\nSPD " + name(*panel.surge_device);
    return title;
}

/// "load", with who cuts it off.
std::string load_words(const LoadCircuit& load) {
    return load.shed_by.empty() ? "load" : "load, shed by " + load.shed_by;
}

} // namespace

Table panel_schedule(const System& system, const Study& study, int index) {
    const Equipment& e = system.at(index);
    const Panel& panel = *e.as<Panel>();
    const std::string shows = "equipment:" + e.id;
    Table table;
    table.title = drafting_case(panel_title(system, index, panel));
    table.columns = {text_column("No."),     text_column("Circuit"), number_column("Breaker\nA"),
                     number_column("Poles"), text_column("Kind"),    text_column("Status")};
    const int lines = system.lines_at(index);
    if (lines == 3)
        table.columns.insert(table.columns.begin() + 4, text_column("Lines"));
    if (panel.main) {
        table.rows.push_back(
            row_of(shows, {"Main", fmt::format("bus of {}", e.id), panel.main->value, lines,
                           lines_on(system, index, Phases::all(lines)), "main", e.existing}));
    }
    for (std::size_t i = 0; i < system.breakers.size(); ++i) {
        if (system.breakers[i].at == index && system.breakers[i].circuit >= 0) {
            table.rows.push_back(
                row_of("breaker:" + system.breakers[i].tag, source_space(system, study, i)));
        }
    }
    int number = 0;
    for (const LoadCircuit& load : panel.loads) {
        table.rows.push_back(
            row_of(shows, {fmt::format("{}", ++number), load.name, load.breaker.value, load.poles,
                           lines_on(system, index, load.phases), load_words(load),
                           e.existing && !load.added}));
    }
    return table;
}

} // namespace ohmfolio::sheets
