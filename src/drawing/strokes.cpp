#include "drawing/strokes.h"

#include <algorithm>
#include <cmath>

namespace ohmfolio {

namespace {

constexpr int chords_per_curve = 16;

/// Lines closer than this are one line: rounding to whole nanometres happens in several places.
constexpr double same_line = 1000; // nm

struct Vector {
    double x = 0, y = 0;
};

Vector vector(Point p) { return {static_cast<double>(p.x.nm), static_cast<double>(p.y.nm)}; }
Vector between(Point from, Point to) { return vector(to - from); }
double cross(Vector a, Vector b) { return a.x * b.y - a.y * b.x; }
double dot(Vector a, Vector b) { return a.x * b.x + a.y * b.y; }

Point point_at(const Stretch& s, double part) {
    return {s.from.x + scaled(s.to.x - s.from.x, part), s.from.y + scaled(s.to.y - s.from.y, part)};
}

Point on_curve(Point from, const Segment& curve, double t) {
    const double u = 1 - t;
    const auto blend = [&](Length Point::*axis) {
        const double value = u * u * u * static_cast<double>((from.*axis).nm) +
                             3 * u * u * t * static_cast<double>((curve.control1.*axis).nm) +
                             3 * u * t * t * static_cast<double>((curve.control2.*axis).nm) +
                             t * t * t * static_cast<double>((curve.to.*axis).nm);
        return Length{std::llround(value)};
    };
    return {blend(&Point::x), blend(&Point::y)};
}

/// Where along `a` the line through `b` crosses it, if both are crossed; parallels never.
std::optional<double> crossing(const Stretch& a, const Stretch& b) {
    const Vector along_a = between(a.from, a.to);
    const Vector along_b = between(b.from, b.to);
    const double turn = cross(along_a, along_b);
    if (turn == 0)
        return std::nullopt;
    const Vector apart = between(a.from, b.from);
    const double on_a = cross(apart, along_b) / turn;
    const double on_b = cross(apart, along_a) / turn;
    if (on_a < 0 || on_a > 1 || on_b < 0 || on_b > 1)
        return std::nullopt;
    return on_a;
}

std::optional<Meeting> parallel_meeting(const Stretch& a, const Stretch& b) {
    const Vector along = between(a.from, a.to);
    const double size = std::hypot(along.x, along.y);
    if (size == 0 || std::abs(cross(along, between(a.from, b.from))) > same_line * size)
        return std::nullopt;
    const auto part = [&](Point p) { return dot(along, between(a.from, p)) / (size * size); };
    const double from = std::max(0.0, std::min(part(b.from), part(b.to)));
    const double to = std::min(1.0, std::max(part(b.from), part(b.to)));
    if (from > to)
        return std::nullopt;
    return Meeting{point_at(a, (from + to) / 2), Length{std::llround((to - from) * size)}};
}

class OutlineBuilder {
  public:
    explicit OutlineBuilder(std::size_t mark) { current_.mark = mark; }

    void add(const Segment& segment) {
        switch (segment.kind) {
        case Segment::Kind::move:
            finish();
            reach(segment.to);
            break;
        case Segment::Kind::line:
            reach(segment.to);
            break;
        case Segment::Kind::curve: {
            const Point from = current_.points.empty() ? segment.to : current_.points.back();
            for (int i = 1; i < chords_per_curve; ++i)
                reach(on_curve(from, segment, static_cast<double>(i) / chords_per_curve));
            reach(segment.to);
            break;
        }
        case Segment::Kind::close:
            if (!current_.points.empty())
                reach(Point(current_.points.front()));
            break;
        }
    }

    std::vector<Outline> finished() {
        finish();
        return std::move(outlines_);
    }

  private:
    void reach(Point point) {
        if (current_.points.empty() || current_.points.back() != point)
            current_.points.push_back(point);
    }

    void finish() {
        auto& points = current_.points;
        current_.closed = points.size() > 3 && points.front() == points.back();
        if (points.size() > 1)
            outlines_.push_back(current_);
        points.clear();
    }

