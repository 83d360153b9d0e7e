#include "sheet/reading.h"

#include <charconv>
#include <fstream>
#include <iterator>

#include <fmt/format.h>

#include "base/text.h"

namespace ohmfolio::sheets {

using toml_text::Array;
using toml_text::Entry;
using toml_text::Node;
using toml_text::Table;

namespace {

std::optional<double> parse_number(std::string_view text) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size())
        return std::nullopt;
    return value;
}

/// "2.3" or "3/8".
std::optional<double> parse_fraction(std::string_view text) {
    const auto slash = text.find('/');
    if (slash == std::string_view::npos)
        return parse_number(text);
    const auto top = parse_number(text.substr(0, slash));
    const auto bottom = parse_number(text.substr(slash + 1));
    if (!top || !bottom || *bottom == 0)
        return std::nullopt;
    return *top / *bottom;
}

std::optional<int> parse_hex(std::string_view text) {
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value, 16);
    if (error != std::errc{} || end != text.data() + text.size())
        return std::nullopt;
    return value;
}

const std::vector<Node>& items_of(const Array* array) {
    static const std::vector<Node> none;
    return array ? array->items : none;
}

const std::vector<Entry>& entries_of(const Table* table) {
    static const std::vector<Entry> none;
    return table ? table->entries : none;
}

Finding file_finding(std::string rule, std::string message, std::string expected) {
    Finding finding;
    finding.rule = std::move(rule);
    finding.message = std::move(message);
    finding.expected = std::move(expected);
    return finding;
}

} // namespace

std::optional<Node> read_file(const std::filesystem::path& path, SourceFiles& sources,
                              Findings& findings) {
    std::ifstream in(path, std::ios::binary);
    if (!in) {
        findings.push_back(file_finding("sheet.file_missing",
                                        fmt::format("{} cannot be read", path.string()),
                                        "the data folder of the program beside it, complete"));
        return std::nullopt;
    }
    std::string text(std::istreambuf_iterator<char>(in), {});
    const int file = sources.add(path.string(), std::move(text));
    return toml_text::parse(file, sources, findings);
}

std::optional<Length> parse_length(std::string_view text) {
    const auto blank = text.rfind(' ');
    if (blank == std::string_view::npos)
        return std::nullopt;
    const auto number = parse_fraction(text.substr(0, blank));
    const auto unit = text.substr(blank + 1);
    if (!number)
        return std::nullopt;
    if (unit == "in")
        return inches(*number);
    if (unit == "pt")
        return points(*number);
    if (unit == "mm")
        return millimetres(*number);
    return std::nullopt;
}

std::optional<Color> parse_color(std::string_view text) {
    if (text.size() != 7 || text.front() != '#')
        return std::nullopt;
    const auto red = parse_hex(text.substr(1, 2));
    const auto green = parse_hex(text.substr(3, 2));
    const auto blue = parse_hex(text.substr(5, 2));
    if (!red || !green || !blue)
        return std::nullopt;
    return Color{static_cast<std::uint8_t>(*red), static_cast<std::uint8_t>(*green),
                 static_cast<std::uint8_t>(*blue)};
}

TableReader::TableReader(const Node& node, std::string where, Findings& findings)
    : table_(node.as<Table>()), span_(node.span), where_(std::move(where)), findings_(&findings) {
    if (!table_)
        report(span_, "sheet.kind", fmt::format("{} is {}", where_, node.kind()), "a table");
}

void TableReader::report(const Span& span, std::string rule, std::string message,
                         std::string expected) {
    Finding finding = file_finding(std::move(rule), std::move(message), std::move(expected));
    finding.span = span;
    findings_->push_back(std::move(finding));
}

void TableReader::fault(std::string_view key, std::string message, std::string expected) {
    const Entry* entry = table_ ? table_->find(key) : nullptr;
    report(entry ? entry->value->span : span_, "sheet.value", std::move(message),
           std::move(expected));
}

bool TableReader::has(std::string_view key) const { return table_ && table_->find(key); }

const Node* TableReader::value(std::string_view key, bool required) {
    known_.emplace(key);
    if (!table_)
        return nullptr;
    const Entry* entry = table_->find(key);
    if (entry)
        return entry->value.get();
    if (required) {
        report(span_, "sheet.key_missing", fmt::format("{} has no \"{}\"", where_, key),
               fmt::format("the key \"{}\"", key));
    }
    return nullptr;
}

const std::string* TableReader::string_value(std::string_view key, bool required) {
    const Node* node = value(key, required);
    if (!node)
        return nullptr;
    const auto* text = node->as<std::string>();
    if (!text) {
        report(node->span, "sheet.kind", fmt::format("\"{}\" is {}", key, node->kind()),
               "a text in quotes");
    }
    return text;
}

