#include "revision/table_changes.h"

#include <algorithm>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "base/text.h"
#include "revision/sentence.h"

namespace ohmfolio::revision {

namespace {

std::string words_of(const Cell& cell) { return cell.words.empty() ? cell.text : cell.words; }
std::string words_of(const Column& column) {
    return column.words.empty() ? column.heading : column.words;
}

bool counts_rows(const Cell& cell) { return cell.shows == a_count; }

/// What the row is about: of a row that begins with its number the cells after it tell.
const std::string& subject_of(const Row& row) {
    const auto found = std::ranges::find_if_not(row.cells, counts_rows);
    return found == row.cells.end() ? row.cells.front().shows : found->shows;
}

/// A row and what it is known by: its group, what it is about, its first word and a count of those
/// that have all of these alike.
struct KnownRow {
    std::string key;
    std::string group;
    const Row* row = nullptr;
    bool alone = true; ///< no other row is about the same thing
};

class Rows {
  public:
    Rows(const Table& table, const TagNames* names) {
        for (const Row& row : table.rows) {
            if (!row.cells.empty() && !row.heading)
                ++about_[subject_of(row)];
        }
        std::string group;
        std::map<std::string, int> counts;
        for (const Row& row : table.rows) {
            if (row.cells.empty())
                continue;
            if (row.heading) {
                group = words_of(row.cells.front());
                continue;
            }
            const std::string base = key_of(group, row, names);
            const std::string key = fmt::format("{}|{}", base, counts[base]++);
            at_.emplace(key, rows_.size());
            rows_.push_back({key, group, &row, about_.at(subject_of(row)) == 1});
        }
    }

    const std::vector<KnownRow>& all() const { return rows_; }
    const Row* find(const std::string& key) const {
        const auto found = at_.find(key);
        return found == at_.end() ? nullptr : rows_[found->second].row;
    }

  private:
    /// Where one row alone is about a thing, it is known by that, whatever it is counted as.
    std::string key_of(const std::string& group, const Row& row, const TagNames* names) const {
        const std::string& subject = subject_of(row);
        const std::string now = names == nullptr ? subject : names->newer_subject(subject);
        if (!subject.empty() && about_.at(subject) == 1)
            return now;
        const std::string first = words_of(row.cells.front());
        return fmt::format("{}|{}|{}", group, now, names == nullptr ? first : names->newer(first));
    }

    std::map<std::string, int> about_; ///< how many rows are about a thing
    std::vector<KnownRow> rows_;
    std::map<std::string, std::size_t> at_;
};

class ComparingTables {
  public:
    ComparingTables(std::string name, const Table& older, const Table& newer, const TagNames& names)
        : name_(std::move(name)), older_(older), newer_(newer), names_(names),
          columns_(newer.columns.empty() ? older.columns : newer.columns) {}

    void compare(std::vector<RowChange>& changes) const {
        const Rows before(older_, &names_), after(newer_, nullptr);
        for (const KnownRow& known : after.all()) {
            const Row* old = before.find(known.key);
            if (old == nullptr) {
                changes.push_back(whole(known, RowChange::Kind::added));
                continue;
            }
            RowChange change = about(known, RowChange::Kind::changed);
            compare_cells(*old, *known.row, change);
            if (!change.cells.empty())
                changes.push_back(std::move(change));
        }
        for (const KnownRow& known : before.all()) {
            if (after.find(known.key) == nullptr)
                changes.push_back(whole(known, RowChange::Kind::left_out));
        }
    }

  private:
    RowChange about(const KnownRow& known, RowChange::Kind kind) const {
        RowChange change;
        change.kind = kind;
        change.table = name_;
        change.row = name_of(known);
        change.shows = subject_of(*known.row);
        return change;
    }

    /// Its first word, after that of its group; of rows that are counted their description.
    std::string name_of(const KnownRow& known) const {
        const Cell& first = known.row->cells.front();
        if (!counts_rows(first)) {
            std::string name =
                known.group.empty() ? words_of(first) : known.group + " " + words_of(first);
            if (!known.alone && known.row->cells.size() > 1)
                name += " " + words_of(known.row->cells[1]);
            return name;
        }
        const auto described = std::ranges::find_if(columns_, [](const Column& column) {
            return in_a_sentence(words_of(column)) == "description";
        });
        const auto at = static_cast<std::size_t>(described - columns_.begin());
        return words_of(at < known.row->cells.size() ? known.row->cells[at] : first);
    }

