#include "sheet/calculation_matrix.h"

#include <algorithm>
#include <map>
#include <optional>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "sheet/calculation_names.h"
#include "sheet/calculation_sections.h"
#include "sheet/calculation_sources.h"

namespace ohmfolio::sheets {

namespace {

std::string_view kind_of(const Derivation& line) {
    return std::string_view(line.subject).substr(0, line.subject.find(':'));
}

/// The most frequent; of several the first.
std::string most_common(const std::vector<std::string>& all) {
    std::string best;
    std::ptrdiff_t most = 0;
    for (const std::string& each : all) {
        const auto count = std::count(all.begin(), all.end(), each);
        if (count > most) {
            most = count;
            best = each;
        }
    }
    return best;
}

struct RowKey {
    std::string kind, name, title;
    std::string rule; ///< formula in words, "next standard rating ≥ I_req": too long for a cell
    friend bool operator==(const RowKey&, const RowKey&) = default;
};

/// A row before it is lettered: the step of each column, none where it has no such step.
struct RawRow {
    RowKey key;
    std::vector<const Derivation*> lines;
};

/// What most columns of a row share.
struct Usual {
    std::string formula, rounding, section;
    std::vector<std::vector<Operand>> hidden; ///< of each column: names that no row shows
};

class MatrixMaker {
  public:
    MatrixMaker(const std::vector<MatrixSource>& sources, std::set<std::string> known,
                const TriedSteps& tried, const Job& job)
        : sources_(sources), tried_(tried), job_(job), symbols_(std::move(known)) {
        for (const Breaker& breaker : job.system.breakers)
            breakers_.insert(breaker.tag);
        for (const Derivation& line : job.study.worksheet.all()) {
            const auto [known_result, is_new] = results_.try_emplace(line.symbol, line.result);
            if (!is_new && known_result->second != line.result)
                known_result->second.reset();
        }
        for (const MatrixSource& source : sources) {
            names_.emplace_back(source, breakers_);
            for (const Derivation* line : source.lines) {
                if (!line->symbol.empty())
                    symbols_.insert(line->symbol);
            }
        }
        note_governing_operands();
    }

    CalculationMatrix make(const std::string& title) {
        matrix_.title = title;
        for (std::size_t column = 0; column < sources_.size(); ++column)
            add_lines(column);
        for (const RawRow& raw : raw_)
            add_row(raw);
        join_columns();
        return std::move(matrix_);
    }

  private:
    /// What "lesser of" chose is set in bold.
    void note_governing_operands() {
        for (const MatrixSource& source : sources_) {
            for (const Derivation* line : source.lines) {
                if (!shown_formula(line->formula).starts_with("MIN("))
                    continue;
                const auto chosen =
                    std::find_if(line->from.begin(), line->from.end(), [&](const std::string& id) {
                        return job_.study.derivation(id).result == line->result;
                    });
                if (chosen != line->from.end())
                    governing_.insert(*chosen);
            }
        }
    }

    void add_lines(std::size_t column) {
        std::size_t next = 0; // where a row that is not there yet belongs
        for (const Derivation* line : sources_[column].lines) {
            const RowKey key{std::string(kind_of(*line)), row_name(*line, column),
                             names_[column].in_title(line->title), rule_of(*line, column)};
            auto row = std::find_if(raw_.begin(), raw_.end(),
                                    [&](const RawRow& each) { return each.key == key; });
            if (row == raw_.end()) {
                row = raw_.insert(raw_.begin() + place(key, next),
                                  {key, std::vector<const Derivation*>(sources_.size())});
            }
            row->lines[column] = line;
            next = std::max(next, static_cast<std::size_t>(row - raw_.begin()) + 1);
        }
    }

    std::string row_name(const Derivation& line, std::size_t column) const {
        return with_name(line.name, key_of(sources_[column].subject), "each");
    }

    /// After the rows of the same name, which differ in title.
    std::ptrdiff_t place(const RowKey& key, std::size_t next) const {
        for (std::size_t i = raw_.size(); i > next; --i) {
            if (raw_[i - 1].key.kind == key.kind && raw_[i - 1].key.name == key.name)
                return static_cast<std::ptrdiff_t>(i);
        }
        return static_cast<std::ptrdiff_t>(next);
    }