std::string TableReader::text(std::string_view key) {
    const std::string* text = string_value(key, true);
    return text ? *text : std::string{};
}

std::string TableReader::text_or(std::string_view key, std::string_view otherwise) {
    const std::string* text = string_value(key, false);
    return text ? *text : std::string{otherwise};
}

int TableReader::whole(std::string_view key) {
    const Node* node = value(key, true);
    if (!node)
        return 0;
    const auto* number = node->as<std::int64_t>();
    if (!number || *number < 0 || *number > 1'000'000) {
        fault(key, fmt::format("\"{}\" is not a count", key), "a whole number");
        return 0;
    }
    return static_cast<int>(*number);
}

int TableReader::whole_or(std::string_view key, int otherwise) {
    return has(key) ? whole(key) : otherwise;
}

bool TableReader::flag_or(std::string_view key, bool otherwise) {
    const Node* node = value(key, false);
    if (!node)
        return otherwise;
    const bool* flag = node->as<bool>();
    if (!flag) {
        report(node->span, "sheet.kind", fmt::format("\"{}\" is {}", key, node->kind()),
               "true or false");
    }
    return flag ? *flag : otherwise;
}

Length TableReader::length(std::string_view key) {
    const std::string* text = string_value(key, true);
    if (!text)
        return {};
    const auto length = parse_length(*text);
    if (!length) {
        fault(key, fmt::format("\"{}\" is not a length", *text),
              "a number and in, pt or mm: \"3/8 in\"");
    }
    return length.value_or(Length{});
}

Length TableReader::length_or(std::string_view key, Length otherwise) {
    if (has(key))
        return length(key);
    known_.emplace(key);
    return otherwise;
}

Color TableReader::color(std::string_view key) {
    const std::string* text = string_value(key, true);
    if (!text)
        return black;
    const auto color = parse_color(*text);
    if (!color)
        fault(key, fmt::format("\"{}\" is not a colour", *text), "\"#RRGGBB\"");
    return color.value_or(black);
}

std::vector<std::string> TableReader::texts(std::string_view key) {
    const Node* node = value(key, false);
    std::vector<std::string> list;
    if (!node)
        return list;
    const Array* array = node->as<Array>();
    if (!array) {
        report(node->span, "sheet.kind", fmt::format("\"{}\" is {}", key, node->kind()),
               "a list of texts");
    }
    for (const Node& item : items_of(array)) {
        if (const auto* text = item.as<std::string>()) {
            list.push_back(*text);
        } else {
            report(item.span, "sheet.kind", fmt::format("\"{}\" holds {}", key, item.kind()),
                   "texts in quotes");
        }
    }
    return list;
}

std::set<Edition> TableReader::editions(std::string_view key) {
    if (!has(key)) {
        known_.emplace(key);
        return {all_editions.begin(), all_editions.end()};
    }
    std::set<Edition> editions;
    for (const std::string& year : texts(key)) {
        if (const auto edition = parse_edition(year)) {
            editions.insert(*edition);
        } else {
            fault(key, fmt::format("\"{}\" is not an edition", year), "2017, 2020 or 2023");
        }
    }
    return editions;
}

std::map<Edition, std::string> TableReader::by_edition(std::string_view key) {
    std::map<Edition, std::string> result;
    TableReader reader = table(key);
    for (const std::string& year : reader.keys()) {
        if (const auto edition = parse_edition(year))
            result[*edition] = reader.text(year);
    }
    reader.finish();
    return result;
}

TableReader TableReader::table(std::string_view key) {
    static const Node nothing{Table{}, {}};
    const Node* node = value(key, true);
    return {node ? *node : nothing, fmt::format("{}.{}", where_, key), *findings_};
}

std::vector<TableReader> TableReader::tables(std::string_view key) {
    const Node* node = value(key, true);
    std::vector<TableReader> list;
    if (!node)
        return list;
    const Array* array = node->as<Array>();
    if (!array) {
        report(node->span, "sheet.kind", fmt::format("\"{}\" is {}", key, node->kind()),
               "a list of tables");
    }
    for (const Node& item : items_of(array))
        list.emplace_back(item, fmt::format("{}.{}", where_, key), *findings_);
    return list;
}

std::vector<std::string> TableReader::keys() const {
    std::vector<std::string> keys;
    for (const Entry& entry : entries_of(table_))
        keys.push_back(entry.key);
    return keys;
}

void TableReader::finish() {
    const std::vector<std::string> known(known_.begin(), known_.end());
    for (const Entry& entry : entries_of(table_)) {
        if (known_.contains(entry.key))
            continue;
        report(entry.key_span, "sheet.key_unknown",
               fmt::format("{} has no key \"{}\"", where_, entry.key), "");
        findings_->back().hint = did_you_mean(entry.key, known);
    }
}

} // namespace ohmfolio::sheets
