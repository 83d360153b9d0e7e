#include "input/record_import.h"

#include <algorithm>
#include <cctype>
#include <map>
#include <set>

#include <fmt/format.h>

#include "input/catalogue_reader.h"
#include "input/faults.h"
#include "input/form.h"
#include "input/import_map.h"
#include "input/units.h"
#include "toml/toml.h"
#include "toml/written.h"

namespace ohmfolio {
namespace {

/// A record on its way from a row into the catalogue.
struct Draft {
    std::string key;
    std::string text; ///< TOML, with its heading
    int row_line = 0; ///< of the table
};

/// "Larkmoor SV-405 (black)" becomes "larkmoor-sv-405-black".
std::string as_key(std::string_view words) {
    std::string key;
    for (const char c : words) {
        const auto byte = static_cast<unsigned char>(c);
        if (byte < 0x80 && std::isalnum(byte) != 0) {
            key += static_cast<char>(std::tolower(byte));
        } else if (!key.empty() && key.back() != '-') {
            key += '-';
        }
    }
    while (key.ends_with('-')) {
        key.pop_back();
    }
    return key;
}

/// A number and nothing behind it.
bool is_bare_number(const std::string& cell) {
    const auto amount = parse_amount(cell);
    return amount && amount->unit.empty();
}

/// One cell as the key takes it. What is not understood stays as it is, for the reader to refuse.
std::string value_of(const MappedKey& mapped, const std::string& cell) {
    switch (mapped.key->kind) {
    case Kind::flag: {
        static const std::set<std::string> yes = {"yes", "y", "true", "1"},
                                           no = {"no", "n", "false", "0"};
        const std::string word = as_key(cell);
        return yes.contains(word) ? "true" : no.contains(word) ? "false" : toml_text::quoted(cell);
    }
    case Kind::count:
    case Kind::number:
        return is_bare_number(cell) ? cell : toml_text::quoted(cell);
    default:
        return toml_text::quoted(
            mapped.unit.empty() || !is_bare_number(cell) ? cell : cell + " " + mapped.unit);
    }
}

/// The line of the record for this key; empty where the row says nothing of it.
std::string line_of(const MappedKey& mapped, const CsvRow& row) {
    std::vector<std::string> values;
    for (const std::size_t column : mapped.columns) {
        if (!row.cells[column].empty()) {
            values.push_back(value_of(mapped, row.cells[column]));
        }
    }
    if (values.empty()) {
        return {};
    }
    const bool list = mapped.columns.size() > 1;
    return fmt::format("{} = {}{}{}\n", mapped.key->name, list ? "[" : "", join(values, ", "),
                       list ? "]" : "");
}

bool wanted(const CsvRow& row, const std::vector<RowFilter>& only) {
    return std::ranges::all_of(only, [&row](const RowFilter& filter) {
        return std::ranges::find(filter.words, row.cells[filter.column]) != filter.words.end();
    });
}

class Import {
  public:
    Import(const CsvTable& table, const ImportMap& map, Findings& findings)
        : table_(table), map_(map), pieces_(*pattern_pieces(map.key)), findings_(findings) {}

    ImportedRecords run() {
        draft_all();
        refuse(faults_of_values());
        refuse(faults_of_nameplates());
        result_.written = drafts_.size();
        result_.text = text_of_all();
        return std::move(result_);
    }

  private:
    void fault(int line, std::string message, Advice advice) {
        findings_.push_back(input_fault("import.row", Span{table_.file, {line, 1}, {line, 1}}, "",
                                        std::move(message), std::move(advice)));
    }

