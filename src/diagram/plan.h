/// The single-line diagram while it is being laid out: blocks, their taps, and the wires between
/// them. Each step of the chain (nest, rank, place, route, letter) takes a plan and knows more when
/// it is done; `dump` writes it as text at any point.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "diagram/diagram.h"
#include "drawing/geometry.h"
#include "drawing/measure.h"
#include "model/system.h"
#include "study/study.h"
#include "symbol/symbol.h"

namespace ohmfolio::diagram {

/// Distances of the drafting style, all on paper.
struct Spacing {
    Length name_gap = inches(0.08);     ///< between a name and the body under it
    Length note_gap = inches(0.035);    ///< more between lines where keyed notes stand in the first
    Length text_gap = inches(0.05);     ///< between lettering and what it belongs to
    Length block_gap = inches(0.12);    ///< least room between two blocks' lettering
    Length wire_room = inches(0.42);    ///< least length of a wire between two bodies: a tag fits
    Length row_gap = inches(0.16);      ///< between one row's lettering and the next row's
    Length tap_pitch = inches(0.36);    ///< between taps of a bus
    Length load_pitch = inches(0.25);   ///< between load taps of a bus
    Length bus_overhang = inches(0.10); ///< of the bus past its last tap
    Length body_pad = inches(0.10);     ///< inside an enclosure
    Length lead = inches(0.08);         ///< shortest wire inside an enclosure
    Length gateway_drop = inches(0.10); ///< between a gateway and its current transformer
    Length control_clear = inches(0.10);    ///< between control wiring and everything else
    Length caption_overhang = inches(0.36); ///< of lettering past a symbol, both sides together
    Length caption_least = inches(0.90);    ///< lettering may always be this wide
};

enum class Form {
    symbol,  ///< one graphic symbol
    boxed,   ///< one graphic symbol in an enclosure
    splices, ///< an enclosure through which circuits pass side by side
    bus      ///< an enclosure with a vertical bus and taps to both sides
};

/// One way into or out of a block.
struct Tap {
    std::string terminal; ///< "in1"; empty for a load that ends inside
    Side side = Side::left;
    bool toward_utility = false;
    std::string symbol;      ///< graphic symbol in the way, empty: plain wire
    std::string device;      ///< what that symbol shows: "breaker:Q1"; also prefixes its ports
    std::string label;       ///< above the symbol: "Q1 20 A 2P"
    std::string load;        ///< lettering of the load that the tap ends in, with its rating
    std::string transformer; ///< tag of a current transformer on this tap, empty: none
    Length y{};              ///< below the block's line, set by `place`
};

struct Block {
    int equipment = -1;
    Form form = Form::symbol;
    std::string symbol;             ///< for symbol and boxed
    std::vector<std::string> above; ///< lines of lettering over the body, the first is the name
    std::vector<std::string> below; ///< lines of lettering under the body
    std::vector<Tap> taps;
    bool gateway = false; ///< holds a communications gateway, wired to its transformer
    bool control = false; ///< control wiring comes to it
    std::vector<std::string> electrodes; ///< grounding electrodes that hang below, in words
    std::vector<int> notes;              ///< keyed notes beside the name
    // measured by nest
    Length left_zone{}, right_zone{}; ///< of a bus block: from edge to bus
    Length body_width{};
    Length width{};                ///< body and lettering
    Length body_up{}, body_down{}; ///< body above and below the line (grows in place)
    Length up{}, down{};           ///< body and lettering above and below the line (likewise)
    // known after rank
    int column = 0; ///< 0 is the utility's, growing to the left
    // known after place
    Length line{}; ///< y of the line that runs through to the parent
    Box body;

    const Tap* tap(std::string_view terminal) const;
    Tap* tap(std::string_view terminal);
};

struct Wire {
    int circuit = -1;
    int child = -1, parent = -1; ///< blocks
    std::vector<Point> points;   ///< known after route
};

/// Control wiring that belongs together, drawn as one tree of dashed lines: a gateway and all that
/// it talks to. Members are equipment; where a current transformer reports to the gateway, the
/// equipment that holds it is a member.
struct ControlNet {
    int gateway = -1;
    std::vector<int> members;
};

struct Plan {
    const System& system;
    const Study& study;
    const SymbolSet& symbols;
    const DiagramStyle& style;
    const TextMeasure& measure;
    Spacing spacing;
    Size area;
    std::vector<Block> blocks; ///< parallel to System::equipment
    std::vector<Wire> wires;   ///< one a circuit that is drawn
    std::vector<ControlNet> controls;
    std::vector<std::string> notes; ///< keyed notes

    Block& block(int equipment) { return blocks[static_cast<std::size_t>(equipment)]; }
    const Block& block(int equipment) const { return blocks[static_cast<std::size_t>(equipment)]; }
    const Equipment& of(const Block& b) const { return system.at(b.equipment); }
};

// The steps, in the order in which draw_diagram() takes them.

void nest(Plan& plan, Findings& findings);  ///< equipment becomes blocks with measured lettering
void rank(Plan& plan);                      ///< which column each block stands in
void place(Plan& plan, Findings& findings); ///< where blocks and taps stand
void route(Plan& plan);                     ///< power wires
Frame ink(const Plan& plan);                ///< marks of blocks and wires
void route_controls(const Plan& plan, Frame& frame, Findings& findings); ///< around all else
void letter(const Plan& plan, Frame& frame, Findings& findings);         ///< conductor tags

/// The outline of a conductor tag: a flat hexagon.
Path tag_outline(const Box& box);
Size tag_size(const Plan& plan, const std::string& tag);
/// A conductor tag in its box: outline, lettering, anchor, and the way to the schedule.
void add_tag(const Plan& plan, Frame& frame, const Box& box, const std::string& tag);

/// Every block and wire as sorted text: for tests and for comparing two layouts.
std::string dump(const Plan& plan);

/// Whether the equipment hangs on the backup side of its parent, and so stands at its right.
bool is_backed_up(const Plan& plan, int equipment);
/// Names of the graphic symbols that a block is drawn with.
std::vector<std::string> symbols_needed(const Block& block);
/// The symbol named; throws std::logic_error when it is missing, which `nest` has ruled out.
const Symbol& symbol_of(const Plan& plan, std::string_view name);
/// Where a terminal of a placed block is.
Point terminal_at(const Plan& plan, const Block& block, std::string_view terminal);
/// Where control wiring meets a placed block: its upper edge, or the right one where the block
/// holds the gateway.
Point control_at(const Plan& plan, const Block& block);

} // namespace ohmfolio::diagram
