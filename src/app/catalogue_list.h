/// What the catalogues hold, by kind, and only what fits conditions.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/finding.h"
#include "input/keys.h"
#include "input/values.h"
#include "toml/toml.h"

namespace ohmfolio {

/// "power >= 400 W": a key of a record held against a value in any unit that the key takes.
struct Condition {
    std::string key, comparison, value; ///< comparison: one of < <= = >= >
};

/// Nothing where the text has no comparison with something on both sides.
std::optional<Condition> parse_condition(std::string_view text);

struct ListedRecord {
    std::string kind, key, maker, model;
    std::string figures; ///< "power 405 W, voc 37.20 V": what every record of the kind states
    Span span;
};

struct ListWishes {
    std::string kind; ///< empty: all
    std::string text; ///< in key, maker or model, whatever the case; empty: any
    std::vector<Condition> conditions;
};

/// Why the wishes cannot be met whatever the catalogues hold: no such kind, a key that no kind
/// wished for has, a value that the key does not take; one a line, empty where they can.
std::string faults_of(const ListWishes& wishes);

/// The records of `catalogues`, trees of whole files, in their order.
std::vector<ListedRecord> listed(const std::vector<toml_text::Node>& catalogues,
                                 const ListWishes& wishes);

} // namespace ohmfolio
