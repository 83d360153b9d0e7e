/// What is inside an enclosure, and the small strokes that all blocks share.
#pragma once

#include <string>
#include <vector>

#include "diagram/plan.h"

namespace ohmfolio::diagram {

/// Control and communications wiring: short dashes, unlike any enclosure.
extern const Stroke control_stroke;
/// New enclosures are drawn solid, existing ones dash-dotted.
Stroke enclosure_stroke(const Equipment& equipment);
void add_wire(Frame& frame, const std::vector<Point>& points, Length pen, const std::string& shows);
/// The art of `symbol` with its upper left corner at `low`; mirrored about its vertical axis if
/// asked.
void add_symbol(Frame& frame, const Symbol& symbol, Point low, bool mirrored,
                const std::string& shows, Role role = Role::symbol);
/// A port that stands for a terminal of each of `names`.
void add_port(Frame& frame, Point at, std::vector<std::string> names, const std::string& terminal,
              const std::string& shows);
/// The port where a tap meets the wire outside; none on a bus that goes on elsewhere.
void add_terminal(const Plan& plan, const Block& block, const Tap& tap, Frame& frame);
/// Enclosure, bus, taps and gateway of a bus block.
void draw_bus_block(const Plan& plan, const Block& block, Frame& frame);
bool has_transformer(const Block& block);
/// The ring of a current transformer around a tap's wire; its secondary goes up to the gateway or
/// out of the enclosure.
void draw_transformer(const Plan& plan, const Block& block, const Tap& tap, Frame& frame);
/// From the right edge of a block to the centre of its current transformer.
Length transformer_offset(const Plan& plan, const Block& block);
/// Centre of the current transformer of a block, left to right.
Length transformer_x(const Plan& plan, const Block& block);
/// Upper left corner of the gateway of a bus block: above its current transformer.
Point gateway_low(const Plan& plan, const Block& block);
/// Room for the keyed notes behind a name.
Length notes_width(const Block& block, const Spacing& spacing);
/// Height of the lettering over a body, with what keeps it apart.
Length name_height(const Plan& plan, const Block& block);
/// Room for the grounding electrodes under a body and their names.
Length electrodes_width(const Block& block, const Spacing& spacing);
/// How far lettering under a body moves right to let the grounding electrode conductor pass.
Length electrode_indent(const Spacing& spacing);

} // namespace ohmfolio::diagram
