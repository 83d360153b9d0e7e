#include "drawing/connections.h"

namespace ohmfolio {

Strokes::Strokes(const Frame& frame, const std::vector<Role>& roles) : grid_(paper(frame)) {
    for (const Role role : roles) {
        for (Outline& outline : outlines_of(frame, role))
            outlines_.push_back(std::move(outline));
    }
    for (std::size_t o = 0; o < outlines_.size(); ++o) {
        for (std::size_t s = 0; s < outlines_[o].stretches(); ++s) {
            grid_.add(all_.size(), ohmfolio::bounds(outlines_[o].stretch(s)).grown(joined_within));
            all_.push_back({o, s});
        }
    }
}

std::vector<Strokes::Found> Strokes::near(const Box& box) const {
    std::vector<Found> result;
    for (const std::size_t id : grid_.near(box)) {
        const Box here = ohmfolio::bounds(stretch(all_[id]));
        // Lines along an axis have no area, so boxes that touch count here.
        if (here.low.x <= box.high.x && box.low.x <= here.high.x && here.low.y <= box.high.y &&
            box.low.y <= here.high.y)
            result.push_back(all_[id]);
    }
    return result;
}

bool Strokes::touches(Point point, Length reach, std::size_t except) const {
    for (const Found found : near(Box{point, point}.grown(reach))) {
        if (found.outline != except && distance(point, stretch(found)) <= reach)
            return true;
    }
    return false;
}

Ports::Ports(const Frame& frame) : grid(paper(frame)) {
    for (const Mark& mark : frame.marks) {
        if (const auto* port = std::get_if<Port>(&mark.item)) {
            grid.add(all.size(), {port->at, port->at});
            all.push_back(port);
        }
    }
}

std::vector<std::size_t> Ports::at(Point point, Length reach) const {
    std::vector<std::size_t> result;
    for (const std::size_t id : grid.near(Box{point, point}.grown(reach))) {
        if (distance(all[id]->at, point) <= reach)
            result.push_back(id);
    }
    return result;
}

Junctions::Junctions(const Frame& frame) : grid_(paper(frame)) {
    for (const Mark& mark : frame.marks) {
        const auto* path = std::get_if<Path>(&mark.item);
        if (path == nullptr || mark.role != Role::junction)
            continue;
        const Box dot = bounds(*path);
        grid_.add(dots_.size(), dot);
        dots_.push_back(dot);
    }
}

bool Junctions::at(Point point) const {
    for (const std::size_t id : grid_.near({point, point})) {
        if (dots_[id].contains(point))
            return true;
    }
    return false;
}

} // namespace ohmfolio
