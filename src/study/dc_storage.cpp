// Storage on the direct-current side of an inverter: what flows there, what protects it, and
// whether units, inverter and disconnects suit each other.

#include "study/dc_storage.h"

#include <algorithm>

#include <fmt/format.h>

#include "code/storage_rules.h"
#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

/// The units that feed a circuit; those of a chain are alike in voltage, so the first speaks.
std::vector<int> units_behind(const System& system, const Circuit& circuit) {
    return batteries_below(system, system.child_of(circuit));
}

const Record& record_behind(const System& system, const Circuit& circuit) {
    return *system.record(at(system.equipment, units_behind(system, circuit).front()));
}

const BatteryRatings& battery(const Record& record) {
    return std::get<BatteryRatings>(record.ratings);
}

/// A direct-current storage circuit and the inverter it ends at.
struct BatteryInput {
    int index;
    const Circuit& circuit;
    const Equipment& inverter;
    const Record& record;
    const StringInverterRatings& ratings;
};

/// Nothing of a circuit between units, or one that ends at a disconnect.
std::optional<BatteryInput> input_of(const System& system, int index) {
    const Circuit& circuit = at(system.circuits, index);
    const Equipment& e = at(system.equipment, system.parent_of(circuit));
    const auto* ratings = system.ratings<StringInverterRatings>(e);
    if (!is_dc_storage(circuit) || ratings == nullptr)
        return {};
    return BatteryInput{index, circuit, e, *system.record(e), *ratings};
}

Term<Amps> input_current(Work& work, const Record& inverter) {
    return from_nameplate(work, inverter, "battery_current", "I_bat",
                          "Continuous current of a battery input",
                          std::get<StringInverterRatings>(inverter.ratings).battery.current);
}

/// Of the inverter that the units of `circuit` feed, unless it lies between two of them.
const Record* inverter_ahead(const System& system, const Circuit& circuit) {
    int i = system.parent_of(circuit);
    while (at(system.equipment, i).is<Disconnect>()) {
        i = at(system.equipment, i).parent;
    }
    const Equipment& e = at(system.equipment, i);
    return e.is<Inverter>() ? system.record(e) : nullptr;
}

Term<Amps> current_of_units(Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    const Equipment& child = at(work.system.equipment, work.system.child_of(circuit));
    std::optional<Term<Amps>> sum;
    if (child.is<Battery>())
        sum = output_current(work, *work.system.record(child));
    for (const int feeder : feeding(work.system, index)) {
        const auto units = current_of_units(work, feeder);
        add_to(sum, units);
    }
    return *sum;
}

/// Devices that the units hold, or the fuses of a disconnect; nothing where a unit has none.
std::optional<Term<Amps>> device_behind_dc(Work& work, int index) {
    const System& system = work.system;
    const Equipment& child = at(system.equipment, system.child_of(at(system.circuits, index)));
    std::optional<Term<Amps>> sum;
    if (child.is<Battery>()) {
        const Record& record = *system.record(child);
        if (battery(record).breaker <= Amps{0})
            return {};
        sum = from_nameplate(work, record, "breaker", "I_unit,brk",
                             "Overcurrent device that a unit holds", battery(record).breaker);
    }
    for (const int feeder : feeding(system, index)) {
        const auto fuse = rating_of(work, breaker_of(system, feeder));
        const auto device = fuse ? fuse : device_behind_dc(work, feeder);
        if (!device)
            return {};
        add_to(sum, *device);
    }
    return sum;
}

/// Where the units hold no device, fuses where the circuit ends protect it.
std::optional<Term<Amps>> device_of(Work& work, int index) {
    const auto behind = device_behind_dc(work, index);
    return behind ? behind : rating_of(work, breaker_of(work.system, index));
}

Heading line(const Work& work, const Circuit& circuit, std::string name, std::string title) {
    return {.subject = subject_of(circuit),
            .name = std::move(name),
            .symbol = {},
            .title = std::move(title),
            .cite = work.book.cite(paragraph::equipment_limit)};
}

Term<Volts> highest_voltage(Work& work, const Record& record) {
    return from_nameplate(work, record, "highest", "V_max", "Highest voltage of the unit",
                          battery(record).highest);
}

Term<Volts> lowest_voltage(Work& work, const Record& record) {
    return from_nameplate(work, record, "lowest", "V_min", "Lowest voltage of the unit",
                          battery(record).lowest);
}

void check_window(Work& work, const BatteryInput& input) {
    const Record& unit = record_behind(work.system, input.circuit);
    const auto& window = input.ratings.battery;
    const Complaint complaint{
        .rule = "storage.window",
        .span = input.inverter.span,
        .message =
            fmt::format("{}: {} {} work from {} to {}, its battery input from {} to {}",
                        input.inverter.id, unit.maker, unit.model, shown(battery(unit).lowest),
                        shown(battery(unit).highest), shown(window.low), shown(window.high)),
        .expected = "units whose voltage stays within that of the battery input"};
    const auto low = from_nameplate(work, input.record, "battery_low", "V_bat,min",
                                    "Lowest voltage of the battery input", window.low);
    const auto empty = lowest_voltage(work, unit);
    require(work, line(work, input.circuit, "window_low", "Units empty, battery input"), empty, "≥",
            low, complaint);
    const auto high = from_nameplate(work, input.record, "battery_high", "V_bat,max",
                                     "Highest voltage of the battery input", window.high);
    const auto full = highest_voltage(work, unit);
    require(work, line(work, input.circuit, "window_high", "Units full, battery input"), full, "≤",
            high, complaint);
}

