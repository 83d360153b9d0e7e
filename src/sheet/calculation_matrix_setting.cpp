// A matrix set on paper: widths, rows, rules, and what goes on in a further piece.

#include <algorithm>

#include <fmt/format.h>

#include "drawing/table_columns.h"
#include "sheet/calculation_matrix_widths.h"
#include "sheet/formula.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

using SetLines = std::vector<SetLine>;

struct SetRow {
    SetLines label, section;
    std::vector<SetLines> cells;
    std::vector<std::string> shows; ///< parallel to the cells
    Length height;
};

/// After a note, without a break: room for the arcs of a cloud around the next alone.
constexpr std::string_view note_gap = "\u00a0\u00a0";

class MatrixSetter {
  public:
    MatrixSetter(const CalculationMatrix& matrix, const MatrixRoom& room, const Job& job)
        : matrix_(matrix), room_(room), job_(job) {}

    MatrixPieces set() {
        MatrixPieces result;
        std::size_t first = 0;
        while (first < matrix_.columns.size()) {
            const std::size_t end = last_column(matrix_, first, room_.width, job_);
            set_columns(first, end, result);
            first = end;
        }
        return result;
    }

  private:
    const TableStyle& style() const { return job_.layout.table; }
    const TextStyle& body() const { return job_.layout.lettering.body; }
    const TextStyle& strong() const { return job_.layout.lettering.strong; }
    Length pitch() const { return line_pitch(body()); }
    Length pad() const { return job_.measure.descent(body()) + points(0.35); }
    Length width_of(const SetLine& line) const {
        return formula_width(line.text, line.bold ? strong() : body(), job_.measure);
    }

    /// What a line takes above and below one without subscripts and fractions.
    Length reach_of(const SetLine& line) const {
        const FormulaExtent extent = formula_extent(line.text, body(), job_.measure);
        return extent.above + extent.below;
    }

    // Lettering broken into lines.

    SetLines label_of(const MatrixRow& row, Length width) const {
        std::vector<std::string> pieces;
        for (const std::string& text : {row.working}) {
            if (!text.empty())
                pieces.push_back(text);
        }
        pieces.insert(pieces.end(), row.constants.begin(), row.constants.end());
        if (!row.remark.empty())
            pieces.push_back(row.remark);
        SetLines lines;
        for (const std::string& text : wrapped(row.title, body(), width, job_.measure))
            lines.push_back({text});
        for (std::size_t i = 0; i < pieces.size(); ++i) {
            const std::string between = i == 0 ? "   " : ",  ";
            const std::string longer = lines.back().text + between + pieces[i];
            // A fraction is as high as two lines: words stand beside it only where they follow it.
            const bool below = i == 0 && reach_of({pieces[i]}) > pitch() / 2;
            if (!below && formula_width(longer, body(), job_.measure) <= width) {
                lines.back().text = longer;
                continue;
            }
            if (i > 0)
                lines.back().text += ",";
            for (std::string& text : formula_lines(pieces[i], body(), width, job_.measure))
                lines.push_back({std::move(text)});
        }
        return lines;
    }
    SetLines lines_of(const MatrixCell& cell, Length width) const {
        SetLines lines;
        for (const CellLine& each : cell.lines) {
            const TextStyle& look = each.bold ? strong() : body();
            for (std::string& text : formula_lines(each.text, look, width, job_.measure)) {
                for (std::string& part : wrapped_words(text, look, width))
                    lines.push_back({std::move(part), each.bold});
            }
        }
        if (lines.empty())
            lines.push_back({std::string(no_such_step)});
        return lines;
    }
    /// A formula that holds no operator breaks at blanks, its subscripts counted as they are set.
    std::vector<std::string> wrapped_words(const std::string& text, const TextStyle& look,
                                           Length width) const {
        if (formula_width(text, look, job_.measure) <= width)
            return {text};
        return wrapped(text, look, width, job_.measure);
    }

    /// A row takes one line only where all of its cells do.
    bool fits_one_line(const MatrixRow& row, const MatrixWidths& widths, std::size_t first,
                       std::size_t end) const {
        for (std::size_t i = first; i < end; ++i) {
            const auto& lines = row.cells[i].lines;
            const bool alike = std::all_of(lines.begin(), lines.end(), [&](const CellLine& line) {
                return line.bold == lines.front().bold;
            });
            if (!alike ||
                width_of(one_line(row.cells[i])) > widths.columns[i - first] - matrix_pad() * 2)
                return false;
        }
        return true;
    }

