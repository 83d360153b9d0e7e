#include "sheet/title_block.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "drawing/sheet.h"
#include "sheet/revision_block.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

struct Desk {
    const TitleBlockText& text;
    const SheetLayout& layout;
    const TextMeasure& measure;
    Findings& findings;
    Length width; ///< between the pads

    const LetteringLayout& lettering() const { return layout.lettering; }
    Stroke rule() const { return {layout.title_block.rule_pen}; }
};

/// Puts a paragraph below what the frame holds already.
void append(Desk& desk, Frame& frame, const std::string& words, const TextStyle& style) {
    if (words.empty())
        return;
    const Length gap = frame.size.height > Length{}
                           ? line_pitch(style) - desk.measure.cap_height(style)
                           : Length{};
    const Length top = frame.size.height + gap;
    frame.size.height = top + write_paragraph(frame, {{}, top}, desk.width, drafting_case(words),
                                              {style}, desk.measure);
}

/// The logo of the house as wide as the cell, or as tall as the layout allows.
void append_logo(const Desk& desk, Frame& frame, Length tallest) {
    if (desk.text.logo == nullptr || desk.text.logo->empty() || tallest <= Length{})
        return;
    const Length gap = desk.layout.title_block.pad_y;
    const Frame logo = logo_frame(*desk.text.logo, {desk.width, tallest});
    frame.add(logo, {{}, frame.size.height + gap});
    frame.size.height += logo.size.height + 2 * gap;
}

/// A cell that is to hold facts and has none is left out with its heading.
Frame lines_cell(Desk& desk, const TitleCell& cell) {
    Frame frame;
    append(desk, frame, cell.heading, desk.lettering().body);
    append_logo(desk, frame, cell.logo);
    bool says_something = cell.strong.empty() && cell.lines.empty();
    const auto append_all = [&](const std::vector<std::string>& lines, const TextStyle& style) {
        for (const std::string& line : lines) {
            const auto words = filled(line, desk.text.facts, desk.findings);
            says_something = says_something || (words && !words->empty());
            append(desk, frame, words.value_or(""), style);
        }
    };
    append_all(cell.strong, desk.lettering().strong);
    append_all(cell.lines, desk.lettering().body);
    return says_something ? frame : Frame{};
}

/// Marks from `from` on tell of the issue, not of what was designed.
void tell_of_the_issue(Frame& frame, std::size_t from = 0) {
    for (std::size_t i = from; i < frame.marks.size(); ++i)
        frame.marks[i].shows = the_issue;
}

/// Label over value, two to a row; a pair without a value is left out.
Frame pairs_cell(Desk& desk, const TitleCell& cell) {
    Frame frame;
    const Length half = desk.width / 2;
    Length row_height{};
    int column = 0;
    for (const std::string& line : cell.lines) {
        const auto bar = std::min(line.find('|'), line.size() - 1);
        const auto value = filled(line.substr(bar + 1), desk.text.facts, desk.findings);
        if (!value)
            continue;
        const Point at{half * column, frame.size.height};
        const std::size_t first = frame.marks.size();
        const TextStyle& body = desk.lettering().body;
        write_line(frame, at, drafting_case(line.substr(0, bar)), {body}, desk.measure);
        const Length pitch = line_pitch(body);
        const Length used =
            pitch + write_paragraph(frame, {at.x, at.y + pitch},
                                    half - desk.layout.title_block.pad_x, drafting_case(*value),
                                    {desk.lettering().strong}, desk.measure);
        if (line.ends_with("|{date}"))
            tell_of_the_issue(frame, first);
        row_height = std::max(row_height, used);
        column = 1 - column;
        if (column == 0) {
            frame.size.height += row_height + pitch - desk.measure.cap_height(body);
            row_height = {};
        }
    }
    if (column == 1) {
        frame.size.height += row_height;
    } else if (!frame.marks.empty()) {
        frame.size.height -=
            line_pitch(desk.lettering().body) - desk.measure.cap_height(desk.lettering().body);
    }
    return frame;
}

