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
/// The same for a load of which only a part is continuous: 125 % of that part and the rest as it
/// is. `listed_100`: device and its assembly are listed for 100 % of their rating, so that the sum
/// is enough; the rule that says so is `rule_id` with ".full" in place of its last word.
struct LoadInput {
    Term<Amps> continuous;
    std::optional<Term<Amps>> noncontinuous = {};
    bool listed_100 = false;
};
Term<Amps> required_for_load(const Desk&, const LoadInput&, std::string_view rule_id);

/// How the adjustment of a breaker's trip is kept from the unqualified (240.6(C)).
enum class TripAccess { open, sealed_cover, bolted_door, locked_door, password };
/// The rating of a breaker whose trip can be set: its largest setting, or the setting itself where
/// access is restricted in a way that the edition knows. It need not be a standard rating.
struct AdjustableTrip {
    Amps largest{}, setting{};
    TripAccess access = TripAccess::open;
};
Term<Amps> adjustable_rating(const Desk&, const AdjustableTrip&);

/// The smallest that is not below `required`; nothing: none is.
std::optional<Amps> smallest_offered(const std::vector<Amps>& offered, Amps required);
/// Smallest standard rating not below `required`; among `offered` when not empty (compatible
/// breakers of an enclosure).
std::optional<Term<Amps>> overcurrent_rating(const Desk&, const Term<Amps>& required,
                                             const std::vector<Amps>& offered = {},
                                             const std::string& offered_by = "the enclosure",
                                             DeviceKind = DeviceKind::breaker);
/// A stated rating against what is required, by the paragraph of `rule_id`, and what is standard:
/// lines "rating_sufficient" and "rating_standard".
bool check_overcurrent_rating(const Desk&, const Term<Amps>& stated, const Term<Amps>& required,
                              std::string_view rule_id = "overcurrent.standard",
                              DeviceKind = DeviceKind::breaker);

} // namespace ohmfolio
