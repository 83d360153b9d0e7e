// Rapid shutdown of strings: by electronics at the modules. What their record states is worked out;
// what only the description says is shown as its word, and told.

#include <fmt/format.h>

#include "base/text.h"
#include "code/rapid_shutdown_rules.h"
#include "study/paragraphs.h"
#include "study/steps.h"
#include "study/strings.h"

namespace ohmfolio::workings {

namespace {

/// What is left of a string: each of its devices leaves a little, and they stand in series.
Term<Volts> left_by_devices(Work& work, const StringOnInput& on) {
    // One after the other: compilers take the sides of a product in the order that they like.
    const auto modules = count(work, subject_of(on.equipment), "modules_in_series", "N_series",
                               "Modules in series in each string", on.array.in_series);
    const auto left = from_nameplate(work, *on.electronics_record, "shutdown_voltage", "V_off",
                                     "Voltage that the electronics of a module leave after "
                                     "shutdown",
                                     on.electronics->shutdown_voltage);
    return modules * left;
}

void add_what_record_states(Work& work, const StringOnInput& on, ShutdownDesign& design) {
    if (on.electronics->shutdown_voltage > Volts{})
        design.left_outside = left_by_devices(work, on);
    if (on.electronics->shutdown_time > 0)
        design.seconds = on.electronics->shutdown_time;
    design.listed_equipment = !on.electronics_record->listing.empty();
    design.on_word = fmt::format("{} shuts down", on.electronics_record->model);
}

ShutdownDesign design_of(Work& work, const StringOnInput& on) {
    ShutdownDesign design{
        .means = on.shuts_down() ? ShutdownMeans::module_electronics : ShutdownMeans::none,
        .string_voltage = string_voltage_of(work, on.equipment),
        .module_voltage = recall<Volts>(work, on.equipment.id + ".cold_open_circuit_voltage")};
    if (on.record_shuts_down())
        add_what_record_states(work, on, design);
    else if (on.shuts_down())
        design.on_word = "electronics at each module";
    return design;
}

void warn_of_no_record(Work& work, const StringOnInput& on) {
    complain_of_missing(
        work, paragraph::shutdown_equipment,
        {.rule = "string.electronics.unnamed",
         .severity = Severity::warning,
         .span = on.equipment.span,
         .message = fmt::format("{}: the electronics that shut its modules down are not named, so "
                                "that their listing, the voltage they leave and their time are not "
                                "known, and neither equipment schedule nor material list has them",
                                on.equipment.id),
         .expected = "their record",
         .hint = "electronics = \"...\" on the string; `ohmfolio catalogue` lists the records",
         .subject = subject_of(on.equipment)});
}

/// What a plan checker looks for on the data sheet and the record leaves out.
void warn_of_gaps(Work& work, const StringOnInput& on, const ShutdownDesign& design) {
    std::vector<std::string> missing, keys;
    const auto want = [&](bool known, const char* what, const char* key) {
        if (known)
            return;
        missing.emplace_back(what);
        keys.emplace_back(key);
    };
    want(design.listed_equipment, "its listing", "listing");
    want(design.left_outside.has_value(), "the voltage it leaves", "shutdown_voltage");
    want(design.seconds.has_value(), "its time", "shutdown_time");
    if (missing.empty())
        return;
    complain_of_missing(
        work, paragraph::shutdown_equipment,
        {.rule = "string.electronics.unstated",
         .severity = Severity::warning,
         .span = on.electronics_record->span,
         .message = fmt::format("{}: of {}, which shuts its modules down, the record does not "
                                "state {}",
                                on.equipment.id, on.electronics_record->model, join(missing, ", ")),
         .expected = "what its instructions state",
         .hint = fmt::format("in its record: {}", join(keys, ", ")),
         .subject = subject_of(on.equipment)});
}

} // namespace

void check_string_shutdown(Work& work, const StringOnInput& on) {
    const Desk desk = work.desk(subject_of(on.equipment));
    if (!shutdown_scope(desk, ArrayStands::building, CircuitsGo::into_building).required)
        return;
    const ShutdownDesign design = design_of(work, on);
    const auto result = check_rapid_shutdown(desk, design);
    complain_of_verdicts(work, result.verdicts,
                         {.rule = {},
                          .span = on.equipment.span,
                          .message = fmt::format("{}: rapid shutdown", on.equipment.id),
                          .expected = "electronics at each module that bring its conductors down",
                          .hint = "where there are some, name their record in electronics"});
    if (on.record_shuts_down())
        warn_of_gaps(work, on, design);
    else if (on.shuts_down())
        warn_of_no_record(work, on);
}

} // namespace ohmfolio::workings
