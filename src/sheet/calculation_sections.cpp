#include "sheet/calculation_sections.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"

namespace ohmfolio::sheets {

namespace {

std::string_view key_of(std::string_view subject) { return subject.substr(subject.find(':') + 1); }

/// Names of circuits differ where figures do not, so figures and results decide.
bool reads_alike(const Derivation& a, const Derivation& b) {
    return a.title == b.title && a.figures == b.figures && a.result == b.result &&
           text(a.cite) == text(b.cite) && a.source == b.source && a.rounding == b.rounding &&
           a.comparison == b.comparison && a.verdict == b.verdict && a.governs == b.governs;
}

bool read_alike(const std::vector<const Derivation*>& a, const std::vector<const Derivation*>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](const Derivation* x, const Derivation* y) { return reads_alike(*x, *y); });
}

std::vector<const Derivation*> lines_of(const CalculationGroup& group, const Study& study) {
    std::vector<const Derivation*> lines;
    for (const std::string& id : group.steps)
        lines.push_back(&study.derivation(id));
    return lines;
}

/// A group that is about one thing reads in the order in which it was worked out.
bool has_own_subject(const CalculationGroup& group, const std::vector<const Derivation*>& lines) {
    return std::any_of(lines.begin(), lines.end(),
                       [&](const Derivation* line) { return line->subject == group.subject; });
}

std::vector<CalculationSection> by_subject(const std::vector<const Derivation*>& lines) {
    std::vector<CalculationSection> sections;
    for (const Derivation* line : lines) {
        const auto section =
            std::find_if(sections.begin(), sections.end(), [&](const CalculationSection& each) {
                return each.subjects.front() == line->subject;
            });
        if (section == sections.end())
            sections.push_back({{line->subject}, {line}});
        else
            section->lines.push_back(line);
    }
    return sections;
}

std::vector<CalculationSection> merged(std::vector<CalculationSection> sections) {
    std::vector<CalculationSection> result;
    for (CalculationSection& section : sections) {
        const auto alike =
            std::find_if(result.begin(), result.end(), [&](const CalculationSection& each) {
                return read_alike(each.lines, section.lines);
            });
        if (alike == result.end())
            result.push_back(std::move(section));
        else
            alike->subjects.push_back(section.subjects.front());
    }
    return result;
}

struct TitleParts {
    std::string name, rest; ///< "C1" and "PV-1 TO JB-1" of "CIRCUIT C1: PV-1 TO JB-1"
};

TitleParts parts_of(const CalculationGroup& group) {
    const auto colon = group.title.find(": ");
    return {std::string(key_of(group.subject)),
            colon == std::string::npos ? group.title : group.title.substr(colon + 2)};
}

void add_unless_there(std::vector<std::string>& list, const std::string& text) {
    if (!text.empty() && std::find(list.begin(), list.end(), text) == list.end())
        list.push_back(text);
}

std::string ends_of_run(const System& system, std::string_view tag) {
    for (const Run& run : system.runs) {
        if (run.tag != tag)
            continue;
        const Equipment& child = system.equipment[static_cast<std::size_t>(run.child)];
        const Equipment& parent = system.equipment[static_cast<std::size_t>(child.parent)];
        return fmt::format("{} to {}", child.id, parent.id);
    }
    return {};
}

} // namespace

std::vector<PrintedGroup> printed_groups(const Study& study) {
    std::vector<PrintedGroup> printed;
    for (const CalculationGroup& group : study.groups) {
        const auto lines = lines_of(group, study);
        const bool whole = has_own_subject(group, lines);
        const auto alike =
            std::find_if(printed.begin(), printed.end(), [&](const PrintedGroup& each) {
                return whole && each.sections.size() == 1 &&
                       read_alike(each.sections.front().lines, lines);
            });
        if (alike != printed.end())
            alike->groups.push_back(&group);
        else
            printed.push_back({{&group},
                               whole ? std::vector<CalculationSection>{{{group.subject}, lines}}
                                     : merged(by_subject(lines))});
    }
    return printed;
}

std::string title_of(const PrintedGroup& group) {
    if (group.groups.size() == 1)
        return group.groups.front()->title;
    std::vector<std::string> names;
    std::vector<std::string> rests;
    for (const CalculationGroup* each : group.groups) {
        const TitleParts parts = parts_of(*each);
        names.push_back(parts.name);
        add_unless_there(rests, parts.rest);
    }
    return fmt::format("CIRCUITS {}: {}", join(names, ", "), join(rests, ", "));
}

std::string title_of(const CalculationSection& section, const System& system) {
    std::vector<std::string> names;
    std::vector<std::string> rests;
    for (const std::string& subject : section.subjects) {
        const std::string_view key = key_of(subject);
        if (subject.starts_with("pair:"))
            continue;
        const Record* record =
            subject.starts_with("record:") ? system.catalogue.find(key) : nullptr;
        names.push_back(record ? fmt::format("{} {}", record->maker, record->model)
                               : std::string(key));
        if (subject.starts_with("run:"))
            add_unless_there(rests, ends_of_run(system, key));
    }
    const std::string list = join(names, ", ");
    return rests.empty() ? list : fmt::format("{}: {}", list, join(rests, ", "));
}

} // namespace ohmfolio::sheets
