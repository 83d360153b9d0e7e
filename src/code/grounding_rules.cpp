// Equipment grounding conductors, and raceways in their place.
#include <algorithm>

#include "code/grounding_rules.h"
#include "code/inquiry.h"
#include "code/wire_words.h"

namespace ohmfolio {

namespace {

struct Chosen {
    WireSize size{};
    std::string governs;
    std::vector<std::string> from;
};

/// What the increase is counted from: in the 2017 edition the smallest before any factors.
WireSize counted_from(const CodeBook& book, const EquipmentGroundInput& input) {
    if (input.phase_before_factors && book.rule("ground.equipment.increase.unfactored").exists)
        return std::min(*input.phase_before_factors, input.phase_needed);
    return input.phase_needed;
}

bool sized_by_person(const CodeBook& book, const EquipmentGroundInput& input) {
    return !input.sized_by.empty() && book.rule("ground.equipment.increase.qualified").exists;
}

bool grows(const CodeBook& book, const EquipmentGroundInput& input) {
    if (sized_by_person(book, input))
        return false;
    const auto needed = book.circular_mils(counted_from(book, input));
    const auto used = book.circular_mils(input.phase_installed);
    const bool waived = input.pv_circuit && input.for_voltage;
    return !waived && needed && used && *used > *needed;
}

/// 250.122(B): the conductor grows as the phase conductors did.
Chosen increased(const Desk& desk, const EquipmentGroundInput& input, const Chosen& base) {
    const auto base_area = desk.book.circular_mils(base.size);
    const auto needed = desk.book.circular_mils(counted_from(desk.book, input));
    const auto used = desk.book.circular_mils(input.phase_installed);
    if (!grows(desk.book, input) || !base_area)
        return base;
    const auto area_of = [&](std::string name, std::string symbol, std::string title,
                             CircularMils value, const std::vector<std::string>& from) {
        return desk.sheet.state({.subject = desk.subject,
                                 .name = "equipment_ground_area_" + std::move(name),
                                 .symbol = std::move(symbol),
                                 .title = std::move(title),
                                 .cite = desk.book.cite_table("conductor_properties")},
                                value, from);
    };
    const auto area_term =
        area_of("base", "A_base", "Area of the size for the device", *base_area, base.from);
    const auto used_term =
        area_of("used", "A_used", "Area of the phase conductors used", *used, {});
    const bool before_factors = counted_from(desk.book, input) != input.phase_needed;
    const auto needed_term =
        area_of("needed", "A_needed",
                before_factors ? "Area of the phase conductors needed, before adjustment"
                               : "Area of the phase conductors needed",
                *needed, {});
    const auto area = desk.sheet.define({.subject = desk.subject,
                                         .name = "equipment_ground_area",
                                         .symbol = "A_egc",
                                         .title = "Area, increased with the phase conductors",
                                         .cite = desk.book.cite("ground.equipment.increase")},
                                        area_term * used_term / needed_term);
    const auto size = size_of_area(desk.book, area.value);
    return {size.value_or(input.phase_installed), "increase of the phase conductors governs",
            area.from};
}

/// 250.122(A): not larger than the circuit conductors. Of parallel ones the set is the conductor.
Chosen capped(const EquipmentGroundInput& input, Chosen chosen) {
    if (input.parallel_sets == 1 && chosen.size > input.phase_installed) {
        chosen.size = input.phase_installed;
        chosen.governs = "need not be larger than the circuit conductors";
    }
    return chosen;
}

Chosen not_below_pv_floor(const CodeBook& book, const EquipmentGroundInput& input, Chosen chosen) {
    const WireSize floor = book.conductor_size("ground.equipment.pv", input.material).value();
    if (input.pv_circuit && chosen.size < floor) {
        chosen.size = floor;
        chosen.governs = name(floor) + " is the smallest for a PV circuit";
    }
    return chosen;
}

/// The size of the table with a line of its own, for what changes it to rest on.
Chosen recorded_base(const Desk& desk, const EquipmentGroundInput& input, Chosen base,
                     const std::string& row, const std::string& rule) {
    base.from = {desk.sheet
                     .choose({.subject = desk.subject,
                              .name = "equipment_ground_base",
                              .title = "Equipment grounding conductor for the device",
                              .cite = desk.book.cite(rule),
                              .source = row},
                             words(base.size, input.material), base.from)
                     .id};
    return base;
}

std::string rule_for(const EquipmentGroundInput& input) {
    if (input.pv_circuit)
        return "ground.equipment.pv";
    return input.separate_raceways ? "ground.equipment.parallel" : "ground.equipment";
}

EquipmentGroundResult no_row(const Desk& desk, const EquipmentGroundInput& input) {
    desk.sheet.judge({.subject = desk.subject,
                      .name = "equipment_ground",
                      .title = "Equipment grounding conductor",
                      .cite = desk.book.cite_table("equipment_ground")},
                     "no row for a device of " + shown(input.overcurrent.value), false,
                     input.overcurrent.from);
    return {input.stated.value_or(input.phase_installed), false};
}

/// Why the conductor did not grow, where it would have.
void record_person(const Desk& desk, const EquipmentGroundInput& input) {
    EquipmentGroundInput without = input;
    without.sized_by.clear();
    if (!sized_by_person(desk.book, input) || !grows(desk.book, without))
        return;
    desk.sheet.judge(line_for(desk, "equipment_ground_person", "",
                              "Sized for an effective ground-fault current path",
                              desk.book.cite("ground.equipment.increase.qualified")),
                     "stated: " + input.sized_by, true, {});
}

/// The table's size, then what changes it: increase, cap, floor. Where the table alone decides, one
/// line says it all.
Chosen choose(const Desk& desk, const EquipmentGroundInput& input, const Chosen& of_table,
              const std::string& row, bool as_tabulated) {
    if (as_tabulated)
        return of_table;
    const Chosen base = recorded_base(desk, input, of_table, row, rule_for(input));
    return not_below_pv_floor(desk.book, input, capped(input, increased(desk, input, base)));
}

} // namespace

EquipmentGroundResult size_equipment_ground(const Desk& desk, const EquipmentGroundInput& input) {
    const auto base = desk.book.equipment_ground(input.overcurrent.value, input.material);
    if (!base)
        return no_row(desk, input);
    record_person(desk, input);
    const Citation cite = desk.book.cite(rule_for(input));
    const std::string row =
        desk.book.table_name("equipment_ground") + ", device of " + shown(input.overcurrent.value);
    const Chosen of_table{*base, "overcurrent device governs", input.overcurrent.from};
    const WireSize bounded = not_below_pv_floor(desk.book, input, capped(input, of_table)).size;
    const bool as_tabulated = !grows(desk.book, input) && bounded == *base;
    const Chosen chosen = choose(desk, input, of_table, row, as_tabulated);
    const int count = input.separate_raceways ? input.parallel_sets : 1;
    const std::vector<std::string> from =
        desk.sheet
            .choose({.subject = desk.subject,
                     .name = "equipment_ground",
                     .title = count > 1 ? "Equipment grounding conductor, one in each of " +
                                              std::to_string(count) + " raceways"
                                        : std::string("Equipment grounding conductor"),
                     .cite = cite,
                     .source = as_tabulated ? row : std::string{},
                     .governs = chosen.governs},
                    words(chosen.size, input.material), chosen.from)
            .from;
    const bool passes =
        check_stated(desk, "equipment_ground_check", "Stated equipment grounding conductor", cite,
                     input.stated, chosen.size, from);
    return {input.stated.value_or(chosen.size), passes, chosen.size, count};
}

SharedGroundResult size_shared_equipment_ground(const Desk& desk,
                                                const std::vector<EquipmentGroundInput>& circuits) {
    SharedGroundResult result;
    for (std::size_t i = 0; i < circuits.size(); ++i) {
        Worksheet scratch;
        const auto one = size_equipment_ground({scratch, desk.book, desk.subject}, circuits[i]);
        result.passes = result.passes && one.passes;
        if (i == 0 || one.size > result.size) {
            result.size = one.size;
            result.governs = i;
        }
    }
    size_equipment_ground(desk, circuits[result.governs]);
    desk.sheet.choose(line_for(desk, "equipment_ground_shared", "",
                               "One conductor for " + std::to_string(circuits.size()) + " circuits",
                               desk.book.cite("ground.equipment.shared")),
                      words(result.size, circuits[result.governs].material),
                      {desk.sheet.all().back().id});
    return result;
}

RuleVerdicts check_raceway_ground(const Desk& desk, const RacewayGroundInput& input) {
    Inquiry inquiry(desk);
    const std::string rule_id = "ground.raceway";
    const auto limits = desk.book.raceway_ground(input.kind, input.trade);
    const std::string what = std::string(name(input.kind)) + " " + std::string(name(input.trade));
    if (!inquiry.judge(rule_id, "raceway_ground", "Raceway as equipment grounding conductor",
                       what + (limits ? " may be one" : " may not be one"), limits.has_value()))
        return inquiry.verdicts();
    if (limits->device)
        inquiry.compare(rule_id, "raceway_ground_device", "Device of the circuits inside",
                        input.overcurrent, "≤", constant(*limits->device));
    if (!limits->length)
        return inquiry.verdicts();
    inquiry.compare(rule_id, "raceway_ground_length", "Flexible part of the ground-fault path",
                    given("L", input.flexible_length), "≤", constant(*limits->length));
    inquiry.stated(rule_id, "raceway_ground_fittings", "Flexible raceway ends in listed fittings",
                   "listed fittings", input.listed_fittings);
    inquiry.judge(rule_id, "raceway_ground_still", "Flexibility after installation",
                  input.moves ? "moves or vibrates: a wire is needed" : "does not move",
                  !input.moves);
    const auto of_smallest = desk.book.raceway_ground(input.kind, TradeSize{0});
    if (input.smaller_in_path && limits->device > of_smallest->device)
        inquiry.judge(rule_id, "raceway_ground_path", "Other flexible raceways in the path",
                      "a smaller flexible raceway is in the path", false);
    return inquiry.verdicts();
}

} // namespace ohmfolio
