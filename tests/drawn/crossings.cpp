#include "drawn/crossings.h"

#include <set>
#include <tuple>

#include "drawing/connections.h"

namespace ohmfolio::drawn {
namespace {

bool is_end(const Outline& line, Point at) {
    return distance(at, line.points.front()) <= joined_within ||
           distance(at, line.points.back()) <= joined_within;
}

} // namespace

Crossings crossings(const Frame& frame) {
    const Strokes lines(frame, {Role::wire, Role::control});
    const Junctions dots(frame);
    const auto& outlines = lines.outlines();
    Crossings result;
    std::set<std::tuple<std::size_t, std::size_t, Point>> counted; // a bend may lie on a line
    for (std::size_t one = 0; one < outlines.size(); ++one) {
        for (std::size_t s = 0; s < outlines[one].stretches(); ++s) {
            for (const auto found : lines.near(bounds(outlines[one].stretch(s)))) {
                if (found.outline <= one) {
                    continue;
                }
                const Outline& other = outlines[found.outline];
                const auto met = meeting(outlines[one].stretch(s), lines.stretch(found));
                if (!met || met->overlap > joined_within || is_end(outlines[one], met->at) ||
                    is_end(other, met->at) || dots.at(met->at) ||
                    !counted.insert({one, found.outline, met->at}).second) {
                    continue;
                }
                const bool power = frame.marks[outlines[one].mark].role == Role::wire &&
                                   frame.marks[other.mark].role == Role::wire;
                ++(power ? result.of_power : result.by_control);
            }
        }
    }
    return result;
}

} // namespace ohmfolio::drawn
