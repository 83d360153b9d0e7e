#include <algorithm>

#include <fmt/format.h>

#include "drawing/free_room.h"
#include "sheet/conductor_words.h"
#include "sheet/flow.h"
#include "sheet/pages.h"
#include "sheet/sheet_case.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

/// The title of a view as the US National CAD Standard draws it: its number in a circle, the title
/// over a line, the scale under it.
Frame view_title(std::string_view number, std::string_view title, const Job& job) {
    const LetteringLayout& lettering = job.layout.lettering;
    const Length radius = inches(0.19);
    Frame frame;
    frame.add(circle({radius, radius}, radius, {medium_pen}), Role::symbol);
    const Length number_top = radius - job.measure.cap_height(lettering.heading) / 2;
    write_line(frame, {radius, number_top}, number, {lettering.heading, Align::centre},
               job.measure);
    const Length left = 2 * radius + points(6);
    const std::string words = sheet_case(title);
    write_line(frame, {left, radius - job.measure.cap_height(lettering.heading) - points(3.5)},
               words, {lettering.heading}, job.measure);
    const Length right = left + job.measure.width(words, lettering.heading) + inches(0.6);
    frame.add(polyline({{2 * radius, radius}, {right, radius}}, {medium_pen}), Role::rule);
    write_line(frame, {left, radius + points(4)}, "NO SCALE", {lettering.body}, job.measure);
    frame.size = {right, 2 * radius};
    return frame;
}

/// A keyed note with its number in a circle, as beside the equipment.
Frame keyed_note(std::size_t number, const std::string& text, Length width, const Job& job) {
    const LetteringLayout& lettering = job.layout.lettering;
    const Length radius = inches(0.095);
    const Length hang = 2 * radius + points(6);
    Frame frame;
    const Length letters = job.measure.cap_height(lettering.body);
    frame.add(circle({radius, radius}, radius, {thin_pen}), Role::symbol);
    write_line(frame, {radius, radius - letters / 2}, fmt::format("{}", number),
               {lettering.strong, Align::centre}, job.measure);
    const Length top = radius - letters / 2;
    const Length height = write_paragraph(frame, {hang, top}, width - hang, sheet_case(text),
                                          {lettering.body}, job.measure);
    frame.size = {width, std::max(2 * radius, top + height + job.measure.descent(lettering.body))};
    return frame;
}

/// The notes in columns along the foot of the sheet, right of the title of the view.
Frame keyed_notes(const std::vector<std::string>& notes, Length width, const Job& job) {
    FlowRoom room;
    room.columns = std::clamp(static_cast<int>(notes.size()), 1, job.layout.note_columns);
    room.gap = job.layout.column_gap;
    room.width = (width - room.gap * (room.columns - 1)) / room.columns;
    room.height = job.area.height / 2;
    Group group;
    group.entry_gap = job.layout.item_gap;
    for (std::size_t i = 0; i < notes.size(); ++i)
        group.entries.push_back(keyed_note(i + 1, notes[i], room.width, job));
    const auto pages = flow({group}, room);
    return pages.empty() ? Frame{} : pages.front();
}

/// The conductors beside the diagram, where it leaves room for them.
void add_conductor_key(Diagram& diagram, const Job& job) {
    const std::vector<Frame> key =
        set_table(conductor_key(job.system, job.study), job.layout.table, diagram.frame.size.width,
                  diagram.frame.size.height, false, job.measure);
    const std::optional<Point> place =
        key.size() == 1
            ? free_room(diagram.frame, key.front().size, job.layout.block_gap / 2, job.measure)
            : std::nullopt;
    if (place) {
        diagram.frame.add(key.front(), *place);
        return;
    }
    job.findings.push_back({.rule = "sheet.no_room",
                            .severity = Severity::advice,
                            .message = "the diagram leaves no room for the conductors beside it; "
                                       "they stand in the schedule alone",
                            .expected = "a larger sheet format"});
}

} // namespace

DiagramPages diagram_pages(const Job& job) {
    const Frame title = view_title("1", "Single-line diagram", job);
    const Length gap = points(8);
    Size area = job.area;
    area.height -= title.size.height + gap;
    const auto draw = [&](Findings& findings) {
        return draw_diagram(job.system, job.study, job.symbols, job.diagram_style, area,
                            job.measure, findings);
    };
    Findings first;
    Diagram diagram = draw(first);
    const Length notes_left = title.size.width + job.layout.column_gap;
    const Frame notes = keyed_notes(diagram.notes, job.area.width - notes_left, job);
    const Length foot = std::max(title.size.height, notes.size.height);
    if (foot > title.size.height) {
        area.height = job.area.height - foot - gap;
        first.clear();
        diagram = draw(first);
    }
    job.findings.insert(job.findings.end(), first.begin(), first.end());
    add_conductor_key(diagram, job);
    Frame page;
    page.size = job.area;
    page.add(diagram.frame, {});
    page.add(notes, {notes_left, job.area.height - foot});
    page.add(title, {{}, job.area.height - title.size.height});
    return {{std::move(page)}, diagram.symbols};
}

} // namespace ohmfolio::sheets
