#include "sheet/abbreviations.h"

#include <algorithm>

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
    std::vector<Abbreviation> found;
    for (const Abbreviation& each : all) {
        const bool used = std::any_of(frames.begin(), frames.end(), [&](const Frame* frame) {
            return std::any_of(frame->marks.begin(), frame->marks.end(), [&](const Mark& mark) {
                const auto* text = std::get_if<Text>(&mark.item);
                return text && occurs(each.letters, text->text);
            });
        });
        if (used)
            found.push_back(each);
    }
    return found;
}

} // namespace ohmfolio::sheets