    Outline current_;
    std::vector<Outline> outlines_;
};

} // namespace

Box Outline::bounds() const {
    Box box{points.front(), points.front()};
    for (const Point point : points)
        box = united(box, {point, point});
    return box;
}

std::vector<Outline> outlines_of(const Path& path, std::size_t mark) {
    OutlineBuilder builder(mark);
    for (const Segment& segment : path.segments)
        builder.add(segment);
    return builder.finished();
}

std::vector<Outline> outlines_of(const Frame& frame, Role role) {
    std::vector<Outline> result;
    for (std::size_t i = 0; i < frame.marks.size(); ++i) {
        const auto* path = std::get_if<Path>(&frame.marks[i].item);
        if (path == nullptr || frame.marks[i].role != role)
            continue;
        for (Outline& outline : outlines_of(*path, i))
            result.push_back(std::move(outline));
    }
    return result;
}

std::optional<Meeting> meeting(const Stretch& a, const Stretch& b) {
    if (cross(between(a.from, a.to), between(b.from, b.to)) == 0)
        return parallel_meeting(a, b);
    const auto part = crossing(a, b);
    return part ? std::optional(Meeting{point_at(a, *part), {}}) : std::nullopt;
}

Box bounds(const Stretch& s) { return united({s.from, s.from}, {s.to, s.to}); }

Length length(const Stretch& s) { return distance(s.from, s.to); }

Length distance(Point a, Point b) {
    const Vector apart = between(a, b);
    return {std::llround(std::hypot(apart.x, apart.y))};
}

Length distance(Point point, const Stretch& s) {
    const Vector along = between(s.from, s.to);
    const double square = dot(along, along);
    if (square == 0)
        return distance(point, s.from);
    const double part = std::clamp(dot(along, between(s.from, point)) / square, 0.0, 1.0);
    return distance(point, point_at(s, part));
}

bool passes_through(const Stretch& s, const Box& box) {
    if (box.width() <= Length{} || box.height() <= Length{})
        return false;
    // The part of the stretch between each pair of parallel edges (Liang and Barsky's clipping).
    double from = 0, to = 1;
    const auto keep = [&](Length start, Length change, Length low, Length high) {
        const auto origin = static_cast<double>(start.nm);
        const auto delta = static_cast<double>(change.nm);
        const auto below = static_cast<double>(low.nm) - origin;
        const auto above = static_cast<double>(high.nm) - origin;
        if (delta == 0)
            return below < 0 && above > 0;
        from = std::max(from, std::min(below / delta, above / delta));
        to = std::min(to, std::max(below / delta, above / delta));
        return from < to;
    };
    return keep(s.from.x, s.to.x - s.from.x, box.low.x, box.high.x) &&
           keep(s.from.y, s.to.y - s.from.y, box.low.y, box.high.y);
}

bool inside(Point point, const Outline& outline) {
    const Vector at = vector(point);
    bool odd = false;
    for (std::size_t i = 0; i < outline.stretches(); ++i) {
        const Vector a = vector(outline.points[i]);
        const Vector b = vector(outline.points[i + 1]);
        if ((a.y > at.y) != (b.y > at.y) && at.x < a.x + (at.y - a.y) / (b.y - a.y) * (b.x - a.x))
            odd = !odd;
    }
    return odd;
}

Length length_inside(const Stretch& s, const Outline& outline) {
    std::vector<double> cuts = {0, 1};
    for (std::size_t i = 0; i < outline.stretches(); ++i) {
        if (const auto part = crossing(s, outline.stretch(i)))
            cuts.push_back(*part);
    }
    std::ranges::sort(cuts);
    double within = 0;
    for (std::size_t i = 1; i < cuts.size(); ++i) {
        if (inside(point_at(s, (cuts[i - 1] + cuts[i]) / 2), outline))
            within += cuts[i] - cuts[i - 1];
    }
    return scaled(length(s), within);
}

} // namespace ohmfolio
