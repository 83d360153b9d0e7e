/// Lint of lines: wires end somewhere, keep out of symbols, and nothing leaves the border.
#include <algorithm>
#include <fmt/format.h>
#include <set>

#include "base/text.h"
#include "drawing/connections.h"
#include "drawing/lint_checks.h"

namespace ohmfolio {

namespace {

/// Whether a line that has a right to end on a symbol also touches it elsewhere.
class SymbolContact {
  public:
    SymbolContact(const Ports& ports, Length touch) : ports_(ports), touch_(touch) {}

    bool faulty(const Outline& wire, const Outline& symbol) const {
        if (symbol.closed && ends_on_port_inside(wire, symbol))
            return false;
        for (std::size_t w = 0; w < wire.stretches(); ++w) {
            if (symbol.closed && length_inside(wire.stretch(w), symbol) > touch_ * 2)
                return true;
            for (std::size_t s = 0; s < symbol.stretches(); ++s) {
                const auto met = meeting(wire.stretch(w), symbol.stretch(s));
                if (met && (met->overlap > touch_ || !may_touch(wire, met->at)))
                    return true;
            }
        }
        return false;
    }

  private:
    bool may_touch(const Outline& wire, Point at) const {
        return distance(at, wire.points.front()) <= touch_ ||
               distance(at, wire.points.back()) <= touch_ || !ports_.at(at, touch_).empty();
    }

    bool ends_on_port_inside(const Outline& wire, const Outline& symbol) const {
        for (const Point end : {wire.points.front(), wire.points.back()}) {
            if (inside(end, symbol) && !ports_.at(end, touch_).empty())
                return true;
        }
        return false;
    }

