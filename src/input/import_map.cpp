#include "input/import_map.h"

#include <algorithm>
#include <array>

#include "input/faults.h"
#include "input/units.h"
#include "toml/toml.h"
#include "toml/written.h"

namespace ohmfolio {
namespace {

using toml_text::Array;
using toml_text::Entry;
using toml_text::Node;
using toml_text::Table;

/// Keys of a record that a table can fill: values, no tables of their own.
bool is_value(const Key& key) { return key.shape == nullptr && key.kind != Kind::values_by_name; }

class MapReader {
  public:
    MapReader(const CsvTable& table, Findings& findings) : table_(table), findings_(findings) {}

    std::optional<ImportMap> read(const Node& root) {
        const Table& map = *root.as<Table>();
        refuse_unknown(map);
        read_kind(map, root.span);
        read_pattern(map, root.span);
        each_of(map, "columns", [this](const Entry& entry) { read_columns(entry); });
        each_of(map, "units", [this](const Entry& entry) { read_unit(entry); });
        each_of(map, "fixed", [this](const Entry& entry) { read_fixed(entry); });
        each_of(map, "only", [this](const Entry& entry) { read_filter(entry); });
        return sound_ ? std::optional(std::move(map_)) : std::nullopt;
    }

  private:
    static constexpr std::array<const char*, 6> names = {"kind",  "key",   "columns",
                                                         "units", "fixed", "only"};

    void fault(Span span, std::string message, Advice advice) {
        sound_ = false;
        findings_.push_back(
            input_fault("import.map", span, "", std::move(message), std::move(advice)));
    }

    void refuse_unknown(const Table& map) {
        const std::vector<std::string> known(names.begin(), names.end());
        for (const Entry& entry : map.entries) {
            if (std::ranges::find(known, entry.key) == known.end()) {
                fault(entry.key_span, fmt::format("a map has no key \"{}\"", entry.key),
                      {join(known, ", "), did_you_mean(entry.key, known)});
            }
        }
    }

    template <class Read> void each_of(const Table& map, std::string_view name, Read read) {
        const Entry* entry = map.find(name);
        if (entry == nullptr) {
            return;
        }
        const auto* table = entry->value->as<Table>();
        if (table == nullptr) {
            fault(entry->value->span, fmt::format("\"{}\" is {}", name, entry->value->kind()),
                  {fmt::format("a table, [{}]", name), ""});
            return;
        }
        for (const Entry& inner : table->entries) {
            read(inner);
        }
    }

    void read_kind(const Table& map, Span whole) {
        std::vector<std::string> kinds;
        for (const Key* key : catalogue_shape().keys()) {
            kinds.emplace_back(key->name);
        }
        const Entry* entry = map.find("kind");
        const auto* kind = entry == nullptr ? nullptr : entry->value->as<std::string>();
        const Key* known = kind == nullptr ? nullptr : catalogue_shape().find(*kind);
        if (known == nullptr) {
            fault(entry == nullptr ? whole : entry->value->span,
                  kind == nullptr ? "the map does not say which kind of record it makes"
                                  : fmt::format("the catalogue has no kind \"{}\"", *kind),
                  {join(kinds, ", "),
                   kind == nullptr ? "kind = \"module\"" : did_you_mean(*kind, kinds)});
            return;
        }
        map_.kind = *kind;
        shape_ = known->shape;
    }

    void read_pattern(const Table& map, Span whole) {
        const Entry* entry = map.find("key");
        const auto* pattern = entry == nullptr ? nullptr : entry->value->as<std::string>();
        const auto pieces = pattern == nullptr ? std::nullopt : pattern_pieces(*pattern);
        if (!pieces || std::ranges::none_of(*pieces, &PatternPiece::column)) {
            fault(entry == nullptr ? whole : entry->value->span,
                  "the map does not say what the records are to be called",
                  {"a text with columns in braces", "key = \"{Maker} {Model}\""});
            return;
        }
        map_.key = *pattern;
        for (const PatternPiece& piece : *pieces) {
            if (piece.column) {
                column(piece.text, entry->value->span);
            }
        }
    }

    /// The column under this heading; a heading that is not there is a fault.
    std::optional<std::size_t> column(const std::string& heading, Span span) {
        const auto found = std::ranges::find(table_.headings, heading);
        if (found == table_.headings.end()) {
            fault(span, fmt::format("the table has no column \"{}\"", heading),
                  {"one of its headings: " + join(table_.headings, ", "),
                   did_you_mean(heading, table_.headings)});
            return std::nullopt;
        }
        return static_cast<std::size_t>(found - table_.headings.begin());
    }