    Length height_of(const SetLines& lines) const {
        Length height = job_.measure.cap_height(body());
        for (const SetLine& line : lines)
            height += (&line == &lines.front() ? Length{} : pitch()) + reach_of(line);
        return height;
    }

    SetRow set_row(const MatrixRow& row, const MatrixWidths& widths, std::size_t first,
                   std::size_t end) const {
        SetRow set;
        set.label = label_of(row, widths.label - matrix_pad() * 2);
        for (const std::string& text :
             wrapped(row.section, body(), widths.section - matrix_pad() * 2, job_.measure))
            set.section.push_back({text});
        set.height = std::max(height_of(set.label), height_of(set.section));
        const bool flat = fits_one_line(row, widths, first, end);
        for (std::size_t i = first; i < end; ++i) {
            set.cells.push_back(
                flat ? SetLines{one_line(row.cells[i])}
                     : lines_of(row.cells[i], widths.columns[i - first] - matrix_pad() * 2));
            set.shows.push_back(row.cells[i].shows);
            set.height = std::max(set.height, height_of(set.cells.back()));
        }
        set.height += pad() * 2;
        return set;
    }

    // Pieces.

    void set_columns(std::size_t first, std::size_t end, MatrixPieces& result) const {
        const MatrixWidths columns = matrix_widths(matrix_, first, end, room_.width, job_);
        std::vector<SetRow> rows;
        for (const MatrixRow& row : matrix_.rows) {
            // A row that none of these columns has stands in another piece.
            const bool used = std::any_of(row.cells.begin() + static_cast<std::ptrdiff_t>(first),
                                          row.cells.begin() + static_cast<std::ptrdiff_t>(end),
                                          [](const MatrixCell& c) { return !c.lines.empty(); });
            if (used)
                rows.push_back(set_row(row, columns, first, end));
        }
        const bool last = end == matrix_.columns.size();
        std::size_t next = 0;
        while (next < rows.size()) {
            const bool begins = result.frames.empty();
            const Length room = begins && !skipped_ ? room_.first : room_.height;
            Frame piece = heading(columns, first, end, !begins, next == 0);
            std::size_t stop = next;
            while (stop < rows.size() && piece.size.height + height(rows, next, stop + 1) +
                                                 notes_height(last && stop + 1 == rows.size()) <=
                                             room)
                ++stop;
            constexpr std::size_t least_rows = 3;
            if (begins && !skipped_ && room < room_.height &&
                stop < std::min(next + least_rows, rows.size())) {
                skipped_ = true;
                continue;
            }
            stop = std::max(stop, next + 1);
            draw_rows(piece, columns,
                      {rows.begin() + static_cast<std::ptrdiff_t>(next),
                       rows.begin() + static_cast<std::ptrdiff_t>(stop)});
            if (last && stop == rows.size())
                add_notes(piece);
            if (begins)
                result.starts_below = !skipped_ && room < room_.height;
            result.frames.push_back(std::move(piece));
            next = stop;
        }
    }

    static Length height(const std::vector<SetRow>& rows, std::size_t first, std::size_t end) {
        Length sum{};
        for (std::size_t i = first; i < end; ++i)
            sum += rows[i].height;
        return sum;
    }

