// Strings and the inputs of inverters: how long they may be, what they carry, whether they need
// fuses, and what protects roof and people from them.

#include "study/strings.h"

#include <fmt/format.h>

#include "code/rules.h"
#include "study/paragraphs.h"
#include "study/steps.h"

namespace ohmfolio::workings {

namespace {

template <class Ratings> const Ratings& ratings_of(const Record& record) {
    return std::get<Ratings>(record.ratings);
}

std::optional<Volts> stated(Volts v) { return v.value > 0 ? std::optional(v) : std::nullopt; }

void check_length(Work& work, const StringOnInput& on) {
    const Desk desk = work.desk(subject_of(on.equipment));
    const StringLimits limits = limits_of(work, on);
    const StringRange range = string_length(desk, limits);
    RuleVerdicts verdicts{check_string_length(desk, range, on.array.in_series)};
    const auto voltage = string_voltage(desk, range.cold_voltage, on.array.in_series);
    work.string_voltage.insert_or_assign(on.equipment.id, voltage);
    for (const RuleVerdict& verdict : check_string_voltage(desk, voltage, limits)) {
        verdicts.push_back(verdict);
    }
    complain_of_verdicts(
        work, verdicts,
        {.rule = {},
         .span = on.equipment.span,
         .message = fmt::format("{}: {} modules in series on {}", on.equipment.id,
                                on.array.in_series, on.inverter.id),
         .expected =
             range.possible()
                 ? fmt::format("{} to {} modules in series", range.fewest.value_or(1), range.most)
                 : std::string("another module or another inverter: no number in series "
                               "suits both")});
}

void check_currents(Work& work, const StringOnInput& on) {
    const int parallel = parallel_on_input(work.system, on);
    const auto result = check_tracker_currents(
        work.desk(subject_of(on.equipment)), {.isc = on.module.isc,
                                              .imp = on.module.imp,
                                              .parallel = parallel,
                                              .short_circuit_limit = on.ratings.input_short_circuit,
                                              .operating_limit = on.ratings.input_current});
    complain_of_verdicts(
        work, result.verdicts,
        {.rule = {},
         .span = on.array.input.span,
         .message = fmt::format("{}: {} on input {} of {}", on.equipment.id,
                                parallel == 1 ? std::string("one string")
                                              : fmt::format("{} strings", parallel),
                                on.array.input.value, on.inverter.id),
         .expected = "fewer strings on the input, or modules of less current"});
}

/// The whole of the array against the inverter, once for each inverter.
void check_ratio(Work& work, const Equipment& inverter, const Record& record) {
    const auto& ratings = ratings_of<StringInverterRatings>(record);
    std::optional<Term<Watts>> power;
    for (const int child : work.system.children(work.system.find(inverter.id))) {
        const auto* array = at(work.system.equipment, child).as<StringArray>();
        if (array == nullptr)
            continue;
        const Record& module = at(work.system.catalogue.records, array->module);
        const auto modules = count(
            work, subject_of(inverter), "modules_" + at(work.system.equipment, child).id,
            "N_" + at(work.system.equipment, child).id,
            "Modules of " + at(work.system.equipment, child).id, array->in_series * array->strings);
        const auto term = modules * from_nameplate(work, module, "power", "P_mod",
                                                   "Module power at standard test conditions",
                                                   ratings_of<ModuleRatings>(module).power);
        add_to(power, term);
    }
    if (!power)
        return;
    const Desk desk = work.desk(subject_of(inverter));
    const Citation cite = work.book.cite(paragraph::module_ratio);
    const auto dc = desk.sheet.define({.subject = desk.subject,
                                       .name = "dc_power",
                                       .symbol = "P_dc",
                                       .title = "Modules on this inverter",
                                       .cite = cite},
                                      *power);
    const auto out = desk.sheet.state({.subject = desk.subject,
                                       .name = "output",
                                       .symbol = "S_inv",
                                       .title = "Continuous output of the inverter",
                                       .cite = nameplate(),
                                       .as = ShownAs::apparent_power},
                                      ratings.output);
    const double limit =
        work.system.ratio_limit > 0 ? work.system.ratio_limit : ratings.ratio_limit;
    const auto ratio = desk.sheet.define({.subject = desk.subject,
                                          .name = "ratio",
                                          .symbol = "r",
                                          .title = "DC/AC ratio",
                                          .cite = cite},
                                         dc / out);
    require(work,
            {.subject = desk.subject,
             .name = "ratio_kept",
             .symbol = {},
             .title = "Array within the DC/AC ratio",
             .cite = cite},
            ratio, "≤",
            desk.sheet.state({.subject = desk.subject,
                              .name = "ratio_limit",
                              .symbol = "r_max",
                              .title = "DC/AC ratio up to which clipping is negligible",
                              .cite = cite},
                             Ratio{limit}),
            {.rule = "module.ratio",
             .severity = Severity::advice,
             .span = inverter.span,
             .message = fmt::format("{}: {} of modules on {} of output will clip", inverter.id,
                                    shown(dc.value), shown_va(out.value)),
             .expected = "fewer modules, or the loss accepted"});
}

/// The breaker of the output, which its instructions cap.
void check_output_breaker(Work& work, const Equipment& inverter, const Record& record) {
    for (const int circuit : circuits_from(work.system, work.system.find(inverter.id))) {
        const int index = protecting_breaker(work.system, circuit);
        const auto rating = index < 0 ? std::nullopt : at(work.breaker_rating, index);
        if (!rating)
            continue;
        const auto limit = from_nameplate(work, record, "breaker_limit", "I_brk,max",
                                          "Largest breaker of the inverter's output",
                                          ratings_of<StringInverterRatings>(record).breaker_limit);
        require(work,
                {.subject = subject_of(inverter),
                 .name = "breaker_kept",
                 .symbol = {},
                 .title = "Output breaker within the limit of the inverter",
                 .cite = work.book.cite(paragraph::equipment_limit)},
                *rating, "≤", limit,
                {.rule = "inverter.breaker.limit",
                 .span = inverter.span,
                 .message = fmt::format("{}: its output is on {}; it may be on {} at most",
                                        inverter.id, shown(rating->value), shown(limit.value)),
                 .expected = fmt::format("{} or less", shown(limit.value))});
    }
}

DcMethod method_of(RacewayKind kind) {
    switch (kind) {
    case RacewayKind::emt:
    case RacewayKind::rmc:
    case RacewayKind::fmc:
    case RacewayKind::lfmc:
        return DcMethod::metal_raceway;
    case RacewayKind::pvc40:
    case RacewayKind::pvc80:
    case RacewayKind::lfnc:
        return DcMethod::nonmetallic_raceway;
    case RacewayKind::cable:
        return DcMethod::mc_cable;
    case RacewayKind::free_air:
        return DcMethod::exposed_singles;
    }
    return DcMethod::exposed_singles;
}

/// Insulations of the description are rated 600 V, PV wire 1000 V or more by its listing.
Volts insulation_rating(Insulation insulation) {
    return Volts{insulation == Insulation::pv_wire ? 1000.0 : 600.0};
}

void check_wiring(Work& work, const StringOnInput& on, const Circuit& circuit) {
    const Run& run = at(work.system.runs, circuit.run);
    const auto voltage = string_voltage_of(work, on.equipment);
    const DcMethod method = method_of(run.raceway);
    const Desk desk = work.desk(subject_of(circuit));
    RuleVerdicts verdicts =
        check_dc_insulation(desk, {.kind = circuit.insulation,
                                   .rating = insulation_rating(circuit.insulation),
                                   .sunlight_resistant = circuit.insulation == Insulation::use_2 ||
                                                         circuit.insulation == Insulation::pv_wire,
                                   .marked_for_raceway = circuit.insulation == Insulation::use_2,
                                   .method = method,
                                   .voltage = voltage});
    complain_of_verdicts(work, verdicts,
                         {.rule = {},
                          .span = run.span,
                          .message = called(work.system, circuit),
                          .expected = "conductors and a wiring method that 690.31 permits there"});
}

void check_protection(Work& work, const StringOnInput& on, const Circuit& circuit) {
    const auto voltage = string_voltage_of(work, on.equipment);
    const auto current =
        *at(work.sources, static_cast<int>(&circuit - work.system.circuits.data()));
    const Desk desk = work.desk(subject_of(on.equipment));
    const auto arc =
        check_arc_fault(desk, {.voltage = voltage,
                               .place = place_of(work.system),
                               .method = method_of(at(work.system.runs, circuit.run).raceway),
                               .provided = on.ratings.arc_fault});
    const auto ground = check_ground_fault(desk, {.voltage = voltage,
                                                  .current = current,
                                                  .place = place_of(work.system),
                                                  .parallel = parallel_on_input(work.system, on),
                                                  .provided = on.ratings.ground_fault});
    for (const auto* result : {&arc, &ground}) {
        complain_of_verdicts(work, result->verdicts,
                             {.rule = {},
                              .span = on.inverter.span,
                              .message = fmt::format("{} on {}", on.equipment.id, on.inverter.id),
                              .expected = "an inverter whose record says that it holds the "
                                          "protection"});
    }
}

void check_string(Work& work, const Circuit& circuit) {
    const StringOnInput on = string_of(work.system, circuit);
    if (on.converts()) {
        check_converters(work, on);
    } else {
        check_length(work, on);
        check_currents(work, on);
    }
    if (on.electronics != nullptr)
        check_module_electronics(work, on);
    check_wiring(work, on, circuit);
    check_protection(work, on, circuit);
    check_string_shutdown(work, on);
}

} // namespace

StringLimits limits_of(const Work& work, const StringOnInput& on) {
    return {.module = {.voc = on.module.voc,
                       .vmp = on.module.vmp,
                       .voc_per_celsius = on.module.voc_per_celsius,
                       .vmp_per_celsius = on.module.vmp_per_celsius,
                       .system_voltage = stated(on.module.system_limit)},
            .input = {.input_limit = on.ratings.input_limit,
                      .tracking_low = on.ratings.tracking_low,
                      .tracking_high = on.ratings.tracking_high,
                      .start = stated(on.ratings.start)},
            .place = place_of(work.system),
            .coldest = work.system.site.coldest,
            .hottest_cell = Celsius{work.study.derivation("climate.hot_cell").value}};
}

ArrayPlace place_of(const System& system) {
    return is_dwelling(system) ? ArrayPlace::dwelling : ArrayPlace::building;
}

StringOnInput string_of(const System& system, const Circuit& circuit) {
    const Equipment& e = at(system.equipment, system.child_of(circuit));
    const auto& array = std::get<StringArray>(e.detail);
    const Record& module = at(system.catalogue.records, array.module);
    const Equipment& inverter = at(system.equipment, e.parent);
    const Record& record = *system.record(inverter);
    const Record* electronics =
        array.electronics < 0 ? nullptr : &at(system.catalogue.records, array.electronics);
    return {e,
            array,
            module,
            ratings_of<ModuleRatings>(module),
            inverter,
            record,
            ratings_of<StringInverterRatings>(record),
            electronics,
            electronics == nullptr ? nullptr : &ratings_of<ModuleElectronicsRatings>(*electronics)};
}

int parallel_on_input(const System& system, const StringOnInput& on) {
    int strings = 0;
    for (const int child : system.children(on.equipment.parent)) {
        const auto* other = at(system.equipment, child).as<StringArray>();
        if (other != nullptr && other->input.value == on.array.input.value)
            strings += other->strings;
    }
    return strings;
}

Term<Volts> string_voltage_of(const Work& work, const Equipment& e) {
    return work.string_voltage.at(e.id);
}

void check_strings(Work& work) {
    for (const Circuit& circuit : work.system.circuits) {
        if (circuit.use == CircuitUse::string)
            check_string(work, circuit);
    }
    for (const Equipment& e : work.system.equipment) {
        if (e.is<Inverter>())
            check_ratio(work, e, *work.system.record(e));
    }
}

void check_inverters(Work& work) {
    for (const Equipment& e : work.system.equipment) {
        if (e.is<Inverter>())
            check_output_breaker(work, e, *work.system.record(e));
    }
}

} // namespace ohmfolio::workings
