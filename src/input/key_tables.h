/// The shapes that make up a description; how they combine is in keys.cpp.
#pragma once

#include "input/keys.h"

namespace ohmfolio {

extern const Shape project_shape;
extern const Shape site_shape;
extern const Shape modules_shape;
extern const Shape limits_shape;
extern const Shape waiver_shape;
extern const Shape revision_shape;
extern const Shape comment_shape;
extern const Shape appendix_shape;

extern const Shape roof_shape;
extern const Shape site_plan_shape;
extern const Shape wall_shape;
extern const Shape load_calculation_shape;
extern const Shape power_control_shape;
extern const Shape load_controller_shape;
extern const Shape backup_shape;
extern const Shape control_wiring_shape;
extern const Shape material_shape;

extern const Shape branch_shape;
extern const Shape string_shape;
extern const Shape inverter_shape;
extern const Shape junction_box_shape;
extern const Shape combiner_shape;
extern const Shape disconnect_shape;
extern const Shape battery_shape;
extern const Shape generator_shape;
extern const Shape mid_shape;
extern const Shape panel_shape;
extern const Shape meter_shape;
extern const Shape transfer_switch_shape;
extern const Shape supply_connection_shape;

} // namespace ohmfolio