/// The newest revisions last, as many as the cell has rows; rows not used yet stay empty.
Frame revisions_cell(Desk& desk, const TitleCell& cell) {
    Frame frame = lines_cell(desk, cell);
    frame.size.height += desk.layout.table.pad_y;
    const auto& all = desk.text.revisions;
    const auto count = std::min(all.size(), static_cast<std::size_t>(std::max(cell.rows, 0)));
    std::vector<Revision> rows(all.end() - static_cast<std::ptrdiff_t>(count), all.end());
    const Frame block = revision_block(rows, cell.rows, desk.width, desk.layout, desk.measure);
    frame.add(block, {{}, frame.size.height});
    frame.size.height += block.size.height;
    return frame;
}

/// Large, unless the number of a sheet past the ninety-ninth would run into its place beside it.
const TextStyle& number_style(const Desk& desk, const std::string& place) {
    const TextStyle& large = desk.lettering().sheet_number;
    const Length beside = desk.measure.width(place, desk.lettering().body) + points(6);
    return desk.measure.width(desk.text.sheet_number, large) + beside <= desk.width
               ? large
               : desk.lettering().banner;
}

/// Title of the sheet, its place among the others, and the number as large as the strip allows.
Frame sheet_cell(Desk& desk) {
    Frame frame;
    append(desk, frame, desk.text.sheet_title, desk.lettering().title);
    tell_of_the_issue(frame); // "2 of 8" counts pages, and so does the number
    // Room for two lines whatever the title, so that the cells above stand alike on every sheet.
    frame.size.height =
        std::max(frame.size.height, lettering_height(2, desk.lettering().title, desk.measure));
    const TextStyle& body = desk.lettering().body;
    const std::string place = fmt::format("{} OF {}", desk.text.position, desk.text.count);
    const TextStyle& number = number_style(desk, place);
    frame.size.height += points(9);
    const Length height = desk.measure.cap_height(number);
    write_line(frame, {desk.width, frame.size.height}, desk.text.sheet_number,
               {number, Align::right, black, std::string(the_issue)}, desk.measure);
    const Length base = frame.size.height + height - desk.measure.cap_height(body);
    write_line(frame, {{}, base - line_pitch(body)}, "SHEET", {body}, desk.measure);
    write_line(frame, {{}, base}, place, {body, Align::left, black, std::string(the_issue)},
               desk.measure);
    frame.size.height += height;
    return frame;
}

Frame draft_cell(Desk& desk) {
    Frame frame;
    append(desk, frame, "Draft - not for construction", desk.lettering().title);
    tell_of_the_issue(frame);
    return frame;
}

Frame cell_frame(Desk& desk, const TitleCell& cell) {
    switch (cell.kind) {
    case TitleCell::Kind::pairs:
        return pairs_cell(desk, cell);
    case TitleCell::Kind::revisions:
        return revisions_cell(desk, cell);
    case TitleCell::Kind::sheet:
        return sheet_cell(desk);
    case TitleCell::Kind::lines:
    case TitleCell::Kind::space:
        break;
    }
    return lines_cell(desk, cell);
}

struct SetCell {
    Frame frame;
    bool stretches = false;
};

std::vector<SetCell> set_cells(Desk& desk, const TitleColumn& column) {
    std::vector<SetCell> cells;
    for (const TitleCell& cell : column.cells) {
        if (cell.kind == TitleCell::Kind::sheet && desk.text.draft)
            cells.push_back({draft_cell(desk), false});
        SetCell set{cell_frame(desk, cell), cell.stretches};
        if (!set.frame.marks.empty())
            cells.push_back(std::move(set));
    }
    return cells;
}

/// What each stretching cell gets of the height that is left; negative when the cells are too tall.
Length share_of_rest(const std::vector<SetCell>& cells, Length height, Length pad) {
    Length rest = height;
    std::int64_t stretching = 0;
    for (const SetCell& cell : cells) {
        rest -= cell.frame.size.height + 2 * pad;
        stretching += cell.stretches ? 1 : 0;
    }
    return rest < Length{} || stretching == 0 ? rest : rest / stretching;
}

