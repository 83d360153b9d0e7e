#include <fmt/format.h>

#include "base/text.h"
#include "sheet/schedules.h"
#include "sheet/sheet_case.h"

namespace ohmfolio::sheets {

namespace {

Row row(const std::string& shows, const std::string& what, Amps rating, int poles,
        const std::string& kind) {
    Row made;
    for (const std::string& text :
         {what, trimmed(rating.value, 1), fmt::format("{}", poles), kind}) {
        Cell cell;
        cell.text = sheet_case(text);
        cell.shows = shows;
        made.cells.push_back(std::move(cell));
    }
    return made;
}

Row source_row(const System& system, const Study& study, std::size_t index) {
    const Breaker& breaker = system.breakers[index];
    const Circuit& circuit = system.circuits[static_cast<std::size_t>(breaker.circuit)];
    const Equipment& from = system.equipment[static_cast<std::size_t>(system.child_of(circuit))];
    const bool source =
        circuit.use != CircuitUse::backup_feeder && circuit.use != CircuitUse::service;
    return row("breaker:" + breaker.tag,
               fmt::format("{} {}, {}", breaker.tag, circuit.tag, from.id),
               study.breakers[index].rating, breaker.poles, source ? "Power source" : "Feeder");
}

std::string panel_title(const System& system, const Equipment& e, const Panel& panel) {
    std::string title = fmt::format("{} {}", e.id, e.title);
    if (e.existing)
        title += " (E)";
    if (const auto* ratings = system.ratings<PanelRatings>(e))
        title += fmt::format(", {} A bus", trimmed(ratings->bus.value, 1));
    if (panel.backed_up)
        title += ", backed up";
    return title;
}

} // namespace

Table panel_schedule(const System& system, const Study& study, int index) {
    const Equipment& e = system.equipment[static_cast<std::size_t>(index)];
    const Panel& panel = *e.as<Panel>();
    const std::string shows = "equipment:" + e.id;
    Table table;
    table.title = sheet_case(panel_title(system, e, panel));
    table.columns = {{"CIRCUIT", Align::left, {}},
                     {"BREAKER\nA", Align::right, {}},
                     {"POLES", Align::right, {}},
                     {"KIND", Align::left, {}}};
    if (panel.main)
        table.rows.push_back(row(shows, "Main breaker", panel.main->value, 2, "Main"));
    for (std::size_t i = 0; i < system.breakers.size(); ++i)
        if (system.breakers[i].at == index && system.breakers[i].circuit >= 0)
            table.rows.push_back(source_row(system, study, i));
    for (const LoadCircuit& load : panel.loads)
        table.rows.push_back(row(shows, load.name, load.breaker.value, load.poles, "Load"));
    return table;
}

} // namespace ohmfolio::sheets
