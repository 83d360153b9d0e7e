// Loads by record and under management.
#include "code/load_rules.h"

#include "code/load_terms.h"
#include "code/overcurrent_rules.h"
#include "code/verdict_line.h"

namespace ohmfolio {

namespace {

LoadResult method_barred(std::string reason) {
    LoadResult result;
    result.applies = false;
    result.passes = false;
    result.reason = std::move(reason);
    return result;
}

RuleVerdict long_enough(const Desk& desk, const MeteredInput& input) {
    return check_by(desk, {"metered_days", "Days that the record spans", "load.metered.short"},
                    given("N_days", Ratio{static_cast<double>(input.days)}, "days recorded"), "≥",
                    constant(Ratio{desk.book.number("load.metered.days")}));
}

/// Why a record that spans less than a year does not serve; empty: it does.
std::string short_record_barred(const Desk& desk, const MeteredInput& input) {
    if (input.variable_source)
        return "a record of less than a year is barred beside solar or wind";
    if (input.peak_shaving)
        return "a record of less than a year is barred beside peak shaving";
    const RuleVerdict days = long_enough(desk, input);
    if (!days.passes)
        return "the record is too short: " + days.statement + " days";
    if (!input.season_adjusted)
        return "not stated that a building in use was recorded and its seasonal loads are counted";
    return {};
}

} // namespace

LoadResult load_by_record(const Desk& desk, const MeteredInput& input,
                          const ServiceInput& service) {
    if (!input.one_year) {
        if (std::string reason = short_record_barred(desk, input); !reason.empty())
            return method_barred(std::move(reason));
    }
    const MethodDesk method{desk, "metered"};
    const auto existing = desk.sheet.define(
        method.line("existing", "S_existing", "Existing load, from the highest recorded demand",
                    input.one_year ? "load.metered" : "load.metered.short"),
        factor(method.number("load.metered")) * input.peak);
    const auto total = desk.sheet.define(
        method.line("load", "S_load", "Existing load and what is added", "load.metered"),
        existing + input.added);
    LoadResult result = conclude(method, total, service);
    // The record of a year stays allowed; yet behind a source the meter sees only the difference.
    if (input.variable_source || input.peak_shaving)
        result.reason += "; the record must be of the load, not of its difference from a source";
    return result;
}

ManagedLoad managed_load(const Desk& desk, const ManagedInput& input) {
    const MethodDesk method{desk, "managed"};
    const std::string rule_id = input.vehicles_only ? "vehicle.setting" : "load.managed";
    const auto sum = sum_of(input.loads);
    if (!desk.book.rule(rule_id).exists)
        return {false, sum, {}, "not in " + name(desk.book.edition()) + ": the loads count whole"};
    ManagedLoad result;
    const auto volts = given("V", input.voltage, "voltage of the service");
    result.load =
        desk.sheet.define(method.line("load", "S_managed", "Load under management", rule_id),
                          lesser(sum, volts * input.setting));
    const auto amps = desk.sheet.define(
        method.line("amps", "I_managed", "Load under management, as a current", rule_id),
        result.load / volts);
    const std::string rating = input.vehicles_only ? "vehicle.overcurrent" : "load.managed.rating";
    result.required = required_rating(desk, amps, rating);
    result.reason = "held to " + shown(input.setting.value);
    return result;
}

Term<Amps> line_load(const Desk& desk, const std::string& line,
                     const std::vector<Term<Amps>>& loads, const Term<Amps>& largest_motor) {
    Term<Amps> sum = loads.front();
    for (std::size_t i = 1; i < loads.size(); ++i)
        sum = sum + loads[i];
    sum = sum + factor(desk.book.number("load.motor")) * largest_motor;
    return desk.sheet.define(line_for(desk, "line_" + line, "I_" + line, "Load of line " + line,
                                      desk.book.cite("load.motor")),
                             sum);
}

} // namespace ohmfolio
