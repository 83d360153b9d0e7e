// Wiring methods of direct-current circuits: 690.31.
#include "code/array_wiring_rules.h"
#include "code/verdict_line.h"

namespace ohmfolio {

namespace {

bool has(const Desk& desk, std::string_view rule) { return desk.book.rule(rule).exists; }

std::string_view words(DcMethod method) {
    switch (method) {
    case DcMethod::exposed_singles:
        return "exposed single conductors";
    case DcMethod::metal_raceway:
        return "metal raceway";
    case DcMethod::nonmetallic_raceway:
        return "nonmetallic raceway";
    case DcMethod::mc_cable:
        return "MC cable";
    case DcMethod::jacketed_cable:
        return "jacketed multiconductor cable";
    case DcMethod::enclosed_tray:
        return "enclosed metallic cable tray";
    case DcMethod::underground:
        return "underground";
    }
    return {};
}

bool is_raceway(DcMethod method) {
    return method == DcMethod::metal_raceway || method == DcMethod::nonmetallic_raceway;
}

RuleVerdict judge_exposed(const Desk& desk, const DcInsulation& input) {
    const bool sunlight = input.sunlight_resistant || input.kind == Insulation::pv_wire;
    const bool kind = input.kind == Insulation::pv_wire || input.kind == Insulation::use_2;
    std::string statement = std::string(name(input.kind));
    if (!kind) {
        statement += " is neither PV wire nor USE-2";
    } else {
        statement += sunlight ? ", sunlight resistant" : ", not marked sunlight resistant";
    }
    return judge_by(desk,
                    {"insulation_exposed", "Conductors exposed in the array", "pv.wiring.exposed"},
                    std::move(statement), kind && sunlight);
}

RuleVerdict judge_in_raceway(const Desk& desk, const DcInsulation& input) {
    return judge_by(desk, {"insulation_raceway", "Conductors in raceway", "pv.wiring.raceway"},
                    std::string(name(input.kind)) + (input.marked_for_raceway
                                                         ? ", also marked for raceways"
                                                         : ", not marked for raceways"),
                    input.marked_for_raceway);
}

} // namespace

RuleVerdicts check_dc_insulation(const Desk& desk, const DcInsulation& input) {
    RuleVerdicts verdicts{check_by(
        desk, {"insulation_voltage", "Insulation rated for the voltage", "pv.wiring.insulation"},
        told(desk, "insulation_rating", "V_insulation", "Voltage printed on the insulation",
             "conductor", input.rating),
        "≥", input.voltage)};
    if (input.method == DcMethod::exposed_singles)
        verdicts.push_back(judge_exposed(desk, input));
    // Article 338 is about service-entrance cable; other kinds are made for raceways.
    if (is_raceway(input.method) && input.kind == Insulation::use_2)
        verdicts.push_back(judge_in_raceway(desk, input));
    return verdicts;
}

namespace {

bool in_metal(DcMethod method) {
    return method == DcMethod::metal_raceway || method == DcMethod::mc_cable;
}

/// Above either threshold; of none where the edition has none.
bool above_thresholds(const Desk& desk, const DcRoute& route) {
    return route.voltage.value.value > desk.book.number("pv.wiring.building.voltage") ||
           route.current.value.value > desk.book.number("pv.wiring.building.current");
}

RuleVerdict judge_inside(const Desk& desk, const DcRoute& route) {
    const std::string title = "Circuit inside a building";
    const std::vector<std::string> from = detail::merged(route.voltage.from, route.current.from);
    const std::string what = std::string(words(route.method)) + ", " + route.voltage.figures +
                             ", " + route.current.figures;
    if (in_metal(route.method))
        return judge_by(desk, {"method_inside", title, "pv.wiring.building"}, what, true, from);
    if (!above_thresholds(desk, route)) {
        return judge_by(desk, {"method_inside", title, "pv.wiring.building"},
                        what + ": not above the thresholds", true, from);
    }
    if (route.hazard_control_system && route.at_penetration &&
        has(desk, "pv.wiring.building.listed")) {
        return judge_by(desk, {"method_inside", title, "pv.wiring.building.listed"},
                        what + ": hazard control system, where it enters", true, from);
    }
    return judge_by(desk, {"method_inside", title, "pv.wiring.building"},
                    what + ": not metal raceway, MC cable or metal enclosure", false, from);
}

RuleVerdict judge_reach(const Desk& desk, const DcRoute& route) {
    const bool jacketed =
        route.method == DcMethod::jacketed_cable && has(desk, "pv.wiring.jacketed");
    const bool passes = route.guarded || in_metal(route.method) || is_raceway(route.method) ||
                        route.method == DcMethod::underground || jacketed;
    return judge_by(desk,
                    {"method_reach", "Circuit within reach",
                     jacketed && !route.guarded ? "pv.wiring.jacketed" : "pv.wiring.accessible"},
                    std::string(words(route.method)) + " at " + route.voltage.figures +
                        (route.guarded ? ", guarded" : ", not guarded"),
                    passes, route.voltage.from);
}

} // namespace

RuleVerdicts check_dc_route(const Desk& desk, const DcRoute& route) {
    RuleVerdicts verdicts;
    if (route.inside_building)
        verdicts.push_back(judge_inside(desk, route));
    if (route.readily_accessible &&
        route.voltage.value.value > desk.book.number("pv.wiring.accessible"))
        verdicts.push_back(judge_reach(desk, route));
    const bool separated = !route.with_other_systems || route.barrier;
    verdicts.push_back(judge_by(
        desk, {"method_separation", "Separation from other systems", "pv.wiring.separation"},
        !route.with_other_systems ? "runs alone"
        : route.barrier           ? "a barrier separates it from other systems"
                                  : "runs with other systems without a barrier",
        separated));
    return verdicts;
}

namespace {

bool is_neutral_color(const std::string& color) { return color == "white" || color == "gray"; }

/// Why a color may not be used for a conductor; empty when it may.
std::string fault_of(const std::string& color, bool solidly_grounded) {
    if (color == "green")
        return "green is for equipment grounding conductors";
    if (is_neutral_color(color) && !solidly_grounded)
        return color + " is for solidly grounded conductors";
    if (!is_neutral_color(color) && solidly_grounded)
        return "a solidly grounded conductor is white or gray";
    return {};
}

RuleVerdict judge_color(const Desk& desk, const std::string& pole, const std::string& color,
                        bool solidly_grounded) {
    const std::string fault = fault_of(color, solidly_grounded);
    return judge_by(
        desk, {"color_" + pole, "Color of the " + pole + " conductor", "pv.wiring.identification"},
        fault.empty() ? color : color + ": " + fault, fault.empty());
}

} // namespace

RuleVerdicts check_dc_identification(const Desk& desk, const DcIdentification& input) {
    using Solid = DcIdentification::Solid;
    RuleVerdicts verdicts{
        judge_by(desk,
                 {"polarity_marked", "Polarity of the conductors", "pv.wiring.identification"},
                 input.polarity_marked ? "marked at every end" : "not marked at every end",
                 input.polarity_marked),
        judge_color(desk, "positive", input.positive, input.solid == Solid::positive),
        judge_color(desk, "negative", input.negative, input.solid == Solid::negative)};
    if (has(desk, "pv.wiring.negative_red")) {
        const bool red = input.negative == "red";
        verdicts.push_back(
            judge_by(desk, {"negative_not_red", "Negative conductor", "pv.wiring.negative_red"},
                     red ? "red is for the positive" : "not red", !red));
    }
    return verdicts;
}

} // namespace ohmfolio
