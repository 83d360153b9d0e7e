#include "sheet/calculation_names.h"

#include <algorithm>

#include "sheet/calculation_sections.h"

namespace ohmfolio::sheets {

namespace {

bool is_alphanumeric(char c) {
    return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}

std::string letters_of(std::string_view tag) {
    return std::string(tag.substr(0, std::min(tag.find_first_of("0123456789-"), tag.size())));
}

/// I_C5 as I_C, V_d,C5 as V_d,C.
std::string as_letters(std::string text, const std::string& tag) {
    const std::string letters = letters_of(tag);
    return with_name(with_name(std::move(text), "_" + tag, "_" + letters), "," + tag,
                     "," + letters);
}

} // namespace

std::string with_name(std::string text, const std::string& from, std::string_view to) {
    for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at)) {
        const std::size_t end = at + from.size();
        const bool whole =
            (end == text.size() || !is_alphanumeric(text[end])) &&
            (at == 0 || !is_alphanumeric(from.front()) || !is_alphanumeric(text[at - 1]));
        if (whole)
            text.replace(at, from.size(), to);
        at += whole ? to.size() : from.size();
    }
    return text;
}

RowNames::RowNames(const MatrixSource& source, const std::set<std::string>& breakers)
    : breakers_(&breakers) {
    own_.insert(key_of(source.subject));
    for (const Derivation* line : source.lines)
        own_.insert(key_of(line->subject));
}

/// A large roof has thousands of breakers, a text names one or two.
std::set<std::string> RowNames::breakers_in(std::string_view text) const {
    std::set<std::string> found;
    for (std::size_t at = 0; at < text.size();) {
        const auto begin = std::find_if(text.begin() + static_cast<std::ptrdiff_t>(at), text.end(),
                                        is_alphanumeric);
        const auto end = std::find_if_not(begin, text.end(), is_alphanumeric);
        const std::string word(begin, end);
        if (breakers_->contains(word))
            found.insert(word);
        at = static_cast<std::size_t>(end - text.begin());
    }
    return found;
}

std::string RowNames::in_formula(std::string text) const {
    for (const std::string& tag : own_)
        text = as_letters(std::move(text), tag);
    std::string one = text;
    int replaced = 0;
    for (const std::string& tag : breakers_in(text)) {
        const std::string before = one;
        one = as_letters(std::move(one), tag);
        replaced += before == one ? 0 : 1;
    }
    return replaced == 1 ? one : text;
}

std::string RowNames::in_title(std::string text) const {
    for (const std::string& tag : own_)
        text = with_name(std::move(text), tag, breakers_->contains(tag) ? "the device" : "each");
    int replaced = 0;
    std::string one = text;
    for (const std::string& tag : breakers_in(text)) {
        const std::string before = one;
        one = with_name(std::move(one), tag, "its device");
        replaced += before == one ? 0 : 1;
    }
    return replaced == 1 ? one : text;
}

} // namespace ohmfolio::sheets
