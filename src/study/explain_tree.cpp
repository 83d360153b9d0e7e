// How results came about, as text for a terminal.
#include "study/explain_tree.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/line_break.h"
#include "base/text.h"

namespace ohmfolio::workings {

namespace {

constexpr int step = 2; ///< by which what is beneath is set in

bool has_word(std::string_view text, std::string_view word) {
    const std::string within = fmt::format(" {} ", text);
    return within.find(fmt::format(" {} ", word)) != std::string::npos;
}

/// Stands where a line must not break, and is written as a blank.
constexpr std::string_view tie = "\u00A0";

bool is_relation(std::string_view word) {
    return word == "≤" || word == "≥" || word == "<" || word == ">";
}

/// Ties numbers to their units, both sides of a comparison, and an edition to its paragraph.
std::string tied(std::string_view text) {
    std::string result;
    std::string_view before, last;
    for (std::size_t start = 0; start <= text.size();) {
        const std::size_t end = std::min(text.find(' ', start), text.size());
        const std::string_view word = text.substr(start, end - start);
        const bool together = belongs_to(word, last) || before == "NEC" || is_relation(word) ||
                              is_relation(last) || (is_unit(word) && is_unit(last));
        if (start > 0)
            result += together ? tie : " ";
        result += word;
        before = last;
        last = word;
        start = end + 1;
    }
    return result;
}

std::string untied(std::string line) {
    for (auto at = line.find(tie); at != std::string::npos; at = line.find(tie, at))
        line.replace(at, tie.size(), " ");
    return line;
}

/// "I_req = 1.25 × I = 1.25 × 11.36 A = 14.20 A", or the comparison of a check; empty for a value
/// that is stated or read from a table.
std::string working(const Derivation& d) {
    if (d.verdict) {
        return d.formula.empty() || d.formula == d.comparison
                   ? d.comparison
                   : fmt::format("{}: {}", d.formula, d.comparison);
    }
    if (d.formula.empty())
        return {};
    std::string line = fmt::format("{} = {}", d.symbol, d.formula);
    if (d.figures != d.formula)
        line += " = " + d.figures;
    if (d.rounding.empty())
        return d.figures == d.result ? line : line + " = " + d.result;
    // The figure once only, where the formula was nothing but it.
    const std::string rounding = d.rounding.starts_with(d.figures + ",")
                                     ? d.rounding.substr(d.figures.size())
                                     : " = " + d.rounding;
    return fmt::format("{}{}: {}", line, rounding, d.result);
}

/// "where A: floor area; N_small: small-appliance circuits": what has no line of its own.
std::string meanings(const Derivation& d) {
    std::string text;
    for (const Leaf& given : d.givens) {
        if (!given.meaning.empty())
            text += fmt::format("{}{}: {}", text.empty() ? "where " : "; ", given.symbol,
                                given.meaning);
    }
    return text;
}

/// What the checks come to, behind a heading.
std::string tally(int checks, int failed) {
    if (checks == 0)
        return {};
    if (failed > 0)
        return fmt::format(": {} of {} {} FAIL{}", failed, checks, checks == 1 ? "check" : "checks",
                           failed == 1 ? "S" : "");
    return checks == 1 ? ": its check passes" : fmt::format(": all {} checks pass", checks);
}

} // namespace

std::string because(std::string_view governs) {
    constexpr std::string_view stated = "stated; ";
    if (governs.empty())
        return {};
    if (governs.starts_with(stated))
        return fmt::format(", stated by the drafter; {}", governs.substr(stated.size()));
    if (governs.starts_with("need not "))
        return fmt::format(", because it {}", governs);
    if (governs.ends_with(" governs") || governs.ends_with(" govern"))
        return fmt::format(", because the {}", governs);
    if (governs.starts_with("smallest ") || governs.starts_with("first "))
        return fmt::format(", because it is the {}", governs);
    if (has_word(governs, "is") || has_word(governs, "complies"))
        return fmt::format(", because {}", governs);
    return fmt::format(", because of the {}", governs);
}

std::string set_in(std::string_view text, int indent, int hanging) {
    std::string result;
    int blanks = indent;
    // Every line gets the width of those that are set in further.
    for (const std::string& line : wrapped(tied(text), terminal_width - indent - hanging)) {
        result += std::string(static_cast<std::size_t>(blanks), ' ') + untied(line) + '\n';
        blanks = indent + hanging;
    }
    return result;
}

void ExplainTree::only_tried(const std::vector<std::string>& ids) {
    only_tried_.insert(ids.begin(), ids.end());
}

void ExplainTree::heading(std::string_view text) { text_ += fmt::format("{}\n\n", text); }

/// Those of `ids` on which no other of them rests, nor what was only tried.
std::vector<std::string> ExplainTree::results_among(const std::vector<std::string>& ids) const {
    std::set<std::string> used;
    const auto add_used_by = [&](const std::string& id) {
        const Derivation& d = study_.derivation(id);
        used.insert(d.from.begin(), d.from.end());
    };
    std::ranges::for_each(ids, add_used_by);
    std::ranges::for_each(only_tried_, add_used_by);
    std::vector<std::string> results;
    std::ranges::copy_if(ids, std::back_inserter(results),
                         [&](const std::string& id) { return !used.contains(id); });
    return results;
}

/// The results among `ids`, each before the checks that it rests on; then the other checks.
std::vector<std::string> ExplainTree::in_short(const std::vector<std::string>& ids) const {
    std::vector<std::string> lines;
    const auto add = [&](const std::string& id) {
        if (std::ranges::find(lines, id) == lines.end())
            lines.push_back(id);
    };
    const auto add_check = [&](const std::string& id) {
        if (study_.derivation(id).verdict && std::ranges::find(ids, id) != ids.end())
            add(id);
    };
    for (const std::string& result : results_among(ids)) {
        add(result);
        std::ranges::for_each(study_.derivation(result).from, add_check);
    }
    std::ranges::for_each(ids, add_check);
    return lines;
}

void ExplainTree::summary(const std::vector<std::string>& ids) {
    const std::vector<std::string> shown = in_short(ids);
    if (shown.size() < 2) // it would say what follows once more
        return;
    std::string lines;
    int checks = 0, failed = 0;
    for (const std::string& id : shown) {
        const Derivation& d = study_.derivation(id);
        checks += d.verdict ? 1 : 0;
        failed += d.verdict == Verdict::fail ? 1 : 0;
        lines += set_in(fmt::format("- {}: {}{}", d.title, outcome(d),
                                    d.verdict ? ", " + d.comparison : std::string{}),
                        step, step);
    }
    text_ += fmt::format("In short{}\n{}\n", tally(checks, failed), lines);
}

void ExplainTree::write(const std::vector<std::string>& ids) {
    for (const std::string& id : results_among(ids)) {
        node(id, 0);
        text_ += '\n';
    }
}

std::string ExplainTree::outcome(const Derivation& d) const {
    if (!d.verdict)
        return d.result;
    const bool passes = *d.verdict == Verdict::pass;
    if (only_tried_.contains(d.id))
        return passes ? "holds" : "does not hold";
    return passes ? "passes" : "FAILS";
}

/// Where it is read, and by which paragraph; what both say once.
std::string ExplainTree::grounds(const Derivation& d) {
    std::string cite = ohmfolio::text(d.cite);
    if (d.source.starts_with(d.cite.section + ",") && !d.cite.edition.empty()) {
        cite = d.cite.edition + " " + d.source;
    } else if (!d.source.empty()) {
        const bool said = cite.empty() || (cite == "equipment nameplate" &&
                                           d.source.find("nameplate") != std::string::npos);
        cite = said ? d.source : d.source + "; " + cite;
    }
    if (!d.cite.unverified)
        return cite;
    daggers_ = true;
    return cite + " †";
}

void ExplainTree::node(const std::string& id, int depth) {
    const Derivation& d = study_.derivation(id);
    const std::string mark = depth == 0 ? "" : "- ";
    const int indent = depth * step;
    if (!seen_.insert(id).second) {
        text_ += set_in(fmt::format("{}{}: {} (see above) [{}]", mark, d.title, outcome(d), id),
                        indent, step);
        return;
    }
    // A value that is stated or read stands behind its symbol at once; others have their formula.
    const bool leaf = !d.verdict && d.formula.empty() && !d.symbol.empty();
    const bool fails = d.verdict == Verdict::fail;
    text_ += set_in(fmt::format("{}{}: {}{}{} [{}]", mark, d.title,
                                leaf ? d.symbol + " = " : std::string{}, outcome(d),
                                fails ? std::string{} : because(d.governs), id),
                    indent, step);
    for (const std::string& detail : {working(d), meanings(d), grounds(d)}) {
        text_ += set_in(detail, indent + step, step);
    }
    for (const std::string& from : d.from) {
        node(from, depth + 1);
    }
}

std::string ExplainTree::text() const {
    if (!daggers_)
        return text_;
    return text_ +
           "† One page, or memory, alone speaks for this paragraph or its number: look it up.\n";
}

} // namespace ohmfolio::workings
