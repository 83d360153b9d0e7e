/// The single-line diagram while it is being laid out: blocks, their taps, and the wires between
/// them. Each step of the chain (nest, fold, caption, divide, then for each page measure, rank,
/// place, route, letter) takes a plan and knows more when it is done; `dump` writes it as text at
/// any point.
#pragma once

#include <functional>
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
    Length tag_clear = inches(0.02);    ///< between a conductor tag and the bodies at its sides
    Length row_gap = inches(0.16);      ///< between one row's lettering and the next row's
    Length tap_pitch = inches(0.36);    ///< between taps of a bus
    Length load_pitch = inches(0.25);   ///< between load taps of a bus
    Length coil_room = inches(0.11);    ///< more between load taps over the coil of a contactor
    Length bus_width = inches(0.80);    ///< least width of an enclosure with a bus
    Length bus_overhang = inches(0.10); ///< of the bus past its last tap
    Length body_pad = inches(0.10);     ///< inside an enclosure
    Length electrode_pitch = inches(1.05);  ///< least between grounding electrodes
    Length table_room = inches(1.9);        ///< left free above the drawing first, for a table
    Length lead = inches(0.08);             ///< shortest wire inside an enclosure
    Length gateway_drop = inches(0.10);     ///< between a gateway and its current transformer
    Length control_clear = inches(0.10);    ///< between control wiring and everything else
    Length caption_overhang = inches(0.36); ///< of lettering past a symbol, both sides together
    Length caption_least = inches(0.90);    ///< lettering may always be this wide
};

enum class Form {
    symbol,  ///< one graphic symbol
    boxed,   ///< one graphic symbol in an enclosure
    splices, ///< an enclosure through which circuits pass side by side
    bus,     ///< an enclosure with a vertical bus and taps to both sides
    match    ///< what stands on another page: a match mark for each wire
};

/// A terminal of equipment, as circuits name it.
struct Terminal {
    int equipment = -1;
    std::string name; ///< "in1"
};

/// What a tap's wire passes through inside the block.
enum class Device {
    none,
    breaker,
    main,
    contact,   ///< toward the utility, of a MID or a transfer switch
    standby,   ///< of a transfer switch, toward its generator
    tracker,   ///< of an inverter's input, each of which finds its own maximum power
    converter, ///< of an inverter, direct current to alternating
    load       ///< a breaker of a panel that a load hangs on
};

/// One way into or out of a block.
struct Tap {
    std::vector<Terminal> terminals; ///< all that it stands for; none for a load that ends inside
    Side side = Side::left;
    bool toward_utility = false;
    Device device = Device::none;
    std::string symbol;                    ///< of the device, empty: plain wire
    std::vector<int> breakers;             ///< indices into System::breakers
    std::string label;                     ///< above the symbol: "Q1 20 A 2P"
    std::string controller;                ///< id of the load controller whose contactor is in it
    std::vector<int> loads;                ///< of the panel: those that the tap ends in
    std::string load;                      ///< lettering of these loads, with their rating
    std::vector<std::string> transformers; ///< tags of the current transformers on it
    std::string transformer;               ///< their lettering; empty: none
    bool merged = false;                   ///< drawn by another tap; gone when `fold` is done
    Length y{};                            ///< below the block's line, set by `place`
};

/// Blocks refer to one another, and wires to blocks, by their indices in Plan::blocks.
struct Block {
    int equipment = -1;       ///< of a match mark: the equipment on the other page
    std::vector<int> members; ///< all equipment that the block stands for, that one first
    int parent = -1;
    std::vector<int> children;
    std::vector<int> wires; ///< to the parent, from the top down
    bool hung = false;      ///< stands at the right of its parent: power flows to it
    Form form = Form::symbol;
    std::string symbol;               ///< for symbol and boxed
    std::vector<std::string> name;    ///< wording over the body; the first line is the name
    std::vector<std::string> wording; ///< under the body
    std::vector<Tap> taps;
    bool gateway = false; ///< holds a communications gateway, wired to its transformer
    bool control = false; ///< control wiring comes to it
    std::vector<std::string> electrodes; ///< grounding electrodes that hang below, in words
    std::vector<int> notes;              ///< keyed notes beside the name
    std::string match;                   ///< of a match mark: the same word on both pages
    bool continues = false;              ///< its bus began on another page
    /// An inverter that backs up a panel: its bus is of direct current, and right of the converter
    /// stands another, with the isolating contact and the backup feeder.
    bool ac_bus = false;
    // measured: `name` and `wording` broken into lines, and sizes
    std::vector<std::string> above, below;
    Length name_shift{};              ///< to the left, clear of control wiring from above
    Length left_zone{}, right_zone{}; ///< of a bus block: from edge to bus
    Length body_width{};
    Length width{};                ///< body and lettering
    Length body_up{}, body_down{}; ///< body above and below the line (grows in place)
    Length up{}, down{};           ///< body and lettering above and below the line (likewise)
    // known after rank
    int column = 0; ///< 0 is the rightmost, growing to the left
    // known after place
    Length line{}; ///< y of the line that runs through to the parent
    Box body;
};

struct Wire {
    std::vector<int> circuits; ///< all that it stands for; none: a bus goes on on another page
    int child = -1, parent = -1;
    int child_tap = -1, parent_tap = -1; ///< indices into the blocks' taps
    std::string tag;                     ///< "C1–C4", of all its circuits
    Length beside_tag{};                 ///< room asked for beside it, for control wiring
    std::vector<Point> points;           ///< known after route
};