    template <class Word> std::vector<std::string> words(const RawRow& raw, Word word) const {
        std::vector<std::string> all;
        for (std::size_t column = 0; column < sources_.size(); ++column) {
            if (raw.lines[column] != nullptr)
                all.push_back(word(*raw.lines[column], column));
        }
        return all;
    }

    std::string rule_of(const Derivation& line, std::size_t column) const {
        const bool in_words = shown_formula(line.formula) != line.formula;
        return in_words ? formula(line, column) : std::string{};
    }
    std::string formula(const Derivation& line, std::size_t column) const {
        return names_[column].in_formula(shown_formula(line.formula));
    }

    /// Names whose values no row shows, as {"N", "8"}.
    std::vector<Operand> hidden_operands(const Derivation& line) const {
        std::vector<Operand> hidden;
        if (line.verdict)
            return hidden;
        for (const Operand& operand : operands(line.formula, line.figures)) {
            if (!symbols_.contains(operand.name))
                hidden.push_back(operand);
        }
        return hidden;
    }

    /// The value of a column and all that is not the same in the other columns.
    MatrixCell cell_of(const Derivation& line, std::size_t column, const Usual& usual,
                       const std::string& source) {
        MatrixCell cell = value_cell(line);
        const std::string own = formula(line, column);
        if (own != usual.formula)
            cell.lines.push_back(deviation(line, usual.formula, own));
        for (const Operand& operand : hidden_operands(line)) {
            if (!same_everywhere(operand, usual.hidden) && !stands_elsewhere(operand))
                cell.lines.push_back({operand.name + " = " + operand.value});
        }
        if (place_of(line) != usual.section)
            cell.lines.push_back({place_of(line), false, true});
        const std::string rounding = parts_of_rounding(line).second;
        for (const std::string& text :
             {source, rounding == usual.rounding ? "" : drafting_case(rounding)}) {
            if (!text.empty())
                cell.lines.push_back({short_or_note(text), false, true});
        }
        return cell;
    }

    /// How the formula of a column differs: "I_C = I_main" where that is all, else the formula.
    static CellLine deviation(const Derivation& line, const std::string& usual,
                              const std::string& own) {
        const auto differing = operands(usual, own);
        const auto is_symbol = [](const std::string& text) {
            return text.find('_') != std::string::npos;
        };
        if (!is_single_name(usual) && differing.size() == 1 && is_symbol(differing[0].name) &&
            is_symbol(differing[0].value))
            return {differing[0].name + " = " + differing[0].value};
        return {(line.verdict ? "" : "= ") + own, false, character_count(own) > 16};
    }

    /// True for a name that has one value on all sheets, such as I_main.
    bool stands_elsewhere(const Operand& operand) const {
        const auto known = results_.find(operand.name);
        return known != results_.end() && known->second == operand.value;
    }

    static bool same_everywhere(const Operand& operand,
                                const std::vector<std::vector<Operand>>& all) {
        return std::all_of(all.begin(), all.end(), [&](const std::vector<Operand>& each) {
            return std::find(each.begin(), each.end(), operand) != each.end();
        });
    }

    void add_row(const RawRow& raw) {
        MatrixRow row;
        Usual usual;
        row.title = drafting_case(raw.key.title);
        const auto common = [&](auto word) { return most_common(words(raw, word)); };
        const std::string symbol = common([&](const Derivation& line, std::size_t column) {
            return names_[column].in_formula(line.symbol);
        });
        usual.formula = common(
            [&](const Derivation& line, std::size_t column) { return formula(line, column); });
        usual.section = row.section =
            common([](const Derivation& line, std::size_t) { return place_of(line); });
        usual.rounding = common(
            [](const Derivation& line, std::size_t) { return parts_of_rounding(line).second; });
        row.working = symbol.empty()          ? usual.formula
                      : usual.formula.empty() ? symbol
                                              : symbol + " = " + usual.formula;
        auto& hidden = usual.hidden;
        for (const Derivation* line : raw.lines) {
            if (line != nullptr)
                hidden.push_back(hidden_operands(*line));
        }
        for (const Operand& operand : hidden.front()) {
            if (same_everywhere(operand, hidden))
                row.constants.push_back(operand.name + " = " + operand.value);
        }
        RowSources tables = row_sources(raw.lines, row.section, job_);
        row.remark = remark_of(raw, row.title, usual, tables);
        for (std::size_t column = 0; column < sources_.size(); ++column) {
            const Derivation* line = raw.lines[column];
            MatrixCell cell;
            if (line != nullptr)
                cell = cell_of(*line, column, usual, tables.own[column]);
            row.cells.push_back(std::move(cell));
        }
        matrix_.rows.push_back(std::move(row));
        if (governs_differs(raw))
            add_governs_row(raw);
    }