/// The inverter draws no more than its input takes; units that could give more are not used up.
void check_current(Work& work, const BatteryInput& input) {
    const auto units = current_of_units(work, input.index);
    const auto limit = input_current(work, input.record);
    require(work,
            line(work, input.circuit, "input_used", "Current of the units that the input uses"),
            units, "≤", limit,
            {.rule = "storage.input",
             .severity = Severity::advice,
             .span = input.inverter.span,
             .message = fmt::format("{}: its units give {}, of which the battery input uses {}",
                                    input.inverter.id, shown(units.value), shown(limit.value)),
             .expected = "fewer units, or the rest taken as reserve"});
}

void check_device(Work& work, const BatteryInput& input) {
    const auto device = device_of(work, input.index);
    if (!device)
        return; // told where the circuit is sized
    const Record& unit = record_behind(work.system, input.circuit);
    const auto of_input = from_nameplate(work, input.record, "battery_breaker_limit", "I_bat,brk",
                                         "Largest overcurrent device of a battery input",
                                         input.ratings.battery.breaker_limit);
    const auto of_units = from_nameplate(work, unit, "breaker_limit", "I_ess,max",
                                         "Largest overcurrent device of a circuit of these units",
                                         battery(unit).breaker_limit);
    for (const auto& [name, limit] : {std::pair("input", of_input), std::pair("units", of_units)}) {
        require(work,
                line(work, input.circuit, fmt::format("device_kept_{}", name),
                     fmt::format("Overcurrent device within the limit of the {}", name)),
                *device, "≤", limit,
                {.rule = "storage.breaker.limit",
                 .span = at(work.system.runs, input.circuit.run).span,
                 .message = fmt::format("{} is on {}; {} is the most that the {} may be on",
                                        called(work.system, input.circuit), shown(device->value),
                                        shown(limit.value), name),
                 .expected = fmt::format("{} or less", shown(limit.value))});
    }
}

/// Batteries of a dwelling: closed units, so that live parts are out of reach in maintenance.
void check_dwelling_voltage(Work& work, const BatteryInput& input) {
    const Record& unit = record_behind(work.system, input.circuit);
    const auto verdict = check_storage_voltage(work.desk(subject_of(input.circuit)),
                                               {.dc = battery(unit).highest,
                                                .dwelling = is_dwelling(work.system),
                                                .live_parts_guarded = true});
    if (verdict) {
        complain_of_verdicts(work, {*verdict},
                             {.rule = {},
                              .span = at(work.system.runs, input.circuit.run).span,
                              .message = called(work.system, input.circuit),
                              .expected = "units of a lower voltage"});
    }
}

void require_dc_voltage(Work& work, const Equipment& e, const DisconnectRatings& ratings,
                        const Record& unit) {
    const auto highest = highest_voltage(work, unit);
    require(work,
            {.subject = subject_of(e),
             .name = "dc_voltage_kept",
             .symbol = {},
             .title = "Disconnect opens the voltage of the storage",
             .cite = work.book.cite(paragraph::equipment_limit)},
            from_nameplate(work, *work.system.record(e), "dc_voltage", "V_switch",
                           "Direct voltage that the disconnect opens", ratings.dc_voltage),
            "≥", highest,
            {.rule = "storage.disconnect.voltage",
             .span = e.span,
             .message = ratings.dc_voltage.value > 0
                            ? fmt::format("{}: opens {} DC on storage of {}", e.id,
                                          shown(ratings.dc_voltage), shown(highest.value))
                            : fmt::format("{}: is for alternating current, on storage of {} DC",
                                          e.id, shown(highest.value)),
             .expected = fmt::format("a disconnect rated {} DC or more", shown(highest.value)),
             .hint = "dc_voltage in the record of the disconnect"});
}

