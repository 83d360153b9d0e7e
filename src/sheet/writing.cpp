#include "sheet/writing.h"

#include "base/drafting_case.h"

namespace ohmfolio::sheets {

Length lettering_height(int lines, const TextStyle& style, const TextMeasure& measure) {
    if (lines < 1)
        return {};
    return measure.cap_height(style) + (lines - 1) * line_pitch(style);
}

void write_line(Frame& frame, Point at, std::string_view text, const Look& look,
                const TextMeasure& measure) {
    const Point baseline{at.x, at.y + measure.cap_height(look.style)};
    frame.add(Text{baseline, std::string(text), look.style, look.align, look.color},
              Role::lettering, look.shows);
}

Length write_paragraph(Frame& frame, Point at, Length width, std::string_view text,
                       const Look& look, const TextMeasure& measure) {
    const auto lines = wrapped(text, look.style, width, measure);
    Point line = at;
    if (look.align == Align::centre)
        line.x += width / 2;
    if (look.align == Align::right)
        line.x += width;
    frame.begin(Part::Kind::paragraph);
    for (const std::string& each : lines) {
        write_line(frame, line, each, look, measure);
        line.y += line_pitch(look.style);
    }
    frame.end(Part::Kind::paragraph);
    return lettering_height(static_cast<int>(lines.size()), look.style, measure);
}

Length balanced_width(std::string_view text, const TextStyle& style, Length width,
                      const TextMeasure& measure) {
    const std::size_t lines = wrapped(text, style, width, measure).size();
    const Length near = points(1);
    Length low{};
    Length high = width;
    while (high - low > near) {
        const Length middle = (low + high) / 2;
        (wrapped(text, style, middle, measure).size() > lines ? low : high) = middle;
    }
    return high;
}

Frame block_heading(std::string_view title, Length width, const SheetLayout& layout,
                    const TextMeasure& measure) {
    Frame frame;
    const TextStyle& style = layout.lettering.heading;
    frame.begin(Part::Kind::heading);
    const Length height = write_paragraph(frame, {}, width, drafting_case(title), {style}, measure);
    frame.end(Part::Kind::heading);
    const Length line = height + measure.descent(style) + points(1.5);
    frame.add(polyline({{{}, line}, {width, line}}, {layout.heading_pen}), Role::rule);
    frame.size = {width, line + layout.heading_pen / 2};
    return frame;
}

void add_link(Frame& frame, const Box& area, const std::string& target) {
    if (!target.empty())
        frame.add(Link{area, target}, Role::none);
}

} // namespace ohmfolio::sheets
