/// Overcurrent protection of transformers to 1000 V (450.3(B)).
#pragma once

#include <optional>

#include "code/desk.h"

namespace ohmfolio {

struct TransformerProtectionInput {
    Watts rating{}; ///< volt-amperes
    Volts primary{}, secondary{};
    int phases = 3;
    bool secondary_device = true; ///< false: the primary device alone protects it
    DeviceKind device = DeviceKind::breaker;
    std::optional<Amps> stated_primary = {}, stated_secondary = {};
};

struct TransformerProtectionResult {
    Amps primary_current{}, secondary_current{}; ///< rated
    Amps most_primary{};                         ///< largest standard device that is permitted
    std::optional<Amps> most_secondary = {};
    bool passes = true; ///< of stated devices
};

TransformerProtectionResult transformer_protection(const Desk&, const TransformerProtectionInput&);

/// Rated current of a winding: S ÷ V, or S ÷ (√3 × V). The line is "<name>_current".
Term<Amps> rated_current(const Desk&, const std::string& name, const std::string& symbol,
                         Watts rating, Volts voltage, int phases);

} // namespace ohmfolio
