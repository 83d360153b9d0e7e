// Disconnecting means of PV systems and their equipment.
#include "code/array_disconnect_rules.h"
#include "code/rounding.h"
#include "code/verdict_line.h"

namespace ohmfolio {

namespace {

bool has(const Desk& desk, std::string_view rule) { return desk.book.rule(rule).exists; }

std::string yes(bool holds, const std::string& words) { return holds ? words : "not " + words; }

} // namespace

RuleVerdicts check_disconnect_ratings(const Desk& desk, const DisconnectDuty& input) {
    const std::string rule = "pv.disconnect.rating";
    RuleVerdicts verdicts;
    verdicts.push_back(check_by(desk, {"disconnect_current", "Current of the disconnect", rule},
                                given("I_switch", input.rated_current), "≥", input.current));
    verdicts.push_back(check_by(desk, {"disconnect_voltage", "Voltage of the disconnect", rule},
                                given("V_switch", input.rated_voltage), "≥", input.voltage));
    const VerdictLine line{.name = "disconnect_fault",
                           .title = "Fault current of the disconnect",
                           .rule = rule,
                           .as = ShownAs::kiloamps};
    if (!input.fault)
        return verdicts;
    if (input.rated_fault) {
        const auto withstand = given("I_withstand", *input.rated_fault, {}, ShownAs::kiloamps);
        verdicts.push_back(check_by(desk, line, withstand, "≥", *input.fault));
    } else {
        verdicts.push_back(judge_by(
            desk, line, "no fault rating is stated; " + input.fault->figures + " is available",
            false, input.fault->from));
    }
    return verdicts;
}

RuleVerdicts check_system_disconnect(const Desk& desk, const SystemDisconnect& input) {
    RuleVerdicts verdicts;
    verdicts.push_back(
        judge_by(desk, {"disconnect_place", "Place of the PV disconnect", "pv.disconnect.location"},
                 yes(input.readily_accessible, "readily accessible"), input.readily_accessible));
    const int most = static_cast<int>(desk.book.number("pv.disconnect.count"));
    const bool together = input.count == 1 || input.grouped;
    verdicts.push_back(
        judge_by(desk, {"disconnect_count", "Number of PV disconnects", "pv.disconnect.count"},
                 std::to_string(input.count) + " of 1 to " + std::to_string(most) +
                     (together ? "" : ", not grouped"),
                 together && input.count >= 1 && input.count <= most));
    verdicts.push_back(judge_by(
        desk, {"disconnect_poles", "Poles of the PV disconnect", "pv.disconnect"},
        input.opens_all_poles ? "opens every conductor that is not solidly grounded at once"
                              : "leaves a conductor that is not solidly grounded closed",
        input.opens_all_poles));
    if (has(desk, "pv.disconnect.lock")) {
        verdicts.push_back(
            judge_by(desk, {"disconnect_lock", "Lock of the PV disconnect", "pv.disconnect.lock"},
                     yes(input.lockable, "lockable in the open position"), input.lockable));
    }
    const Volts door{desk.book.number("pv.door")};
    const bool behind_door =
        input.exposes_live_parts && input.unqualified_access && input.voltage > door;
    if (behind_door && has(desk, "pv.disconnect.door")) {
        verdicts.push_back(
            judge_by(desk, {"disconnect_door", "Door of the PV disconnect", "pv.disconnect.door"},
                     "door over live parts at " + shown(input.voltage) + ", above " + shown(door) +
                         (input.door_needs_tool_or_key ? ", locked or opened with a tool"
                                                       : ", opens without key or tool"),
                     input.door_needs_tool_or_key));
    }
    return verdicts;
}

namespace {

RuleVerdict judge_means(const Desk& desk, const EquipmentDisconnect& input) {
    const VerdictLine line{"equipment_means", "Means of isolation", "pv.equipment.disconnect"};
    const Amps most{desk.book.number("pv.isolating")};
    switch (input.by) {
    case IsolatedBy::disconnect:
        return judge_by(desk, line, "equipment disconnecting means", true);
    case IsolatedBy::interlocked_device:
        return judge_by(desk, line, "isolating device that cannot open under load", true);
    case IsolatedBy::connector_or_isolator:
        return check_by(desk, line, input.current, "≤", constant(most));
    case IsolatedBy::nothing:
        break;
    }
    return judge_by(desk, line, "nothing isolates the equipment", false);
}

RuleVerdict judge_place(const Desk& desk, const EquipmentDisconnect& input) {
    const Feet most{desk.book.number("pv.equipment.distance")};
    const std::string title = "Place of the means of isolation";
    if (input.within_equipment) {
        return judge_by(desk, {"equipment_place", title, "pv.equipment.location"},
                        "within the equipment", true);
    }
    const bool near = at_most(input.distance, most);
    if (input.in_sight && near) {
        return judge_by(desk, {"equipment_place", title, "pv.equipment.location"},
                        "in sight, " + shown(input.distance) + " of at most " + shown(most), true);
    }
    if (input.remote_control_near) {
        return judge_by(desk, {"equipment_place", title, "pv.equipment.location"},
                        "remote, operated from within " + shown(most), true);
    }
    if (input.lockable && has(desk, "pv.equipment.lockable")) {
        return judge_by(desk, {"equipment_place", title, "pv.equipment.lockable"},
                        "remote, lockable in the open position", true);
    }
    return judge_by(desk, {"equipment_place", title, "pv.equipment.location"},
                    yes(input.in_sight, "in sight") + ", " + shown(input.distance) +
                        (near ? " away" : ", more than " + shown(most)),
                    false);
}

} // namespace

RuleVerdicts check_equipment_disconnect(const Desk& desk, const EquipmentDisconnect& input) {
    RuleVerdicts verdicts{judge_means(desk, input), judge_place(desk, input)};
    if (input.by == IsolatedBy::connector_or_isolator) {
        verdicts.push_back(judge_by(
            desk, {"equipment_mark", "Mark of the isolating device", "pv.equipment.disconnect"},
            input.marked_not_for_load ? "marked not to be opened under load"
                                      : "not marked against opening under load",
            input.marked_not_for_load));
    }
    return verdicts;
}

} // namespace ohmfolio
