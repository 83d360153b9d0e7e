#include "code/derivation.h"

#include <stdexcept>

#include "code/rounding.h"

namespace ohmfolio {

namespace {

bool holds(double left, std::string_view relation, double right) {
    if (relation == "≤")
        return at_most(left, right);
    if (relation == "≥")
        return at_most(right, left);
    if (relation == "<")
        return !at_most(right, left);
    throw std::logic_error("unknown relation " + std::string(relation));
}

std::string opposite(std::string_view relation) {
    if (relation == "≤")
        return ">";
    return relation == "≥" ? "<" : "≥";
}

/// 20.004 A is shown as 20.00 A and its limit as 20 A: to the reader the same number.
bool read_alike(std::string a, std::string b) {
    for (std::string* text : {&a, &b}) {
        if (const auto zeros = text->find(".00 "); zeros != std::string::npos)
            text->erase(zeros, 3);
    }
    return a == b;
}

} // namespace

std::string Worksheet::id_of(const Heading& heading) {
    const auto colon = heading.subject.find(':');
    const auto key =
        colon == std::string::npos ? heading.subject : heading.subject.substr(colon + 1);
    return key + "." + heading.name;
}

std::string text(const Citation& citation) {
    if (citation.edition.empty())
        return citation.section;
    return citation.edition + " " + citation.section;
}

Derivation& Worksheet::record(const Heading& heading, std::string formula, std::string figures,
                              std::string result, double value,
                              const std::vector<std::string>& from,
                              const std::vector<Leaf>& givens) {
    Derivation line;
    line.id = id_of(heading);
    line.subject = heading.subject;
    line.name = heading.name;
    line.title = heading.title;
    line.symbol = heading.symbol;
    line.formula = std::move(formula);
    line.figures = std::move(figures);
    line.result = std::move(result);
    line.value = value;
    line.cite = heading.cite;
    line.source = heading.source;
    line.rounding = heading.rounding;
    line.governs = heading.governs;
    line.from = from;
    line.givens = givens;
    if (!places_.emplace(line.id, derivations_.size()).second)
        throw std::logic_error("derivation " + line.id + " is defined twice");
    subjects_[line.subject].push_back(derivations_.size());
    derivations_.push_back(std::move(line));
    return derivations_.back();
}

const Derivation& Worksheet::choose(const Heading& heading, std::string result,
                                    const std::vector<std::string>& from) {
    return record(heading, {}, {}, std::move(result), 0, from);
}

bool Worksheet::compare(const Heading& heading, const Side& left, std::string_view relation,
                        const Side& right, const std::vector<std::string>& from,
                        const std::vector<Leaf>& givens) {
    const bool passes = holds(left.value, relation, right.value);
    const std::string between = " " + (passes ? std::string(relation) : opposite(relation)) + " ";
    const bool hidden =
        read_alike(left.usual, right.usual) && !about_equal(left.value, right.value);
    const std::string comparison =
        hidden ? left.full + between + right.full : left.usual + between + right.usual;
    const std::string asked = " " + std::string(relation) + " ";
    Derivation& line =
        record(heading, left.symbols + asked + right.symbols,
               left.figures + between + right.figures, comparison, left.value, from, givens);
    line.comparison = comparison;
    line.verdict = passes ? Verdict::pass : Verdict::fail;
    return passes;
}

bool Worksheet::judge(const Heading& heading, std::string statement, bool passes,
                      const std::vector<std::string>& from) {
    Derivation& line = record(heading, {}, {}, statement, 0, from);
    line.comparison = std::move(statement);
    line.verdict = passes ? Verdict::pass : Verdict::fail;
    return passes;
}

const Derivation* Worksheet::find(std::string_view id) const {
    const auto place = places_.find(id);
    return place == places_.end() ? nullptr : &derivations_[place->second];
}

const std::vector<std::size_t>& Worksheet::under(std::string_view subject) const {
    static const std::vector<std::size_t> none;
    const auto found = subjects_.find(subject);
    return found == subjects_.end() ? none : found->second;
}

} // namespace ohmfolio
