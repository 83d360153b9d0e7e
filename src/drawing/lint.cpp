#include "drawing/lint.h"

#include <fmt/format.h>
#include <map>
#include <set>

#include "base/text.h"
#include "drawing/lint_checks.h"

namespace ohmfolio {

namespace {

using Check = void (*)(const Inspection&, Findings&);

/// In the order of the report.
constexpr Check sheet_checks[] = {check_lettering,
                                  check_text_overlaps,
                                  check_lines_through_text,
                                  check_wires_through_symbols,
                                  check_wire_ends,
                                  check_wire_crossings,
                                  check_frame};

/// Where each anchor of the packet stands: the sheet's number, once for each time it is set.
std::map<std::string, std::vector<std::string>> anchors_of(const Packet& packet) {
    std::map<std::string, std::vector<std::string>> anchors;
    for (const Sheet& sheet : packet.sheets) {
        for (const Mark& mark : sheet.frame.marks) {
            if (const auto* anchor = std::get_if<Anchor>(&mark.item))
                anchors[anchor->name].push_back(sheet.number);
        }
    }
    return anchors;
}

Finding link_finding(std::string_view rule, const std::string& subject, std::string message) {
    Finding finding;
    finding.rule = rule;
    finding.severity = Severity::warning;
    finding.subject = subject;
    finding.message = std::move(message);
    return finding;
}

void check_links(const Packet& packet, Findings& findings) {
    const auto anchors = anchors_of(packet);
    for (const auto& [name, sheets] : anchors) {
        if (sheets.size() > 1) {
            findings.push_back(link_finding("lint.duplicate_anchor", name,
                                            fmt::format("the anchor \"{}\" is set {} times, on {}",
                                                        name, sheets.size(), join(sheets, ", "))));
        }
    }
    std::set<std::pair<std::string, std::string>> told;
    for (const Sheet& sheet : packet.sheets) {
        for (const Mark& mark : sheet.frame.marks) {
            const auto* link = std::get_if<Link>(&mark.item);
            if (link == nullptr || anchors.contains(link->target) ||
                !told.insert({sheet.number, link->target}).second)
                continue;
            const auto& subject = mark.shows.empty() ? link->target : mark.shows;
            findings.push_back(
                link_finding("lint.broken_link", subject,
                             fmt::format("{}: a link leads to \"{}\", which is on no sheet",
                                         sheet.number, link->target)));
        }
    }
}

} // namespace

Inspection::Inspection(const Sheet& inspected, const TextMeasure& text_measure,
                       const LintRules& lint_rules)
    : sheet(inspected), measure(text_measure), rules(lint_rules) {
    for (std::size_t i = 0; i < sheet.frame.marks.size(); ++i) {
        const auto* text = std::get_if<Text>(&sheet.frame.marks[i].item);
        if (text == nullptr || text->text.empty())
            continue;
        const Box ink = text_box(*text, measure);
        texts.push_back({i, text, ink, letters_box(*text, measure)});
    }
}

Finding Inspection::finding(std::string_view rule, Severity severity, std::size_t mark, Point at,
                            const std::string& message) const {
    Finding result;
    result.rule = rule;
    result.severity = severity;
    result.subject = sheet.frame.marks[mark].shows;
    result.message = fmt::format("{} at {} x {} in: {}", sheet.number, decimal(at.x.in_inches(), 2),
                                 decimal(at.y.in_inches(), 2), message);
    return result;
}

Findings lint(const Sheet& sheet, const TextMeasure& measure, const LintRules& rules) {
    Findings findings;
    const Inspection inspection(sheet, measure, rules);
    for (const Check check : sheet_checks)
        check(inspection, findings);
    return findings;
}

Findings lint(const Packet& packet, const TextMeasure& measure, const LintRules& rules) {
    Findings findings;
    for (const Sheet& sheet : packet.sheets) {
        Findings of_sheet = lint(sheet, measure, rules);
        findings.insert(findings.end(), of_sheet.begin(), of_sheet.end());
    }
    check_links(packet, findings);
    return findings;
}

} // namespace ohmfolio