Finding overfull(const std::string& sheet_number, Length missing) {
    Finding finding;
    finding.rule = "sheet.title_block_full";
    finding.subject = "sheet:" + sheet_number;
    finding.message =
        fmt::format("the title block needs {:.2f} in more than it has", missing.in_inches());
    finding.expected = "fewer revision rows or shorter texts";
    return finding;
}

/// A logo lower than this cannot be told from a smudge on a copy; common practice, no source.
constexpr Length smallest_logo = inches(0.2);

struct SetColumn {
    std::vector<SetCell> cells;
    Length share; ///< of the height that is left, for each cell that stretches
};

/// Takes a little of the room that the logo may have, all of it where a smaller one would be a
/// smudge; false when no cell has one.
bool give_way(std::vector<TitleCell>& cells) {
    const auto logo =
        std::ranges::find_if(cells, [](const TitleCell& cell) { return cell.logo > Length{}; });
    if (logo == cells.end())
        return false;
    logo->logo = logo->logo - points(3);
    if (logo->logo < smallest_logo)
        logo->logo = {};
    return true;
}

/// Where the strip is too low, the logo gives way first, then the oldest revisions.
SetColumn set_column(Desk& desk, TitleColumn column, Length height, Length pad) {
    while (true) {
        SetColumn set{set_cells(desk, column), {}};
        set.share = share_of_rest(set.cells, height, pad);
        if (set.share >= Length{})
            return set;
        if (desk.text.logo != nullptr && give_way(column.cells))
            continue;
        const auto revisions = std::ranges::find_if(column.cells, [](const TitleCell& cell) {
            return cell.kind == TitleCell::Kind::revisions && cell.rows > 1;
        });
        if (revisions == column.cells.end())
            return set;
        --revisions->rows;
    }
}

/// The cells of one column from the top down, each under a line.
void draw_column(Frame& frame, Desk& desk, const TitleColumn& column, const Box& strip) {
    const TitleBlockLayout& block = desk.layout.title_block;
    const auto [cells, share] = set_column(desk, column, strip.height(), block.pad_y);
    if (share < Length{})
        desk.findings.push_back(overfull(desk.text.sheet_number, -share));
    Length y = strip.low.y;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (i > 0) {
            frame.add(polyline({{strip.low.x, y}, {strip.high.x, y}}, {block.outline_pen}),
                      Role::rule);
        }
        frame.add(cells[i].frame, {strip.low.x + block.pad_x, y + block.pad_y});
        y += cells[i].frame.size.height + 2 * block.pad_y;
        if (cells[i].stretches)
            y += std::max(share, Length{});
    }
}

/// The columns side by side, their widths by share.
std::vector<Box> column_boxes(const TitleBlockLayout& block, const Box& strip) {
    std::int64_t shares = 0;
    for (const TitleColumn& column : block.columns)
        shares += column.share;
    std::vector<Box> boxes;
    std::int64_t before = 0;
    for (const TitleColumn& column : block.columns) {
        Box box = strip;
        box.low.x = strip.low.x + strip.width() * before / shares;
        before += column.share;
        box.high.x = strip.low.x + strip.width() * before / shares;
        boxes.push_back(box);
    }
    return boxes;
}

} // namespace

void draw_title_block(Frame& frame, const Box& strip, const TitleBlockText& text,
                      const SheetLayout& layout, const TextMeasure& measure, Findings& findings) {
    const TitleBlockLayout& block = layout.title_block;
    const Stroke outline{block.outline_pen};
    if (block.edge == TitleBlockLayout::Edge::bottom)
        frame.add(polyline({strip.low, {strip.high.x, strip.low.y}}, outline), Role::rule);
    const std::vector<Box> boxes = column_boxes(block, strip);
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        const Box& box = boxes[i];
        if (i > 0 || block.edge == TitleBlockLayout::Edge::right)
            frame.add(polyline({box.low, {box.low.x, box.high.y}}, outline), Role::rule);
        Desk desk{text, layout, measure, findings, box.width() - 2 * block.pad_x};
        draw_column(frame, desk, block.columns[i], box);
    }
}

} // namespace ohmfolio::sheets
