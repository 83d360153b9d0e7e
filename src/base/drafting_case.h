/// Lettering on drawings is upper case, save where case carries meaning.
#pragma once

#include <string>
#include <string_view>

namespace ohmfolio {

/// Upper case, word by word. As they are stay units (kW, kWh, kVA, kA, kcmil, ft, and "in" and "s"
/// after a number), quantities whose letters tell them apart (Voc, Vmp, Isc, Imp) and the letters
/// of paragraphs: 690.8(A)(1)(c), since (c) and (C) are different paragraphs.
std::string drafting_case(std::string_view text);

} // namespace ohmfolio
