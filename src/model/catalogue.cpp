#include "model/catalogue.h"

#include <algorithm>

namespace ohmfolio {

const Record* Catalogue::find(std::string_view key) const {
    const auto found = std::ranges::find(records, key, &Record::key);
    return found == records.end() ? nullptr : &*found;
}

std::optional<int> phases_of(const Ratings& ratings) {
    return std::visit(
        [](const auto& r) -> std::optional<int> {
            if constexpr (requires { r.phases; })
                return r.phases;
            return std::nullopt;
        },
        ratings);
}

std::optional<Volts> output_voltage_of(const Ratings& ratings) {
    return std::visit(
        [](const auto& r) -> std::optional<Volts> {
            if constexpr (requires { r.output_voltage; })
                return r.output_voltage;
            return std::nullopt;
        },
        ratings);
}

} // namespace ohmfolio
