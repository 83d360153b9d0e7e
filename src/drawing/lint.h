/// Checks of a finished drawing that a master drafter would make with the eye, done on the display
/// list. Each returns findings whose `rule` is one of the ids below and whose `subject` is what the
/// faulty mark shows.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/finding.h"
#include "drawing/measure.h"
#include "drawing/sheet.h"

namespace ohmfolio {

struct LintRules {
    Length smallest_em = points(10);         ///< cities refuse less than 10 point type
    Length smallest_capitals = inches(0.10); ///< 0.10 in (2.5 mm) capitals on 11x17
    Length touch = points(0.25);             ///< overlaps smaller than this are not seen
};

/// lint.text_over_text; lint.wire_through_text: a line of a wire, symbol, enclosure or table
/// through lettering; lint.wire_through_symbol: a wire that touches a symbol other than with its
/// end, or runs inside its outline; lint.outside_frame; lint.lettering_small; lint.open_wire_end;
/// lint.wire_crossing (advice; a warning where wires lie upon each other); lint.missing_glyph; and
/// for a whole packet lint.broken_link and lint.duplicate_anchor.
Findings lint(const Sheet& sheet, const TextMeasure& measure, const LintRules& rules = {});
Findings lint(const Packet& packet, const TextMeasure& measure, const LintRules& rules = {});

/// The terminals that the drawn wires join, read back from the marks alone: sets of port names,
/// each sorted, the list sorted. Ports joined to nothing do not appear.
/// Wires join where one ends on another or at a junction dot; mere crossings do not join. A port is
/// joined to every wire that touches it, and ports in one place to each other. A port of the same
/// name in two frames is one; "match:..." joins what goes on in another frame and is left out. What
/// is drawn once for several (`port_of_all`) is repeated for each.
using Netlist = std::vector<std::vector<std::string>>;
Netlist read_netlist(const std::vector<const Frame*>& frames, Role role = Role::wire);
/// lint.netlist: terminals joined that should not be, or not joined that should.
Findings compare_netlists(const Netlist& drawn, const Netlist& intended);

} // namespace ohmfolio
