/// Where the parts of an XML text stand, so that a message can point at the faulty value. pugixml
/// gives byte offsets of elements only; attributes are found again in the text of their tag.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/source.h"

namespace ohmfolio {

/// One attribute as written; the offsets count bytes of the whole text.
struct WrittenAttribute {
    std::string_view name;
    std::size_t name_offset = 0;
    std::size_t value_offset = 0; ///< of the first character inside the quotes
    std::size_t value_end = 0;    ///< of the closing quote
};

class SourcePlaces {
  public:
    SourcePlaces(int file, std::string_view text) : file_(file), text_(text) {}

    /// Line and column, both from 1; a column is a character (not a byte) of UTF-8.
    Position position(std::size_t offset) const;
    Span span(std::size_t begin, std::size_t end) const;
    /// The name of the element whose tag begins at `offset` (just after the '<').
    Span element(std::size_t offset) const;
    /// The attributes in that tag, in the order written.
    std::vector<WrittenAttribute> attributes(std::size_t offset) const;

  private:
    int file_;
    std::string_view text_;
};

} // namespace ohmfolio
