/// Where a line of words may break: at blanks, save where a reader would lose a value by it.
#pragma once

#include <string_view>
#include <vector>

namespace ohmfolio {

/// Words that belong to the number before them, or to one another: "8 AWG CU". Punctuation behind
/// them does not count.
bool is_unit(std::string_view word);
/// A number and its unit, "120 %", the code and its edition, "NEC 2023", the beginning of a
/// count, "1 of".
bool belongs_to(std::string_view word, std::string_view before);

/// The pieces between which a line may break, in their order; a number that ends the paragraph
/// stays with the word that it counts, "disconnect 2". The blanks between them are left out.
std::vector<std::string_view> line_pieces(std::string_view paragraph);

} // namespace ohmfolio
