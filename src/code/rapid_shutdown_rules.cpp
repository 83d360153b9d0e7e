// Rapid shutdown: scope, boundary, the ways that are permitted.
#include <algorithm>

#include "base/text.h"
#include "code/rapid_shutdown_rules.h"
#include "code/rounding.h"
#include "code/verdict_line.h"

namespace ohmfolio {

namespace {

bool has(const Desk& desk, std::string_view rule) { return desk.book.rule(rule).exists; }

ShutdownScope scope_of(const Desk& desk, ArrayStands stands, CircuitsGo go) {
    const bool on_building = stands == ArrayStands::building;
    if (stands == ArrayStands::open_structure && has(desk, "pv.shutdown.exempt.open") &&
        go != CircuitsGo::into_building) {
        return {false, "array on a detached structure that is not enclosed",
                "pv.shutdown.exempt.open"};
    }
    if (!on_building && go == CircuitsGo::off_buildings && stands == ArrayStands::ground)
        return {false, "circuits neither on nor in a building", "pv.shutdown"};
    if (stands == ArrayStands::ground && go == CircuitsGo::equipment_building) {
        return {false, "ground-mounted, and the building houses PV equipment alone",
                "pv.shutdown.exempt.housing"};
    }
    const bool outside = go == CircuitsGo::ends_outside || go == CircuitsGo::as_outside;
    if (!on_building && outside && has(desk, "pv.shutdown.exempt.outside")) {
        return {false,
                "array detached, and its circuits end outside or run as outside the building",
                "pv.shutdown.exempt.outside"};
    }
    if (on_building)
        return {true, "array on a building", "pv.shutdown"};
    if (go == CircuitsGo::off_buildings) {
        return {true, "array on a structure that this edition does not exempt by name",
                "pv.shutdown"};
    }
    return {true, "circuits on or in a building", "pv.shutdown"};
}

/// "10 s is within 30 s"; a time that is not stated is not within.
bool in_time(const Desk& desk, const std::optional<double>& seconds) {
    return seconds && *seconds <= desk.book.number("pv.shutdown.time");
}

std::string limit_words(const Desk& desk, std::string_view rule) {
    return shown(Volts{desk.book.number(rule)}) + " within " +
           trimmed(desk.book.number("pv.shutdown.time"), 1) + " s";
}

/// Voltage between two conductors inside the boundary once the system has shut down.
Term<Volts> left_inside(const Desk& desk, const ShutdownDesign& design) {
    const Heading line =
        line_for(desk, "shutdown_inside", "V_inside", "Voltage inside the boundary after shutdown",
                 desk.book.cite("pv.shutdown.inside"));
    switch (design.means) {
    case ShutdownMeans::microinverters:
        return desk.sheet.define(line, design.module_voltage);
    case ShutdownMeans::module_electronics:
        return desk.sheet.define(line, told(desk, "modules_per_device", "n",
                                            "Modules that stay in series behind one device",
                                            "as stated", Ratio{double(design.modules_per_device)}) *
                                           design.module_voltage);
    case ShutdownMeans::none:
    case ShutdownMeans::string_device:
        break;
    }
    return desk.sheet.define(line, design.string_voltage);
}

/// The same outside: what the devices leave, or the whole string; nothing where no device states
/// it.
std::optional<Term<Volts>> left_outside(const Desk& desk, const ShutdownDesign& design) {
    Heading line = line_for(desk, "shutdown_outside", "V_outside",
                            "Voltage outside the boundary after shutdown",
                            desk.book.cite("pv.shutdown.outside"));
    if (design.means == ShutdownMeans::microinverters) {
        line.source = "no direct-current circuit leaves the array; the output stops";
        return desk.sheet.state(line, Volts{});
    }
    if (design.means == ShutdownMeans::none)
        return desk.sheet.define(line, design.string_voltage);
    if (!design.left_outside)
        return {};
    return desk.sheet.define(line, *design.left_outside);
}

std::string word_of(const ShutdownDesign& design) { return "as stated: " + design.on_word; }
bool only_on_word(const ShutdownDesign& design, bool known) {
    return !known && !design.on_word.empty();
}

ShutdownOption listed_option(const Desk& desk, const ShutdownDesign& design) {
    return {"listed system", "pv.shutdown.listed", has(desk, "pv.shutdown.listed"),
            design.listed_system,
            design.listed_system ? "listed as a whole" : "not listed as a whole"};
}

ShutdownOption voltage_option(const Desk& desk, const ShutdownDesign& design,
                              const Term<Volts>& inside) {
    const Volts limit{desk.book.number("pv.shutdown.inside")};
    const bool known = inside.value > Volts{};
    const bool low = known && at_most(inside.value, limit);
    const bool quick =
        in_time(desk, design.seconds) || only_on_word(design, design.seconds.has_value());
    std::string reason = inside.figures + " remains";
    if (!known) {
        reason = "the voltage of the string or module is not stated";
    } else if (!low) {
        reason += ", above " + shown(limit);
    } else if (!quick) {
        reason += ", not stated to be reached in time";
    }
    return {limit_words(desk, "pv.shutdown.inside"), "pv.shutdown.inside", true, low && quick,
            reason};
}

ShutdownOption unexposed_option(const Desk& desk, const ShutdownDesign& design) {
    const Feet distance{desk.book.number("pv.shutdown.no_exposed")};
    const bool far = design.from_grounded_metal > distance;
    return {"no exposed wiring, more than " + shown(distance) + " from grounded metal",
            "pv.shutdown.no_exposed", has(desk, "pv.shutdown.no_exposed"),
            !design.exposed_parts && far,
            design.exposed_parts ? "wiring or conductive parts are exposed"
            : far                ? "nothing exposed, far from grounded metal"
                                 : "grounded metal or ground is too near"};
}

/// The way that is met, or all ways with why they are not.
RuleVerdict judge_inside(const Desk& desk, const std::vector<ShutdownOption>& options) {
    std::vector<std::string> failed;
    for (const ShutdownOption& option : options) {
        if (!option.exists)
            continue;
        if (option.passes) {
            return judge_by(desk, {"shutdown_inside_kept", "Inside the boundary", option.rule},
                            option.name + ": " + option.reason, true);
        }
        failed.push_back(option.name + ": " + option.reason);
    }
    return judge_by(desk, {"shutdown_inside_kept", "Inside the boundary", "pv.shutdown.inside"},
                    join(failed, "; "), false);
}

RuleVerdict judge_outside(const Desk& desk, const ShutdownDesign& design) {
    const VerdictLine kept{"shutdown_outside_kept", "Outside the boundary", "pv.shutdown.outside"};
    const auto outside = left_outside(desk, design);
    if (only_on_word(design, outside.has_value()))
        return judge_by(desk, kept, word_of(design), true);
    if (!outside)
        return judge_by(desk, kept, "what the devices leave is not stated", false);
    // Without any means the whole string stays, and a string of 0 V is one that is not stated.
    if (design.means == ShutdownMeans::none && outside->value <= Volts{})
        return judge_by(desk, kept, "the voltage of the string is not stated", false);
    return check_by(desk, kept, *outside, "≤",
                    constant(Volts{desk.book.number("pv.shutdown.outside")}));
}

std::string time_words(const Desk& desk, const std::optional<double>& seconds) {
    const std::string limit = trimmed(desk.book.number("pv.shutdown.time"), 1) + " s";
    if (!seconds)
        return "time after initiation is not stated; " + limit + " is permitted";
    return trimmed(*seconds, 2) + " s is " + (in_time(desk, seconds) ? "within " : "beyond ") +
           limit;
}

RuleVerdict judge_time(const Desk& desk, const ShutdownDesign& design) {
    const VerdictLine line{"shutdown_time", "Time after initiation", "pv.shutdown.outside"};
    if (only_on_word(design, design.seconds.has_value()))
        return judge_by(desk, line, word_of(design), true);
    return judge_by(desk, line, time_words(desk, design.seconds), in_time(desk, design.seconds));
}

RuleVerdict judge_listing(const Desk& desk, const ShutdownDesign& design) {
    const VerdictLine line{"shutdown_equipment", "Equipment that shuts down",
                           "pv.shutdown.equipment"};
    if (only_on_word(design, design.listed_equipment))
        return judge_by(desk, line, word_of(design), true);
    return judge_by(desk, line, design.listed_equipment ? "listed" : "not stated to be listed",
                    design.listed_equipment);
}

} // namespace

ShutdownScope shutdown_scope(const Desk& desk, ArrayStands stands, CircuitsGo go) {
    ShutdownScope scope = scope_of(desk, stands, go);
    desk.sheet.choose(line_for(desk, "shutdown_scope", {}, "Whether rapid shutdown is required",
                               desk.book.cite(scope.rule)),
                      (scope.required ? "required: " : "not required: ") + scope.reason, {});
    return scope;
}

BoundarySide boundary_side(const Desk& desk, const ConductorPlace& place) {
    const Feet limit{
        desk.book.number(place.in_building ? "pv.shutdown.entry" : "pv.shutdown.boundary")};
    const Feet distance = place.in_building ? place.from_entry : place.from_array;
    const bool inside = at_most(distance, limit);
    desk.sheet.choose(line_for(desk, "boundary_side", {}, "Side of the array boundary",
                               desk.book.cite("pv.shutdown.boundary")),
                      shown(distance) +
                          (place.in_building ? " inside the building" : " from the array") +
                          (inside ? ", within " : ", beyond ") + shown(limit),
                      {});
    return inside ? BoundarySide::inside : BoundarySide::outside;
}

ShutdownResult check_rapid_shutdown(const Desk& desk, const ShutdownDesign& design) {
    ShutdownResult result;
    result.verdicts.push_back(judge_outside(desk, design));
    result.verdicts.push_back(judge_time(desk, design));
    result.inside = {listed_option(desk, design),
                     voltage_option(desk, design, left_inside(desk, design)),
                     unexposed_option(desk, design)};
    result.verdicts.push_back(judge_inside(desk, result.inside));
    result.verdicts.push_back(judge_listing(desk, design));
    return result;
}

RuleVerdicts check_shutdown_initiation(const Desk& desk, const ShutdownInitiation& input) {
    const std::string rule = "pv.shutdown.initiator";
    const int most = static_cast<int>(desk.book.number("pv.disconnect.count"));
    RuleVerdicts verdicts;
    const bool together = input.devices == 1 || input.grouped;
    verdicts.push_back(judge_by(desk, {"initiator_count", "Initiation devices", rule},
                                std::to_string(input.devices) + " of 1 to " + std::to_string(most) +
                                    (together ? "" : ", not grouped"),
                                together && input.devices >= 1 && input.devices <= most));
    if (input.dwelling) {
        const bool reached = input.readily_accessible && input.outdoors;
        verdicts.push_back(judge_by(
            desk, {"initiator_place", "Place of the initiation device", rule},
            std::string(input.outdoors ? "outdoors" : "not outdoors") +
                (input.readily_accessible ? ", readily accessible" : ", not readily accessible"),
            reached));
    }
    return verdicts;
}

} // namespace ohmfolio
