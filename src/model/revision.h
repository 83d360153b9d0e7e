/// What a set was issued for, and what the plan checker wrote back.
#pragma once

#include <string>
#include <vector>

#include "base/source.h"

namespace ohmfolio {

/// A row of the revision block.
struct Revision {
    std::string number; ///< in the delta: "1", "A"
    std::string date, by, description;
    Span span = {};
};

/// A comment of a plan check and the answer to it.
struct Comment {
    std::string number;      ///< as the authority counts it
    std::string text;        ///< as received
    std::string sheet, zone; ///< where the authority placed it; empty: nowhere
    std::string reviewer;
    std::string response; ///< empty: not answered yet
    /// Tags, ids and sheet numbers that changed because of it.
    std::vector<Spanned<std::string>> concerns;
    /// The same where the answer stands already and nothing had to change.
    std::vector<Spanned<std::string>> see;
    std::string revision; ///< the revision that answers it
    Span span;
};

} // namespace ohmfolio
