// Summary, rules tried and calculations line by line flow down columns; below and after them stand
// the tables of circuits and raceways over the full width.

#include <algorithm>
#include <deque>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "sheet/calculation_entries.h"
#include "sheet/calculation_matrix.h"
#include "sheet/calculation_matrix_widths.h"
#include "sheet/calculation_pages.h"
#include "sheet/calculation_sections.h"
#include "sheet/calculation_summary.h"
#include "sheet/flow.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

/// The name of a section within a group, in bold.
Frame section_heading(const std::string& title, Length width, const Job& job) {
    Frame frame;
    const TextStyle& style = job.layout.lettering.strong;
    const Length height =
        write_paragraph(frame, {}, width, drafting_case(title), {style}, job.measure);
    frame.size = {width, height + job.measure.descent(style)};
    return frame;
}

/// Joins `below` to `above`, so that they cannot come apart.
Frame joined(Frame above, const Frame& below, Length gap) {
    const Length top = above.size.height + gap;
    above.add(below, {{}, top});
    above.size.height = top + below.size.height;
    above.size.width = std::max(above.size.width, below.size.width);
    return above;
}

/// What stands lowest: an entry taller than the balanced columns reaches below them.
Length bottom_of(const Frame& frame, const TextMeasure& measure) {
    Length bottom{};
    for (const Mark& mark : frame.marks) {
        if (const auto* text = std::get_if<Text>(&mark.item))
            bottom = std::max(bottom, text_box(*text, measure).high.y);
        if (const auto* path = std::get_if<Path>(&mark.item))
            bottom = std::max(bottom, bounds(*path).high.y);
    }
    return bottom;
}

/// The tables of circuits, of raceways, of fault currents and of working spaces, and of all else
/// that is worked out alike for several but is too wide for a column.
struct WideTables {
    std::vector<MatrixSource> circuits, raceways, faults, spaces; ///< what the tables point into
    CalculationMatrix circuit_table, raceway_table, fault_table, space_table;
    std::deque<std::vector<MatrixSource>> other_sources;
    std::vector<CalculationMatrix> others;
};

/// A matrix whose steps cannot be read in less is set over the sheet.
constexpr Length least_label = inches(1.3);

class CalculationSheets {
  public:
    CalculationSheets(const Job& job, SheetName name) : job_(job), name_(std::move(name)) {
        room_.columns = job.layout.calculation_columns;
        room_.gap = job.layout.column_gap;
        room_.width = (job.area.width - room_.gap * (room_.columns - 1)) / room_.columns;
        // The comma of a subscript at the foot of a column hangs below it.
        room_.height = job.area.height - scaled(job.layout.lettering.body.size, 0.25);
        room_.group_gap = room_.widest_group_gap = job.layout.block_gap * 2 / 3;
        tried_ = steps_not_chosen(job.study);
        gather_tables();
        gather_summary();
        for (const CalculationGroup& group : job.study.groups) {
            if (!stands_in_table(group))
                add_group(group);
        }
    }

    /// The summary names sheets that depend on its own height: laid out until that settles.
    std::vector<Frame> pages() {
        std::vector<Frame> pages = laid_out();
        for (int round = 0; round < 4 && name_sheets(pages); ++round)
            pages = laid_out();
        return pages;
    }

  private:
    // What there is.

    bool stands_in_table(const CalculationGroup& group) const {
        return is_circuit(group) || is_raceways(group, job_.study) ||
               is_fault_currents(group, job_.study) || is_working_spaces(group, job_.study);
    }

    void gather_tables() {
        for (const CalculationGroup& group : job_.study.groups) {
            if (is_circuit(group)) {
                const std::string tag = key_of(group.subject);
                MatrixSource source{tag, group.subject, group.anchor, "schedule:" + tag, {}};
                for (const std::string& id : group.steps)
                    source.lines.push_back(&job_.study.derivation(id));
                wide_.circuits.push_back(std::move(source));
            } else if (is_raceways(group, job_.study)) {
                wide_.raceway_table = table_of(group, "RACEWAYS", wide_.raceways);
            } else if (is_fault_currents(group, job_.study)) {
                wide_.fault_table = table_of(group, group.title, wide_.faults);
            } else if (is_working_spaces(group, job_.study)) {
                wide_.space_table = table_of(group, group.title, wide_.spaces);
            }
        }
        wide_.circuit_table = make_matrix("CIRCUITS", wide_.circuits, {}, tried_, job_);
    }

