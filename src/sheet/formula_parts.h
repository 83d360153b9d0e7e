/// What a line of a formula is made of: signs, operands, and quotients that are set as fractions.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace ohmfolio::sheets {

struct FormulaPart {
    enum class Kind { sign, operand, fraction } kind = Kind::operand;
    std::string source;       ///< as it was written, blanks between words single
    std::string above, below; ///< of a fraction: without the brackets around all of it
    std::string after = {};   ///< what follows a fraction without a blank, such as a comma
};

/// The words of `text`, which stand between blanks.
std::vector<std::string_view> words_of(std::string_view text);
/// A word that joins two operands: × ÷ + − and the relations.
bool is_operator(std::string_view word);
bool is_relation(std::string_view word);

/// The dividend of a fraction is all of the product before "÷", as the terms of a derivation write
/// it; the divisor is the operand after it. A line whose brackets do not match, or that begins with
/// "÷" because a long one was broken there, holds no fractions.
std::vector<FormulaPart> formula_parts(std::string_view formula);

} // namespace ohmfolio::sheets
