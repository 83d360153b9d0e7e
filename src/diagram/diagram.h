/// The single-line diagram, placed and routed by itself: system and study in, frame out.
/// Steps, each in a file of its own: nest, fold, caption, order, divide, measure, rank, place,
/// route, letter.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "base/finding.h"
#include "drawing/frame.h"
#include "drawing/lint.h"
#include "drawing/measure.h"
#include "model/system.h"
#include "study/study.h"
#include "symbol/symbol.h"

namespace ohmfolio {

/// Wording beside one kind of equipment: lines with fields in braces, "{id} {title}". A line all of
/// whose fields are empty is left out.
struct Callout {
    std::vector<std::string> above; ///< over the body; the first line is the name
    std::vector<std::string> below; ///< under the body
};

struct DiagramStyle {
    TextStyle note; ///< callouts, ratings
    TextStyle name; ///< names of equipment
    TextStyle tag;  ///< conductor tags
    /// By kind: branch, junction_box, combiner, disconnect, mid, battery, panel, meter, utility.
    std::map<std::string, Callout> callouts{};
    /// Keyed notes by what they are about: rapid_shutdown, utility_disconnect, storage_disconnect,
    /// point_of_connection, bonding, mid. One without wording is not drawn.
    std::map<std::string, std::string> notes{};
    /// Numbers of the placards on a piece of equipment, by its id: the field {placards}.
    std::map<std::string, std::vector<std::string>, std::less<>> placards{};
};

struct DiagramPage {
    Frame frame;               ///< as large as `area` asked for
    std::vector<int> notes;    ///< keyed notes that it uses, from 1
    std::vector<int> circuits; ///< drawn on it, also those for which another stands
    bool grounding = false;    ///< the grounding electrodes are drawn on it
};

struct Diagram {
    std::vector<DiagramPage> pages;
    std::vector<std::string> symbols; ///< names of the symbols used, for the legend
    std::vector<std::string> notes;   ///< keyed notes, in order of their numbers
};

/// How pages and places on them are named where the drawing goes on elsewhere.
struct PageNames {
    std::function<std::string(std::size_t page)> sheet; ///< "E-602"
    std::function<std::string(Point)> zone;             ///< "B4"
};

/// Draws the whole on one page of size `area` where it fits. Where it does not, what is alike is
/// drawn once, "typical of 4"; where that is not enough, it goes on on further pages, with match
/// marks. A piece that fits no page is a finding.
///
/// Ports carry names "equipment:ID/terminal", wires show "circuit:C3", equipment marks show
/// "equipment:ID", breakers "breaker:Q3". What is drawn once for several has ports that name the
/// terminals of all; the two ends of a wire that goes on elsewhere meet in a port of one name,
/// "match:...". Conductor tags link to "circuit:C3" rows ("schedule:C3") and
/// carry anchor "diagram:C3".
Diagram draw_diagram(const System& system, const Study& study, const SymbolSet& symbols,
                     const DiagramStyle& style, Size area, const PageNames& names,
                     const TextMeasure& measure, Findings& findings);

/// The terminals that the wires must join, from the system alone, to compare with read_netlist().
Netlist intended_netlist(const System& system);

} // namespace ohmfolio
