#include "toml/toml.h"

#include <algorithm>
#include <array>
#include <toml++/toml.h>
#include <utility>

#include <fmt/format.h>

#include "base/text.h"

namespace ohmfolio::toml_text {
namespace {

/// Dotted keys nest tables without the library's own limit on nesting; taking such a tree apart
/// again recurses once a level, so a hostile file could exhaust the stack.
constexpr int dotted_key_limit = 200;

Position position(const toml::source_position& at) {
    return {static_cast<int>(at.line), static_cast<int>(at.column)};
}

Span span_of(int file, const toml::source_region& region) {
    return {file, position(region.begin), position(region.end)};
}

/// Dates and times as the text writes them.
std::string written(const toml::date& d) {
    return fmt::format("{:04}-{:02}-{:02}", d.year, d.month, d.day);
}

std::string written(const toml::time& t) {
    return fmt::format("{:02}:{:02}:{:02}", t.hour, t.minute, t.second);
}

std::string written(const toml::date_time& d) { return written(d.date) + "T" + written(d.time); }

class Converter {
  public:
    explicit Converter(int file) : file_(file) {}

    Node convert(const toml::node& from) const {
        Node node;
        node.span = span_of(file_, from.source());
        from.visit([&](const auto& value) { node.value = convert_value(value); });
        return node;
    }

  private:
    using Value = decltype(Node::value);

    Value convert_value(const toml::table& table) const {
        Table result;
        for (const auto& [key, value] : table) {
            result.entries.push_back({std::string(key.str()), span_of(file_, key.source()),
                                      std::make_shared<const Node>(convert(value))});
        }
        // The library keeps tables sorted by key; messages and drawings follow the text.
        std::ranges::stable_sort(result.entries, {}, [](const Entry& e) { return e.key_span; });
        return result;
    }

    Value convert_value(const toml::array& array) const {
        Array result;
        result.items.reserve(array.size());
        for (const toml::node& item : array) {
            result.items.push_back(convert(item));
        }
        return result;
    }

    template <class T> Value convert_value(const toml::value<T>& value) const {
        if constexpr (std::is_same_v<T, toml::date> || std::is_same_v<T, toml::time> ||
                      std::is_same_v<T, toml::date_time>) {
            return written(value.get());
        } else {
            return value.get();
        }
    }

    int file_;
};

bool part_of_key(char c) {
    return c == '_' || c == '-' || c == '"' || c == '\'' || c == ' ' || c == '\t' ||
           (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}

/// Where a dotted key passes the limit, if any does.
std::optional<Position> endless_dotted_key(std::string_view text) {
    Position at{1, 1};
    int dots = 0;
    char previous = ' ';
    for (const char c : text) {
        dots = c == '.' && previous != '.' ? dots + 1 : (part_of_key(c) ? dots : 0);
        if (dots > dotted_key_limit) {
            return at;
        }
        at = c == '\n' ? Position{at.line + 1, 1} : Position{at.line, at.column + 1};
        previous = c;
    }
    return std::nullopt;
}

/// Editors of some systems save text in two bytes a letter and say so with a mark.
bool is_utf16(std::string_view text) {
    return text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF");
}

Finding syntax_fault(Span span, std::string message) {
    Finding fault;
    fault.rule = "toml.syntax";
    fault.span = span;
    fault.message = std::move(message);
    fault.expected = "text in the TOML format";
    return fault;
}

Finding encoding_fault(Span span, std::string message) {
    Finding fault = syntax_fault(span, std::move(message));
    fault.expected = "text in UTF-8";
    fault.hint = "save the file again with the encoding UTF-8";
    return fault;
}

/// The library says "Error while parsing key: ..."; the rule id already says that it is an error.
Finding described(Span span, std::string_view description) {
    constexpr std::string_view prefix = "Error while parsing ";
    if (description.starts_with(prefix)) {
        description.remove_prefix(prefix.size());
    }
    if (description.find("invalid utf-8") != std::string_view::npos) {
        return encoding_fault(span, "a letter that is not UTF-8");
    }
    if (description.find("TOML_MAX_NESTED_VALUES") != std::string_view::npos) {
        return syntax_fault(span, "lists or tables nested too deep");
    }
    return syntax_fault(span, std::string(description));
}

} // namespace

const Entry* Table::find(std::string_view key) const {
    const auto found = std::ranges::find(entries, key, &Entry::key);
    return found == entries.end() ? nullptr : &*found;
}

std::optional<double> Node::number() const {
    if (const auto* integer = as<std::int64_t>()) {
        return static_cast<double>(*integer);
    }
    if (const auto* real = as<double>()) {
        return *real;
    }
    return std::nullopt;
}

std::string_view Node::kind() const {
    constexpr std::array<std::string_view, 6> kinds = {
        "true or false", "a whole number", "a number", "text in quotes", "a list", "a table"};
    return kinds[value.index()];
}

std::optional<Node> parse(int file, const SourceFiles& sources, Findings& findings) {
    std::string_view text = sources.text(file);
    if (is_utf16(text)) {
        const Span start{file, {1, 1}, {1, 1}};
        findings.push_back(encoding_fault(start, "the file is saved as UTF-16"));
        return std::nullopt;
    }
    // A lone byte order mark sends the library into undefined behaviour.
    text = without_byte_order_mark(text);
    if (text.empty()) {
        return Node{Table{}, Span{file, {1, 1}, {1, 1}}};
    }
    if (const auto at = endless_dotted_key(text)) {
        findings.push_back(syntax_fault(Span{file, *at, *at}, "a key with too many dots"));
        return std::nullopt;
    }
    try {
        return Converter(file).convert(toml::parse(text));
    } catch (const toml::parse_error& error) {
        findings.push_back(described(span_of(file, error.source()), error.description()));
        return std::nullopt;
    }
}

} // namespace ohmfolio::toml_text
