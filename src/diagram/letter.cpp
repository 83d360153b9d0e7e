/// Conductor tags. Candidates along each wire are scored; the best that
/// touches nothing is taken.
#include <algorithm>
#include <cstdlib>
#include <optional>

#include "diagram/plan.h"
#include "drawing/free_room.h"

namespace ohmfolio::diagram {

namespace {

constexpr Length step = inches(0.05);
constexpr Length clearance = inches(0.02);

struct Candidate {
    Box box;
    std::int64_t penalty = 0; ///< distance from the best place, in nanometres
};

/// Boxes that overlap or meet at an edge; a wire is a box without width.
bool touches(const Box& a, const Box& b) {
    return a.low.x < b.high.x + Length{1} && b.low.x < a.high.x + Length{1} &&
           a.low.y < b.high.y + Length{1} && b.low.y < a.high.y + Length{1};
}

std::vector<Candidate> candidates(Point a, Point b, Size tag) {
    std::vector<Candidate> out;
    const bool horizontal = a.y == b.y;
    const Point middle = Box{a, b}.centre();
    const Length along = horizontal ? tag.width : tag.height;
    const Length reach = Length{horizontal ? std::abs((a.x - b.x).nm) : std::abs((a.y - b.y).nm)};
    for (Length offset{}; offset * 2 + along <= reach; offset += step) {
        for (const std::int64_t sign : {1, -1}) {
            for (const bool second_side : {false, true}) {
                const Point low = horizontal ? Point{middle.x + sign * offset - tag.width / 2,
                                                     second_side ? a.y + clearance * 2
                                                                 : a.y - tag.height - clearance * 2}
                                             : Point{second_side ? a.x - tag.width - clearance * 2
                                                                 : a.x + clearance * 2,
                                                     middle.y + sign * offset - tag.height / 2};
                out.push_back({box_at(low, tag), offset.nm + (second_side ? reach.nm : 0)});
            }
        }
    }
    return out;
}

std::optional<Box> best_place(const std::vector<Point>& wire, Size tag,
                              const std::vector<Box>& taken, const Box& area) {
    std::vector<Candidate> all;
    for (std::size_t i = 1; i < wire.size(); ++i) {
        const std::vector<Candidate> some = candidates(wire[i - 1], wire[i], tag);
        all.insert(all.end(), some.begin(), some.end());
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const Candidate& a, const Candidate& b) { return a.penalty < b.penalty; });
    for (const Candidate& c : all) {
        const Box grown = c.box.grown(clearance);
        const bool clear =
            area.contains(grown) && std::none_of(taken.begin(), taken.end(),
                                                 [&](const Box& b) { return touches(grown, b); });
        if (clear) {
            return c.box;
        }
    }
    return std::nullopt;
}

} // namespace

std::vector<int> letter(const Plan& plan, Frame& frame, const std::vector<int>& wires,
                        Findings& findings) {
    std::vector<Box> taken = taken_boxes(frame, plan.measure);
    std::vector<int> unplaced;
    for (const int index : wires) {
        const Wire& wire = plan.wire(index);
        if (wire.circuits.empty()) {
            continue;
        }
        const std::string& first = plan.circuit(wire.circuits.front()).tag;
        const auto place =
            best_place(wire.points, tag_size(plan, wire.tag), taken, box_at({}, plan.area));
        if (!place) {
            unplaced.push_back(index);
            findings.push_back({.rule = "diagram.tag_unplaced",
                                .severity = Severity::warning,
                                .subject = "circuit:" + first,
                                .message = "no free place for the tag of " + wire.tag,
                                .expected = "a larger sheet format"});
            continue;
        }
        taken.push_back(*place);
        add_tag(plan, frame, *place, wire.tag, first);
        // Of the two ends of a wire that goes on elsewhere, links lead to the source's.
        if (plan.block(wire.child).form != Form::match) {
            for (const int circuit : wire.circuits) {
                frame.add(Anchor{place->low, "diagram:" + plan.circuit(circuit).tag}, Role::none,
                          "circuit:" + first);
            }
        }
    }
    return unplaced;
}

Size tag_size(const Plan& plan, const std::string& tag) {
    const Length cap = plan.measure.cap_height(plan.style.tag);
    return {plan.measure.width(tag, plan.style.tag) + cap, cap * 7 / 4};
}

void add_tag(const Plan& plan, Frame& frame, const Box& box, const std::string& words,
             const std::string& circuit) {
    const std::string shows = "circuit:" + circuit;
    const Length cap = plan.measure.cap_height(plan.style.tag);
    frame.add(tag_outline(box), Role::leader, shows);
    frame.add(
        Text{{box.centre().x, box.centre().y + cap / 2}, words, plan.style.tag, Align::centre},
        Role::lettering, shows);
    frame.add(Link{box, "schedule:" + circuit}, Role::none, shows);
}

Path tag_outline(const Box& box) {
    const Length point = box.height() / 3;
    const Length middle = box.centre().y;
    Path path = polyline({{box.low.x, middle},
                          {box.low.x + point, box.low.y},
                          {box.high.x - point, box.low.y},
                          {box.high.x, middle},
                          {box.high.x - point, box.high.y},
                          {box.low.x + point, box.high.y}},
                         {thin_pen});
    path.segments.push_back({Segment::Kind::close, {}, {}, {}});
    return path;
}

} // namespace ohmfolio::diagram
