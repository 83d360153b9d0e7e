/// The shapes that make up a description; how they combine is in keys.cpp.
#pragma once

#include "input/keys.h"

namespace ohmfolio {

extern const Shape project_shape;
extern const Shape site_shape;
extern const Shape modules_shape;
extern const Shape limits_shape;
extern const Shape waiver_shape;

extern const Shape branch_shape;
extern const Shape junction_box_shape;
extern const Shape combiner_shape;
extern const Shape disconnect_shape;
extern const Shape battery_shape;
extern const Shape mid_shape;
extern const Shape panel_shape;
extern const Shape meter_shape;

} // namespace ohmfolio
