#include <algorithm>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "drawing/free_room.h"
#include "sheet/conductor_words.h"
#include "sheet/flow.h"
#include "sheet/legend.h"
#include "sheet/no_room.h"
#include "sheet/pages.h"
#include "sheet/view_title.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

/// A keyed note and its number.
struct KeyedNote {
    int number = 0;
    std::string text;
};

/// A keyed note with its number in a circle, as beside the equipment.
Frame keyed_note(const KeyedNote& note, Length width, const Job& job) {
    const TextStyle& style = job.layout.lettering.body;
    const Frame mark = keyed_circle(fmt::format("{}", note.number), style, job.measure);
    const Length hang = mark.size.width + points(6);
    Frame frame;
    frame.add(mark, {});
    const Length top = (mark.size.height - job.measure.cap_height(style)) / 2;
    const Length height = write_paragraph(frame, {hang, top}, width - hang,
                                          drafting_case(note.text), {style}, job.measure);
    frame.size = {width, std::max(mark.size.height, top + height + job.measure.descent(style))};
    return frame;
}

/// The notes in columns along the foot of the sheet, right of the title of the view.
Frame keyed_notes(const std::vector<KeyedNote>& notes, Length width, const Job& job) {
    if (notes.empty())
        return {};
    FlowRoom room;
    room.columns = std::clamp(static_cast<int>(notes.size()), 1, job.layout.note_columns);
    room.gap = job.layout.column_gap;
    room.width = (width - room.gap * (room.columns - 1)) / room.columns;
    room.height = job.area.height / 2;
    Group group;
    group.entry_gap = job.layout.item_gap;
    for (const KeyedNote& note : notes)
        group.entries.push_back(keyed_note(note, room.width, job));
    return flow({group}, room).front();
}

