#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "sheet/conductor_words.h"
#include "sheet/schedule_rows.h"
#include "sheet/schedules.h"

namespace ohmfolio::sheets {

namespace {

Row shed_row(const LoadController& controller, const Equipment& e, const std::string& what,
             Amps breaker, Watts power) {
    RowMaker row("equipment:" + e.id);
    row.tag(controller.id + (controller.existing ? " (E)" : ""));
    row.add(what).add(e.is<Panel>() ? id_with_status(e) : std::string(none));
    row.add(breaker.value > 0 ? schedule_amps(breaker) : std::string(none));
    row.add(power.value > 0 ? trimmed(power.value / 1000, 2) : std::string(none));
    return row.row();
}

Watts branch_output(const System& system, const BranchArray& branch) {
    const Record& record = system.catalogue.records[static_cast<std::size_t>(branch.microinverter)];
    return std::get<MicroinverterRatings>(record.ratings).output * branch.count;
}

} // namespace

Table shedding_schedule(const System& system) {
    Table table;
    table.title = drafting_case("Load control while islanded");
    table.columns = {text_column("Controller"), text_column("Sheds", 1.6), text_column("In"),
                     number_column("Breaker\nA"), number_column("kVA")};
    for (const LoadController& controller : system.load_controllers) {
        for (const Equipment& e : system.equipment) {
            if (const auto* branch = e.as<BranchArray>();
                branch && branch->shed_by == controller.id)
                table.rows.push_back(shed_row(controller, e, fmt::format("PV branch {}", e.id), {},
                                              branch_output(system, *branch)));
            const auto* panel = e.as<Panel>();
            if (panel == nullptr)
                continue;
            for (const LoadCircuit& load : panel->loads) {
                if (load.shed_by == controller.id)
                    table.rows.push_back(shed_row(controller, e, load.name, load.breaker.value,
                                                  load.power ? load.power->value : Watts{}));
            }
        }
    }
    return table;
}

} // namespace ohmfolio::sheets
