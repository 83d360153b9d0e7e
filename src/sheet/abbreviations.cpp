#include "sheet/abbreviations.h"

#include <algorithm>
#include <iterator>

#include "sheet/formula.h"

namespace ohmfolio::sheets {

namespace {

bool is_letter(char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '_'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// A letter before or after joins to another word; so does a digit after ("C3"), but a digit before
/// only makes it a unit ("20A").
bool stands_alone(std::string_view text, std::size_t at, std::size_t length) {
    const char before = at > 0 ? text[at - 1] : ' ';
    const char after = at + length < text.size() ? text[at + length] : ' ';
    return !is_letter(before) && !is_letter(after) && !is_digit(after);
}

/// The lettering of a frame. A formula symbol is no word, nor is its subscript: I_BC is set as "I"
/// and "BC", and speaks of no bare copper.
std::vector<std::string_view> words_on(const Frame& frame) {
    std::vector<std::string_view> words;
    const Text* before = nullptr;
    for (const Mark& mark : frame.marks) {
        const auto* text = std::get_if<Text>(&mark.item);
        if (text == nullptr)
            continue;
        if (before != nullptr && is_subscript_of(*before, *text)) {
            words.pop_back(); // the letter that bears it
            before = nullptr;
            continue;
        }
        words.push_back(text->text);
        before = text;
    }
    return words;
}

} // namespace

bool occurs(std::string_view letters, std::string_view text) {
    if (letters.empty())
        return false;
    if (!is_letter(letters.front()))
        return text.find(letters) != std::string_view::npos;
    for (auto at = text.find(letters); at != std::string_view::npos;
         at = text.find(letters, at + 1)) {
        if (stands_alone(text, at, letters.size()))
            return true;
    }
    return false;
}

std::vector<Abbreviation> occurring(const std::vector<Abbreviation>& all,
                                    const std::vector<const Frame*>& frames) {
    std::vector<std::string_view> words;
    for (const Frame* frame : frames)
        std::ranges::copy(words_on(*frame), std::back_inserter(words));
    std::vector<Abbreviation> found;
    for (const Abbreviation& each : all) {
        const bool used = std::ranges::any_of(
            words, [&](std::string_view text) { return occurs(each.letters, text); });
        if (used)
            found.push_back(each);
    }
    return found;
}

} // namespace ohmfolio::sheets
