#include <fmt/format.h>

#include "base/text.h"
#include "sheet/schedules.h"

namespace ohmfolio::sheets {

namespace {

std::string volts(Volts v) { return trimmed(v.value, 2) + " V"; }
std::string amps(Amps a) { return trimmed(a.value, 2) + " A"; }
std::string volts(Volts v, int phases) { return volts(v) + (phases == 3 ? ", 3 phase" : ""); }
std::string on_phases(int phases) { return phases == 3 ? ", 3 phase" : ""; }
std::string kiloamps(Amps a) {
    return a.value > 0 ? fmt::format(", {} kA SCCR", trimmed(a.value / 1000, 1)) : std::string{};
}

std::string battery_input(const BatteryInputRatings& r) {
    return r.inputs == 0 ? std::string{}
                         : fmt::format(", {} battery input{} of {} to {} and {}", r.inputs,
                                       r.inputs == 1 ? "" : "s", volts(r.low), volts(r.high),
                                       amps(r.current));
}
std::string backup(const BackupOutputRatings& r) {
    return r.output.value <= 0
               ? std::string{}
               : fmt::format(", backup {} kVA, breaker max. {}", trimmed(r.output.value / 1000, 2),
                             amps(r.breaker_limit));
}

struct Writer {
    std::string operator()(const ModuleRatings& r) const {
        return fmt::format("{} W, Voc {}, Vmp {}, Isc {}, Imp {}, max. series fuse {}",
                           trimmed(r.power.value, 1), volts(r.voc), volts(r.vmp), amps(r.isc),
                           amps(r.imp), amps(r.series_fuse));
    }
    std::string operator()(const MicroinverterRatings& r) const {
        return fmt::format("{} VA, {}, {}, DC input max. {}, MPPT {} to {}, branch breaker max. {}",
                           trimmed(r.output.value, 1), volts(r.output_voltage, r.phases),
                           amps(r.output_current), volts(r.input_limit), volts(r.tracking_low),
                           volts(r.tracking_high), amps(r.branch_breaker_limit));
    }
    std::string operator()(const CombinerRatings& r) const {
        return fmt::format(
            "{} bus{}, {} branch inputs, branch breakers max. {} each, {} in all{}{}", amps(r.bus),
            on_phases(r.phases), r.branch_inputs, amps(r.branch_breaker_limit),
            amps(r.branch_breakers_total), kiloamps(r.interrupting), r.gateway ? ", gateway" : "");
    }
    std::string operator()(const MidRatings& r) const {
        return fmt::format(
            "{} bus{}, PV {} continuous, storage {} input{} of {} continuous, backup "
            "breaker max. {}{}{}{}",
            amps(r.bus), on_phases(r.phases), amps(r.pv_continuous), r.storage_inputs,
            r.storage_inputs == 1 ? "" : "s", amps(r.storage_continuous),
            amps(r.backup_breaker_limit), kiloamps(r.interrupting),
            r.interlocked ? ", storage and generator inputs interlocked" : "",
            r.forms_neutral ? ", forms a neutral" : "");
    }
    std::string operator()(const BatteryRatings& r) const {
        if (r.direct_current()) {
            return fmt::format(
                "{} kWh usable, {} kW, {} DC, {} to {}, {}{}, overcurrent device max. "
                "{}, {} units to a circuit",
                trimmed(r.energy.value / 1000, 2), trimmed(r.output.value / 1000, 2),
                volts(r.output_voltage), volts(r.lowest), volts(r.highest), amps(r.output_current),
                r.breaker.value > 0 ? fmt::format(", {} breaker", amps(r.breaker)) : std::string{},
                amps(r.breaker_limit), r.chain_limit);
        }
        return fmt::format("{} kWh usable, {} kVA, {}, {}, breaker max. {}, {} units to a circuit",
                           trimmed(r.energy.value / 1000, 2), trimmed(r.output.value / 1000, 2),
                           volts(r.output_voltage, r.phases), amps(r.output_current),
                           amps(r.breaker_limit), r.chain_limit);
    }
    std::string operator()(const PanelRatings& r) const {
        const std::string main =
            r.main_limit.value > 0 ? fmt::format(", main max. {}", amps(r.main_limit)) : ", lugs";
        return fmt::format("{} bus{}{}{}", amps(r.bus), on_phases(r.phases), main,
                           kiloamps(r.interrupting));
    }
    std::string operator()(const DisconnectRatings& r) const {
        return fmt::format(
            "{}, {}P, {}{}{}{}", amps(r.rating), r.poles, r.fused ? "fused" : "not fused",
            r.dc_voltage.value > 0 ? fmt::format(", {} DC", volts(r.dc_voltage)) : std::string{},
            r.lockable ? ", lockable open" : "", kiloamps(r.interrupting));
    }
    std::string operator()(const StringInverterRatings& r) const {
        return fmt::format("{} kVA, {}, {}, DC input max. {}, MPPT {} to {}, {} input{} of {} and "
                           "Isc {}, breaker max. {}{}{}{}",
                           trimmed(r.output.value / 1000, 2), volts(r.output_voltage, r.phases),
                           amps(r.output_current), volts(r.input_limit), volts(r.tracking_low),
                           volts(r.tracking_high), r.inputs, r.inputs == 1 ? "" : "s",
                           amps(r.input_current), amps(r.input_short_circuit),
                           amps(r.breaker_limit), battery_input(r.battery), backup(r.backup),
                           r.interrupting.value > 0 ? kiloamps(r.interrupting) : std::string{});
    }
    std::string operator()(const GeneratorRatings& r) const {
        return fmt::format("{} kVA, {}, {}{}", trimmed(r.output.value / 1000, 2),
                           volts(r.output_voltage, r.phases), amps(r.output_current),
                           r.breaker.value > 0 ? fmt::format(", {} breaker", amps(r.breaker))
                                               : std::string{});
    }
    std::string operator()(const TransferSwitchRatings& r) const {
        return fmt::format(
            "{}, {}P, {}{}{}", amps(r.rating), r.poles, r.automatic ? "automatic" : "manual",
            r.service_equipment ? ", suitable as service equipment" : "", kiloamps(r.interrupting));
    }
    std::string operator()(const LoadControllerRatings& r) const {
        return fmt::format("{} loads at 240 V or {} at 120 V", r.loads_240, r.loads_120);
    }
    std::string operator()(const SupplyConnectionRatings& r) const {
        return fmt::format("{}{}{}", amps(r.rating), on_phases(r.phases), kiloamps(r.interrupting));
    }
    std::string operator()(const ModuleElectronicsRatings& r) const {
        std::string text = fmt::format("module max. {} W, {}, Isc {}", trimmed(r.power.value, 1),
                                       volts(r.input_limit), amps(r.input_current_limit));
        if (r.converts())
            text += fmt::format(", output {}, {} to {} units in series, string max. {}",
                                amps(r.output_current), r.fewest, r.most, volts(r.string_voltage));
        return text + (r.shutdown ? ", rapid shutdown" : "");
    }
    std::string operator()(const BreakerFamilyRatings& r) const {
        return fmt::format("{}P, {} to {}{}", r.poles, amps(r.sizes.front()), amps(r.sizes.back()),
                           kiloamps(r.interrupting));
    }
    std::string operator()(const TrunkCableRatings& r) const {
        return fmt::format("{}, drops {} ft apart, {}", name(r.size),
                           trimmed(r.drop_spacing.value, 2), r.portrait ? "portrait" : "landscape");
    }
    std::string operator()(const JunctionBoxRatings&) const { return {}; }
    std::string operator()(const MeterRatings& r) const {
        return r.transformer_ratio.empty() ? amps(r.rating) + on_phases(r.phases)
                                           : fmt::format("{}, current transformers {}",
                                                         amps(r.rating), r.transformer_ratio);
    }
};

} // namespace

std::string ratings_text(const Record& record) { return std::visit(Writer{}, record.ratings); }

} // namespace ohmfolio::sheets