    /// Title and heading of the columns, with the ground under it.
    Frame heading(const MatrixWidths& columns, std::size_t first, std::size_t end, bool continued,
                  bool anchored) const {
        Frame frame;
        frame.size.width = columns.total();
        const TextStyle& title = style().title;
        const std::string text =
            matrix_.title + (continued ? std::string(continued_suffix) : std::string{});
        Length y{};
        if (!text.empty()) {
            const Length above = std::max(style().pad_y, job_.measure.descent(title));
            frame.begin(Part::Kind::heading);
            y = above * 2 + write_paragraph(frame, {{}, above}, columns.total(), text,
                                            {title, Align::centre, black, matrix_.subject},
                                            job_.measure);
            frame.end(Part::Kind::heading);
        }
        if (anchored && !continued && !matrix_.anchor.empty())
            frame.add(Anchor{{}, matrix_.anchor}, Role::none, matrix_.subject);
        Frame names;
        const Length top = y;
        Length x = columns.label + columns.section;
        Length height = job_.measure.cap_height(style().heading);
        for (std::size_t i = first; i < end; ++i) {
            const Length width = columns.columns[i - first];
            height = std::max(
                height, write_names(names, {x, top + pad()}, width, matrix_.columns[i], anchored));
            x += width;
        }
        const Length bottom = top + height + pad() * 2;
        frame.add(filled_rectangle({{{}, top}, {columns.total(), bottom}}, style().heading_ground),
                  Role::ground);
        frame.begin(Part::Kind::table);
        frame.begin(Part::Kind::row);
        const Look look{style().heading};
        frame.begin(Part::Kind::heading_cell);
        write_line(frame, {matrix_pad(), top + pad()}, "STEP", look, job_.measure);
        frame.end(Part::Kind::heading_cell);
        frame.begin(Part::Kind::heading_cell);
        write_line(frame, {columns.label + matrix_pad(), top + pad()}, "SECTION", look,
                   job_.measure);
        frame.end(Part::Kind::heading_cell);
        frame.add(names, {});
        frame.end(Part::Kind::row);
        draw_horizontal(frame, top, columns.total());
        draw_horizontal(frame, bottom, columns.total());
        frame.size.height = bottom;
        top_of_columns_ = top;
        return frame;
    }

    /// "C1, C2" one above the other where the column is narrow, each leading to its schedule row.
    Length write_names(Frame& frame, Point at, Length width, const MatrixColumn& column,
                       bool anchored) const {
        const TextStyle& look = style().heading;
        const Length blank = job_.measure.width(" ", look);
        std::vector<std::vector<HeadingName>> lines(1);
        Length used{};
        const auto width_of = [&](const HeadingName& piece) {
            return job_.measure.width(piece.words, look);
        };
        for (HeadingName& piece : heading_names(column)) {
            const Length own = width_of(piece);
            if (!lines.back().empty() && used + blank + own > width - matrix_pad() * 2) {
                lines.emplace_back();
                used = {};
            }
            used += own + (lines.back().empty() ? Length{} : blank);
            lines.back().push_back(std::move(piece));
        }
        Length y = at.y;
        frame.begin(Part::Kind::heading_cell);
        for (const auto& line : lines) {
            Length sum = blank * static_cast<std::int64_t>(line.size() - 1);
            for (const HeadingName& piece : line)
                sum += width_of(piece);
            Length x = at.x + (width - sum) / 2;
            for (const HeadingName& piece : line) {
                write_name(frame, {x, y}, piece, width_of(piece), anchored);
                x += width_of(piece) + blank;
            }
            y += line_pitch(look);
        }
        frame.end(Part::Kind::heading_cell);
        return lettering_height(static_cast<int>(lines.size()), look, job_.measure);
    }

    void write_name(Frame& frame, Point at, const HeadingName& piece, Length width,
                    bool anchored) const {
        const TextStyle& look = style().heading;
        const MatrixSource& first = *piece.sources.front();
        write_line(frame, at, piece.words, {look, Align::left, black, first.subject}, job_.measure);
        for (const MatrixSource* source : piece.sources) {
            if (anchored && !source->anchor.empty())
                frame.add(Anchor{at, source->anchor}, Role::none, source->subject);
        }
        add_link(frame, {at, {at.x + width, at.y + job_.measure.cap_height(look)}}, first.link);
    }

    void draw_horizontal(Frame& frame, Length y, Length width) const {
        frame.add(polyline({{{}, y}, {width, y}}, style().rule), Role::rule);
    }

    void write_cell(Frame& frame, Part::Kind part, Point at, const SetLines& lines,
                    const std::string& shows, Length centred_in) const {
        frame.begin(part);
        write_lines(frame, at, lines, shows, centred_in);
        frame.end(part);
    }
    void write_lines(Frame& frame, Point at, const SetLines& lines, const std::string& shows,
                     Length centred_in) const {
        for (const SetLine& line : lines) {
            const TextStyle& look = line.bold ? strong() : body();
            const Length left =
                centred_in > Length{} ? (centred_in - width_of(line)) / 2 : Length{};
            const FormulaExtent extent = formula_extent(line.text, body(), job_.measure);
            at.y += extent.above;
            write_formula(frame, {at.x + left, at.y}, line.text, look, shows, job_.measure);
            at.y += pitch() + extent.below;
        }
    }

