// Strings: limits of voltage, the longest and the shortest.
#include <algorithm>
#include <vector>

#include "code/string_rules.h"
#include "code/verdict_line.h"

namespace ohmfolio {

namespace {

/// A voltage that must not be exceeded, or must be reached.
struct Bound {
    std::string name; ///< "building limit"
    std::string rule;
    Term<Volts> volts;
};

Bound stated_bound(const Desk& desk, std::string name, const std::string& line,
                   const std::string& symbol, const std::string& title, const std::string& rule,
                   Volts volts) {
    return {
        std::move(name), rule,
        desk.sheet.state_once(line_for(desk, line, symbol, title, desk.book.cite(rule)), volts)};
}

/// What a highest voltage must stay within.
std::vector<Bound> upper_bounds(const Desk& desk, const StringLimits& limits) {
    std::vector<Bound> bounds{{"building limit", std::string(building_voltage_rule(limits.place)),
                               building_voltage_limit(desk, limits.place)},
                              stated_bound(desk, "inverter input limit", "input_limit", "V_in,max",
                                           "Limit of the inverter's input",
                                           "inverter.input.voltage", limits.input.input_limit)};
    if (limits.module.system_voltage) {
        bounds.push_back(stated_bound(desk, "module label", "module_system_voltage", "V_module",
                                      "System voltage of the module's label",
                                      "module.system_voltage", *limits.module.system_voltage));
    }
    return bounds;
}

/// What the voltage of hot modules must reach.
std::vector<Bound> lower_bounds(const Desk& desk, const TrackerInput& input) {
    std::vector<Bound> bounds;
    if (input.tracking_low) {
        bounds.push_back(stated_bound(desk, "tracking window", "tracking_low", "V_track,min",
                                      "Bottom of the tracking window", "inverter.tracking",
                                      *input.tracking_low));
    }
    if (input.start) {
        bounds.push_back(stated_bound(desk, "start voltage", "start_voltage", "V_start",
                                      "Voltage at which the inverter starts", "inverter.start",
                                      *input.start));
    }
    return bounds;
}

Volts volts_of(const Bound& bound) { return bound.volts.value; }

const Bound& lowest(const std::vector<Bound>& bounds) {
    return *std::ranges::min_element(bounds, {}, volts_of);
}

const Bound& highest(const std::vector<Bound>& bounds) {
    return *std::ranges::max_element(bounds, {}, volts_of);
}

/// Why the cold voltage cannot be worked out; empty when it can.
std::string why_unknown(const Desk& desk, const StringLimits& limits) {
    if (limits.module.voc_per_celsius)
        return {};
    const std::string table = desk.book.table_name("voltage_correction");
    if (limits.module.cells != CellKind::crystalline_silicon)
        return "no coefficient is stated, and " + table + " is for crystalline silicon alone";
    if (!desk.book.voltage_table_factor(limits.coldest))
        return "no coefficient is stated, and " + table + " ends above " + shown(limits.coldest);
    return {};
}

void find_most(const Desk& desk, const StringLimits& limits, StringRange& range) {
    const std::vector<Bound> bounds = upper_bounds(desk, limits);
    const Bound& bound = lowest(bounds);
    range.most_governs = bound.name + " governs";
    range.most =
        most_in_series(desk, range.cold_voltage, bound.volts, {.governs = range.most_governs});
    if (!limits.input.tracking_high || !limits.module.vmp_per_celsius)
        return;
    const Bound window = stated_bound(desk, "tracking window", "tracking_high", "V_track,max",
                                      "Top of the tracking window", "inverter.tracking",
                                      *limits.input.tracking_high);
    const auto power_point = power_point_voltage(desk, "cold_power_point", limits.module.vmp,
                                                 *limits.module.vmp_per_celsius, limits.coldest,
                                                 "Voltage at maximum power, coldest");
    const int within = most_in_series(desk, power_point, window.volts,
                                      {.line = "most_in_window",
                                       .symbol = "N_max,window",
                                       .title = "Most modules within the tracking window"});
    if (within < range.most) {
        range.most = within;
        range.most_governs = window.name + " governs";
    }
}

void find_fewest(const Desk& desk, const StringLimits& limits, StringRange& range) {
    const std::vector<Bound> bounds = lower_bounds(desk, limits.input);
    if (bounds.empty() || !limits.module.vmp_per_celsius)
        return;
    const auto hot = power_point_voltage(desk, "hot_power_point", limits.module.vmp,
                                         *limits.module.vmp_per_celsius, limits.hottest_cell,
                                         "Voltage at maximum power, hottest cells");
    const Bound& bound = highest(bounds);
    range.fewest_governs = bound.name + " governs";
    range.fewest = fewest_in_series(desk, hot, bound.volts, range.fewest_governs);
}

} // namespace

std::string_view building_voltage_rule(ArrayPlace place) {
    switch (place) {
    case ArrayPlace::dwelling:
        return "pv.voltage.limit";
    case ArrayPlace::building:
        return "pv.voltage.limit.building";
    case ArrayPlace::ground:
        return "pv.voltage.limit.ground";
    }
    return {};
}

Term<Volts> building_voltage_limit(const Desk& desk, ArrayPlace place) {
    const std::string_view rule = building_voltage_rule(place);
    Heading line = line_for(desk, "building_limit", "V_building",
                            "Highest voltage that the place allows", desk.book.cite(rule));
    line.source = words(place);
    return desk.sheet.state_once(line, Volts{desk.book.number(rule)});
}

StringRange string_length(const Desk& desk, const StringLimits& limits) {
    StringRange range;
    if (const std::string why = why_unknown(desk, limits); !why.empty()) {
        judge_by(desk, {"cold_open_circuit_voltage", "Highest open-circuit voltage", "pv.voltage"},
                 why, false);
        return range;
    }
    range.known = true;
    range.cold_voltage =
        cold_open_circuit_voltage(desk, {.voc = limits.module.voc,
                                         .per_celsius = limits.module.voc_per_celsius,
                                         .coldest = limits.coldest});
    find_most(desk, limits, range);
    find_fewest(desk, limits, range);
    return range;
}

Term<Volts> string_voltage(const Desk& desk, const Term<Volts>& voltage_of_one, int in_series) {
    const auto count =
        desk.sheet.state_once(line_for(desk, "in_series", "N", "Modules in series", {}),
                              Ratio{static_cast<double>(in_series)});
    return desk.sheet.define(line_for(desk, "string_voltage", "V_max",
                                      "Highest voltage of the string",
                                      desk.book.cite("pv.voltage")),
                             count * voltage_of_one);
}

RuleVerdicts check_string_voltage(const Desk& desk, const Term<Volts>& voltage,
                                  const StringLimits& limits) {
    RuleVerdicts verdicts;
    for (const Bound& bound : upper_bounds(desk, limits)) {
        std::string line = bound.name + " kept";
        std::replace(line.begin(), line.end(), ' ', '_');
        std::replace(line.begin(), line.end(), '-', '_');
        verdicts.push_back(check_by(desk,
                                    {line, "Highest voltage within the " + bound.name, bound.rule},
                                    voltage, "≤", bound.volts));
    }
    return verdicts;
}

RuleVerdict check_string_length(const Desk& desk, const StringRange& range, int stated) {
    const int fewest = range.fewest.value_or(1);
    // A number before "in" would be read as inches where the words are set in capitals.
    std::string statement = "a string of " + std::to_string(stated);
    const bool passes = range.possible() && stated >= fewest && stated <= range.most;
    if (!range.known) {
        statement += ": the highest voltage cannot be told";
    } else if (stated > range.most) {
        statement += " is more than " + std::to_string(range.most) + ": " + range.most_governs;
    } else if (stated < fewest) {
        statement += " is fewer than " + std::to_string(fewest) + ": " + range.fewest_governs;
    } else {
        statement += " is from " + std::to_string(fewest) + " to " + std::to_string(range.most);
    }
    return judge_by(desk, {"series_kept", "Number of modules in series", "module.series"},
                    std::move(statement), passes);
}

EngineeredVoltageResult engineered_voltage(const Desk& desk, const EngineeredVoltage& input) {
    const std::string rule = "pv.voltage.engineered";
    EngineeredVoltageResult result;
    const auto capacity = desk.sheet.state_once(
        line_for(desk, "generating_capacity", "P_gen", "Generating capacity of the system", {}),
        input.generating_capacity);
    result.verdicts.push_back(
        check_by(desk, {"engineered_voltage_capacity", "Capacity for an engineered voltage", rule},
                 capacity, "≥", constant(Watts{desk.book.number(rule)})));
    result.verdicts.push_back(
        judge_by(desk, {"engineered_voltage_documented", "Documented and stamped", rule},
                 input.documented ? "design is documented and stamped"
                                  : "design is not documented and stamped",
                 input.documented));
    if (all_pass(result.verdicts)) {
        Heading line = line_for(desk, "string_voltage", "V_max", "Highest voltage of the string",
                                desk.book.cite(rule));
        line.source = "as the engineer's design states";
        result.voltage = desk.sheet.state(line, input.stated);
    }
    return result;
}

Term<Volts> converter_voltage(const Desk& desk, const ConverterVoltage& input) {
    const bool single = input.in_series == 1;
    const std::string rule = single ? "pv.voltage.converter" : "pv.voltage.converters";
    Heading line = line_for(desk, "converter_voltage", "V_max",
                            "Highest voltage of the converter circuit", desk.book.cite(rule));
    if (!single && input.by_instructions) {
        line.source = "instructions of the converters";
        return desk.sheet.state(line, *input.by_instructions);
    }
    Heading nameplate =
        line_for(desk, "converter_output", "V_converter",
                 "Highest rated output voltage of one converter", {{}, "equipment nameplate"});
    const auto one = desk.sheet.state_once(nameplate, input.rated_output);
    return desk.sheet.define(line,
                             single ? one : factor(static_cast<double>(input.in_series)) * one);
}

} // namespace ohmfolio
