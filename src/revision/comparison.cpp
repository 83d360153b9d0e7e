#include "revision/comparison.h"

#include <algorithm>
#include <cctype>
#include <cstdlib>
#include <iterator>
#include <set>

#include <fmt/format.h>

#include "base/text.h"
#include "revision/causes.h"
#include "revision/tag_names.h"

namespace ohmfolio::revision {

namespace {

/// A cell that shows what the drafter wrote follows from nothing: its figures are those of one of
/// the stated changes of the same thing.
class Stated {
  public:
    explicit Stated(const std::vector<StatedChange>& changes) {
        for (const StatedChange& change : changes) {
            const std::string before = figure(change.before), after = figure(change.after);
            if (!before.empty() && !after.empty())
                figures_.emplace(before, after);
        }
    }

    bool holds(const CellChange& cell) const {
        return figures_.contains({figure(cell.before), figure(cell.after)});
    }

  private:
    /// "28 ft" and "28" alike; nothing for what does not begin with a number.
    static std::string figure(const std::string& words) {
        char* end = nullptr;
        const double value = std::strtod(words.c_str(), &end);
        return end == words.c_str() ? std::string{} : fmt::format("{:.4g}", value);
    }

    std::set<std::pair<std::string, std::string>> figures_;
};

/// What the drafter stated is its own cause, wherever it stands in the description: "2 AWG" in
/// "(2) 2 AWG CU". A number alone might be anything.
const StatedChange* stated_in(const RowChange& row, const std::vector<StatedChange>& stated) {
    const auto holds = [](const std::string& cell, const std::string& value) {
        const std::string words = " " + upper(cell) + " ";
        return words.find(" " + upper(value) + " ") != std::string::npos;
    };
    const auto telling = [](const std::string& value) {
        return value.size() > 2 &&
               std::ranges::any_of(value, [](unsigned char c) { return std::isalpha(c) != 0; });
    };
    for (const StatedChange& change : stated) {
        for (const CellChange& cell : row.cells) {
            if (telling(change.after) && holds(cell.after, change.after) &&
                !holds(cell.before, change.after))
                return &change;
        }
    }
    return nullptr;
}

void find_causes(std::vector<RowChange>& rows, const Causes& causes,
                 const std::vector<StatedChange>& stated) {
    for (RowChange& row : rows) {
        if (row.kind != RowChange::Kind::changed)
            continue;
        if (const StatedChange* own = stated_in(row, stated)) {
            row.causes = {text(*own)};
            continue;
        }
        for (const CellChange& cell : row.cells) {
            row.causes = causes.of(row.shows, cell.after);
            if (!row.causes.empty())
                break;
        }
    }
}

const RowChange* row_about(const std::vector<RowChange>& rows, const std::string& shows) {
    const auto found = std::ranges::find_if(
        rows, [&](const RowChange& row) { return row.shows == shows && !row.causes.empty(); });
    return found == rows.end() ? nullptr : &*found;
}

/// A raceway changes with the circuits in it.
void find_causes_of_raceways(std::vector<RowChange>& rows, const System& system) {
    for (const Run& run : system.runs) {
        const auto row = std::ranges::find_if(rows, [&](const RowChange& each) {
            return each.shows == "run:" + run.tag && each.kind == RowChange::Kind::changed;
        });
        if (row == rows.end() || !row->causes.empty())
            continue;
        for (const int circuit : run.circuits) {
            const std::string tag = system.circuits[static_cast<std::size_t>(circuit)].tag;
            if (const RowChange* of_circuit = row_about(rows, "circuit:" + tag)) {
                row->causes = of_circuit->causes;
                break;
            }
        }
    }
}

const ConnectionOption* chosen(const Study& study, const System& system, const std::string& panel) {
    for (const ConnectionStudy& connection : study.connections) {
        if (system.at(connection.panel).id != panel)
            continue;
        const auto found = std::ranges::find_if(connection.options, &ConnectionOption::chosen);
        if (found != connection.options.end())
            return &*found;
    }
    return nullptr;
}

std::vector<std::string> rule_changes(const Issue& older, const Issue& newer) {
    std::vector<std::string> lines;
    for (const ConnectionStudy& connection : newer.study.connections) {
        const std::string& panel = newer.system.at(connection.panel).id;
        const ConnectionOption* now = chosen(newer.study, newer.system, panel);
        const ConnectionOption* was = chosen(older.study, older.system, panel);
        if (now != nullptr && was != nullptr &&
            (now->rule != was->rule || now->cite.section != was->cite.section))
            lines.push_back(fmt::format("{}: point of connection by {} ({}) instead of {} ({})",
                                        panel, now->rule, text(now->cite), was->rule,
                                        text(was->cite)));
    }
    return lines;
}

std::set<std::string> fault_lines(const Study& study) {
    std::set<std::string> lines;
    for (const Finding& finding : study.findings) {
        if (finding.severity >= Severity::warning)
            lines.insert(fmt::format("{}: {}", name(finding.severity), finding.message));
    }
    return lines;
}

std::vector<std::string> only_in(const std::set<std::string>& lines,
                                 const std::set<std::string>& not_in) {
    std::vector<std::string> result;
    std::ranges::set_difference(lines, not_in, std::back_inserter(result));
    return result;
}

SheetList sheet_list(const ChangedMarks& marks, const Packet& newer) {
    SheetList list;
    for (std::size_t i = 0; i < newer.sheets.size(); ++i) {
        const std::string& number = newer.sheets[i].number;
        switch (marks.sheets[i]) {
        case SheetChange::changed:
            list.changed.push_back(number);
            break;
        case SheetChange::arranged:
            list.arranged.push_back(number);
            break;
        case SheetChange::added:
            list.added.push_back(number);
            break;
        case SheetChange::none:
            break;
        }
    }
    list.left_out = marks.sheets_gone;
    return list;
}

} // namespace

bool Comparison::nothing_changed() const {
    return stated.empty() && renamed.empty() && followed.empty() && rules.empty() &&
           new_faults.empty() && mended.empty() && sheets.changed.empty() &&
           sheets.arranged.empty() && sheets.added.empty() && sheets.left_out.empty();
}

Comparison compare(const Issue& older, const Issue& newer, const ChangedMarks& marks,
                   const KeyWords& words) {
    Comparison result;
    const TagNames names(older.system, newer.system);
    result.stated = stated_changes(older.statements, newer.statements, words);
    result.renamed.assign(names.renamed().begin(), names.renamed().end());
    result.followed = table_changes(older.packet.tables, newer.packet.tables, names);
    const Stated stated(result.stated);
    for (RowChange& row : result.followed)
        std::erase_if(row.cells, [&](const CellChange& cell) { return stated.holds(cell); });
    std::erase_if(result.followed, [](const RowChange& row) {
        return row.kind == RowChange::Kind::changed && row.cells.empty();
    });
    find_causes(result.followed, Causes(older.study, newer.study, names), result.stated);
    find_causes_of_raceways(result.followed, newer.system);
    result.rules = rule_changes(older, newer);
    const auto before = fault_lines(older.study), after = fault_lines(newer.study);
    result.new_faults = only_in(after, before);
    result.mended = only_in(before, after);
    result.sheets = sheet_list(marks, newer.packet);
    return result;
}

} // namespace ohmfolio::revision
