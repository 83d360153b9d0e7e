/// Currents that circuits are rated for, and the devices that protect them (690.8, 705.28, 240.4,
/// 240.6).
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "code/desk.h"

namespace ohmfolio {

/// DC source circuit: 125 % of the sum of parallel short-circuit currents (690.8(A)).
Term<Amps> source_circuit_current(const Desk&, Amps isc, int parallel);
/// 125 % of a continuous current: the ampacity or rating needed before corrections. The line is
/// named for the rule: "conductor_continuous", "overcurrent".
Term<Amps> required_rating(const Desk&, const Term<Amps>& continuous, std::string_view rule_id);

/// Smallest standard rating not below `required`; among `offered` when not empty (compatible
/// breakers of an enclosure).
std::optional<Term<Amps>> overcurrent_rating(const Desk&, const Term<Amps>& required,
                                             const std::vector<Amps>& offered = {},
                                             const std::string& offered_by = "the enclosure");
/// A stated rating against what is required, by the paragraph of `rule_id`, and what is standard:
/// lines "rating_sufficient" and "rating_standard".
bool check_overcurrent_rating(const Desk&, const Term<Amps>& stated, const Term<Amps>& required,
                              std::string_view rule_id = "overcurrent.standard");

} // namespace ohmfolio
