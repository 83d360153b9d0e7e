/// Surge protection of dwellings: at the service (230.67) and, since 2023, at what a feeder
/// supplies (215.18).
#pragma once

#include <optional>
#include <string>

#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

enum class SurgePlace { service, feeder };

/// Whether there is a device: `where` it is, "Type 2 in MSP"; empty: none is stated. Nothing where
/// the edition does not ask for one.
std::optional<RuleVerdict> check_surge_device(const Desk&, SurgePlace, const std::string& where);

/// Its nominal discharge current; nothing given: it is not stated, and the rule is not met.
std::optional<RuleVerdict> check_surge_discharge(const Desk&, SurgePlace,
                                                 const std::optional<Term<Amps>>& discharge);

} // namespace ohmfolio
