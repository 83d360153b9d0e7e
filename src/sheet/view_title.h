/// The title of a view as the US National CAD Standard draws it.
#pragma once

#include <string_view>

#include "sheet/pages.h"

namespace ohmfolio::sheets {

/// The number of the view in a circle, its title over a line, the scale under it.
Frame view_title(std::string_view number, std::string_view title, std::string_view scale,
                 const Job& job);

} // namespace ohmfolio::sheets