/// What all units behind a disconnect feed into a short circuit at it.
void require_dc_interrupting(Work& work, const Equipment& e, const DisconnectRatings& ratings,
                             const Circuit& circuit) {
    std::optional<Term<Amps>> fault;
    for (const int unit : units_behind(work.system, circuit)) {
        const Record& record = *work.system.record(at(work.system.equipment, unit));
        if (battery(record).fault_current <= Amps{0}) {
            complain_of_missing(
                work, paragraph::interrupting,
                {.rule = "fault.missing",
                 .severity = Severity::warning,
                 .span = record.span,
                 .message = fmt::format("{} {}: its short-circuit current is not stated, so {} is "
                                        "not checked against it",
                                        record.maker, record.model, e.id),
                 .expected = "the short-circuit current of a unit",
                 .hint = "fault_current = \"... kA\" in its record",
                 .subject = subject_of(e)});
            return;
        }
        add_to(fault, from_nameplate(work, record, "fault_current", "I_unit,f",
                                     "Short-circuit current of a unit",
                                     battery(record).fault_current, ShownAs::kiloamps));
    }
    require(
        work,
        {.subject = subject_of(e),
         .name = "dc_interrupting_kept",
         .symbol = {},
         .title = "Interrupting rating at the short-circuit current of the storage",
         .cite = work.book.cite(paragraph::interrupting),
         .as = ShownAs::kiloamps},
        from_nameplate(work, *work.system.record(e), "interrupting", "I_int", "Interrupting rating",
                       ratings.interrupting, ShownAs::kiloamps),
        "≥", *fault,
        {.rule = "storage.disconnect.fault",
         .span = e.span,
         .message = fmt::format("{}: interrupts {}; the storage feeds {}", e.id,
                                shown_kiloamps(ratings.interrupting), shown_kiloamps(fault->value)),
         .expected = fmt::format("a disconnect rated {} or more", shown_kiloamps(fault->value))});
}

void check_dc_disconnect(Work& work, int index) {
    const Equipment& e = at(work.system.equipment, index);
    const auto* ratings = work.system.ratings<DisconnectRatings>(e);
    for (const int circuit : circuits_from(work.system, index)) {
        const Circuit& c = at(work.system.circuits, circuit);
        if (ratings == nullptr || !is_dc_storage(c))
            continue;
        require_dc_voltage(work, e, *ratings, record_behind(work.system, c));
        require_dc_interrupting(work, e, *ratings, c);
    }
}

/// A stated breaker of the backup output; one that is left out is chosen within the limit.
void check_backup_breaker(Work& work, int inverter) {
    const Equipment& e = at(work.system.equipment, inverter);
    for (const int circuit : circuits_into(work.system, inverter)) {
        const int index = breaker_of(work.system, circuit);
        const auto rating = rating_of(work, index);
        if (!rating)
            continue;
        const auto limit = backup_breaker_limit(work, *work.system.record(e));
        const Breaker& breaker = at(work.system.breakers, index);
        require(
            work,
            {.subject = subject_of(e),
             .name = fmt::format("{}_kept", breaker.tag),
             .symbol = {},
             .title = "Breaker within the limit of the backup output",
             .cite = work.book.cite(paragraph::equipment_limit)},
            *rating, "≤", limit,
            {.rule = "inverter.backup.breaker",
             .span = breaker.stated ? breaker.stated->span : e.span,
             .message = fmt::format("{}: the backup breaker {} is {}; {} is the largest it takes",
                                    e.id, breaker.tag, shown(rating->value), shown(limit.value)),
             .expected = fmt::format("{} or less", shown(limit.value))});
    }
}

} // namespace

void derive_battery_current(Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    const auto units = current_of_units(work, index);
    const Record* inverter = inverter_ahead(work.system, circuit);
    const auto current = work.study.worksheet.define(
        {.subject = subject_of(circuit),
         .name = "current",
         .symbol = "I_" + circuit.tag,
         .title = inverter != nullptr
                      ? "Continuous current of the units, or of the battery input where it is more"
                      : "Continuous current of the units",
         .cite = work.book.cite(paragraph::storage_current)},
        inverter != nullptr ? larger(units, input_current(work, *inverter)) : units);
    at(work.sources, index) = current;
    at(work.sources_125, index) = required_rating(work.desk(subject_of(circuit)), current,
                                                  std::string(paragraph::storage_conductor));
}

Work::Load battery_load(Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    const auto& current = *at(work.sources, index);
    const auto& required = *at(work.sources_125, index);
    if (const auto device = device_of(work, index))
        return {current, required, *device};
    complain_of_missing(
        work, paragraph::storage_dc_device,
        {.rule = "storage.dc.device",
         .span = at(work.system.runs, circuit.run).span,
         .message = fmt::format("{}: no overcurrent device protects it from the units",
                                called(work.system, circuit)),
         .expected = "units that hold a device, or a fused disconnect rated for direct current",
         .hint = "`breaker` in the record of the unit",
         .subject = subject_of(circuit)});
    return {current, required, required, false};
}

Term<Volts> lowest_battery_voltage(Work& work, const Circuit& circuit) {
    return lowest_voltage(work, record_behind(work.system, circuit));
}

void check_dc_storage(Work& work) {
    for (int i = 0; i < static_cast<int>(work.system.circuits.size()); ++i) {
        const auto input = input_of(work.system, i);
        if (!input)
            continue;
        check_window(work, *input);
        check_current(work, *input);
        check_device(work, *input);
        check_dwelling_voltage(work, *input);
    }
    for (int i = 0; i < static_cast<int>(work.system.equipment.size()); ++i) {
        check_dc_disconnect(work, i);
        if (backs_up(work.system, i))
            check_backup_breaker(work, i);
    }
}

} // namespace ohmfolio::workings
