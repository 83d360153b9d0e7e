/// Control and communications wiring: dashed, around everything else, one tree for all that a
/// gateway talks to.
#include <algorithm>
#include <cstdlib>

#include "diagram/interior.h"
#include "diagram/square_router.h"

namespace ohmfolio::diagram {

namespace {

/// `clear` is the distance kept from bodies; lettering keeps half of it.
std::vector<Box> obstacles(const Plan& plan, const Frame& frame, Length clear) {
    const Length text_clear = clear / 2;
    std::vector<Box> out;
    for (const Block& block : plan.blocks) {
        out.push_back(block.body.grown(clear));
    }
    for (const Mark& mark : frame.marks) {
        if (const auto* text = std::get_if<Text>(&mark.item)) {
            out.push_back(text_box(*text, plan.measure).grown(text_clear));
        } else if (const auto* path = std::get_if<Path>(&mark.item)) {
            if (mark.role == Role::symbol || mark.role == Role::leader) {
                out.push_back(bounds(*path).grown(text_clear));
            }
        }
    }
    // Obstacles inside a body are covered by the body's own.
    std::vector<Box> needed;
    for (const Box& box : out) {
        const bool inside =
            std::any_of(plan.blocks.begin(), plan.blocks.end(), [&](const Block& b) {
                const Box whole = b.body.grown(clear);
                return whole.contains(box) && !(whole == box);
            });
        if (!inside) {
            needed.push_back(box);
        }
    }
    return needed;
}

/// Power wires, and the control wiring of other gateways: crossed at a price, never run along.
std::vector<Stretch> drawn_wires(const Frame& frame) {
    std::vector<Stretch> out;
    for (const Mark& mark : frame.marks) {
        const auto* path = std::get_if<Path>(&mark.item);
        if (path == nullptr || (mark.role != Role::wire && mark.role != Role::control)) {
            continue;
        }
        for (std::size_t i = 1; i < path->segments.size(); ++i) {
            out.push_back({path->segments[i - 1].to, path->segments[i].to});
        }
    }
    return out;
}

/// One gateway's wiring, grown member by member, the nearest first.
class ControlTree {
  public:
    ControlTree(const Plan& plan, const SquareRouter& router, Frame& frame, const ControlNet& net)
        : plan_(plan), router_(router), frame_(frame), net_(net),
          shows_("control:" + plan.system.at(net.equipment).id) {}

    /// False when some member cannot be reached.
    bool grow() {
        const Point root = escape(net_.gateway);
        tree_ = {{root, root}};
        leave(net_.gateway, root);
        std::vector<int> members = net_.members;
        std::stable_sort(members.begin(), members.end(), [&](int a, int b) {
            return distance(escape(a), root) < distance(escape(b), root);
        });
        return std::all_of(members.begin(), members.end(), [&](int m) { return join(m); });
    }

  private:
    static std::int64_t distance(Point a, Point b) {
        return std::abs((a.x - b.x).nm) + std::abs((a.y - b.y).nm);
    }

    /// The first point clear of the block and its name: straight above where the wiring meets it,
    /// or beside it where it leaves through a side.
    Point escape(int equipment) const {
        const Block& block = plan_.block(equipment);
        const Point at = control_at(plan_, block);
        if (at.x == block.body.low.x) {
            return {at.x - plan_.spacing.control_clear, at.y};
        }
        if (at.x == block.body.high.x) {
            return {at.x + plan_.spacing.control_clear, at.y};
        }
        return {at.x, block.line - block.up - plan_.spacing.text_gap};
    }

    void stroke(const std::vector<Point>& points) {
        frame_.add(polyline(points, control_stroke), Role::control, shows_);
    }

    void leave(int equipment, Point to) { stroke({control_at(plan_, plan_.block(equipment)), to}); }

    bool join(int equipment) {
        const Point target = escape(equipment);
        const auto path = router_.path(tree_, target);
        if (!path) {
            return false;
        }
        if (path->front() != tree_.front().a) {
            frame_.add(disc(path->front(), millimetres(0.5), black), Role::junction, shows_);
        }
        for (std::size_t i = 1; i < path->size(); ++i) {
            tree_.push_back({(*path)[i - 1], (*path)[i]});
        }
        std::vector<Point> points = *path;
        points.push_back(control_at(plan_, plan_.block(equipment)));
        stroke(points);
        return true;
    }

    const Plan& plan_;
    const SquareRouter& router_;
    Frame& frame_;
    const ControlNet& net_;
    std::string shows_;
    std::vector<Stretch> tree_;
};

} // namespace

void route_controls(const Plan& plan, Frame& frame, Findings& findings) {
    const Box area = box_at({}, plan.area);
    for (const ControlNet& net : plan.controls) {
        // In a crowded place the wiring may come closer to what it passes.
        bool found = false;
        for (const std::int64_t closer : {1, 2, 4}) {
            const Length clear = plan.spacing.control_clear / closer;
            const SquareRouter router(area, obstacles(plan, frame, clear), drawn_wires(frame),
                                      clear / 2);
            Frame tried = frame;
            found = ControlTree(plan, router, tried, net).grow();
            if (found) {
                frame = std::move(tried);
                break;
            }
        }
        if (!found) {
            findings.push_back({.rule = "diagram.control_unrouted",
                                .severity = Severity::warning,
                                .subject = "equipment:" + plan.system.at(net.equipment).id,
                                .message = "no free way was found for some of its control wiring",
                                .expected = "a larger sheet format"});
        }
    }
}

} // namespace ohmfolio::diagram
