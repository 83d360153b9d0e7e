#include "render/pen.h"

namespace ohmfolio {

std::vector<double> dash_pattern(const Stroke& stroke) {
    const double pen = stroke.width.in_points();
    switch (stroke.type) {
    case LineType::solid:
        return {};
    case LineType::dashed:
        return {12 * pen, 3 * pen};
    case LineType::short_dashed:
        return {4 * pen, 2.5 * pen};
    case LineType::dash_dot:
        return {12 * pen, 3 * pen, 0.5 * pen, 3 * pen};
    case LineType::phantom:
        return {24 * pen, 3 * pen, 3 * pen, 3 * pen, 3 * pen, 3 * pen};
    case LineType::dotted:
        return {0, 3 * pen};
    }
    return {};
}

bool round_ends(const Stroke& stroke) {
    return stroke.type == LineType::solid || stroke.type == LineType::dotted;
}

} // namespace ohmfolio
