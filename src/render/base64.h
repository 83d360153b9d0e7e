/// Inside the render room: bytes as text within an SVG.
#pragma once

#include <string>
#include <string_view>

namespace ohmfolio {

/// RFC 4648, section 4: with padding, without line breaks.
std::string base64(std::string_view bytes);

} // namespace ohmfolio
