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
#include "revision/things.h"

namespace ohmfolio::revision {

namespace {

/// Rows about something that the drafter named; what is stated of the site or of a record may show
/// anywhere.
bool may_show(const RowChange& row, const StatedChange& change, const System& system) {
    return system.find(change.subject) < 0 || about(keys_of(system, change.subject), row.shows);
}

/// "28 ft" and "28" alike; nothing for what does not begin with a number.
std::string figure(const std::string& words) {
    char* end = nullptr;
    const double value = std::strtod(words.c_str(), &end);
    return end == words.c_str() ? std::string{} : fmt::format("{:.4g}", value);
}

/// A cell that shows what the drafter wrote follows from nothing: its figures are those of one of
/// the stated changes of the same thing.
bool is_stated(const RowChange& row, const CellChange& cell,
               const std::vector<StatedChange>& stated, const System& system) {
    const std::string before = figure(cell.before), after = figure(cell.after);
    return !before.empty() && !after.empty() &&
           std::ranges::any_of(stated, [&](const StatedChange& change) {
               return figure(change.before) == before && figure(change.after) == after &&
                      may_show(row, change, system);
           });
}

/// What the drafter stated is its own cause, wherever it stands in the rows about it: "2 AWG" in
/// "(2) 2 AWG CU". A number alone might be anything.
const StatedChange* stated_in(const RowChange& row, const CellChange& cell,
                              const std::vector<StatedChange>& stated, const System& system) {
    const auto holds = [](const std::string& words, const std::string& value) {
        const std::string all = " " + upper(words) + " ";
        return all.find(" " + upper(value) + " ") != std::string::npos;
    };
    const auto telling = [](const std::string& value) {
        return value.size() > 2 &&
               std::ranges::any_of(value, [](unsigned char c) { return std::isalpha(c) != 0; });
    };
    const auto found = std::ranges::find_if(stated, [&](const StatedChange& change) {
        return telling(change.after) && holds(cell.after, change.after) &&
               !holds(cell.before, change.after) && may_show(row, change, system);
    });
    return found == stated.end() ? nullptr : &*found;
}

void find_causes(std::vector<RowChange>& rows, const Causes& causes,
                 const std::vector<StatedChange>& stated, const System& system) {
    for (RowChange& row : rows) {
        for (CellChange& cell : row.cells) {
            if (const StatedChange* own = stated_in(row, cell, stated, system))
                cell.causes = {text(*own)};
            else
                cell.causes = causes.of(row.shows, cell);
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
        const bool renumbered = !marks.were[i].empty() && marks.were[i] != number;
        if (renumbered)
            list.were.emplace(number, marks.were[i]);
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
            if (renumbered)
                list.renumbered.push_back(number);
            break;
        }
    }
    list.gone = marks.sheets_gone;
    return list;
}

} // namespace

bool Comparison::nothing_changed() const {
    return stated.empty() && renamed.empty() && followed.empty() && rules.empty() &&
           new_faults.empty() && mended.empty() && sheets.changed.empty() &&
           sheets.arranged.empty() && sheets.added.empty() && sheets.gone.empty() &&
           sheets.renumbered.empty();
}

Comparison compare(const Issue& older, const Issue& newer, const ChangedMarks& marks,
                   const KeyWords& words) {
    Comparison result;
    const TagNames names(older.system, newer.system);
    result.stated = stated_changes(older.statements, newer.statements, words);
    result.renamed.assign(names.renamed().begin(), names.renamed().end());
    result.followed = table_changes(older.packet.tables, newer.packet.tables, names);
    for (RowChange& row : result.followed)
        std::erase_if(row.cells, [&](const CellChange& cell) {
            return is_stated(row, cell, result.stated, newer.system);
        });
    std::erase_if(result.followed, [](const RowChange& row) {
        return row.kind == RowChange::Kind::changed && row.cells.empty();
    });
    const Causes causes(older.study, newer.study, newer.system, names, result.stated);
    find_causes(result.followed, causes, result.stated, newer.system);
    result.rules = rule_changes(older, newer);
    const auto before = fault_lines(older.study), after = fault_lines(newer.study);
    result.new_faults = only_in(after, before);
    result.mended = only_in(before, after);
    result.sheets = sheet_list(marks, newer.packet);
    return result;
}

} // namespace ohmfolio::revision
