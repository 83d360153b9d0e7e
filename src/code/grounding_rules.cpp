// Equipment grounding conductors and the grounding electrode conductor.
#include <algorithm>

#include "code/grounding_rules.h"

namespace ohmfolio {

namespace {

std::string words(WireSize size, Material material) {
    return name(size) + " " + std::string(name(material));
}

/// Smallest listed size whose area is not below `area`.
std::optional<WireSize> size_of_area(const CodeBook& book, CircularMils area) {
    // A ratio of areas may miss an area by its rounding error.
    constexpr double error = 1e-9;
    for (int step = 0; step < static_cast<int>(wire_size_names.size()); ++step) {
        const auto of_step = book.circular_mils(WireSize{step});
        if (of_step && of_step->value >= area.value * (1 - error))
            return WireSize{step};
    }
    return std::nullopt;
}

/// A stated size against the one needed. True when nothing is stated.
bool check_stated(const Desk& desk, const std::string& line, const std::string& title,
                  const Citation& cite, std::optional<WireSize> stated, WireSize needed,
                  const std::vector<std::string>& from) {
    if (!stated)
        return true;
    const bool passes = *stated >= needed;
    return desk.sheet.judge(
        {.subject = desk.subject, .name = line, .title = title, .cite = cite},
        name(*stated) + (passes ? " is not smaller than " : " is smaller than ") + name(needed),
        passes, from);
}

struct Chosen {
    WireSize size{};
    std::string governs;
    std::vector<std::string> from;
};

bool grows(const CodeBook& book, const EquipmentGroundInput& input) {
    const auto needed = book.circular_mils(input.phase_needed);
    const auto used = book.circular_mils(input.phase_installed);
    return !input.pv_circuit && needed && used && *used > *needed;
}

/// 250.122(B): the conductor grows as the phase conductors did.
Chosen increased(const Desk& desk, const EquipmentGroundInput& input, const Chosen& base) {
    const auto base_area = desk.book.circular_mils(base.size);
    const auto needed = desk.book.circular_mils(input.phase_needed);
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
    const auto needed_term =
        area_of("needed", "A_needed", "Area of the phase conductors needed", *needed, {});
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

/// 250.122(A): not larger than the circuit conductors; those in parallel are larger together.
Chosen capped(const EquipmentGroundInput& input, Chosen chosen) {
    if (input.raceways == 1 && chosen.size > input.phase_installed) {
        chosen.size = input.phase_installed;
        chosen.governs = "need not be larger than the circuit conductors";
    }
    return chosen;
}

Chosen not_below_pv_floor(const EquipmentGroundInput& input, Chosen chosen) {
    static const WireSize floor = *parse_wire_size("14 AWG"); // 690.45
    if (input.pv_circuit && chosen.size < floor) {
        chosen.size = floor;
        chosen.governs = "14 AWG is the smallest for a PV circuit";
    }
    return chosen;
}

std::string rule_of(const EquipmentGroundInput& input) {
    if (input.raceways > 1)
        return "conductor.parallel.ground";
    return input.pv_circuit ? "ground.equipment.pv" : "ground.equipment";
}

std::string in_each_raceway(const EquipmentGroundInput& input) {
    return input.raceways == 1 ? std::string{}
                               : " in each of " + std::to_string(input.raceways) + " raceways";
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

} // namespace

EquipmentGroundResult size_equipment_ground(const Desk& desk, const EquipmentGroundInput& input) {
    const std::string rule = rule_of(input);
    const auto base = desk.book.equipment_ground(input.overcurrent.value, input.material);
    if (!base) {
        desk.sheet.judge({.subject = desk.subject,
                          .name = "equipment_ground",
                          .title = "Equipment grounding conductor",
                          .cite = desk.book.cite_table("equipment_ground")},
                         "no row for a device of " + shown(input.overcurrent.value), false,
                         input.overcurrent.from);
        return {input.stated.value_or(input.phase_installed), false};
    }
    const std::string row =
        desk.book.table_name("equipment_ground") + ", device of " + shown(input.overcurrent.value);
    const Chosen of_table{*base, "overcurrent device governs", input.overcurrent.from};
    const bool as_tabulated = !grows(desk.book, input) &&
                              not_below_pv_floor(input, capped(input, of_table)).size == *base;
    // Where the table alone decides, one line says it all.
    const Chosen chosen =
        as_tabulated
            ? of_table
            : not_below_pv_floor(
                  input, capped(input, increased(desk, input,
                                                 recorded_base(desk, input, of_table, row, rule))));
    const std::vector<std::string> from =
        desk.sheet
            .choose({.subject = desk.subject,
                     .name = "equipment_ground",
                     .title = "Equipment grounding conductor",
                     .cite = desk.book.cite(rule),
                     .source = as_tabulated ? row : std::string{},
                     .governs = chosen.governs},
                    words(chosen.size, input.material) + in_each_raceway(input), chosen.from)
            .from;
    const bool passes =
        check_stated(desk, "equipment_ground_check", "Stated equipment grounding conductor",
                     desk.book.cite(rule), input.stated, chosen.size, from);
    return {input.stated.value_or(chosen.size), passes, chosen.size};
}

namespace {

/// "two ground rods" and "rod" are of the kind that the caps call "rod".
std::string_view kind_of(const std::string& electrode) {
    if (electrode.find("concrete") != std::string::npos)
        return "concrete-encased";
    if (electrode.find("rod") != std::string::npos || electrode.find("plate") != std::string::npos)
        return "rod";
    return electrode;
}

struct Cap {
    CodeBook::ElectrodeCap cap;
    std::string kind;
};

/// The largest cap of the electrodes present; nothing when one of them has none.
std::optional<Cap> largest_cap(const CodeBook& book, const GroundingElectrodeInput& input) {
    std::optional<Cap> result;
    for (const std::string& electrode : input.electrodes) {
        const auto kind = kind_of(electrode);
        const auto cap = book.electrode_cap(kind, input.material);
        if (!cap)
            return std::nullopt;
        if (!result || cap->size > result->cap.size)
            result = Cap{*cap, std::string(kind)};
    }
    return result;
}

} // namespace

GroundingElectrodeResult size_grounding_electrode(const Desk& desk,
                                                  const GroundingElectrodeInput& input) {
    const auto table =
        desk.book.grounding_electrode(input.service, input.service_material, input.material);
    if (!table) {
        desk.sheet.judge({.subject = desk.subject,
                          .name = "grounding_electrode",
                          .title = "Grounding electrode conductor",
                          .cite = desk.book.cite("ground.electrode")},
                         "no row for service conductors of " +
                             words(input.service, input.service_material),
                         false, {});
        return {input.stated.value_or(input.service), false};
    }
    const std::string row = desk.book.table_name("grounding_electrode") +
                            ", service conductors of " +
                            words(input.service, input.service_material);
    Heading heading{.subject = desk.subject,
                    .name = "grounding_electrode",
                    .title = "Grounding electrode conductor",
                    .cite = desk.book.cite("ground.electrode"),
                    .source = row,
                    .governs = "service conductors govern"};
    WireSize size = *table;
    std::vector<std::string> from;
    const auto cap = largest_cap(desk.book, input);
    if (cap && cap->cap.size < size) {
        from = {desk.sheet
                    .choose({.subject = desk.subject,
                             .name = "grounding_electrode_table",
                             .title = "Grounding electrode conductor for the service",
                             .cite = heading.cite,
                             .source = row},
                            words(*table, input.material), {})
                    .id};
        size = cap->cap.size;
        heading.cite = cap->cap.cite;
        heading.source.clear();
        heading.governs = "need not be larger to " + cap->kind + " electrodes";
    }
    const std::string chosen = desk.sheet.choose(heading, words(size, input.material), from).id;
    const bool passes =
        check_stated(desk, "grounding_electrode_check", "Stated grounding electrode conductor",
                     heading.cite, input.stated, size, {chosen});
    return {input.stated.value_or(size), passes, size};
}

} // namespace ohmfolio