/// Control wiring that belongs together, drawn as one tree of dashed lines: a gateway and all that
/// it talks to. Where a current transformer reports to the gateway, the equipment that holds it is
/// a member. Of the whole drawing these are equipment, of a page blocks.
struct ControlNet {
    int gateway = -1;
    std::vector<int> members;
    int equipment = -1; ///< that holds the gateway
};

/// What every step reads and none changes.
struct Subject {
    const System& system;
    const Study& study;
    const SymbolSet& symbols;
    const DiagramStyle& style;
    const TextMeasure& measure;
    Size area; ///< of a page
};

struct Plan : Subject {
    Spacing spacing;
    std::vector<int> roots; ///< blocks nearest to the utility, from the top down
    std::vector<Block> blocks;
    std::vector<Wire> wires;
    std::vector<ControlNet> controls;
    std::vector<std::string> notes; ///< keyed notes of the whole drawing

    explicit Plan(const Subject& subject, const Spacing& distances = {})
        : Subject(subject), spacing(distances) {}

    Block& block(int index) { return blocks[static_cast<std::size_t>(index)]; }
    const Block& block(int index) const { return blocks[static_cast<std::size_t>(index)]; }
    Wire& wire(int index) { return wires[static_cast<std::size_t>(index)]; }
    const Wire& wire(int index) const { return wires[static_cast<std::size_t>(index)]; }
    const Equipment& of(const Block& b) const { return system.at(b.equipment); }
    const Circuit& circuit(int index) const {
        return system.circuits[static_cast<std::size_t>(index)];
    }
    Tap& child_tap(const Wire& w) {
        return block(w.child).taps[static_cast<std::size_t>(w.child_tap)];
    }
    const Tap& child_tap(const Wire& w) const {
        return block(w.child).taps[static_cast<std::size_t>(w.child_tap)];
    }
    Tap& parent_tap(const Wire& w) {
        return block(w.parent).taps[static_cast<std::size_t>(w.parent_tap)];
    }
    const Tap& parent_tap(const Wire& w) const {
        return block(w.parent).taps[static_cast<std::size_t>(w.parent_tap)];
    }
};

/// How far a page is wider and higher than its area; zero where it fits.
struct Excess {
    Length width{}, height{};
    bool none() const { return width == Length{} && height == Length{}; }
};

// The steps, in the order in which draw_diagram() takes them.

void nest(Plan& whole);    ///< equipment becomes blocks
void order(Plan& whole);   ///< which child comes first, which ones stand at the right
void connect(Plan& whole); ///< circuits become wires between taps
/// False, with findings, where a symbol is missing; later steps need all of them.
bool symbols_present(const Plan& whole, Findings& findings);
/// Which kinds of things that are alike are drawn once for all of them.
enum class Folding { none, many, equal, loads_too };
void fold(Plan& whole, Folding folding);
void caption(Plan& whole); ///< what is written beside each block and over each breaker
/// The pages, each a plan of its own with match marks where it goes on elsewhere. A piece that no
/// page can hold is a finding.
std::vector<Plan> divide(const Plan& whole, Findings& findings);
void measure(Plan& page); ///< how much room bodies and lettering take
void rank(Plan& page);    ///< which column each block stands in
Excess place(Plan& page); ///< where blocks and taps stand
void route(Plan& page);   ///< power wires
/// What is written in a match mark: "E-602 B4", sheet and zone of its other end.
using References = std::function<std::string(const std::string& match)>;
Frame ink(const Plan& page, const References& references); ///< marks of blocks and wires
/// Conductor tags of these wires; which of them found no place.
std::vector<int> letter(const Plan& page, Frame& frame, const std::vector<int>& wires,
                        Findings& findings);
void route_controls(const Plan& page, Frame& frame, Findings& findings); ///< around all else

/// The outline of a conductor tag: a flat hexagon.
Path tag_outline(const Box& box);
Size tag_size(const Plan& plan, const std::string& tag);
/// A conductor tag in its box: outline, lettering, and the way to the schedule row of the first of
/// `circuits`.
void add_tag(const Plan& plan, Frame& frame, const Box& box, const std::string& words,
             const std::string& circuit);

/// Every block and wire as sorted text: for tests and for comparing two layouts.
std::string dump(const Plan& plan);

/// Names of the graphic symbols that a block is drawn with.
std::vector<std::string> symbols_needed(const Block& block);
/// The symbol named; throws std::logic_error when it is missing, which `nest` has ruled out.
const Symbol& symbol_of(const Plan& plan, std::string_view name);
/// Where a tap of a placed block meets the wire outside.
Point terminal_at(const Plan& plan, const Block& block, const Tap& tap);
/// Where control wiring meets a placed block: its upper edge, the right one where the block holds
/// the gateway, the outer end of a match mark.
Point control_at(const Plan& plan, const Block& block);
/// Names of all that a block or a tap stands for, as ports and marks bear them, the one that is
/// drawn first: "equipment:PV-1", "equipment:PV-1/out", "breaker:Q1".
std::vector<std::string> member_names(const Plan& plan, const Block& block, std::string_view kind);
std::vector<std::string> terminal_names(const Plan& plan, const Tap& tap);
std::vector<std::string> device_names(const Plan& plan, const Block& block, const Tap& tap);
/// Room for the converter between the two buses of a block that has them.
Length converter_room(const Plan& plan, const Block& block);
/// Width of a tap's device and of the contactor in series with it, if any.
Length device_width(const Plan& plan, const Tap& tap);
/// "circuit:C3"; "bus:CP-1" where a bus goes on on another page.
std::string shown_by(const Plan& plan, const Wire& wire);

} // namespace ohmfolio::diagram
