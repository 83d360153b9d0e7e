#include "code/accessory_rules.h"

#include <algorithm>
#include <cmath>

#include "code/verdict_line.h"

namespace ohmfolio {

namespace {

constexpr double feet_per_meter = 1 / 0.3048;
constexpr double inches_per_foot = 12;
/// What arithmetic may add to a whole number.
constexpr double rounding_error = 1e-9;

/// The authority for a limit: the equipment where it states one, else the custom of `rule_id`.
Citation authority(const Desk& desk, std::string_view rule_id, bool stated) {
    return stated ? Citation{{}, "equipment nameplate"} : desk.book.cite(rule_id);
}

Term<Ratio> count(std::string symbol, int value) {
    return given(std::move(symbol), Ratio{static_cast<double>(value)}, "number of them");
}

int limit_or(const Desk& desk, const std::optional<int>& stated, std::string_view number) {
    return stated.value_or(static_cast<int>(desk.book.number(number)));
}

RuleVerdict drops_check(const Desk& desk, const TrunkInput& input, int drops) {
    return check_by(desk, {"trunk_drops", "Drops of the trunk cable", "accessory.trunk.drops"},
                    count("N_drops", drops), "≥", count("N_modules", input.modules));
}

std::optional<RuleVerdict> branch_check(const Desk& desk, const TrunkInput& input) {
    if (!input.branch_limit)
        return std::nullopt;

    return check_by(desk, {"trunk_branch", "Inverters of the branch", "accessory.trunk.branch"},
                    count("N_modules", input.modules), "≤", count("N_limit", *input.branch_limit));
}

RuleVerdict spacing_check(const Desk& desk, const TrunkInput& input) {
    constexpr std::string_view rule_id = "accessory.trunk.spacing";
    const double meters = desk.book.number(input.orientation == ModuleOrientation::portrait
                                               ? "accessory.drop.portrait"
                                               : "accessory.drop.landscape");
    const Feet spacing = input.drop_spacing.value_or(Feet{feet_per_meter * meters});
    return check_by(desk,
                    {"trunk_spacing", "Modules within the spacing of the drops",
                     std::string(rule_id),
                     authority(desk, rule_id, input.drop_spacing.has_value())},
                    given("w_module", input.module_pitch, "side of the module along the cable"),
                    "≤", given("d_drop", spacing, "spacing of the drops"));
}

int supports(const Desk& desk, const TrunkInput& input) {
    constexpr std::string_view rule_id = "accessory.trunk.support";
    const Feet spacing =
        input.support_spacing.value_or(Feet{desk.book.number(rule_id) / inches_per_foot});
    Heading heading = line_for(desk, "trunk_supports", "N_supports", "Supports of the trunk cable",
                               authority(desk, rule_id, input.support_spacing.has_value()));
    heading.rounding = "rounded up";
    const auto exact = given("L", input.length, "length of the cable") /
                       given("d_support", spacing, "distance between supports");
    const Ratio whole{std::ceil(exact.value.value - rounding_error)};
    return static_cast<int>(desk.sheet.define_rounded(heading, exact, whole).value.value);
}

} // namespace

TrunkResult judge_trunk(const Desk& desk, const TrunkInput& input) {
    const int drops = input.drops == 0 ? input.modules : input.drops;
    TrunkResult result;
    result.sealing_caps = std::max(0, drops - input.modules);
    result.end_caps = input.cut_ends;
    result.verdicts = those_given(
        {drops_check(desk, input, drops), branch_check(desk, input), spacing_check(desk, input)});
    result.supports = supports(desk, input);
    return result;
}

RuleVerdict check_control_wiring(const Desk& desk, const std::vector<Term<Feet>>& runs,
                                 std::optional<Feet> limit) {
    constexpr std::string_view rule_id = "accessory.control";
    const Citation cite = authority(desk, rule_id, limit.has_value());
    Term<Feet> sum = runs.empty() ? given("L", Feet{0}, "no wiring") : runs.front();
    for (std::size_t i = 1; i < runs.size(); ++i)
        sum = sum + runs[i];
    const auto length = desk.sheet.define(
        line_for(desk, "control_length", "ΣL", "Control wiring in all", cite), sum);
    return check_by(desk,
                    {"control_wiring", "Length of the control wiring", std::string(rule_id), cite},
                    length, "≤", constant(limit.value_or(Feet{desk.book.number(rule_id)})));
}

RuleVerdict check_storage_sensors(const Desk& desk, int sets, std::optional<int> limit) {
    constexpr std::string_view rule_id = "accessory.sensor";
    return check_by(desk,
                    {"storage_sensors", "Current transformer sets that measure storage",
                     std::string(rule_id), authority(desk, rule_id, limit.has_value())},
                    count("N_ct", sets), "≤", count("N_limit", limit_or(desk, limit, rule_id)));
}

namespace {

/// Controllers for loads of one voltage: "⌈N ÷ 2⌉", rounded up on purpose.
Term<Ratio> controllers_for(const Desk& desk, const std::string& volts, int loads, int takes,
                            const Citation& cite) {
    Heading heading = line_for(desk, "controllers_" + volts, "N_c." + volts,
                               "Load controllers for " + volts + " V loads", cite);
    heading.rounding = "rounded up";
    const auto exact = count("N_" + volts, loads) / count("n_" + volts, takes);
    return desk.sheet.define_rounded(heading, exact,
                                     Ratio{std::ceil(exact.value.value - rounding_error)});
}

} // namespace

RuleVerdict check_controller_loads(const Desk& desk, const LoadControllers& input) {
    constexpr std::string_view rule_id = "accessory.controller.loads";
    const bool stated = input.takes_240 && input.takes_120;
    const Citation cite = authority(desk, rule_id, stated);
    const auto of_120 =
        controllers_for(desk, "120", input.loads_120,
                        limit_or(desk, input.takes_120, "accessory.controller.loads_120"), cite);
    const auto of_240 =
        controllers_for(desk, "240", input.loads_240,
                        limit_or(desk, input.takes_240, "accessory.controller.loads_240"), cite);
    const auto needed = of_240 + of_120;
    return check_by(desk,
                    {"controllers", "Load controllers for the loads", std::string(rule_id), cite},
                    count("N_controllers", input.controllers), "≥", needed);
}

RuleVerdict check_controller_count(const Desk& desk, const LoadControllers& input) {
    constexpr std::string_view rule_id = "accessory.controller.count";
    const auto most = count("n_limit", limit_or(desk, input.limit, rule_id)) *
                      count("N_mid", input.interconnect_devices);
    return check_by(desk,
                    {"controllers_on_device", "Load controllers on the interconnect devices",
                     std::string(rule_id), authority(desk, rule_id, input.limit.has_value())},
                    count("N_controllers", input.controllers), "≤", most);
}

RuleVerdicts check_load_controllers(const Desk& desk, const LoadControllers& input) {
    return {check_controller_loads(desk, input), check_controller_count(desk, input)};
}

} // namespace ohmfolio
