#include "model/equipment.h"

#include <fmt/format.h>

#include "base/text.h"

namespace ohmfolio {

std::string name(const SurgeDevice& device) {
    std::string result = fmt::format("Type {}", device.type);
    if (device.discharge)
        result += fmt::format(", {} kA", trimmed(device.discharge->value / 1000, 1));
    return result;
}

const SurgeDevice* surge_device(const Equipment& e) {
    const std::optional<SurgeDevice>* device = nullptr;
    if (const auto* panel = e.as<Panel>())
        device = &panel->surge_device;
    else if (const auto* disconnect = e.as<Disconnect>())
        device = &disconnect->surge_device;
    return device != nullptr && *device ? &**device : nullptr;
}

} // namespace ohmfolio
