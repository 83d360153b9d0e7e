/// TOML with places: the only room that knows the TOML library. Keys keep the order of the text.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/finding.h"
#include "base/source.h"

namespace ohmfolio::toml_text {

struct Node;

struct Entry {
    std::string key;
    Span key_span;
    std::shared_ptr<const Node> value;
};

struct Table {
    std::vector<Entry> entries;
    const Entry* find(std::string_view key) const;
};
struct Array {
    std::vector<Node> items;
};

struct Node {
    std::variant<bool, std::int64_t, double, std::string, Array, Table> value;
    Span span;

    template <class T> const T* as() const { return std::get_if<T>(&value); }
    std::optional<double> number() const; ///< integer or float
    std::string_view kind() const;        ///< "a string", "a table": for messages
};

/// Parses file `file` of `sources`. All faults the library reports become findings (rule
/// "toml.syntax"); nothing is returned when there are any. Dates are read as strings.
std::optional<Node> parse(int file, const SourceFiles& sources, Findings& findings);

} // namespace ohmfolio::toml_text
