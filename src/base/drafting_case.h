/// Lettering on drawings is upper case, save where case carries meaning: kW, kWh, kA, Vmp.
#pragma once

#include <string>
#include <string_view>

namespace ohmfolio {

/// Upper case, word by word, leaving units (kW, kWh, kVA, kA, kcmil, in, ft after a number) and
/// words that hold both a digit and a unit as they are.
std::string drafting_case(std::string_view text);

} // namespace ohmfolio