    /// Tables, rounding and reason that all columns share, as a note where few columns have it.
    std::string remark_of(const RawRow& raw, const std::string& title, const Usual& usual,
                          RowSources& tables) {
        std::vector<std::string> remarks;
        const std::string together = note_of_all(tables.own);
        for (const std::string& text :
             {tables.common, drafting_case(usual.rounding), governs(raw), together}) {
            if (!text.empty() && title.find(text) == std::string::npos)
                remarks.push_back(text);
        }
        const std::string remark = join(remarks, "; ");
        const bool few = usual.hidden.size() * 4 <= sources_.size();
        return few && character_count(remark) > 30 ? note_reference(remark) : remark;
    }

    MatrixCell value_cell(const Derivation& line) {
        MatrixCell cell;
        cell.shows = line.subject;
        if (line.verdict) {
            const bool failed = verdict_word(line, tried_) == "FAIL";
            const bool words = line.formula.empty();
            const std::string comparison = without_units(shown_comparison(line, job_.study));
            cell.lines.push_back({words ? short_or_note(comparison) : comparison, failed, words});
            cell.lines.push_back({full_verdict(line, job_.study, tried_), failed, true});
            return cell;
        }
        const std::string before = parts_of_rounding(line).first;
        if (!before.empty() && !is_single_name(line.formula))
            cell.lines.push_back({before + ":"});
        const bool governs = !line.governs.empty() || governing_.contains(line.id);
        const std::string result = shown_result(line);
        cell.lines.push_back({result, governs, is_sentence(result)});
        return cell;
    }

    /// A result in words, "required: 480 V is not below 80 V", may be broken at its blanks.
    static bool is_sentence(const std::string& result) {
        return std::count(result.begin(), result.end(), ' ') > 2;
    }

    std::vector<std::string> all_governs(const RawRow& raw) const {
        return words(raw, [](const Derivation& line, std::size_t) { return line.governs; });
    }
    bool governs_differs(const RawRow& raw) const {
        const auto all = all_governs(raw);
        return std::any_of(all.begin(), all.end(),
                           [&](const std::string& each) { return each != all.front(); });
    }
    std::string governs(const RawRow& raw) const {
        return governs_differs(raw) ? "" : drafting_case(all_governs(raw).front());
    }

    /// "terminal ampacity governs" under "governed by" is "terminal ampacity".
    static std::string governor(std::string text) {
        for (const std::string_view verb : {" governs", " govern"}) {
            if (text.ends_with(verb))
                return text.substr(0, text.size() - verb.size());
        }
        return text;
    }

    std::string note_reference(const std::string& text) {
        const std::string words = drafting_case(text) + ".";
        auto note = std::find(matrix_.notes.begin(), matrix_.notes.end(), words);
        if (note == matrix_.notes.end())
            note = matrix_.notes.insert(note, words);
        return fmt::format("NOTE {}", note - matrix_.notes.begin() + 1);
    }