    /// The key of the record; one that there is not is a fault.
    const Key* key(const Entry& entry) {
        if (shape_ == nullptr) {
            return nullptr; // told already
        }
        const Key* key = shape_->find(entry.key);
        if (key == nullptr) {
            fault(entry.key_span,
                  fmt::format("a record of kind \"{}\" has no key \"{}\"", map_.kind, entry.key),
                  {"one of " + join(shape_->names(), ", "),
                   did_you_mean(entry.key, shape_->names())});
        }
        return key;
    }

    void read_columns(const Entry& entry) {
        MappedKey mapped;
        mapped.key = key(entry);
        if (mapped.key != nullptr && !is_value(*mapped.key)) {
            fault(entry.key_span,
                  fmt::format("\"{}\" is a table, which no column can hold", entry.key),
                  {"a key with a value", "write it into the records by hand"});
        }
        const std::vector<Node> one{*entry.value};
        const auto* several = entry.value->as<Array>();
        for (const Node& node : several == nullptr ? one : several->items) {
            const auto* heading = node.as<std::string>();
            if (heading == nullptr) {
                fault(node.span, fmt::format("\"{}\" is {}", entry.key, node.kind()),
                      {"the heading of a column", ""});
            } else if (const auto index = column(*heading, node.span)) {
                mapped.columns.push_back(*index);
            }
        }
        if (mapped.key != nullptr) {
            map_.keys.push_back(std::move(mapped));
        }
    }

    void read_unit(const Entry& entry) {
        const auto mapped = std::ranges::find_if(
            map_.keys, [&](const MappedKey& each) { return each.key->name == entry.key; });
        if (mapped == map_.keys.end()) {
            fault(entry.key_span, fmt::format("\"{}\" has a unit, but no column", entry.key),
                  {"a key of [columns]", ""});
            return;
        }
        const auto* unit = entry.value->as<std::string>();
        const UnitFamily* family = unit_family(mapped->key->kind);
        if (unit == nullptr || family == nullptr || family->find(*unit) == nullptr) {
            fault(entry.value->span,
                  fmt::format("\"{}\" is no unit of \"{}\"",
                              unit == nullptr ? std::string(entry.value->kind()) : *unit,
                              entry.key),
                  {family == nullptr ? "no unit" : family->spellings(), ""});
            return;
        }
        mapped->unit = *unit;
    }

    void read_fixed(const Entry& entry) {
        if (key(entry) != nullptr) {
            map_.fixed.push_back(entry.key + " = " + toml_text::written(*entry.value));
        }
    }

    void read_filter(const Entry& entry) {
        RowFilter filter;
        if (const auto index = column(entry.key, entry.key_span)) {
            filter.column = *index;
        }
        const std::vector<Node> one{*entry.value};
        const auto* several = entry.value->as<Array>();
        for (const Node& node : several == nullptr ? one : several->items) {
            if (const auto* word = node.as<std::string>()) {
                filter.words.push_back(*word);
            } else {
                fault(node.span, fmt::format("\"{}\" is {}", entry.key, node.kind()),
                      {"a word that the column holds, in quotes", ""});
            }
        }
        map_.only.push_back(std::move(filter));
    }

    const CsvTable& table_;
    Findings& findings_;
    const Shape* shape_ = nullptr;
    ImportMap map_;
    bool sound_ = true;
};

} // namespace

std::optional<std::vector<PatternPiece>> pattern_pieces(std::string_view pattern) {
    std::vector<PatternPiece> pieces;
    while (!pattern.empty()) {
        const auto open = std::min(pattern.find_first_of("{}"), pattern.size());
        if (open > 0) {
            pieces.push_back({false, std::string(pattern.substr(0, open))});
        }
        pattern.remove_prefix(open);
        if (pattern.empty()) {
            break;
        }
        const auto close = pattern.find('}');
        if (pattern.front() != '{' || close == std::string_view::npos) {
            return std::nullopt;
        }
        pieces.push_back({true, std::string(pattern.substr(1, close - 1))});
        pattern.remove_prefix(close + 1);
    }
    return pieces;
}

std::optional<ImportMap> read_import_map(int file, const CsvTable& table,
                                         const SourceFiles& sources, Findings& findings) {
    const auto root = toml_text::parse(file, sources, findings);
    return root ? MapReader(table, findings).read(*root) : std::nullopt;
}

} // namespace ohmfolio
