#include "sheet/plan_view.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "base/angle.h"
#include "base/drafting_case.h"
#include "drawing/dimension.h"
#include "drawing/free_room.h"
#include "sheet/view_title.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

PlanView::PlanView(const std::vector<PlanPoint>& points, const DrawingScale& scale)
    : scale_(scale), low_(points.front()), high_(points.front()) {
    for (const PlanPoint& point : points) {
        low_ = {std::min(low_.x, point.x), std::min(low_.y, point.y)};
        high_ = {std::max(high_.x, point.x), std::max(high_.y, point.y)};
    }
}

Point PlanView::at(PlanPoint point) const {
    return {scale_.on_paper(point.x - low_.x), scale_.on_paper(high_.y - point.y)};
}

std::vector<Point> PlanView::at(const Corners& corners) const {
    std::vector<Point> points;
    for (const PlanPoint& corner : corners)
        points.push_back(at(corner));
    return points;
}

Size PlanView::size() const {
    return {scale_.on_paper(high_.x - low_.x), scale_.on_paper(high_.y - low_.y)};
}

Box box_of(const std::vector<Point>& points) {
    Box box{points.front(), points.front()};
    for (const Point& point : points)
        box = united(box, {point, point});
    return box;
}

void write_line_in(Frame& frame, const Box& box, std::string_view words, bool upright,
                   const Look& look, const TextMeasure& measure) {
    if (!upright) {
        write_line(frame, box.low, words, look, measure);
        return;
    }
    const Length baseline = box.low.x + measure.cap_height(look.style);
    frame.add(
        Text{{baseline, box.high.y}, std::string(words), look.style, Align::left, look.color, true},
        Role::lettering, look.shows);
}

Point bring_to_corner(Frame& frame, Size at_least, const TextMeasure& measure) {
    Box all{{}, {at_least.width, at_least.height}};
    for (const Mark& mark : frame.marks) {
        if (const auto* path = std::get_if<Path>(&mark.item))
            all = united(all, bounds(*path));
        if (const auto* text = std::get_if<Text>(&mark.item))
            all = united(all, text_box(*text, measure));
    }
    all = all.grown(points(2));
    const Point moved{-all.low.x, -all.low.y};
    Frame whole;
    whole.add(frame, moved);
    whole.size = {all.width(), all.height()};
    frame = std::move(whole);
    return moved;
}

Path closed(std::vector<Point> corners, Stroke stroke) {
    Path path = polyline(corners, stroke);
    path.segments.push_back({Segment::Kind::close, {}, {}, {}});
    return path;
}

std::vector<Path> hatching(const std::vector<Point>& corners, Length apart, Stroke stroke) {
    // Lines x + y = c rise to the right; where each crosses the outline, it begins or ends.
    std::vector<Path> lines;
    if (corners.empty())
        return lines;
    const auto sum = [](Point p) { return p.x.nm + p.y.nm; };
    const auto [least, most] = std::ranges::minmax_element(corners, {}, sum);
    // Lines of neighboring areas meet: they are counted from the corner of the drawing.
    for (std::int64_t c = (sum(*least) / apart.nm + 1) * apart.nm; c < sum(*most); c += apart.nm) {
        std::vector<Point> crossings;
        for (std::size_t i = 0; i < corners.size(); ++i) {
            const Point a = corners[i], b = corners[(i + 1) % corners.size()];
            if ((sum(a) <= c) == (sum(b) <= c))
                continue;
            const double share =
                static_cast<double>(c - sum(a)) / static_cast<double>(sum(b) - sum(a));
            crossings.push_back({a.x + scaled(b.x - a.x, share), a.y + scaled(b.y - a.y, share)});
        }
        std::ranges::sort(crossings);
        for (std::size_t i = 0; i + 1 < crossings.size(); i += 2)
            lines.push_back(polyline({crossings[i], crossings[i + 1]}, stroke));
    }
    return lines;
}