    void draw_rows(Frame& frame, const MatrixWidths& columns,
                   const std::vector<SetRow>& rows) const {
        for (const SetRow& row : rows) {
            const Length top = frame.size.height + pad();
            frame.begin(Part::Kind::row);
            write_cell(frame, Part::Kind::heading_cell, {matrix_pad(), top}, row.label,
                       matrix_.subject, {});
            write_cell(frame, Part::Kind::heading_cell, {columns.label + matrix_pad(), top},
                       row.section, matrix_.subject, {});
            Length x = columns.label + columns.section;
            for (std::size_t i = 0; i < row.cells.size(); ++i) {
                write_cell(frame, Part::Kind::cell, {x, top}, row.cells[i], row.shows[i],
                           columns.columns[i]);
                x += columns.columns[i];
            }
            frame.end(Part::Kind::row);
            frame.size.height += row.height;
            if (&row != &rows.back())
                draw_horizontal(frame, frame.size.height, columns.total());
        }
        frame.end(Part::Kind::table);
        Length x = columns.label;
        const auto vertical = [&] {
            frame.add(polyline({{x, top_of_columns_}, {x, frame.size.height}}, style().rule),
                      Role::rule);
        };
        vertical();
        x += columns.section;
        for (const Length& width : columns.columns) {
            vertical();
            x += width;
        }
        frame.add(rectangle({{}, {columns.total(), frame.size.height}}, style().frame), Role::rule);
    }

    // Notes.

    SetLines note_lines() const {
        std::string words;
        for (std::size_t i = 0; i < matrix_.notes.size(); ++i)
            words +=
                (i > 0 ? std::string(note_gap) + " " : "") + note_begins(i + 1) + matrix_.notes[i];
        SetLines lines;
        for (std::string& text : wrapped(words, body(), room_.width, job_.measure))
            lines.push_back({std::move(text)});
        return lines;
    }
    Length notes_height(bool shown) const {
        return shown && !matrix_.notes.empty()
                   ? pad() * 2 + height_of(note_lines()) + job_.measure.descent(body())
                   : Length{};
    }
    /// Each note is lettering of its own, also where it begins in the line of another.
    void add_notes(Frame& frame) const {
        if (matrix_.notes.empty())
            return;
        Point at{{}, frame.size.height + pad() * 2};
        std::size_t next = 1;
        frame.begin(Part::Kind::paragraph);
        for (const SetLine& line : note_lines()) {
            at.y += formula_extent(line.text, body(), job_.measure).above;
            std::size_t from = 0;
            while (from < line.text.size()) {
                std::size_t end = line.text.size();
                const auto begins = line.text.find(note_begins(next), from);
                if (begins != std::string::npos && begins > from)
                    end = begins;
                else if (begins == from)
                    end = std::min(end, line.text.find(note_begins(++next), from));
                write_note(frame, at, line.text, from, end);
                from = end;
            }
            at.y += pitch() + formula_extent(line.text, body(), job_.measure).below;
        }
        frame.end(Part::Kind::paragraph);
        frame.size.height += notes_height(true);
    }

    static std::string note_begins(std::size_t number) { return fmt::format("NOTE {}: ", number); }

    void write_note(Frame& frame, Point at, const std::string& line, std::size_t from,
                    std::size_t end) const {
        at.x += formula_width(line.substr(0, from), body(), job_.measure);
        std::string_view part = std::string_view(line).substr(from, end - from);
        for (const std::string_view gap : {std::string_view(" "), note_gap}) {
            if (part.ends_with(gap))
                part.remove_suffix(gap.size());
        }
        write_formula(frame, at, std::string(part), body(), matrix_.subject, job_.measure);
    }

    const CalculationMatrix& matrix_;
    MatrixRoom room_;
    const Job& job_;
    mutable bool skipped_ = false;    ///< the room left for the first piece was too little
    mutable Length top_of_columns_{}; ///< of the piece being drawn, under its title
};

} // namespace

MatrixPieces set_matrix(const CalculationMatrix& matrix, const MatrixRoom& room, const Job& job) {
    return MatrixSetter(matrix, room, job).set();
}

} // namespace ohmfolio::sheets
