// Bonding jumpers, separately derived systems, knockouts.
#include "code/bonding_rules.h"

#include <algorithm>

#include "code/inquiry.h"
#include "code/wire_words.h"

namespace ohmfolio {

namespace {

struct Use {
    std::string_view rule_id;
    std::string title;
};

Use of(JumperUse use, bool by_raceway) {
    switch (use) {
    case JumperUse::main:
        return {"bond.main", "Main bonding jumper"};
    case JumperUse::system:
        return {"bond.system", "System bonding jumper"};
    case JumperUse::supply_side:
        return {by_raceway ? "bond.supply.parallel" : "bond.supply", "Supply-side bonding jumper"};
    case JumperUse::grounded_conductor:
        break;
    }
    return {by_raceway ? "bond.neutral.parallel" : "bond.neutral", "Grounded conductor"};
}

std::string line_name(JumperUse use) {
    switch (use) {
    case JumperUse::main:
        return "main_bonding_jumper";
    case JumperUse::system:
        return "system_bonding_jumper";
    case JumperUse::supply_side:
        return "supply_bonding_jumper";
    case JumperUse::grounded_conductor:
        break;
    }
    return "grounded_conductor";
}

/// Sets that count for one jumper: all of them, or that of its raceway.
int sets_for(const BondingJumperInput& input) { return input.by_raceway ? 1 : input.parallel_sets; }

std::string phase_words(const BondingJumperInput& input) {
    const std::string one = words(input.phase, input.phase_material);
    return sets_for(input) > 1 ? std::to_string(sets_for(input)) + " × " + one : one;
}

/// The conductor of the jumper's material that carries what the phase conductor does, at 75 °C.
std::optional<WireSize> equal_in_ampacity(const CodeBook& book, const BondingJumperInput& input) {
    constexpr int column = 75;
    if (input.material == input.phase_material)
        return input.phase;
    const auto carried = book.ampacity(input.phase, input.phase_material, column);
    if (!carried)
        return std::nullopt;
    for (const WireSize size : book.listed_sizes(input.material)) {
        if (book.ampacity(size, input.material, column) >= carried)
            return size;
    }
    return std::nullopt;
}

struct Chosen {
    std::optional<WireSize> size;
    Citation cite;
    std::string source, governs;
    std::vector<std::string> from;
    std::string why_none = "no listed size is large enough"; ///< where there is no size
};

/// Beyond the table: a share of the area of the phase conductors. There are several, since no
/// single conductor reaches so far.
Chosen by_share(const Desk& desk, const BondingJumperInput& input) {
    const std::string line = line_name(input.use);
    Chosen chosen{{}, desk.book.cite("bond.large"), {}, "share of the area governs", {}};
    const auto like = equal_in_ampacity(desk.book, input);
    const auto area = like ? desk.book.circular_mils(*like) : std::nullopt;
    if (!area) {
        chosen.why_none = "no listed size of " + std::string(name(input.material)) +
                          " has the ampacity of the conductors";
        return chosen;
    }
    Heading heading =
        line_for(desk, line + "_phase_area", "A_phase", "Area of the phase conductors",
                 desk.book.cite_table("conductor_properties"));
    if (*like != input.phase) {
        heading.cite = desk.book.cite("bond.large.material");
        heading.source = "as " + words(*like, input.material) + " of equal ampacity";
    }
    const auto one = desk.sheet.state(heading, *area);
    const auto sets = given("n", Ratio{static_cast<double>(sets_for(input))});
    const auto share = factor(desk.book.number("bond.large"));
    const auto needed = desk.sheet.define(
        line_for(desk, line + "_area", "A_jumper", "Area of the jumper", chosen.cite),
        share * sets * one);
    chosen.size = size_of_area(desk.book, needed.value);
    chosen.from = needed.from;
    return chosen;
}

Chosen choose(const Desk& desk, const BondingJumperInput& input) {
    const auto area = desk.book.circular_mils(input.phase);
    if (!area)
        return {{}, desk.book.cite_table("bonding_jumper"), {}, {}, {}};
    const auto row =
        desk.book.bonding_jumper(sets_for(input) * *area, input.phase_material, input.material);
    if (!row)
        return by_share(desk, input);
    return {row,
            desk.book.cite(of(input.use, input.by_raceway).rule_id),
            desk.book.table_name("bonding_jumper") + ", conductors of " + phase_words(input),
            "supply conductors govern",
            {}};
}

/// The neutral need not be larger than the conductors that bring the current.
void cap_neutral(const BondingJumperInput& input, Chosen& chosen) {
    if (input.use == JumperUse::grounded_conductor && input.parallel_sets == 1 && chosen.size &&
        *chosen.size > input.phase) {
        chosen.size = input.phase;
        chosen.governs = "need not be larger than the ungrounded conductors";
    }
}

/// Conductors in parallel are of a least size, also the neutral of each raceway.
void raise_neutral(const CodeBook& book, const BondingJumperInput& input, Chosen& chosen) {
    const WireSize least = book.conductor_size("bond.neutral.parallel", input.material).value();
    if (input.use == JumperUse::grounded_conductor && input.by_raceway && input.parallel_sets > 1 &&
        chosen.size && *chosen.size < least) {
        chosen.size = least;
        chosen.governs = name(least) + " is the smallest in parallel raceways";
    }
}

} // namespace

BondingJumperResult size_bonding_jumper(const Desk& desk, const BondingJumperInput& input) {
    Chosen chosen = choose(desk, input);
    cap_neutral(input, chosen);
    raise_neutral(desk.book, input, chosen);
    const int count = input.by_raceway ? input.parallel_sets : 1;
    Heading heading = line_for(desk, line_name(input.use), "",
                               of(input.use, input.by_raceway).title, chosen.cite);
    if (count > 1)
        heading.title += ", one for each of " + std::to_string(count) + " raceways";
    if (!chosen.size) {
        desk.sheet.judge(heading, chosen.why_none + ": " + phase_words(input), false, chosen.from);
        return {input.stated.value_or(input.phase), false, {}, count};
    }
    heading.source = chosen.source;
    heading.governs = chosen.governs;
    const std::string id =
        desk.sheet.choose(heading, words(*chosen.size, input.material), chosen.from).id;
    const bool passes =
        check_stated(desk, line_name(input.use) + "_check", "Stated " + heading.title, heading.cite,
                     input.stated, *chosen.size, {id});
    return {input.stated.value_or(*chosen.size), passes, chosen.size, count};
}

std::optional<WireSize>
size_equipment_bonding_jumper(const Desk& desk, const Term<Amps>& overcurrent, Material material) {
    const auto size = desk.book.equipment_ground(overcurrent.value, material);
    Heading heading = line_for(desk, "equipment_bonding_jumper", "", "Equipment bonding jumper",
                               desk.book.cite("bond.equipment"));
    heading.source =
        desk.book.table_name("equipment_ground") + ", device of " + shown(overcurrent.value);
    if (size)
        desk.sheet.choose(heading, words(*size, material), overcurrent.from);
    else
        desk.sheet.judge(heading, "no row for a device of " + shown(overcurrent.value), false,
                         overcurrent.from);
    return size;
}

bool separately_derived(const DerivedSystemInput& input) {
    return input.neutral_switched || input.isolated;
}

DerivedSystemResult check_derived_system(const Desk& desk, const DerivedSystemInput& input) {
    DerivedSystemResult result{separately_derived(input), {}};
    desk.sheet.choose(line_for(desk, "derived", "", "Separately derived system",
                               desk.book.cite("derived.neutral")),
                      result.separately_derived ? "separately derived" : "not separately derived",
                      {});
    Inquiry inquiry(desk);
    if (!result.separately_derived) {
        inquiry.judge("derived.unbonded", "derived_bond", "Neutral at the source",
                      input.bonded_at_source ? "bonded at the source, and at the service"
                                             : "not bonded at the source",
                      !input.bonded_at_source);
        result.verdicts = inquiry.verdicts();
        return result;
    }
    const int bonds = (input.bonded_at_source ? 1 : 0) + (input.bonded_at_disconnect ? 1 : 0);
    const std::string statement = bonds == 0   ? "bonded nowhere"
                                  : bonds == 2 ? "bonded at the source and at the disconnect"
                                  : input.bonded_at_source ? "bonded at the source only"
                                                           : "bonded at the first disconnect only";
    inquiry.judge("derived.single_point", "derived_bond", "Bond of the derived neutral", statement,
                  bonds == 1);
    result.verdicts = inquiry.verdicts();
    result.jumper = size_bonding_jumper(desk, {.use = JumperUse::system,
                                               .phase = input.phase,
                                               .phase_material = input.phase_material,
                                               .parallel_sets = input.parallel_sets});
    result.electrode = size_grounding_electrode(desk, {.service = input.phase,
                                                       .service_material = input.phase_material,
                                                       .electrodes = input.electrodes,
                                                       .parallel_sets = input.parallel_sets});
    return result;
}

RuleVerdicts check_knockout(const Desk& desk, const KnockoutInput& input) {
    Inquiry inquiry(desk);
    const Volts limit{desk.book.number("bond.knockouts")};
    if (input.to_ground <= limit || !input.ringed)
        return inquiry.verdicts();
    inquiry.stated("bond.knockouts", "knockout_bond",
                   "Ringed knockout, " + shown(input.to_ground) + " to ground",
                   input.listed ? "enclosure listed to bond so"
                                : "bonding jumper past the knockout",
                   input.listed || input.jumper);
    return inquiry.verdicts();
}

} // namespace ohmfolio