Frame north_arrow(double north, const TextStyle& style, const TextMeasure& measure) {
    const Length radius = inches(0.24);
    const Point middle{radius, radius};
    const auto toward = [&](double bearing, Length away) {
        return Point{middle.x + scaled(away, sine(Degrees{north + bearing})),
                     middle.y - scaled(away, cosine(Degrees{north + bearing}))};
    };
    Frame frame;
    frame.add(circle(middle, radius, {thin_pen}), Role::symbol);
    const Point tip = toward(0, radius), tail = toward(180, radius / 3);
    Path dark = closed({tip, toward(145, radius), tail}, {thin_pen});
    dark.filled = true;
    frame.add(std::move(dark), Role::symbol);
    frame.add(closed({tip, toward(215, radius), tail}, {thin_pen}), Role::symbol);
    // The N stands beyond the tip, upright whichever way north is.
    const Length cap = measure.cap_height(style);
    const Point letter = toward(0, radius + points(4) + cap / 2);
    write_line(frame, {letter.x, letter.y - cap / 2}, "N", {style, Align::centre}, measure);
    // All of the marks are brought to the right of and below the corner.
    const Length reach = radius + points(8) + cap;
    Frame whole;
    whole.add(frame, {reach - radius, reach - radius});
    whole.size = {2 * reach, 2 * reach};
    return whole;
}

Frame scale_bar(const DrawingScale& scale, Length longest, const Job& job) {
    constexpr int stretches = 4;
    constexpr std::array feet = {50.0, 25.0, 20.0, 10.0, 5.0, 4.0, 2.0, 1.0};
    constexpr std::array metres = {20.0, 10.0, 5.0, 2.0, 1.0, 0.5};
    constexpr double foot = 3.280839895; // of a metre
    Feet stretch{scale.metric ? metres.back() * foot : feet.back()};
    const auto fits = [&](Feet length) { return scale.on_paper(length) * stretches <= longest; };
    if (scale.metric) {
        const auto found =
            std::ranges::find_if(metres, [&](double m) { return fits(Feet{m * foot}); });
        stretch = Feet{(found == metres.end() ? metres.back() : *found) * foot};
    } else {
        const auto found = std::ranges::find_if(feet, [&](double f) { return fits(Feet{f}); });
        stretch = Feet{found == feet.end() ? feet.back() : *found};
    }
    const Length step = scale.on_paper(stretch), height = inches(0.06);
    const TextStyle& style = job.layout.lettering.body;
    Frame frame;
    for (int i = 0; i < stretches; ++i) {
        const Box part{{step * i, {}}, {step * (i + 1), height}};
        if (i % 2 == 0)
            frame.add(filled_rectangle(part, black), Role::symbol);
        frame.add(rectangle(part, {fine_pen}), Role::symbol);
    }
    const Length below = height + points(4);
    write_line(frame, {{}, below}, "0", {style, Align::centre}, job.measure);
    const std::string end = dimension_figure(stretch * stretches, scale);
    write_line(frame, {step * stretches, below}, end, {style, Align::centre}, job.measure);
    frame.size = {step * stretches + job.measure.width(end, style) / 2,
                  below + lettering_height(1, style, job.measure) + job.measure.descent(style)};
    return frame;
}

Frame plan_title(std::string_view number, std::string_view title, const DrawingScale& scale,
                 const Job& job) {
    const Length gap = job.layout.column_gap;
    Frame frame = view_title(number, title, "SCALE " + scale.words, job);
    const Frame bar = scale_bar(scale, inches(2.5), job);
    frame.add(bar, {frame.size.width + gap, (frame.size.height - bar.size.height) / 2});
    frame.size.width += gap + bar.size.width;
    return frame;
}

void add_remark(Frame& frame, std::string_view remark, const Job& job) {
    const TextStyle& style = job.layout.lettering.body;
    const std::string words = drafting_case(std::string(remark));
    const Length top = frame.size.height + job.layout.item_gap * 2;
    const Length height =
        write_paragraph(frame, {{}, top}, frame.size.width, words, {style}, job.measure);
    frame.size.height = top + height + job.measure.descent(style);
}

void add_north_arrow(Frame& plan, double north, const Job& job) {
    const Frame arrow = north_arrow(north, job.layout.lettering.strong, job.measure);
    const Length clear = inches(0.1);
    if (const auto at = free_room(plan, arrow.size, clear, job.measure)) {
        plan.add(arrow, *at);
        return;
    }
    plan.add(arrow, {plan.size.width + clear, {}});
    plan.size.width += clear + arrow.size.width;
    plan.size.height = std::max(plan.size.height, arrow.size.height);
}

} // namespace ohmfolio::sheets
