#include "input/named_records.h"

#include <cmath>
#include <fmt/format.h>

#include "base/text.h"
#include "input/catalogue_reader.h"
#include "input/faults.h"

namespace ohmfolio {
namespace {

std::vector<std::string> keys_of_kind(const Catalogue& catalogue, std::string_view kind) {
    std::vector<std::string> keys;
    for (const Record& record : catalogue.records) {
        if (record_kind(record) == kind) {
            keys.push_back(record.key);
        }
    }
    return keys;
}

/// The record that is named, if it is one of `kind`.
const Record* named_record(const Catalogue& catalogue, const Record& by,
                           const Spanned<std::string>& name, std::string_view kind,
                           Findings& findings) {
    const Record* found = catalogue.find(name.value);
    if (found != nullptr && record_kind(*found) == kind) {
        return found;
    }
    const std::string message =
        found == nullptr ? fmt::format("no {} record \"{}\" in the catalogue", kind, name.value)
                         : fmt::format("\"{}\" is a {} record", name.value, record_kind(*found));
    findings.push_back(input_fault("input.reference", name.span, "record:" + by.key, message,
                                   {fmt::format("the key of a {} record", kind),
                                    did_you_mean(name.value, keys_of_kind(catalogue, kind))}));
    return nullptr;
}

/// What the microinverter states of its cable, and what the cable states, are the same cable.
void check_cable(const Record& by, const Spanned<std::string>& name, const TrunkCableRatings& cable,
                 Findings& findings) {
    const auto& inverter = std::get<MicroinverterRatings>(by.ratings);
    const Feet spacing =
        cable.portrait ? inverter.drop_spacing_portrait : inverter.drop_spacing_landscape;
    constexpr double same = 0.005; // feet
    if (cable.drop_spacing <= Feet{0} || spacing <= Feet{0}) {
        return; // one of them is missing, which is told elsewhere
    }
    if (cable.size == inverter.trunk_size &&
        std::abs((cable.drop_spacing - spacing).value) < same) {
        return;
    }
    findings.push_back(input_warning(
        "input.nameplate", name.span, "record:" + by.key,
        fmt::format("\"{}\" is {} with drops {} ft apart; {} states {} and {} ft", name.value,
                    ohmfolio::name(cable.size), trimmed(cable.drop_spacing.value, 2), by.key,
                    ohmfolio::name(inverter.trunk_size), trimmed(spacing.value, 2)),
        {"one size and one spacing in both records", "compare with the instructions"}));
}

} // namespace

void check_named_records(const Catalogue& catalogue, Findings& findings) {
    for (const Record& record : catalogue.records) {
        for (const auto& name : record.breakers) {
            named_record(catalogue, record, name, "breaker", findings);
        }
        for (const auto& name : record.trunk_cables) {
            const Record* cable = named_record(catalogue, record, name, "trunk_cable", findings);
            if (cable != nullptr) {
                check_cable(record, name, std::get<TrunkCableRatings>(cable->ratings), findings);
            }
        }
    }
}

} // namespace ohmfolio
