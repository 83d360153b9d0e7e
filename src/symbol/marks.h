/// The elements inside a symbol's <g>: outlines and lettering become marks of a frame.
#pragma once

#include <string>

#include "drawing/frame.h"
#include "symbol/element.h"
#include "symbol/symbol.h"

namespace ohmfolio {

/// How outlines are painted; handed down from <g> to its elements, as in SVG.
struct Paint {
    std::string stroke = "none";
    std::string fill = "black";
    std::string pen;   ///< class: thin, medium, wide
    std::string width; ///< stroke-width, for the sake of viewers
};

/// The paint of `element`: its own attributes over those of `outer`.
Paint painted(const Element& element, const Paint& outer);

/// Reads one <line>, <polyline>, <polygon>, <rect>, <circle> or <path>; false when `element` is
/// none of these.
bool read_outline(const Element& element, const Paint& outer, Frame& art);

/// Reads one <text>: fixed letters become a mark, text with data-slot becomes a slot.
void read_lettering(const Element& element, const Paint& outer, Symbol& symbol);

/// Reads one <circle data-port> and checks that it lies on the edge it names, by the symbol's size.
void read_port(const Element& element, const Paint& outer, Symbol& symbol);

} // namespace ohmfolio
