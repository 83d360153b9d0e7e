// Voltage change along conductors: Chapter 9 Tables 8 and 9.
#include <cmath>

#include "code/line.h"
#include "code/voltage_rules.h"

namespace ohmfolio {

namespace {

struct Resistance {
    CodeBook::Impedance impedance;
    WireSize row; ///< the size whose row was read
};

/// Table 9 leaves out some of the large sizes: the next smaller row has the higher resistance.
std::optional<Resistance> resistance_of(const CodeBook& book, const VoltageChangeInput& input) {
    for (int step = input.size.step; step >= 0; --step) {
        const WireSize size{step};
        if (input.dc) {
            if (const auto dc = book.dc_resistance(size, input.material))
                return Resistance{{*dc, OhmsPerFoot{}}, size};
        } else if (const auto ac = book.ac_impedance(size, input.material, input.raceway)) {
            return Resistance{*ac, size};
        }
    }
    return std::nullopt;
}

/// The table knows conduits; away from steel, the column of PVC is the nearest.
std::string in_words(RacewayKind raceway) {
    const std::string kind(name(raceway));
    const bool in_table = raceway != RacewayKind::free_air && raceway != RacewayKind::cable;
    return in_table ? kind : kind + ", taken as in PVC, an approximation";
}

Term<Feet> state_length(const Desk& desk, Feet one_way) {
    return desk.sheet.state({.subject = desk.subject,
                             .name = "length",
                             .symbol = "L",
                             .title = "One-way length",
                             .cite = {},
                             .source = "as stated in the description"},
                            one_way);
}

/// A direct-current circuit has a voltage of its own, that of the site is of no use there.
Term<Volts> state_nominal(const Desk& desk, Volts nominal, bool dc = false) {
    if (dc)
        return told(desk, "working_voltage", "V_work", "Voltage at which the circuit works",
                    "at maximum power", nominal);
    return desk.sheet.state_once({.subject = "site:service",
                                  .name = "voltage",
                                  .symbol = "V_nominal",
                                  .title = "Nominal voltage",
                                  .cite = {},
                                  .source = "as stated in the description"},
                                 nominal);
}

Term<OhmsPerFoot> state_impedance(const Desk& desk, const VoltageChangeInput& input,
                                  const Resistance& found) {
    const std::string_view table = input.dc ? "conductor_properties" : "ac_impedance";
    const std::string row = desk.book.table_name(table) + ", " + name(found.row) + " " +
                            std::string(name(input.material)) +
                            (input.dc ? "" : " in " + in_words(input.raceway));
    Heading line = line_for(desk, "resistance", "R", "Resistance of the conductor",
                            desk.book.cite_table(table));
    line.source = row;
    auto resistance = desk.sheet.state(line, found.impedance.resistance);
    if (input.dc || input.power_factor >= 1)
        return resistance;
    line = line_for(desk, "reactance", "X_L", "Reactance of the conductor",
                    desk.book.cite_table(table));
    line.source = row;
    const auto reactance = desk.sheet.state(line, found.impedance.reactance);
    const double sine = std::sqrt(1 - input.power_factor * input.power_factor);
    return desk.sheet.define(
        line_for(desk, "impedance", "Z", "Effective impedance", desk.book.cite_table(table)),
        resistance * given("cosφ", Ratio{input.power_factor}) +
            reactance * given("sinφ", Ratio{sine}));
}

} // namespace

VoltageChangeResult voltage_change(const Desk& desk, const VoltageChangeInput& input) {
    const Citation cite = desk.book.cite_table(input.dc ? "conductor_properties" : "ac_impedance");
    const auto found = resistance_of(desk.book, input);
    if (!found) {
        desk.sheet.judge(line_for(desk, "voltage_change", "", "Voltage change", cite),
                         "no resistance is listed for " + name(input.size) + " " +
                             std::string(name(input.material)),
                         false, {});
        return {};
    }
    const auto impedance = state_impedance(desk, input, *found);
    const auto conductors = input.phases == 3 ? root_three() : factor(2);
    const auto current =
        input.sets == 1 ? input.current : input.current / given("n", Ratio{double(input.sets)});
    // Circuits meet in a sum, so each has symbols of its own: V_d,C5.
    const std::string key = desk.subject.substr(desk.subject.find(':') + 1);
    const auto volts =
        desk.sheet.define(line_for(desk, "voltage_change", "V_d," + key, "Voltage change", cite),
                          conductors * current * impedance * state_length(desk, input.one_way));
    Heading line =
        line_for(desk, "voltage_change_share", "v_d," + key, "Share of the nominal voltage", cite);
    line.as = ShownAs::percent;
    const auto share =
        desk.sheet.define(line, volts / state_nominal(desk, input.nominal, input.dc));
    return {volts.value, share.value.value, volts};
}

namespace {

/// One share of the nominal voltage against its advice.
bool check_share(const Desk& desk, const std::string& name, const std::string& title,
                 const Term<Volts>& volts, const Term<Volts>& nominal, const std::string& rule) {
    Heading line = line_for(desk, name, "v_" + name, title, desk.book.cite(rule));
    line.as = ShownAs::percent;
    const auto share = desk.sheet.define(line, volts / nominal);
    Heading check =
        line_for(desk, name + "_check", "", title + ", against the advice", desk.book.cite(rule));
    check.as = ShownAs::percent;
    Term<Ratio> most = factor(desk.book.number(rule));
    most.symbols = most.figures = shown_percent(most.value);
    return desk.sheet.check(check, share, "≤", most);
}

} // namespace

VoltageTotal combine_voltage_changes(const Desk& desk, const std::vector<VoltageSegment>& segments,
                                     Volts nominal) {
    VoltageTotal result;
    if (segments.empty())
        return result;
    const auto volts_nominal = state_nominal(desk, nominal);
    Term<Volts> sum = segments.front().change;
    int number = 0;
    for (const VoltageSegment& segment : segments) {
        if (number > 0)
            sum = sum + segment.change;
        const std::string name = "segment_" + std::to_string(++number);
        const bool within =
            check_share(desk, name, segment.title, segment.change, volts_nominal, "voltage.change");
        result.each_within = result.each_within && within;
    }
    const auto total =
        desk.sheet.define(line_for(desk, "voltage_total", "V_total", "Voltage change of all runs",
                                   desk.book.cite("voltage.total")),
                          sum);
    result.volts = total.value;
    result.fraction = total.value.value / nominal.value;
    result.total_within =
        check_share(desk, "total", "All runs", total, volts_nominal, "voltage.total");
    return result;
}

} // namespace ohmfolio
