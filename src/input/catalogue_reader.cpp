#include "input/catalogue_reader.h"

#include <algorithm>
#include <array>
#include <fmt/format.h>

#include "input/faults.h"
#include "input/nameplate.h"

namespace ohmfolio {
namespace {

Watts watts(const Form& f, std::string_view key) { return f.value<Watts>(key); }
Volts volts(const Form& f, std::string_view key) { return f.value<Volts>(key); }
Amps amps(const Form& f, std::string_view key) { return f.value<Amps>(key); }
Feet feet(const Form& f, std::string_view key) { return f.value<Feet>(key); }
bool flag(const Form& f, std::string_view key) { return f.value<bool>(key); }
int count(const Form& f, std::string_view key) { return f.value<int>(key); }
int phases(const Form& f) { return f.value<int>("phases", 1); }

template <class T> std::optional<T> optional_value(const Form& f, std::string_view key) {
    const auto found = f.get<T>(key);
    return found ? std::optional(found->value) : std::nullopt;
}

Ratings module_ratings(const Form& f) {
    return ModuleRatings{.power = watts(f, "power"),
                         .voc = volts(f, "voc"),
                         .vmp = volts(f, "vmp"),
                         .isc = amps(f, "isc"),
                         .imp = amps(f, "imp"),
                         .voc_per_celsius = f.value<Fraction>("voc_temperature").value,
                         .vmp_per_celsius = f.value<Fraction>("vmp_temperature").value,
                         .series_fuse = amps(f, "series_fuse"),
                         .system_limit = volts(f, "system_limit"),
                         .width = feet(f, "width"),
                         .height = feet(f, "height")};
}

Ratings microinverter_ratings(const Form& f) {
    const auto tracking = f.values<Volts>("tracking");
    return MicroinverterRatings{
        .output = watts(f, "output"),
        .output_voltage = volts(f, "output_voltage"),
        .output_current = amps(f, "output_current"),
        .input_limit = volts(f, "input_limit"),
        .tracking_low = tracking.empty() ? Volts{} : tracking.front(),
        .tracking_high = tracking.empty() ? Volts{} : tracking.back(),
        .ratio_limit = f.value<double>("ratio_limit"),
        .branch_breaker_limit = amps(f, "branch_breaker_limit"),
        .trunk_size = f.value<WireSize>("trunk_size"),
        .trunk_ampacity = amps(f, "trunk_ampacity"),
        .drop_spacing_portrait = feet(f, "drop_spacing_portrait"),
        .drop_spacing_landscape = feet(f, "drop_spacing_landscape"),
        .neutral = flag(f, "neutral"),
        .input_current_limit = amps(f, "input_current_limit"),
        .trunk_ground = optional_value<WireSize>(f, "trunk_ground"),
        .grid_forming = flag(f, "grid_forming"),
        .efficiency = f.value<Fraction>("efficiency").value,
        .phases = phases(f),
    };
}

Volts first(const std::vector<Volts>& window) { return window.empty() ? Volts{} : window.front(); }
Volts last(const std::vector<Volts>& window) { return window.empty() ? Volts{} : window.back(); }

BatteryInputRatings battery_input(const Form& f) {
    const auto window = f.values<Volts>("battery_voltage");
    return {.inputs = count(f, "battery_inputs"),
            .low = first(window),
            .high = last(window),
            .current = amps(f, "battery_current"),
            .breaker_limit = amps(f, "battery_breaker_limit")};
}

BackupOutputRatings backup_output(const Form& f) {
    return {.output = watts(f, "backup_output"),
            .breaker_limit = amps(f, "backup_breaker_limit"),
            .surge = amps(f, "backup_surge"),
            .by_sun_alone = flag(f, "by_sun_alone")};
}

Ratings inverter_ratings(const Form& f) {
    const auto tracking = f.values<Volts>("tracking");
    return StringInverterRatings{
        .output = watts(f, "output"),
        .output_voltage = volts(f, "output_voltage"),
        .output_current = amps(f, "output_current"),
        .input_limit = volts(f, "input_limit"),
        .tracking_low = tracking.empty() ? Volts{} : tracking.front(),
        .tracking_high = tracking.empty() ? Volts{} : tracking.back(),
        .start = volts(f, "start"),
        .inputs = count(f, "inputs"),
        .strings_per_input = count(f, "strings_per_input"),
        .input_current = amps(f, "input_current"),
        .input_short_circuit = amps(f, "input_short_circuit"),
        .breaker_limit = amps(f, "breaker_limit"),
        .ratio_limit = f.value<double>("ratio_limit"),
        .efficiency = f.value<Fraction>("efficiency").value,
        .arc_fault = flag(f, "arc_fault"),
        .ground_fault = flag(f, "ground_fault"),
        .disconnect = flag(f, "disconnect"),
        .neutral = flag(f, "neutral"),
        .battery = battery_input(f),
        .backup = backup_output(f),
        .phases = phases(f),
        .interrupting = amps(f, "interrupting"),
    };
}

Ratings combiner_ratings(const Form& f) {
    return CombinerRatings{.bus = amps(f, "bus"),
                           .branch_inputs = count(f, "branch_inputs"),
                           .branch_breaker_limit = amps(f, "branch_breaker_limit"),
                           .branch_breakers_total = amps(f, "branch_breakers_total"),
                           .breaker_sizes = f.values<Amps>("breaker_sizes"),
                           .gateway = flag(f, "gateway"),
                           .interrupting = amps(f, "interrupting"),
                           .neutral = flag(f, "neutral"),
                           .phases = phases(f)};
}

Ratings mid_ratings(const Form& f) {
    return MidRatings{.bus = amps(f, "bus"),
                      .pv_continuous = amps(f, "pv_continuous"),
                      .pv_breaker_limit = amps(f, "pv_breaker_limit"),
                      .storage_inputs = count(f, "storage_inputs"),
                      .storage_continuous = amps(f, "storage_continuous"),
                      .storage_breaker_limit = amps(f, "storage_breaker_limit"),
                      .storage_limit = f.value<WattHours>("storage_limit"),
                      .storage_limit_power_control =
                          f.value<WattHours>("storage_limit_power_control"),
                      .backup_breaker_limit = amps(f, "backup_breaker_limit"),
                      .interrupting = amps(f, "interrupting"),
                      .generator_breaker_limit = amps(f, "generator_breaker_limit"),
                      .load_controllers = count(f, "load_controllers"),
                      .control_limit = feet(f, "control_limit"),
                      .phases = phases(f),
                      .interlocked = flag(f, "interlocked"),
                      .forms_neutral = flag(f, "forms_neutral")};
}

Ratings battery_ratings(const Form& f) {
    const auto window = f.values<Volts>("window");
    return BatteryRatings{.energy = f.value<WattHours>("energy"),
                          .output = watts(f, "output"),
                          .output_current = amps(f, "output_current"),
                          .output_voltage = volts(f, "output_voltage"),
                          .breaker_limit = amps(f, "breaker_limit"),
                          .chain_limit = count(f, "chain_limit"),
                          .neutral = flag(f, "neutral"),
                          .disconnect = flag(f, "disconnect"),
                          .surge = amps(f, "surge"),
                          .spacing = feet(f, "spacing"),
                          .lowest = first(window),
                          .highest = last(window),
                          .breaker = amps(f, "breaker"),
                          .fault_current = amps(f, "fault_current"),
                          .phases = phases(f)};
}

Ratings panel_ratings(const Form& f) {
    return PanelRatings{.bus = amps(f, "bus"),
                        .main_limit = amps(f, "main_limit"),
                        .interrupting = amps(f, "interrupting"),
                        .phases = phases(f)};
}

Ratings disconnect_ratings(const Form& f) {
    return DisconnectRatings{.rating = amps(f, "rating"),
                             .poles = count(f, "poles"),
                             .fused = flag(f, "fused"),
                             .lockable = flag(f, "lockable"),
                             .interrupting = amps(f, "interrupting"),
                             .service_equipment = flag(f, "service_equipment"),
                             .dc_voltage = volts(f, "dc_voltage")};
}

Ratings junction_box_ratings(const Form&) { return JunctionBoxRatings{}; }
Ratings meter_ratings(const Form& f) {
    return MeterRatings{.rating = amps(f, "rating"),
                        .transformer_ratio = f.text("transformer_ratio"),
                        .phases = phases(f)};
}

Ratings generator_ratings(const Form& f) {
    return GeneratorRatings{.output = watts(f, "output"),
                            .output_voltage = volts(f, "output_voltage"),
                            .output_current = amps(f, "output_current"),
                            .breaker = amps(f, "breaker"),
                            .surge = amps(f, "surge"),
                            .phases = phases(f)};
}

Ratings transfer_switch_ratings(const Form& f) {
    return TransferSwitchRatings{.rating = amps(f, "rating"),
                                 .poles = count(f, "poles"),
                                 .automatic = flag(f, "automatic"),
                                 .service_equipment = flag(f, "service_equipment"),
                                 .interrupting = amps(f, "interrupting")};
}

Ratings load_controller_ratings(const Form& f) {
    return LoadControllerRatings{.loads_240 = count(f, "loads_240"),
                                 .loads_120 = count(f, "loads_120"),
                                 .contact = amps(f, "contact")};
}

Ratings supply_connection_ratings(const Form& f) {
    return SupplyConnectionRatings{
        .rating = amps(f, "rating"), .interrupting = amps(f, "interrupting"), .phases = phases(f)};
}

Ratings module_electronics_ratings(const Form& f) {
    return ModuleElectronicsRatings{.input_limit = volts(f, "input_limit"),
                                    .input_current_limit = amps(f, "input_current_limit"),
                                    .power = watts(f, "power"),
                                    .shutdown = flag(f, "shutdown"),
                                    .shutdown_voltage = volts(f, "shutdown_voltage"),
                                    .shutdown_time = f.value<double>("shutdown_time"),
                                    .output_current = amps(f, "output_current"),
                                    .string_voltage = volts(f, "string_voltage"),
                                    .fewest = count(f, "fewest"),
                                    .most = count(f, "most"),
                                    .string_power = watts(f, "string_power")};
}

Ratings breaker_ratings(const Form& f) {
    return BreakerFamilyRatings{.poles = count(f, "poles"),
                                .sizes = f.values<Amps>("sizes"),
                                .interrupting = amps(f, "interrupting")};
}

Ratings trunk_cable_ratings(const Form& f) {
    return TrunkCableRatings{.size = f.value<WireSize>("size"),
                             .portrait = f.word("orientation").value_or(0) == 0,
                             .drop_spacing = feet(f, "drop_spacing"),
                             .drops = count(f, "drops"),
                             .end_cap = f.text("end_cap"),
                             .drop_cap = f.text("drop_cap")};
}

struct RecordKind {
    std::string_view table;
    Ratings (*ratings)(const Form&);
};

/// In the order of the variant `Ratings`, so that a record finds its kind by index.
constexpr std::array<RecordKind, std::variant_size_v<Ratings>> record_kinds = {{
    {"module", module_ratings},
    {"microinverter", microinverter_ratings},
    {"inverter", inverter_ratings},
    {"combiner", combiner_ratings},
    {"mid", mid_ratings},
    {"battery", battery_ratings},
    {"panel", panel_ratings},
    {"disconnect", disconnect_ratings},
    {"junction_box", junction_box_ratings},
    {"meter", meter_ratings},
    {"generator", generator_ratings},
    {"transfer_switch", transfer_switch_ratings},
    {"load_controller", load_controller_ratings},
    {"supply_connection", supply_connection_ratings},
    {"module_electronics", module_electronics_ratings},
    {"breaker", breaker_ratings},
    {"trunk_cable", trunk_cable_ratings},
}};

bool has_required_keys(const Form& form) {
    return std::ranges::all_of(form.shape->keys(), [&](const Key* key) {
        return !key->required || !form.items(key->name).empty();
    });
}

Record read_record(const Form& form, const RecordKind& kind) {
    Record record;
    record.key = form.id;
    record.maker = form.text("maker");
    record.model = form.text("model");
    record.listing = form.text("listing");
    record.enclosure = form.text("enclosure");
    record.terminals = form.value<Celsius>("terminals", Celsius{60});
    record.breakers = form.placed_values<std::string>("breakers");
    record.trunk_cables = form.placed_values<std::string>("trunk_cables");
    if (const auto cut_sheet = form.get<std::string>("cut_sheet")) {
        record.cut_sheet = *cut_sheet;
    }
    if (kind.table != "module") { // whose width and height are ratings
        record.width = form.value<Feet>("width");
        record.height = form.value<Feet>("height");
        record.depth = form.value<Feet>("depth");
    }
    record.span = form.span;
    record.ratings = kind.ratings(form);
    return record;
}

} // namespace

void read_records(const Form& form, Catalogue& catalogue, Findings& findings) {
    for (const RecordKind& kind : record_kinds) {
        for (const Form& record_form : form.forms(kind.table)) {
            Record record = read_record(record_form, kind);
            if (catalogue.find(record.key) != nullptr) {
                findings.push_back(
                    input_fault("input.duplicate_id", record.span, "record:" + record.key,
                                fmt::format("a record \"{}\" was stated before", record.key),
                                {"one record under each key", "give one of them another key"}));
                continue;
            }
            if (has_required_keys(record_form)) {
                check_nameplate(record, record_form, findings);
            }
            catalogue.records.push_back(std::move(record));
        }
    }
}

std::string_view record_kind(const Record& record) {
    return record_kinds[record.ratings.index()].table;
}

} // namespace ohmfolio