    void draft_all() {
        std::map<std::string, int> lines; // by key
        for (const CsvRow& row : table_.rows) {
            if (!wanted(row, map_.only)) {
                ++result_.passed_over;
                continue;
            }
            Draft draft{key_of(row), {}, row.line};
            const auto [other, is_new] = lines.emplace(draft.key, row.line);
            if (draft.key.empty() || !is_new) {
                ++result_.left_out;
                draft.key.empty()
                    ? fault(row.line, "the row has no name that could be a key",
                            {"letters or figures in the columns of the key", ""})
                    : fault(row.line,
                            fmt::format("\"{}\" is the key of line {} already", draft.key,
                                        other->second),
                            {"a key for each record", "let the map's key name a column more"});
                continue;
            }
            draft.text = text_of(row, draft.key);
            drafts_.push_back(std::move(draft));
        }
    }

    std::string key_of(const CsvRow& row) const {
        std::string words;
        for (const PatternPiece& piece : pieces_) {
            if (!piece.column) {
                words += piece.text;
                continue;
            }
            const auto column = std::ranges::find(table_.headings, piece.text);
            words += row.cells[static_cast<std::size_t>(column - table_.headings.begin())];
        }
        return as_key(words);
    }

    std::string text_of(const CsvRow& row, const std::string& key) const {
        std::string text = fmt::format("\n[{}.{}]\n", map_.kind, key);
        for (const MappedKey& mapped : map_.keys) {
            text += line_of(mapped, row);
        }
        for (const std::string& line : map_.fixed) {
            text += line + "\n";
        }
        return text;
    }

    std::string text_of_all() const {
        std::string text;
        for (const Draft& draft : drafts_) {
            text += draft.text;
        }
        return text.substr(std::min<std::size_t>(text.size(), 1)); // no empty line at the top
    }

    /// What the catalogue's reader says of all drafts, at the lines of the text it read.
    template <class Read> Findings faults(Read read) const {
        SourceFiles sources;
        Findings found;
        const int file = sources.add("records", text_of_all());
        if (const auto root = toml_text::parse(file, sources, found)) {
            const Form form = read_form(*root, catalogue_shape(), "record", found);
            read(form, found);
        }
        return found;
    }
    Findings faults_of_values() const {
        return faults([](const Form&, Findings&) {});
    }
    Findings faults_of_nameplates() const {
        return faults([](const Form& form, Findings& found) {
            Catalogue catalogue;
            read_records(form, catalogue, found);
        });
    }

    /// Tells what was found at the lines of the table, and drops the drafts with errors.
    void refuse(const Findings& found) {
        if (drafts_.empty()) {
            return;
        }
        std::set<std::string> refused;
        for (Finding finding : found) {
            const Draft& draft = draft_at(finding.span.begin.line);
            if (finding.severity == Severity::error) {
                refused.insert(draft.key);
            }
            if (finding.message.find(draft.key) == std::string::npos) {
                finding.message = draft.key + ": " + finding.message;
            }
            finding.span = {table_.file, {draft.row_line, 1}, {draft.row_line, 1}};
            findings_.push_back(std::move(finding));
        }
        result_.left_out += refused.size();
        std::erase_if(drafts_, [&](const Draft& draft) { return refused.contains(draft.key); });
    }

    /// The draft that a line of text_of_all() belongs to.
    const Draft& draft_at(int line) const {
        int first = 0; // the empty line before the first record was left out
        for (const Draft& draft : drafts_) {
            first += static_cast<int>(std::ranges::count(draft.text, '\n'));
            if (line < first) {
                return draft;
            }
        }
        return drafts_.back();
    }

    const CsvTable& table_;
    const ImportMap& map_;
    std::vector<PatternPiece> pieces_;
    Findings& findings_;
    std::vector<Draft> drafts_;
    ImportedRecords result_;
};

} // namespace

ImportedRecords import_records(int table_file, int map_file, SourceFiles& sources,
                               Findings& findings) {
    const auto table = read_csv(table_file, sources, findings);
    if (!table) {
        return {};
    }
    const auto map = read_import_map(map_file, *table, sources, findings);
    return map ? Import(*table, *map, findings).run() : ImportedRecords{};
}

} // namespace ohmfolio
