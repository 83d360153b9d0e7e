/// Upper case for the lettering of sheets that leaves paragraph letters of the code as they are.
#pragma once

#include <string>
#include <string_view>

namespace ohmfolio::sheets {

/// drafting_case(), but "690.8(A)(1)(c)" stays: (c) and (C) are different paragraphs.
std::string sheet_case(std::string_view text);

} // namespace ohmfolio::sheets
