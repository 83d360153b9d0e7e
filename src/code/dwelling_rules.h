/// Service and feeder conductors of a dwelling: when 83 % of the rating is enough (310.12; in 2017
/// 310.15(B)(7)). `size_conductor` applies the share; this tells whether it may.
#pragma once

#include <string>

#include "code/desk.h"

namespace ohmfolio {

/// What the conductors are supplied from.
enum class DwellingSupply {
    single_phase,   ///< 120/240 V, three wires
    lines_of_a_wye, ///< two lines and the neutral of 208Y/120 V: feeders only
    other
};

struct DwellingShareInput {
    DwellingSupply supply = DwellingSupply::single_phase;
    Term<Amps> rating;      ///< of the service or feeder
    bool feeder = false;    ///< a feeder to a dwelling unit, not a service
    bool whole_load = true; ///< they carry the entire load of the dwelling unit
};

struct DwellingShare {
    bool applies = false;
    std::string reason; ///< "450 A is not within 100 A to 400 A"
};

/// Writes one line, "dwelling_share", with the outcome and why. That the share does not apply is
/// not a fault: the conductors then keep to the ordinary rules.
DwellingShare dwelling_share(const Desk&, const DwellingShareInput&);

/// The ratings that the share is for.
bool has_dwelling_rating(const CodeBook&, Amps rating);

} // namespace ohmfolio
