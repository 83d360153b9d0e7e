#include "revision/traces.h"

#include <algorithm>
#include <cctype>
#include <set>

#include "base/text.h"
#include "revision/tag_names.h"

namespace ohmfolio::revision {

namespace {

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

/// Whether `part` stands in `words` as words of its own: "9.8" is not in "19.8" and not in "9.85".
bool holds(const std::string& words, const std::string& part) {
    const auto goes_on = [](char c) {
        return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '.';
    };
    for (auto at = words.find(part); at != std::string::npos; at = words.find(part, at + 1)) {
        const auto end = at + part.size();
        const bool begins = at == 0 || !goes_on(words[at - 1]);
        // A full stop ends a sentence, a decimal point does not.
        const bool ends = end == words.size() || !goes_on(words[end]) ||
                          (words[end] == '.' && (end + 1 == words.size() || words[end + 1] == ' '));
        if (begins && ends)
            return true;
    }
    return false;
}

/// "38.34" and "60" of "38.34 A ≤ 60 A".
std::vector<std::string> numbers_in(const std::string& words) {
    std::vector<std::string> numbers;
    for (std::size_t at = 0; at < words.size();) {
        std::size_t end = at;
        while (end < words.size() && (is_digit(words[end]) || (words[end] == '.' && end > at)))
            ++end;
        if (end > at)
            numbers.push_back(words.substr(at, end - at));
        at = std::max(end, at + 1);
    }
    return numbers;
}

/// "115 mph" of "115 mph, exposure B".
std::vector<std::string> quantities_in(const std::string& words) {
    std::vector<std::string> quantities;
    for (const std::string& number : numbers_in(words)) {
        const auto unit = words.find(number) + number.size();
        if (unit >= words.size() || words[unit] != ' ')
            continue;
        const auto end = words.find_first_of(" ,;", unit + 1);
        quantities.push_back(number + words.substr(unit, end - unit));
    }
    return quantities;
}

const std::string& outcome(const Derivation& line) {
    return line.verdict ? line.comparison : line.result;
}

} // namespace

std::vector<std::string> new_figures_in(const Comment& comment,
                                        const std::vector<StatedChange>& stated) {
    std::vector<std::string> figures;
    for (const StatedChange& change : stated) {
        for (const std::string& figure : quantities_in(change.after)) {
            if (!holds(change.before, figure) &&
                (holds(comment.text, figure) || holds(comment.response, figure)))
                figures.push_back(figure);
        }
    }
    return figures;
}

bool says(const Piece& piece, const std::string& figure) {
    return holds(upper(piece.words), upper(figure));
}

Traces::Traces(const Issue& older, const Issue& newer) : study_(newer.study) {
    const TagNames names(older.system, newer.system);
    for (const Derivation& line : older.study.worksheet.all())
        older_.emplace(names.newer_id(line.id), &line);
    if (newer.system.root() >= 0)
        service_ = newer.system.at(newer.system.root()).id;
}

bool Traces::changed(const Derivation& line) const {
    const auto before = older_.find(line.id);
    return before == older_.end() || outcome(*before->second) != outcome(line);
}

/// A value that rests on nothing, and is not read from another row of a table.
bool Traces::is_fact(const Derivation& line) const {
    const auto before = older_.find(line.id);
    return line.formula.empty() && !line.verdict && line.from.empty() && before != older_.end() &&
           before->second->source == line.source && changed(line);
}

std::vector<std::string> Traces::new_numbers(const Derivation& line) const {
    const auto before = older_.find(line.id);
    std::vector<std::string> numbers = numbers_in(outcome(line));
    std::erase_if(numbers, [&](const std::string& number) {
        // One digit might be anything.
        return number.size() < 2 ||
               (before != older_.end() && holds(outcome(*before->second), number));
    });
    return numbers;
}

std::vector<const Piece*> Traces::rest_on(const Keys& keys, const std::vector<std::string>& figures,
                                          const std::vector<Piece>& changed) const {
    Keys facts = keys;
    if (keys.contains(service_))
        facts.insert("service");
    std::set<std::string, std::less<>> reached; // lines are made after those that they rest on
    std::map<std::string, std::set<std::string>, std::less<>> said; // by subject
    for (const Derivation& line : study_.worksheet.all()) {
        const bool begins =
            is_fact(line) && (about(facts, line.subject) ||
                              std::ranges::find(figures, line.result) != figures.end());
        const bool rests = std::ranges::any_of(
            line.from, [&](const std::string& id) { return reached.contains(id); });
        if (!begins && (!rests || !this->changed(line)))
            continue;
        reached.insert(line.id);
        for (std::string& number : new_numbers(line))
            said[line.subject].insert(std::move(number));
    }
    std::vector<const Piece*> pieces;
    for (const Piece& piece : changed) {
        const auto numbers = said.find(piece.shows);
        if (numbers != said.end() &&
            std::ranges::any_of(numbers->second,
                                [&](const std::string& each) { return says(piece, each); }))
            pieces.push_back(&piece);
    }
    return pieces;
}

} // namespace ohmfolio::revision
