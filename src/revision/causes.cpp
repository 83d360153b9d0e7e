#include "revision/causes.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
#include "revision/sentence.h"

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

/// "47.93 A" has what a cell says with "47.93"; "2 AWG" what it says with "(2) 2 AWG CU".
bool fits(const std::string& result, std::string_view cell) {
    if (result.empty() || cell.empty())
        return false;
    const std::string mine = upper(result), theirs = upper(cell);
    return mine == theirs || mine.starts_with(theirs + " ") ||
           theirs.find(" " + mine) != std::string::npos;
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
    // Read from another row of a table: that is no cause, but what chose the row.
    if (line.formula.empty() && !line.title.empty() && before->source == line.source)
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
        if (fits(line.result, result))
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