    /// One note for remarks of a row that are all too long for cells, with their common words once:
    /// "TERMINATIONS BY NAMEPLATE OF C5, C6: RJ-4, WC-4G; C9: WB-10."
    std::string note_of_all(std::vector<std::string>& own) {
        std::vector<std::string> texts;
        for (const std::string& text : own) {
            if (!text.empty() && std::find(texts.begin(), texts.end(), text) == texts.end())
                texts.push_back(text);
        }
        const bool all_long = std::all_of(texts.begin(), texts.end(), [](const std::string& text) {
            return character_count(text) > longest_in_cell;
        });
        if (texts.size() < 2 || !all_long)
            return {};
        const std::string head = common_words(texts);
        std::vector<std::string> parts;
        for (const std::string& text : texts) {
            std::vector<std::string> names;
            for (std::size_t column = 0; column < own.size(); ++column) {
                if (own[column] == text)
                    names.push_back(sources_[column].name);
            }
            parts.push_back(join(names, ", ") + ": " + text.substr(head.size()));
        }
        std::fill(own.begin(), own.end(), std::string{});
        return note_reference(head + join(parts, "; "));
    }
    /// The words with which all begin, and the blank after them.
    static std::string common_words(const std::vector<std::string>& texts) {
        std::size_t shared = texts.front().size();
        for (const std::string& text : texts) {
            const auto differs =
                std::mismatch(texts.front().begin(), texts.front().end(), text.begin(), text.end());
            shared =
                std::min(shared, static_cast<std::size_t>(differs.first - texts.front().begin()));
        }
        const auto blank = texts.front().substr(0, shared).rfind(' ');
        return blank == std::string::npos ? std::string{} : texts.front().substr(0, blank + 1);
    }

    /// What is longer would make the row tall for one column's sake.
    std::string short_or_note(const std::string& text) {
        return character_count(text) > longest_in_cell ? note_reference(text) : drafting_case(text);
    }

    void add_governs_row(const RawRow& raw) {
        MatrixRow row;
        row.title = fmt::format("{}, GOVERNED BY", drafting_case(raw.key.title));
        for (const Derivation* line : raw.lines) {
            MatrixCell cell;
            if (line != nullptr && !line->governs.empty()) {
                cell.lines.push_back({short_or_note(governor(line->governs)), false, true});
                cell.shows = line->subject;
            }
            row.cells.push_back(std::move(cell));
        }
        matrix_.rows.push_back(std::move(row));
    }

    bool read_alike(std::size_t a, std::size_t b) const {
        return std::all_of(matrix_.rows.begin(), matrix_.rows.end(), [&](const MatrixRow& row) {
            return row.cells[a].lines == row.cells[b].lines;
        });
    }

    void join_columns() {
        std::vector<std::size_t> kept;
        for (std::size_t column = 0; column < sources_.size(); ++column) {
            const auto alike = std::find_if(kept.begin(), kept.end(), [&](std::size_t other) {
                return read_alike(other, column);
            });
            if (alike != kept.end()) {
                matrix_.columns[static_cast<std::size_t>(alike - kept.begin())].sources.push_back(
                    &sources_[column]);
                continue;
            }
            kept.push_back(column);
            matrix_.columns.push_back({{&sources_[column]}});
        }
        for (MatrixRow& row : matrix_.rows) {
            std::vector<MatrixCell> cells;
            for (const std::size_t column : kept)
                cells.push_back(std::move(row.cells[column]));
            row.cells = std::move(cells);
        }
    }

    static constexpr int longest_in_cell = 22;

    const std::vector<MatrixSource>& sources_;
    const TriedSteps& tried_;
    const Job& job_;
    std::set<std::string> breakers_; ///< tags of all
    /// By symbol what all lines with it come to; nothing where they differ.
    std::map<std::string, std::optional<std::string>, std::less<>> results_;
    std::vector<RowNames> names_;     ///< parallel to the sources
    std::set<std::string> symbols_;   ///< that some row shows
    std::set<std::string> governing_; ///< ids that a "lesser of" chose
    std::vector<RawRow> raw_;
    CalculationMatrix matrix_;
};

} // namespace

CalculationMatrix make_matrix(const std::string& title, const std::vector<MatrixSource>& sources,
                              const std::set<std::string>& known, const TriedSteps& tried,
                              const Job& job) {
    return MatrixMaker(sources, known, tried, job).make(title);
}

} // namespace ohmfolio::sheets
