#include <algorithm>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "drawing/free_room.h"
#include "sheet/conductor_words.h"
#include "sheet/flow.h"
#include "sheet/legend.h"
#include "sheet/pages.h"
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
    const std::string words = drafting_case(title);
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
    const TextStyle& style = job.layout.lettering.body;
    const Frame mark = keyed_circle(fmt::format("{}", number), style, job.measure);
    const Length hang = mark.size.width + points(6);
    Frame frame;
    frame.add(mark, {});
    const Length top = (mark.size.height - job.measure.cap_height(style)) / 2;
    const Length height = write_paragraph(frame, {hang, top}, width - hang, drafting_case(text),
                                          {style}, job.measure);
    frame.size = {width, std::max(mark.size.height, top + height + job.measure.descent(style))};
    return frame;
}

/// The notes in columns along the foot of the sheet, right of the title of the view.
Frame keyed_notes(const std::vector<std::string>& notes, Length width, const Job& job) {
    if (notes.empty())
        return {};
    FlowRoom room;
    room.columns = std::clamp(static_cast<int>(notes.size()), 1, job.layout.note_columns);
    room.gap = job.layout.column_gap;
    room.width = (width - room.gap * (room.columns - 1)) / room.columns;
    room.height = job.area.height / 2;
    Group group;
    group.entry_gap = job.layout.item_gap;
    for (std::size_t i = 0; i < notes.size(); ++i)
        group.entries.push_back(keyed_note(i + 1, notes[i], room.width, job));
    return flow({group}, room).front();
}

/// Foot of the sheet: at the left the heading of the notes over the title of the view, the notes
/// beside both, so that the diagram keeps the height.
Frame foot_of(const Frame& title, const std::vector<std::string>& texts, const Job& job) {
    const Length left = title.size.width + job.layout.column_gap;
    const Frame notes = keyed_notes(texts, job.area.width - left, job);
    Frame foot;
    foot.size = {job.area.width, title.size.height};
    if (!texts.empty()) {
        const Frame heading =
            block_heading("Keyed notes", title.size.width, job.layout, job.measure);
        foot.size.height =
            std::max(heading.size.height + points(8) + title.size.height, notes.size.height);
        foot.add(heading, {});
        foot.add(notes, {left, {}});
    }
    foot.add(title, {{}, foot.size.height - title.size.height});
    return foot;
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
    // The notes are known only once the diagram is drawn; it is drawn anew in the height they
    // leave.
    const auto draw_over = [&](const Frame& foot, Findings& findings) {
        const Size area{job.area.width, job.area.height - foot.size.height - gap};
        return draw_diagram(job.system, job.study, job.symbols, job.diagram_style, area,
                            job.measure, findings);
    };
    Findings findings;
    Frame foot = foot_of(title, {}, job);
    Diagram diagram = draw_over(foot, findings);
    if (!diagram.notes.empty()) {
        findings.clear();
        foot = foot_of(title, diagram.notes, job);
        diagram = draw_over(foot, findings);
    }
    job.findings.insert(job.findings.end(), findings.begin(), findings.end());
    add_conductor_key(diagram, job);
    Frame page;
    page.size = job.area;
    page.add(diagram.frame, {});
    page.add(foot, {{}, job.area.height - foot.size.height});
    return {{std::move(page)}, diagram.symbols};
}

} // namespace ohmfolio::sheets
