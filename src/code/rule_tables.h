/// Tables that one rule alone reads. Private to the room.
#pragma once

#include <optional>

#include "base/wire.h"
#include "code/code_book.h"

namespace ohmfolio {

/// Whose device Table 450.3(B) speaks of.
enum class TransformerSide { primary_alone, primary_of_both, secondary };

/// Largest device as a share of the rated current.
struct TransformerShare {
    double share = 0;
    bool next_size_up = false; ///< to the next standard rating where the share is none
};
TransformerShare transformer_share(const CodeBook&, TransformerSide, Amps rated);

/// Constant of a conductor in the point-to-point method, and the row it was read from.
struct FaultConstant {
    FeetPerOhm value;
    WireSize row;
};
/// A size without a row reads the next larger one, whose higher constant gives a higher fault
/// current: the safe side. So does the nonmagnetic column, for whatever is not in steel.
std::optional<FaultConstant> fault_constant(WireSize, Material, RacewayKind);

} // namespace ohmfolio
