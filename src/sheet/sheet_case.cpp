#include "sheet/sheet_case.h"

#include "base/drafting_case.h"

namespace ohmfolio::sheets {

namespace {

/// A letter in brackets of its own, right behind a number or a further bracket.
bool is_paragraph_letter(std::string_view text, std::size_t at) {
    if (at < 2 || at + 1 >= text.size() || text[at - 1] != '(' || text[at + 1] != ')')
        return false;
    const char before = text[at - 2];
    return before == ')' || (before >= '0' && before <= '9');
}

} // namespace

std::string sheet_case(std::string_view text) {
    std::string out = drafting_case(text);
    for (std::size_t i = 0; i < out.size() && i < text.size(); ++i)
        if (is_paragraph_letter(out, i))
            out[i] = text[i];
    return out;
}

} // namespace ohmfolio::sheets