    const Ports& ports_;
    Length touch_;
};

bool near(const Box& a, const Box& b, Length by) { return a.grown(by).overlaps(b.grown(by)); }

std::string noun(Role role) { return role == Role::control ? "control wiring" : "a wire"; }

/// The border's own furniture, the outer rule, zone marks and zone letters, stands outside it.
bool is_border_furniture(const Mark& mark, const Box& box, const Box& border) {
    if (!mark.shows.empty() || border.overlaps(box))
        return mark.role == Role::rule && mark.shows.empty() && box.contains(border);
    const auto* text = std::get_if<Text>(&mark.item);
    return text != nullptr ? character_count(text->text) <= 2 : mark.role == Role::rule;
}

Box ink_of(const Mark& mark, const TextMeasure& measure) {
    if (const auto* text = std::get_if<Text>(&mark.item))
        return text_box(*text, measure);
    return bounds(std::get<Path>(mark.item));
}

bool has_ink(const Mark& mark) {
    if (const auto* text = std::get_if<Text>(&mark.item))
        return !text->text.empty();
    const auto* path = std::get_if<Path>(&mark.item);
    return path != nullptr && !path->segments.empty();
}

} // namespace

void check_wires_through_symbols(const Inspection& inspection, Findings& findings) {
    const Frame& frame = inspection.sheet.frame;
    const Length touch = inspection.rules.touch;
    const auto symbols = outlines_of(frame, Role::symbol);
    BoxGrid grid(paper(frame));
    for (std::size_t i = 0; i < symbols.size(); ++i)
        grid.add(i, symbols[i].bounds());
    const Ports ports(frame);
    const SymbolContact contact(ports, touch);
    std::set<std::pair<std::size_t, std::string>> told;
    const Strokes wires(frame, {Role::wire, Role::control});
    for (const Outline& wire : wires.outlines()) {
        std::set<std::size_t> candidates;
        for (std::size_t w = 0; w < wire.stretches(); ++w) {
            const Box around = bounds(wire.stretch(w)).grown(touch);
            for (const std::size_t id : grid.near(around)) {
                if (near(around, symbols[id].bounds(), touch))
                    candidates.insert(id);
            }
        }
        for (const std::size_t id : candidates) {
            const Mark& symbol = frame.marks[symbols[id].mark];
            if (!contact.faulty(wire, symbols[id]) ||
                !told.insert({wire.mark, symbol.shows}).second)
                continue;
            findings.push_back(inspection.finding(
                "lint.wire_through_symbol", Severity::warning, wire.mark,
                symbols[id].bounds().centre(),
                fmt::format("{} runs through the symbol of {}", noun(frame.marks[wire.mark].role),
                            symbol.shows.empty() ? "something" : symbol.shows)));
        }
    }
}

void check_wire_ends(const Inspection& inspection, Findings& findings) {
    const Frame& frame = inspection.sheet.frame;
    const Ports ports(frame);
    const auto check = [&](const Strokes& lines, const Strokes* others, const std::string& noun,
                           const std::string& expected) {
        for (std::size_t i = 0; i < lines.outlines().size(); ++i) {
            const Outline& line = lines.outlines()[i];
            if (line.points.front() == line.points.back())
                continue;
            for (const Point end : {line.points.front(), line.points.back()}) {
                if (!ports.at(end, joined_within).empty() || lines.touches(end, joined_within, i) ||
                    (others != nullptr && others->touches(end, joined_within)))
                    continue;
                Finding finding = inspection.finding("lint.open_wire_end", Severity::warning,
                                                     line.mark, end, noun + " ends on nothing");
                finding.expected = expected;
                findings.push_back(std::move(finding));
            }
        }
    };
    const Strokes wires(frame, {Role::wire});
    check(wires, nullptr, noun(Role::wire), "an end on a terminal or on another wire");
    // Control wiring may stop at the box or symbol of what it controls.
    const Strokes controls(frame, {Role::control});
    const Strokes bodies(frame, {Role::wire, Role::symbol, Role::overlay, Role::enclosure});
    check(controls, &bodies, noun(Role::control), "an end on a terminal, a line or an enclosure");
}

void check_wire_crossings(const Inspection& inspection, Findings& findings) {
    const Frame& frame = inspection.sheet.frame;
    const Strokes wires(frame, {Role::wire, Role::control});
    const Junctions dots(frame);
    const auto& outlines = wires.outlines();
    const auto at_end = [&](std::size_t outline, Point at) {
        const auto& points = outlines[outline].points;
        return distance(at, points.front()) <= joined_within ||
               distance(at, points.back()) <= joined_within;
    };
    std::set<std::tuple<std::size_t, std::size_t, Point>> told;
    const auto tell = [&](Severity severity, std::size_t one, std::size_t other, Point at,
                          const std::string& message) {
        if (told.insert({one, other, at}).second) {
            findings.push_back(inspection.finding("lint.wire_crossing", severity,
                                                  outlines[one].mark, at, message));
        }
    };
    for (std::size_t one = 0; one < outlines.size(); ++one) {
        for (std::size_t s = 0; s < outlines[one].stretches(); ++s) {
            for (const auto found : wires.near(bounds(outlines[one].stretch(s)))) {
                const std::size_t other = found.outline;
                if (other <= one)
                    continue;
                const auto met = meeting(outlines[one].stretch(s), wires.stretch(found));
                if (!met)
                    continue;
                const std::string& shows = frame.marks[outlines[one].mark].shows;
                const std::string& crossed = frame.marks[outlines[other].mark].shows;
                const std::string what =
                    crossed.empty() ? noun(frame.marks[outlines[other].mark].role) : crossed;
                if (met->overlap > inspection.rules.touch && shows != crossed) {
                    tell(Severity::warning, one, other, met->at, "it lies upon " + what);
                } else if (met->overlap <= joined_within && !at_end(one, met->at) &&
                           !at_end(other, met->at) && !dots.at(met->at)) {
                    tell(Severity::advice, one, other, met->at, "it crosses " + what);
                }
            }
        }
    }
}

void check_frame(const Inspection& inspection, Findings& findings) {
    const Sheet& sheet = inspection.sheet;
    const Box allowed = sheet.border.grown(inspection.rules.touch);
    for (std::size_t i = 0; i < sheet.frame.marks.size(); ++i) {
        const Mark& mark = sheet.frame.marks[i];
        if (!has_ink(mark))
            continue;
        const Box ink = ink_of(mark, inspection.measure);
        const bool on_paper = paper(sheet.frame).contains(ink);
        if (on_paper && (allowed.contains(ink) || is_border_furniture(mark, ink, sheet.border)))
            continue;
        const auto* text = std::get_if<Text>(&mark.item);
        findings.push_back(inspection.finding(
            "lint.outside_frame", Severity::warning, i, ink.low,
            text != nullptr ? fmt::format("\"{}\" reaches out of the border", text->text)
                            : "a line or area reaches out of the border"));
    }
}

} // namespace ohmfolio
