/// Lint of lettering: legible, complete, and clear of other lettering and of lines.
#include <fmt/format.h>
#include <map>
#include <set>

#include "base/text.h"
#include "drawing/connections.h"
#include "drawing/lint_checks.h"

namespace ohmfolio {

namespace {

void check_size(const Inspection& inspection, Findings& findings) {
    // Rounding of points to whole nanometres is not a fault.
    const Length allowance{1000};
    std::map<TextStyle, std::pair<const LetteredBox*, int>> small;
    for (const LetteredBox& lettered : inspection.texts) {
        const TextStyle& style = lettered.text->style;
        if (style.size + allowance >= inspection.rules.smallest_em &&
            inspection.measure.cap_height(style) + allowance >= inspection.rules.smallest_capitals)
            continue;
        auto& [first, count] = small.try_emplace(style, &lettered, 0).first->second;
        ++count;
    }
    for (const auto& [style, found] : small) {
        const auto& [first, count] = found;
        Finding finding = inspection.finding(
            "lint.lettering_small", Severity::warning, first->mark, first->text->at,
            fmt::format("\"{}\" is set in {} point type with capitals {} in high ({} texts so)",
                        first->text->text, trimmed(style.size.in_points(), 2),
                        trimmed(inspection.measure.cap_height(style).in_inches(), 3), count));
        finding.expected = fmt::format("{} point type or larger, capitals {} in or higher",
                                       trimmed(inspection.rules.smallest_em.in_points(), 2),
                                       trimmed(inspection.rules.smallest_capitals.in_inches(), 3));
        findings.push_back(std::move(finding));
    }
}

void check_glyphs(const Inspection& inspection, Findings& findings) {
    for (const LetteredBox& lettered : inspection.texts) {
        const std::string missing =
            inspection.measure.missing(lettered.text->text, lettered.text->style);
        if (!missing.empty()) {
            findings.push_back(inspection.finding(
                "lint.missing_glyph", Severity::error, lettered.mark, lettered.text->at,
                fmt::format("the lettering has no \"{}\", needed for \"{}\"", missing,
                            lettered.text->text)));
        }
    }
}

const char* kind_of_line(Role role) {
    switch (role) {
    case Role::wire:
        return "a wire";
    case Role::control:
        return "control wiring";
    case Role::symbol:
    case Role::overlay:
        return "a symbol's line";
    case Role::enclosure:
        return "the outline of an enclosure";
    case Role::revision:
        return "a cloud";
    default:
        return "a rule";
    }
}

} // namespace

void check_lettering(const Inspection& inspection, Findings& findings) {
    check_size(inspection, findings);
    check_glyphs(inspection, findings);
}

void check_text_overlaps(const Inspection& inspection, Findings& findings) {
    const Length half_touch = inspection.rules.touch / 2;
    BoxGrid grid(paper(inspection.sheet.frame));
    for (std::size_t i = 0; i < inspection.texts.size(); ++i) {
        const LetteredBox& text = inspection.texts[i];
        const Box box = text.ink.grown(-half_touch);
        for (const std::size_t other_index : grid.near(box)) {
            const LetteredBox& other = inspection.texts[other_index];
            if (box.overlaps(other.ink.grown(-half_touch))) {
                findings.push_back(inspection.finding(
                    "lint.text_over_text", Severity::warning, text.mark, text.text->at,
                    fmt::format("\"{}\" runs into \"{}\"", text.text->text, other.text->text)));
            }
        }
        grid.add(i, text.ink);
    }
}

void check_lines_through_text(const Inspection& inspection, Findings& findings) {
    const Strokes lines(inspection.sheet.frame,
                        {Role::wire, Role::control, Role::symbol, Role::overlay, Role::enclosure,
                         Role::rule, Role::revision});
    const auto& marks = inspection.sheet.frame.marks;
    for (const LetteredBox& text : inspection.texts) {
        std::set<std::size_t> told;
        // Half of the widest pen is the furthest that a line's ink can reach from its middle.
        for (const auto found : lines.near(text.ink.grown(bus_pen / 2))) {
            const std::size_t mark = lines.outlines()[found.outline].mark;
            const Role role = marks[mark].role;
            const auto& path = std::get<Path>(marks[mark].item);
            const Length half_pen = path.stroked ? path.stroke.width / 2 : Length{};
            // A delta is opaque and stands on what is below it.
            if (role != Role::revision && marks[text.mark].shows.starts_with(a_revision))
                continue;
            const bool underline = role == Role::rule || role == Role::revision;
            const Box& clear = underline ? text.letters : text.ink;
            if (!passes_through(lines.stretch(found),
                                clear.grown(half_pen - inspection.rules.touch)) ||
                !told.insert(mark).second)
                continue;
            findings.push_back(inspection.finding(
                "lint.wire_through_text", Severity::warning, text.mark, text.text->at,
                fmt::format("{} runs through \"{}\"", kind_of_line(role), text.text->text)));
        }
    }
}

} // namespace ohmfolio