    /// A group as a table with a column for each subject.
    CalculationMatrix table_of(const CalculationGroup& group, const std::string& title,
                               std::vector<MatrixSource>& sources) const {
        for (const CalculationSection& section : sections_of(group, job_.study))
            sources.push_back({key_of(section.subject), section.subject, {}, {}, section.lines});
        CalculationMatrix table = make_matrix(title, sources, {}, tried_, job_);
        table.anchor = group.anchor;
        table.subject = group.subject;
        return table;
    }

    const CalculationGroup* group_of(const std::string& anchor) const {
        const auto group =
            std::find_if(job_.study.groups.begin(), job_.study.groups.end(),
                         [&](const CalculationGroup& each) { return each.anchor == anchor; });
        return &*group;
    }

    /// Groups in the order of the study; circuits of one column are one line.
    void gather_summary() {
        for (const CalculationGroup& group : job_.study.groups) {
            if (!is_circuit(group)) {
                summary_.push_back({{&group}, {}});
                continue;
            }
            for (const MatrixColumn& column : wide_.circuit_table.columns) {
                if (column.sources.front()->anchor != group.anchor)
                    continue;
                SummaryLine line;
                for (const MatrixSource* source : column.sources)
                    line.groups.push_back(group_of(source->anchor));
                summary_.push_back(std::move(line));
            }
        }
    }

    // Blocks in the columns.

    void add_table(std::vector<Group>& groups, const Table& table) const {
        if (table.rows.empty())
            return;
        for (Frame& piece :
             set_table(table, job_.layout.table, room_.width, room_.height, true, job_.measure)) {
            Group group;
            group.entries.push_back(std::move(piece));
            groups.push_back(std::move(group));
        }
    }

    Group notes() const {
        Group group;
        group.entry_gap = job_.layout.item_gap;
        for (const std::string& note : reading_notes(job_)) {
            Frame frame;
            const TextStyle& style = job_.layout.lettering.body;
            const Length height =
                write_paragraph(frame, {}, room_.width, note, {style}, job_.measure);
            frame.size = {room_.width, height + job_.measure.descent(style)};
            group.entries.push_back(std::move(frame));
        }
        return group;
    }

    std::vector<Frame> entries_of(const CalculationBlock& block,
                                  const CalculationGroup& source) const {
        if (block.sections.size() == 1) {
            const CalculationSection& section = block.sections.front();
            return calculation_entries(printed_lines(section, job_.system), tried_, room_.width,
                                       job_);
        }
        const std::vector<MatrixSource> sources = sources_of(block);
        const CalculationMatrix matrix =
            make_matrix({}, sources, known_symbols(source), tried_, job_);
        // A piece stands under the heading of its block, which may take two lines.
        const Length height = room_.height - 3 * line_pitch(job_.layout.lettering.heading);
        return set_matrix(matrix, {room_.width, height, height}, job_).frames;
    }

    static std::vector<MatrixSource> sources_of(const CalculationBlock& block) {
        std::vector<MatrixSource> sources;
        for (const CalculationSection& section : block.sections)
            sources.push_back({key_of(section.subject), section.subject, {}, {}, section.lines});
        return sources;
    }

    std::set<std::string> known_symbols(const CalculationGroup& source) const {
        std::set<std::string> known;
        for (const std::string& id : source.steps)
            known.insert(job_.study.derivation(id).symbol);
        return known;
    }

    /// Sets aside what a column cannot hold; true when that is this block.
    bool goes_wide(const CalculationBlock& block, const CalculationGroup& source) {
        if (block.sections.size() == 1)
            return false;
        wide_.other_sources.push_back(sources_of(block));
        CalculationMatrix matrix =
            make_matrix(group_title(source, job_), wide_.other_sources.back(), {}, tried_, job_);
        const std::size_t end = last_column(matrix, 0, room_.width, job_);
        if (matrix_widths(matrix, 0, end, room_.width, job_).label >= least_label) {
            wide_.other_sources.pop_back();
            return false;
        }
        matrix.subject = source.subject;
        wide_.others.push_back(std::move(matrix));
        return true;
    }

    /// Neither the first entry nor the last stands alone in a column.
    static void tie_ends(Group& group) {
        if (group.entries.size() < 4)
            return;
        group.entries[1] = joined(std::move(group.entries[0]), group.entries[1], group.entry_gap);
        group.entries.erase(group.entries.begin());
        Frame last = std::move(group.entries.back());
        group.entries.pop_back();
        group.entries.back() = joined(std::move(group.entries.back()), last, group.entry_gap);
    }

