#include "sheet/view_title.h"

#include <algorithm>

#include "base/drafting_case.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

Frame view_title(std::string_view number, std::string_view title, std::string_view scale,
                 const Job& job) {
    const LetteringLayout& lettering = job.layout.lettering;
    const Length radius = inches(0.19);
    Frame frame;
    frame.add(circle({radius, radius}, radius, {medium_pen}), Role::symbol);
    const Length number_top = radius - job.measure.cap_height(lettering.heading) / 2;
    write_line(frame, {radius, number_top}, number, {lettering.heading, Align::centre},
               job.measure);
    const Length left = 2 * radius + points(6);
    const std::string words = drafting_case(title);
    write_line(frame, {left, radius - job.measure.cap_height(lettering.heading) - points(3.5)},
               words, {lettering.heading}, job.measure);
    const Length right = left + job.measure.width(words, lettering.heading) + inches(0.6);
    frame.add(polyline({{2 * radius, radius}, {right, radius}}, {medium_pen}), Role::rule);
    write_line(frame, {left, radius + points(4)}, scale, {lettering.body}, job.measure);
    frame.size = {right, 2 * radius};
    return frame;
}

} // namespace ohmfolio::sheets
