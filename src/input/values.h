/// One value as the drafter writes it: "85 ft", "20 A 2P", "NEC 2023". Units are demanded, numbers
/// never depend on the machine's locale, and what is not understood says what would be.
#pragma once

#include <optional>
#include <string>
#include <variant>

#include "base/angle.h"
#include "base/edition.h"
#include "base/quantity.h"
#include "base/wire.h"
#include "input/keys.h"
#include "model/site_plan.h"
#include "model/supply.h"
#include "toml/toml.h"

namespace ohmfolio {

struct LoadBreaker {
    Amps rating{};
    int poles = 1;
};
struct ServiceRating {
    Supply supply = Supply::split_phase;
    Volts to_neutral{}, voltage{};
    Amps rating{};
};
/// A ratio that was written in per cent: 0.02 for "2 %".
struct Fraction {
    double value = 0;
};

using Value = std::variant<std::string, bool, int, double, Fraction, Watts, Volts, Amps, WattHours,
                           Feet, Celsius, WireSize, TradeSize, RacewayKind, Material, Insulation,
                           Edition, LoadBreaker, ServiceRating, SquareFeet, Degrees, PlanPoint>;

/// A value, or why there is none.
struct Understood {
    std::optional<Value> value;
    std::string rule; ///< "input.type", "input.unit" or "input.value"
    std::string message;
    std::string hint;
};

Understood understand(const Key& key, const toml_text::Node& node);

/// What the key takes, with an example: `a length in ft, in, m, cm or mm, such as "46 ft"`.
std::string expected(const Key& key);

/// The node that the key's fallback would be if it had been written.
toml_text::Node fallback_node(const Key& key, Span span);

} // namespace ohmfolio