    /// An added or vanished row is told with the words that follow its first.
    RowChange whole(const KnownRow& known, RowChange::Kind kind) const {
        RowChange change = about(known, kind);
        if (counts_rows(known.row->cells.front()))
            return change;
        for (std::size_t i = known.alone ? 1 : 2; i < known.row->cells.size() && i <= 2; ++i) {
            const std::string words = words_of(known.row->cells[i]);
            if (!words.empty() && words != "—")
                change.row += " " + words;
        }
        return change;
    }

    void compare_cells(const Row& older, const Row& newer, RowChange& change) const {
        for (std::size_t i = 0; i < newer_.columns.size() && i < newer.cells.size(); ++i) {
            const std::string heading = words_of(newer_.columns[i]);
            const std::string before = older_cell(older, heading);
            const std::string after = words_of(newer.cells[i]);
            if (i > 0 && names_.newer(before) != after)
                change.cells.push_back({in_a_sentence(heading), before, after, {}});
        }
    }

    std::string older_cell(const Row& row, const std::string& heading) const {
        for (std::size_t i = 0; i < older_.columns.size() && i < row.cells.size(); ++i) {
            if (words_of(older_.columns[i]) == heading)
                return words_of(row.cells[i]);
        }
        return {};
    }

    std::string name_;
    const Table& older_;
    const Table& newer_;
    const TagNames& names_;
    const std::vector<Column>& columns_;
};

const Table* find(const std::vector<NamedTable>& tables, const std::string& name) {
    const auto found = std::ranges::find(tables, name, &NamedTable::name);
    return found == tables.end() ? nullptr : &found->table;
}

/// Several words are held together, so that "to" stands clear between them.
std::string as_value(const std::string& words) {
    if (words.empty())
        return "—";
    const bool sentence =
        std::ranges::count(words, ' ') > 2 || words.find(';') != std::string::npos;
    return sentence ? "\"" + words + "\"" : words;
}

std::string text(const CellChange& cell) {
    return fmt::format("{} {} to {}", cell.column, as_value(cell.before), as_value(cell.after));
}

/// Cells of the same causes stand together, each cause is told once; last what has none.
std::vector<std::vector<const CellChange*>> by_cause(const std::vector<CellChange>& cells) {
    std::vector<std::vector<const CellChange*>> groups;
    std::vector<const CellChange*> without;
    for (const CellChange& cell : cells) {
        if (cell.causes.empty()) {
            without.push_back(&cell);
            continue;
        }
        const auto same = std::ranges::find_if(
            groups, [&](const auto& group) { return group.front()->causes == cell.causes; });
        if (same == groups.end())
            groups.push_back({&cell});
        else
            same->push_back(&cell);
    }
    if (!without.empty())
        groups.push_back(std::move(without));
    return groups;
}

} // namespace

std::vector<RowChange> table_changes(const std::vector<NamedTable>& older,
                                     const std::vector<NamedTable>& newer, const TagNames& names) {
    static const Table none;
    std::vector<RowChange> changes;
    for (const NamedTable& table : newer) {
        const Table* before = find(older, table.name);
        ComparingTables(table.name, before == nullptr ? none : *before, table.table, names)
            .compare(changes);
    }
    for (const NamedTable& table : older) {
        if (find(newer, table.name) == nullptr)
            ComparingTables(table.name, table.table, none, names).compare(changes);
    }
    return changes;
}

std::string what_changed(const RowChange& change) {
    switch (change.kind) {
    case RowChange::Kind::added:
        return "new";
    case RowChange::Kind::left_out:
        return "no longer";
    case RowChange::Kind::changed:
        break;
    }
    std::vector<std::string> parts;
    for (const auto& alike : by_cause(change.cells)) {
        std::vector<std::string> cells;
        for (const CellChange* cell : alike)
            cells.push_back(text(*cell));
        std::string part = join(cells, "; ");
        if (const auto& causes = alike.front()->causes; !causes.empty())
            part += ", because " + join(causes, " and ");
        parts.push_back(std::move(part));
    }
    return join(parts, "; ");
}

std::string text(const RowChange& change) { return change.row + ": " + what_changed(change); }

std::vector<std::string> causes_of(const RowChange& change) {
    std::vector<std::string> all;
    for (const CellChange& cell : change.cells) {
        for (const std::string& cause : cell.causes) {
            if (std::ranges::find(all, cause) == all.end())
                all.push_back(cause);
        }
    }
    return all;
}

} // namespace ohmfolio::revision
