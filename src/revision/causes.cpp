#include "revision/causes.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"

namespace ohmfolio::revision {

namespace {

const std::string& outcome(const Derivation& line) {
    return line.verdict ? line.comparison : line.result;
}

/// The value of `symbol` among the givens of an older line.
const Leaf* given(const Derivation& line, const std::string& symbol) {
    const auto found = std::ranges::find(line.givens, symbol, &Leaf::symbol);
    return found == line.givens.end() ? nullptr : &*found;
}

std::string from_to(const std::string& what, const std::string& before, const std::string& after) {
    return fmt::format("{} {} to {}", what, before, after);
}

/// Titles begin with a capital, which a word in a sentence does not; abbreviations keep theirs.
std::string in_a_sentence(std::string title) {
    const bool word = title.size() > 1 && title[1] >= 'a' && title[1] <= 'z';
    if (word && title[0] >= 'A' && title[0] <= 'Z')
        title[0] = static_cast<char>(title[0] - 'A' + 'a');
    return title;
}

void add(std::vector<std::string>& causes, std::string cause) {
    if (std::ranges::find(causes, cause) == causes.end())
        causes.push_back(std::move(cause));
}

} // namespace

Causes::Causes(const Study& older, const Study& newer, const TagNames& names) : newer_(newer) {
    for (const Derivation& line : older.worksheet.all())
        older_.emplace(names.newer_id(line.id), &line);
}

const Derivation* Causes::older(const Derivation& line) const {
    const auto found = older_.find(line.id);
    return found == older_.end() ? nullptr : found->second;
}

bool Causes::changed(const Derivation& line) const {
    const Derivation* before = older(line);
    return before == nullptr || outcome(*before) != outcome(line);
}

void Causes::tell(const Derivation& line, std::vector<std::string>& causes) const {
    const Derivation* before = older(line);
    if (before == nullptr)
        return; // new as a whole, which is told by itself
    for (const Leaf& leaf : line.givens) {
        const Leaf* was = given(*before, leaf.symbol);
        if (was != nullptr && was->figure != leaf.figure)
            add(causes, from_to(leaf.meaning.empty() ? leaf.symbol : leaf.meaning, was->figure,
                                leaf.figure));
    }
    if (line.formula.empty() && !line.title.empty())
        add(causes, from_to(in_a_sentence(line.title), outcome(*before), outcome(line)));
}

void Causes::descend(const Derivation& line, std::set<std::string>& seen,
                     std::vector<std::string>& causes) const {
    if (!seen.insert(line.id).second || !changed(line))
        return;
    bool below = false;
    for (const std::string& id : line.from) {
        const Derivation* next = newer_.worksheet.find(id);
        if (next == nullptr || !changed(*next))
            continue;
        below = true;
        descend(*next, seen, causes);
    }
    if (!below)
        tell(line, causes);
}

std::vector<std::string> Causes::of(std::string_view subject, std::string_view result) const {
    std::vector<const Derivation*> lines, fitting;
    for (const std::size_t at : newer_.worksheet.under(subject)) {
        const Derivation& line = newer_.worksheet.all()[at];
        if (!changed(line))
            continue;
        lines.push_back(&line);
        if (upper(line.result) == upper(result))
            fitting.push_back(&line);
    }
    std::vector<std::string> causes;
    for (const auto* each : {&fitting, &lines}) {
        std::set<std::string> seen;
        for (const Derivation* line : *each)
            descend(*line, seen, causes);
        if (!causes.empty())
            return causes;
    }
    return causes;
}

} // namespace ohmfolio::revision
