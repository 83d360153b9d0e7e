/// Inside the render room: names of anchors in the files written.
#pragma once

#include <string>
#include <string_view>

namespace ohmfolio {

/// An anchor's name as an id that needs no quoting, neither in a reference within an SVG nor in a
/// PDF's list of destinations, where Cairo 1.16 forgets to: other bytes become their code between
/// underscores, so that different names stay different.
std::string anchor_id(std::string_view name);

} // namespace ohmfolio
