// Electronics at the modules of a string: what they take from a module, and where they convert, how
// many stand in series and what voltage they make together.

#include <fmt/format.h>

#include "code/module_rules.h"
#include "study/paragraphs.h"
#include "study/steps.h"
#include "study/strings.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

Heading limit_kept(const Work& work, const StringOnInput& on, std::string name, std::string title) {
    return {.subject = subject_of(on.equipment),
            .name = std::move(name),
            .symbol = {},
            .title = std::move(title),
            .cite = work.book.cite(paragraph::equipment_limit)};
}

Complaint too_much(const StringOnInput& on, std::string what, std::string expected) {
    return {.rule = "string.electronics",
            .span = on.equipment.span,
            .message = fmt::format("{}: {} of the module is more than {} takes", on.equipment.id,
                                   what, on.electronics_record->model),
            .expected = std::move(expected)};
}

struct ModuleLimit {
    std::string key;    ///< of the record
    std::string symbol; ///< "V_mod,max"
    std::string what;   ///< "voltage"
};

/// A value of the module against one of the electronics.
template <class Unit>
void check_module_value(Work& work, const StringOnInput& on, const ModuleLimit& limit,
                        const Term<Unit>& value, Unit most_value) {
    const auto most = from_nameplate(
        work, *on.electronics_record, limit.key, limit.symbol,
        fmt::format("{} of a module that its electronics take", limit.what), most_value);
    require(work,
            limit_kept(work, on, limit.key + "_kept",
                       fmt::format("{} of the module within its electronics", limit.what)),
            value, "≤", most,
            too_much(on, limit.what, fmt::format("{} or less", shown(most_value))));
}

void check_count(Work& work, const StringOnInput& on) {
    const auto& limits = *on.electronics;
    const int stated = on.array.in_series;
    const bool passes = stated >= limits.fewest && stated <= limits.most;
    const std::string range = fmt::format("{} to {}", limits.fewest, limits.most);
    Heading heading = limit_kept(work, on, "converters_kept", "Converters in series");
    heading.source = fmt::format("instructions of {}", on.electronics_record->model);
    work.study.worksheet.judge(heading, fmt::format("{} stand in series, of {}", stated, range),
                               passes, {});
    if (!passes)
        complain(work, work.study.worksheet.all().back().id,
                 {.rule = "string.converters",
                  .span = on.equipment.span,
                  .message = fmt::format("{}: {} of {} in series on {}", on.equipment.id, stated,
                                         on.electronics_record->model, on.inverter.id),
                  .expected = range + " converters in series"});
}

void check_power(Work& work, const StringOnInput& on) {
    if (on.electronics->string_power.value <= 0)
        return;
    const std::string subject = subject_of(on.equipment);
    const auto modules = count(work, subject, "modules_in_series", "N_series",
                               "Modules in series in each string", on.array.in_series);
    const auto power = work.study.worksheet.define(
        {.subject = subject,
         .name = "string_power",
         .symbol = "P_string",
         .title = "Modules of one string",
         .cite = work.book.cite(paragraph::equipment_limit)},
        modules * from_nameplate(work, on.module_record, "power", "P_mod",
                                 "Module power at standard test conditions", on.module.power));
    const auto most =
        from_nameplate(work, *on.electronics_record, "string_power", "P_string,max",
                       "Most power of a string of converters", on.electronics->string_power);
    require(work, limit_kept(work, on, "string_power_kept", "String within the converters' power"),
            power, "≤", most,
            {.rule = "string.converters",
             .span = on.equipment.span,
             .message = fmt::format("{}: {} of modules in one string", on.equipment.id,
                                    shown(power.value)),
             .expected = fmt::format("{} or less", shown(most.value))});
}

/// The coldest voltage of one module, written where no length of a string needed it.
Term<Volts> cold_voltage(Work& work, const StringOnInput& on) {
    const std::string line = on.equipment.id + ".cold_open_circuit_voltage";
    if (work.study.worksheet.find(line) != nullptr)
        return recall<Volts>(work, line);
    return cold_open_circuit_voltage(work.desk(subject_of(on.equipment)),
                                     {.voc = on.module.voc,
                                      .per_celsius = on.module.voc_per_celsius,
                                      .coldest = work.system.site.coldest});
}

} // namespace

void check_module_electronics(Work& work, const StringOnInput& on) {
    const auto& limits = *on.electronics;
    check_module_value(work, on, {"input_limit", "V_mod,max", "Voltage"}, cold_voltage(work, on),
                       limits.input_limit);
    check_module_value(work, on, {"input_current_limit", "I_mod,max", "Short-circuit current"},
                       from_nameplate(work, on.module_record, "isc", "I_sc",
                                      "Short-circuit current of the module", on.module.isc),
                       limits.input_current_limit);
    check_module_value(work, on, {"power", "P_mod,max", "Power"},
                       from_nameplate(work, on.module_record, "power", "P_mod",
                                      "Module power at standard test conditions", on.module.power),
                       limits.power);
}

void check_converters(Work& work, const StringOnInput& on) {
    check_count(work, on);
    check_power(work, on);
    const Desk desk = work.desk(subject_of(on.equipment));
    cold_voltage(work, on);
    const auto voltage =
        converter_voltage(desk, {.rated_output = on.electronics->string_voltage,
                                 .in_series = on.array.in_series,
                                 .by_instructions = on.electronics->string_voltage});
    work.string_voltage.insert_or_assign(on.equipment.id, voltage);
    complain_of_verdicts(
        work, check_string_voltage(desk, voltage, limits_of(work, on)),
        {.rule = {},
         .span = on.equipment.span,
         .message = fmt::format("{}: converters on {}", on.equipment.id, on.inverter.id),
         .expected = "an inverter that takes the voltage of the converters"});
}

} // namespace ohmfolio::workings
