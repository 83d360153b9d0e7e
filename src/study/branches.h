/// Most microinverters on one circuit, as a rule that knows no system.
#pragma once

#include <string>

#include "code/rules.h"

namespace ohmfolio::workings {

/// `limit` ÷ (125 % of `output`), rounded down. `by` names what sets the limit: "breaker", "trunk".
Term<Ratio> most_inverters(Desk, const std::string& by, const Term<Amps>& limit,
                           const Term<Amps>& output);

} // namespace ohmfolio::workings