/// Foot of the sheet: at the left the heading of the notes over the title of the view, the notes
/// beside both, so that the diagram keeps the height.
Frame foot_of(const Frame& title, const std::vector<KeyedNote>& texts, const Job& job) {
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

/// The foot of each page of a diagram, with the notes that the page uses.
std::vector<Frame> feet_of(const Diagram& diagram, const Job& job) {
    std::vector<Frame> feet;
    for (std::size_t p = 0; p < diagram.pages.size(); ++p) {
        std::vector<KeyedNote> notes;
        for (const int number : diagram.pages[p].notes)
            notes.push_back({number, diagram.notes[static_cast<std::size_t>(number) - 1]});
        const std::string title =
            diagram.pages.size() == 1
                ? "Single-line diagram"
                : fmt::format("Single-line diagram, part {} of {}", p + 1, diagram.pages.size());
        feet.push_back(
            foot_of(view_title(fmt::format("{}", p + 1), title, "NO SCALE", job), notes, job));
    }
    return feet;
}

Length highest(const std::vector<Frame>& frames) {
    Length height{};
    for (const Frame& frame : frames)
        height = std::max(height, frame.size.height);
    return height;
}

/// One beside the other.
Frame abreast(const std::vector<Frame>& frames, Length gap) {
    Frame row;
    for (const Frame& frame : frames) {
        const Length left = row.marks.empty() ? Length{} : row.size.width + gap;
        row.add(frame, {left, {}});
        row.size = {left + frame.size.width, std::max(row.size.height, frame.size.height)};
    }
    return row;
}

/// The table in the forms that it may take beside the diagram, the best first: whole, in two
/// halves, and narrower with words that wrap.
std::vector<Frame> forms_of(const Table& table, Size room, const Job& job) {
    const auto pieces = [&](Length width, Length tallest) {
        return set_table(table, job.layout.table, width, tallest, false, job.measure);
    };
    std::vector<Frame> forms;
    const auto add_whole = [&](Length width) {
        const std::vector<Frame> whole = pieces(width, room.height);
        if (whole.size() == 1)
            forms.push_back(whole.front());
    };
    add_whole(room.width);
    // The lowest height that two pieces need, about to the line.
    for (Length tallest = room.height / 8; tallest < room.height; tallest += points(6)) {
        const std::vector<Frame> halves = pieces(room.width, tallest);
        if (halves.size() > 2)
            continue;
        if (halves.size() == 2)
            forms.push_back(abreast(halves, job.layout.item_gap * 2));
        break;
    }
    if (!forms.empty()) {
        const Length natural = forms.front().size.width;
        for (const int eighths : {7, 6, 5})
            add_whole(natural * eighths / 8);
    }
    return forms;
}

/// What stands in the place of a table that finds none: the sheet that has it.
Frame reference_to(const std::string& sheet, const Table& table, const Job& job) {
    const TextStyle& style = job.layout.lettering.strong;
    const std::string words =
        drafting_case("Conductors: see " + (sheet.empty() ? "the conductor schedule" : sheet));
    Frame frame;
    frame.size = {job.measure.width(words, style),
                  job.measure.cap_height(style) + job.measure.descent(style)};
    const Cell& first = table.rows.front().cells.front();
    frame.add(Text{{{}, job.measure.cap_height(style)}, words, style}, Role::lettering,
              "conductor_schedule");
    frame.add(Link{box_at({}, frame.size), first.link}, Role::none);
    return frame;
}

/// Adds the first of the forms that finds a place where the page is free.
bool add_where_free(Frame& page, const std::vector<Frame>& forms, const Job& job) {
    for (const Frame& form : forms) {
        for (const Length clear : {job.layout.block_gap / 2, points(4)}) {
            if (const auto place = free_room(page, form.size, clear, job.measure)) {
                page.add(form, *place);
                return true;
            }
        }
    }
    return false;
}

/// The conductors beside the diagram, or where it leaves no room, which sheet tells them: a tag
/// that nothing on the sheet explains is sent back.
void add_conductor_key(DiagramPage& page, const std::string& schedule, const Job& job) {
    const Table table = conductor_key(job.system, job.study, page.circuits);
    if (table.rows.empty() ||
        add_where_free(page.frame, forms_of(table, page.frame.size, job), job))
        return;
    add_where_free(page.frame, {reference_to(schedule, table, job)}, job);
    tell_no_room(job, Severity::advice, {},
                 "the diagram leaves no room for the conductors beside it; they stand in the "
                 "schedule alone",
                 "a larger sheet format");
}

/// The style that also tells which placards a piece of equipment bears.
DiagramStyle keyed(DiagramStyle style, const std::vector<PlacardKey>& placards,
                   const System& system) {
    for (const PlacardKey& placard : placards) {
        for (const int equipment : placard.at)
            style.placards[system.at(equipment).id].push_back(placard.number);
    }
    return style;
}

} // namespace

DiagramPages diagram_pages(const Job& job, const std::vector<PlacardKey>& placards,
                           const PageNames& names, const SheetOf& conductor_schedule) {
    const Length gap = points(8);
    const DiagramStyle style = keyed(job.diagram_style, placards, job.system);
    // The notes are known only once the diagram is drawn; it is drawn anew in the height they
    // leave, which may make it fold or divide, and so change them.
    constexpr int most_rounds = 4;
    Length reserved = highest(feet_of({{{}}, {}, {}}, job));
    Findings findings;
    Diagram diagram;
    std::vector<Frame> feet;
    for (int round = 0; round < most_rounds; ++round) {
        findings.clear();
        const Size area{job.area.width, job.area.height - reserved - gap};
        diagram = draw_diagram(job.system, job.study, job.symbols, style, area, names, job.measure,
                               findings);
        feet = feet_of(diagram, job);
        if (highest(feet) <= reserved)
            break;
        reserved = highest(feet);
    }
    job.findings.insert(job.findings.end(), findings.begin(), findings.end());
    DiagramPages result;
    const std::string schedule = conductor_schedule(diagram.pages.size());
    for (std::size_t p = 0; p < diagram.pages.size(); ++p) {
        add_conductor_key(diagram.pages[p], schedule, job);
        Frame page;
        page.size = job.area;
        page.add(diagram.pages[p].frame, {});
        page.add(feet[p], {{}, job.area.height - feet[p].size.height});
        result.pages.push_back(std::move(page));
    }
    result.symbols = diagram.symbols;
    return result;
}

} // namespace ohmfolio::sheets
