#include "symbol/lint_symbol.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "drawing/strokes.h"

namespace ohmfolio {

namespace {

constexpr std::array<std::string_view, 4> side_words = {"left", "right", "top", "bottom"};

std::string_view word(Side side) { return side_words[static_cast<std::size_t>(side)]; }

Finding finding(const Symbol& symbol, Severity severity, std::string rule, const Span& span,
                std::string message, std::string expected) {
    Finding finding;
    finding.rule = std::move(rule);
    finding.severity = severity;
    finding.span = span;
    finding.subject = "symbol:" + symbol.name;
    finding.message = std::move(message);
    finding.expected = std::move(expected);
    return finding;
}

bool on_grid(Length at, Length edge) { return at.nm % drafting_grid.nm == 0 || 2 * at == edge; }

bool on_grid(const SymbolPort& port, const Size& size) {
    const bool level = port.side == Side::left || port.side == Side::right;
    return level ? on_grid(port.at.y, size.height) : on_grid(port.at.x, size.width);
}

bool reached(const SymbolPort& port, const Frame& art) {
    // Chords stand for curves, and run this much inside them.
    const Length near = millimetres(0.05);
    for (const Outline& outline : outlines_of(art, Role::symbol)) {
        for (std::size_t i = 0; i + 1 < outline.points.size(); ++i) {
            if (distance(port.at, outline.stretch(i)) <= near)
                return true;
        }
    }
    return false;
}

void check_port(const Symbol& symbol, const SymbolPort& port, Findings& findings) {
    if (!on_grid(port, symbol.size)) {
        findings.push_back(finding(symbol, Severity::warning, "symbol.port_grid", port.span,
                                   fmt::format("port \"{}\" is off the drafting grid", port.name),
                                   "a multiple of 0.5 mm, or the middle of the edge"));
    }
    if (!reached(port, symbol.art)) {
        findings.push_back(
            finding(symbol, Severity::warning, "symbol.port_loose", port.span,
                    fmt::format("no line of the symbol reaches port \"{}\"", port.name),
                    "a line that ends at the port"));
    }
}

/// Of a symbol with one terminal left and one right.
void check_heights(const Symbol& symbol, Findings& findings) {
    std::vector<const SymbolPort*> level;
    for (const SymbolPort& port : symbol.ports) {
        if (port.side == Side::left || port.side == Side::right)
            level.push_back(&port);
    }
    if (level.size() != 2 || level[0]->side == level[1]->side || level[0]->at.y == level[1]->at.y)
        return;
    findings.push_back(finding(symbol, Severity::warning, "symbol.port_height", level[1]->span,
                               fmt::format("ports \"{}\" and \"{}\" are not at one height",
                                           level[0]->name, level[1]->name),
                               "the same cy, so that a run goes straight through"));
}

} // namespace

void lint_symbol(const Symbol& symbol, Findings& findings) {
    if (symbol.is_mark)
        return; // laid over other things: no run ends on its outline
    for (const SymbolPort& port : symbol.ports)
        check_port(symbol, port, findings);
    check_heights(symbol, findings);
}

void check_replacement(const Symbol& symbol, const Symbol& replaced, Findings& findings) {
    const auto fault = [&](const Span& span, std::string message, std::string expected) {
        findings.push_back(finding(symbol, Severity::error, "symbol.replaces", span,
                                   std::move(message), std::move(expected)));
    };
    if (symbol.is_mark != replaced.is_mark) {
        fault(symbol.span, "the symbol whose place it takes is drawn otherwise",
              replaced.is_mark ? "data-kind=\"mark\" on <svg>" : "no data-kind on <svg>");
    }
    for (const SymbolPort& port : replaced.ports) {
        const SymbolPort* own = symbol.port(port.name);
        const std::string wanted = fmt::format("<circle data-port=\"{}\" data-side=\"{}\" ...>",
                                               port.name, word(port.side));
        if (!own) {
            fault(symbol.span,
                  fmt::format("the diagram needs the port \"{}\" of this symbol", port.name),
                  wanted);
        } else if (own->side != port.side) {
            fault(own->span,
                  fmt::format("port \"{}\" is {}, where the diagram does not look for it",
                              port.name, word(own->side)),
                  wanted);
        }
    }
    for (const SymbolSlot& slot : replaced.slots) {
        if (!symbol.slot(slot.name)) {
            fault(symbol.span,
                  fmt::format("the diagram letters the slot \"{}\" of this symbol", slot.name),
                  fmt::format("<text data-slot=\"{}\" ...>", slot.name));
        }
    }
}

} // namespace ohmfolio
