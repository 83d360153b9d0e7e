#include "sheet/calculation_sections.h"

#include <algorithm>

#include <fmt/format.h>

namespace ohmfolio::sheets {

namespace {

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

/// The digits from `i` on number a tag: "Q5", "A-12".
bool counts(const std::string& title, std::size_t i) {
    while (i > 0 && title[i - 1] >= '0' && title[i - 1] <= '9')
        --i;
    if (i > 0 && title[i - 1] == '-')
        --i;
    return i > 0 && title[i - 1] >= 'A' && title[i - 1] <= 'Z';
}

/// "Microinverters on PV-1" and "Disconnect protected by Q5" title the same step for PV-2 and Q6.
std::string without_tags(const Derivation& line) {
    const std::string title = replaced(line.title, key_of(line.subject), "");
    std::string text;
    for (std::size_t i = 0; i < title.size(); ++i) {
        const bool digit = title[i] >= '0' && title[i] <= '9';
        if (!digit || i == 0 || !counts(title, i))
            text += title[i];
    }
    return text;
}

/// The steps of two branches or two disconnects have the same names and titles.
bool same_steps(const CalculationSection& a, const CalculationSection& b) {
    const auto kind = [](const CalculationSection& section) {
        return section.subject.substr(0, section.subject.find(':'));
    };
    return !a.is_nameplate() && kind(a) == kind(b) &&
           std::equal(a.lines.begin(), a.lines.end(), b.lines.begin(), b.lines.end(),
                      [](const Derivation* x, const Derivation* y) {
                          return x->name == y->name && without_tags(*x) == without_tags(*y);
                      });
}

bool gives_twice(const std::vector<Derivation>& printed, const Derivation& line) {
    return std::any_of(printed.begin(), printed.end(), [&](const Derivation& other) {
        return !line.symbol.empty() && line.formula.empty() && other.symbol == line.symbol &&
               other.result == line.result;
    });
}

/// The breaker that a step is about, by its name: Q1 for "limit_Q1".
std::string breaker_in_name(const Derivation& line, const System& system) {
    for (const Breaker& breaker : system.breakers) {
        if (line.name.ends_with("_" + breaker.tag) &&
            line.title.find(breaker.tag) != std::string::npos)
            return breaker.tag;
    }
    return {};
}

/// A step and the breakers for which it reads the same.
struct Shared {
    Derivation line;
    std::vector<std::string> breakers;
};

bool reads_alike(const Shared& shared, const Derivation& line, const std::string& breaker) {
    if (shared.breakers.empty() || breaker.empty())
        return false;
    const std::string& first = shared.breakers.front();
    return replaced(shared.line.title, first, breaker) == line.title &&
           replaced(shared.line.formula, first, breaker) == line.formula &&
           shared.line.comparison == line.comparison && shared.line.verdict == line.verdict &&
           shared.line.result == line.result && shared.line.source == line.source;
}

Derivation with_all_breakers(const Shared& shared) {
    Derivation line = shared.line;
    if (shared.breakers.size() < 2)
        return line;
    const std::string& first = shared.breakers.front();
    line.title = replaced(line.title, first, fmt::format("{}", fmt::join(shared.breakers, ", ")));
    line.formula = replaced(line.formula, "_" + first,
                            "_" + first.substr(0, first.find_first_of("0123456789")));
    return line;
}

bool all_about(const CalculationGroup& group, const Study& study, std::string_view kind) {
    return std::all_of(group.steps.begin(), group.steps.end(), [&](const std::string& id) {
        return study.derivation(id).subject.starts_with(kind);
    });
}

/// "MSP, EV CHARGER" for a part of equipment, "MSP.EV_CHARGER".
std::string in_words(const std::string& key) {
    std::string words;
    for (const char letter : key)
        words += letter == '.' ? ", " : std::string(1, letter == '_' ? ' ' : letter);
    return words;
}

} // namespace

std::string key_of(std::string_view subject) {
    return std::string(subject.substr(subject.find(':') + 1));
}

bool is_circuit(const CalculationGroup& group) { return group.subject.starts_with("circuit:"); }

bool is_raceways(const CalculationGroup& group, const Study& study) {
    return all_about(group, study, "run:");
}

bool is_fault_currents(const CalculationGroup& group, const Study& study) {
    return all_about(group, study, "fault:");
}

bool is_working_spaces(const CalculationGroup& group, const Study& study) {
    return all_about(group, study, "space:");
}

std::vector<CalculationSection> sections_of(const CalculationGroup& group, const Study& study) {
    std::vector<CalculationSection> sections;
    for (const std::string& id : group.steps) {
        const Derivation* line = &study.derivation(id);
        const auto section =
            std::find_if(sections.begin(), sections.end(), [&](const CalculationSection& each) {
                return each.subject == line->subject;
            });
        if (section == sections.end()) {
            sections.push_back({line->subject, {line}});
        } else {
            section->lines.push_back(line);
        }
    }
    std::stable_partition(sections.begin(), sections.end(),
                          [](const CalculationSection& each) { return each.is_nameplate(); });
    return sections;
}

std::vector<CalculationBlock> blocks_of(const CalculationGroup& group, const Study& study) {
    std::vector<CalculationBlock> blocks;
    for (CalculationSection& section : sections_of(group, study)) {
        const auto block =
            std::find_if(blocks.begin(), blocks.end(), [&](const CalculationBlock& each) {
                return same_steps(each.sections.front(), section);
            });
        if (block == blocks.end()) {
            blocks.push_back({{std::move(section)}});
        } else {
            block->sections.push_back(std::move(section));
        }
    }
    return blocks;
}

std::vector<Derivation> printed_lines(const CalculationSection& section, const System& system) {
    std::vector<Shared> shared;
    std::vector<Derivation> printed;
    for (const Derivation* line : section.lines) {
        if (section.is_nameplate() && gives_twice(printed, *line))
            continue;
        printed.push_back(*line);
        const std::string breaker = breaker_in_name(*line, system);
        if (!shared.empty() && reads_alike(shared.back(), *line, breaker)) {
            shared.back().breakers.push_back(breaker);
        } else if (breaker.empty()) {
            shared.push_back({*line, {}});
        } else {
            shared.push_back({*line, {breaker}});
        }
    }
    printed.clear();
    for (const Shared& each : shared)
        printed.push_back(with_all_breakers(each));
    return printed;
}

std::string title_of(const CalculationSection& section, const CalculationGroup& group,
                     const System& system) {
    const std::string key = key_of(section.subject);
    if (section.is_nameplate()) {
        const Record* record = system.catalogue.find(key);
        return record ? fmt::format("{} {}, nameplate", record->maker, record->model) : key;
    }
    const bool own = section.subject == group.subject || section.subject.starts_with("pair:") ||
                     section.subject.starts_with("site:");
    return own ? std::string{} : in_words(key);
}

} // namespace ohmfolio::sheets
