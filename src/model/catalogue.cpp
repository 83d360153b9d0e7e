#include "model/catalogue.h"

#include <algorithm>

namespace ohmfolio {

const Record* Catalogue::find(std::string_view key) const {
    const auto found = std::ranges::find(records, key, &Record::key);
    return found == records.end() ? nullptr : &*found;
}

const Record* listed_breaker(const Catalogue& catalogue, const Record& holder, Amps rating,
                             int poles) {
    for (const auto& name : holder.breakers) {
        const Record* record = catalogue.find(name.value);
        const auto* family =
            record == nullptr ? nullptr : std::get_if<BreakerFamilyRatings>(&record->ratings);
        if (family != nullptr && family->poles == poles &&
            std::ranges::find(family->sizes, rating) != family->sizes.end())
            return record;
    }
    return nullptr;
}

const Record* trunk_cable_of(const Catalogue& catalogue, const Record& microinverter,
                             bool portrait) {
    for (const auto& name : microinverter.trunk_cables) {
        const Record* record = catalogue.find(name.value);
        const auto* cable =
            record == nullptr ? nullptr : std::get_if<TrunkCableRatings>(&record->ratings);
        if (cable != nullptr && cable->portrait == portrait)
            return record;
    }
    return nullptr;
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
