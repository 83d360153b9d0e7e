/// The schedules as tables of text: every number read from the study, every row tied to what the
/// diagram draws and to its calculation.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "drawing/table.h"
#include "model/system.h"
#include "study/study.h"

namespace ohmfolio::sheets {

Table conductor_schedule(const System& system, const Study& study);
Table overcurrent_schedule(const System& system, const Study& study);
Table disconnect_schedule(const System& system, const Study& study);
/// Raceways with what they hold and what they are exposed to.
Table raceway_schedule(const System& system, const Study& study);
/// With a column that leads to the appendix where there is one; see appendix.h.
Table equipment_schedule(const System& system, const std::vector<std::string>& appendix = {});
/// Current transformers and control wiring; without rows where there is none.
Table metering_schedule(const System& system);
/// What each load controller cuts off; without rows where there are none.
Table shedding_schedule(const System& system);
/// Breakers on the bus of one panel: main, loads, sources.
Table panel_schedule(const System& system, const Study& study, int panel);

/// "20.16 kWh, 3.84 kVA, 240 V, 16 A": the nameplate in a line.
std::string ratings_text(const Record& record);
/// The anchor of a circuit's calculation, "calc:C3", where the study has one; empty otherwise.
std::string calculation_anchor(const Study& study, std::string_view subject);

} // namespace ohmfolio::sheets