    /// Every block is headed on its own, so that what goes on in the next column says what it is.
    void add_group(const CalculationGroup& source) {
        const std::string title = group_title(source, job_);
        bool first = true;
        for (const CalculationBlock& block : blocks_of(source, job_.study)) {
            if (goes_wide(block, source)) {
                if (first)
                    wide_.others.back().anchor = source.anchor;
                first = false;
                continue;
            }
            Group group;
            const std::string part = block.sections.size() == 1
                                         ? title_of(block.sections.front(), source, job_.system)
                                         : std::string{};
            if (first) {
                group.heading = block_heading(title, room_.width, job_.layout, job_.measure);
                group.heading.add(Anchor{{}, source.anchor}, Role::none, source.subject);
            }
            if (!part.empty()) {
                group.heading = first ? joined(std::move(group.heading),
                                               section_heading(part, room_.width, job_), points(6))
                                      : section_heading(part, room_.width, job_);
            }
            group.continued = section_heading(
                fmt::format("{}, continued", part.empty() ? title : part), room_.width, job_);
            group.heading_gap = part.empty() ? points(6) : job_.layout.item_gap;
            group.entry_gap = job_.layout.item_gap;
            group.entries = entries_of(block, source);
            if (block.sections.size() == 1) // pieces of a table are as high as a column already
                tie_ends(group);
            blocks_.push_back(std::move(group));
            first = false;
        }
    }

    // Pages.

    std::vector<Frame> laid_out() const {
        std::vector<Group> groups;
        add_table(groups, summary_table(summary_, tried_, job_));
        groups.push_back(notes());
        groups.insert(groups.end(), blocks_.begin(), blocks_.end());
        std::vector<Frame> pages = flow(groups, room_);
        pages.back().size.height = bottom_of(pages.back(), job_.measure);
        for (const Table& table : connection_tables(job_))
            add_wide(pages, table);
        for (const CalculationMatrix& matrix : wide_.others)
            add_wide(pages, matrix);
        add_wide(pages, wide_.space_table);
        add_wide(pages, wide_.fault_table);
        add_wide(pages, wide_.circuit_table);
        add_wide(pages, wide_.raceway_table);
        return pages;
    }

    /// Below what stands on the last page where there is room, else on pages of its own.
    void add_wide(std::vector<Frame>& pages, const CalculationMatrix& matrix) const {
        if (matrix.rows.empty())
            return;
        const Length top = pages.back().size.height + room_.group_gap;
        MatrixPieces pieces =
            set_matrix(matrix, {job_.area.width, room_.height - top, room_.height}, job_);
        for (std::size_t i = 0; i < pieces.frames.size(); ++i) {
            Frame& piece = pieces.frames[i];
            if (i > 0 || !pieces.starts_below) {
                pages.push_back(std::move(piece));
                continue;
            }
            pages.back().add(piece, {{}, top});
            pages.back().size.height = top + piece.size.height;
        }
    }

    void add_wide(std::vector<Frame>& pages, const Table& table) const {
        for (const Frame& piece : set_table(table, job_.layout.table, job_.area.width, room_.height,
                                            true, job_.measure)) {
            const Length top = pages.back().size.height + room_.group_gap;
            if (top + piece.size.height > room_.height) {
                pages.push_back(piece);
                continue;
            }
            pages.back().add(piece, {{}, top});
            pages.back().size.height = top + piece.size.height;
        }
    }

    /// True when the summary named another sheet before.
    bool name_sheets(const std::vector<Frame>& pages) {
        bool changed = false;
        for (SummaryLine& line : summary_) {
            const std::string sheet = sheet_of(pages, line.groups.front()->anchor);
            changed = changed || sheet != line.sheet;
            line.sheet = sheet;
        }
        return changed;
    }
    std::string sheet_of(const std::vector<Frame>& pages, const std::string& anchor) const {
        for (std::size_t i = 0; i < pages.size(); ++i) {
            for (const Mark& mark : pages[i].marks) {
                if (const auto* here = std::get_if<Anchor>(&mark.item);
                    here != nullptr && here->name == anchor)
                    return name_(i, pages.size());
            }
        }
        return {};
    }

    const Job& job_;
    SheetName name_;
    FlowRoom room_;
    TriedSteps tried_;
    WideTables wide_;
    std::vector<SummaryLine> summary_;
    std::vector<Group> blocks_;
};

} // namespace

std::vector<Frame> calculation_pages(const Job& job, const SheetName& name) {
    return CalculationSheets(job, name).pages();
}

std::vector<Frame> calculation_pages(const Job& job) {
    return calculation_pages(job, [](std::size_t page, std::size_t count) {
        return fmt::format("{} OF {}", page + 1, count);
    });
}

} // namespace ohmfolio::sheets
