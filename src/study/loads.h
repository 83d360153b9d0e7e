/// The load calculation of the building, for the steps that ask for it again.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "code/load_rules.h"
#include "study/work.h"

namespace ohmfolio::workings {

/// A load of a panel.
struct PanelLoad {
    const Equipment* panel;
    const LoadCircuit* circuit;
};
std::vector<PanelLoad> all_loads(const System&);
/// Of the panels that lie on the backup side below `head`.
std::vector<PanelLoad> backed_up_loads(const System&, int head);
/// Voltage of its circuit: between lines, or to neutral.
Volts voltage_of(const System&, const LoadCircuit&);

/// The calculation by the stated method over these loads, written under `subject`. Nothing without
/// [load_calculation], or where the method is that of the meter's record, which knows no single
/// load. The service is checked where `against_service`.
std::optional<LoadResult> calculated_load(Work&, const std::string& subject,
                                          const std::vector<PanelLoad>& loads,
                                          bool against_service);

} // namespace ohmfolio::workings
