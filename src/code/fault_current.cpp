// Available fault current by the point-to-point method.
#include "code/fault_rules.h"
#include "code/line.h"
#include "code/rule_tables.h"
#include "code/tables.h"
#include "code/transformer_rules.h"

namespace ohmfolio {

namespace {

Term<Ratio> state_impedance(const Desk& desk, double impedance, bool least) {
    Heading line = line_for(desk, "impedance_nameplate", "Z_name", "Impedance by nameplate",
                            {{}, "equipment nameplate"});
    line.as = ShownAs::percent;
    const auto nameplate = desk.sheet.state(line, Ratio{impedance});
    if (!least)
        return nameplate;
    line = line_for(desk, "impedance_least", "Z", "Least impedance, tolerance taken off",
                    desk.book.cite("fault.transformer"));
    line.as = ShownAs::percent;
    return desk.sheet.define(line, factor(desk.book.number("fault.impedance.least")) * nameplate);
}

std::string column_of(const FaultRunInput& input) {
    if (is_steel(input.raceway))
        return "in steel";
    return "nonmagnetic";
}

/// The constant of one conductor, as a line of its own; that of a neutral of another size is its
/// own too.
std::optional<Term<FeetPerOhm>> state_constant(const Desk& desk, const FaultRunInput& input,
                                               WireSize size, const std::string& name,
                                               const std::string& symbol) {
    Heading line =
        line_for(desk, name, symbol, "Constant of the conductor", desk.book.cite("fault.run"));
    if (input.stated_constant) {
        line.source = "as stated";
        return desk.sheet.state(line, *input.stated_constant);
    }
    const auto found = fault_constant(size, input.material, input.raceway);
    if (!found)
        return std::nullopt;
    line.source = "table of constants, " + ohmfolio::name(found->row) + " " +
                  std::string(ohmfolio::name(input.material)) + " " + column_of(input);
    if (found->row != size)
        line.source += ", the next larger to " + ohmfolio::name(size);
    return desk.sheet.state(line, found->value);
}

/// The drop along the run to the voltage: √3 × L × I ÷ (C × n × V) between three phases; twice the
/// length, there and back, between two conductors.
Term<Ratio> run_factor(const Desk& desk, const FaultRunInput& input, const std::string& name,
                       const Term<FeetPerOhm>& line,
                       const std::optional<Term<FeetPerOhm>>& neutral) {
    Heading stated = line_for(desk, name + "_length", "L", "One-way length", {});
    stated.source = "as stated in the description";
    const auto length = desk.sheet.state(stated, input.length);
    stated = line_for(desk, name + "_voltage", "V", "Voltage that drives the fault", {});
    stated.source = "of the path";
    const auto volts = desk.sheet.state(stated, input.voltage);
    const auto drive = input.sets == 1 ? volts
                                       : told(desk, name + "_sets", "n", "Conductors in parallel",
                                              "as stated", Ratio{double(input.sets)}) *
                                             volts;
    if (neutral) {
        return length * input.available * (factor(1) / line + factor(1) / *neutral) / drive;
    }
    const auto ways = input.path == FaultPath::three_phase ? root_three() : factor(2);
    return ways * length * input.available / (line * drive);
}

/// How the lines of one path are named, so that a circuit can be followed along two.
struct Names {
    std::string line;    ///< "fault", "fault_neutral"
    std::string suffix;  ///< of the symbols f and M
    std::string current; ///< symbol of the current
};

Names names_of(FaultPath path) {
    if (path == FaultPath::line_to_neutral)
        return {"fault_neutral", "_N", "I_LN,"};
    return {"fault", "", "I_sc,"};
}

/// f, M and the current that they leave.
FaultRunResult after(const Desk& desk, const std::string& rule, const Names& names,
                     const Term<Amps>& available, const Term<Ratio>& f_expression) {
    const auto f =
        desk.sheet.define(line_for(desk, names.line + "_f", "f" + names.suffix,
                                   "Impedance added, to that ahead", desk.book.cite(rule)),
                          f_expression);
    const auto m =
        desk.sheet.define(line_for(desk, names.line + "_m", "M" + names.suffix,
                                   "Share of the fault current that remains", desk.book.cite(rule)),
                          factor(1) / (factor(1) + f));
    const auto key = desk.subject.substr(desk.subject.find(':') + 1);
    const auto current = desk.sheet.define(line_for(desk, names.line + "_current",
                                                    names.current + key, "Available fault current",
                                                    desk.book.cite(rule), ShownAs::kiloamps),
                                           m * available);
    return {true, current, f.value.value, m.value.value};
}

} // namespace

Term<Amps> transformer_fault_current(const Desk& desk, const TransformerFaultInput& input) {
    const auto rated =
        rated_current(desk, "secondary", "s", input.rating, input.secondary, input.phases);
    return desk.sheet.define(line_for(desk, "fault_transformer", "I_sc",
                                      "Fault current at the transformer",
                                      desk.book.cite("fault.transformer"), ShownAs::kiloamps),
                             rated / state_impedance(desk, input.impedance, input.least_impedance));
}

Term<Amps> fault_to_neutral(const Desk& desk, const Term<Amps>& line_to_line) {
    return desk.sheet.define(line_for(desk, "fault_to_neutral", "I_LN",
                                      "Fault current to neutral at the transformer",
                                      desk.book.cite("fault.neutral"), ShownAs::kiloamps),
                             factor(desk.book.number("fault.neutral")) * line_to_line);
}

Term<Amps> stated_fault_current(const Desk& desk, Amps available, const std::string& stated_by) {
    Heading line = line_for(desk, "fault_stated", "I_sc", "Available fault current",
                            {{}, "as stated"}, ShownAs::kiloamps);
    line.source = stated_by;
    return desk.sheet.state(line, available);
}

FaultRunResult fault_current_after_run(const Desk& desk, const FaultRunInput& input) {
    const Names names = names_of(input.path);
    const auto constant =
        state_constant(desk, input, input.size, names.line + "_constant", "C" + names.suffix);
    const bool own_neutral =
        input.path == FaultPath::line_to_neutral && input.neutral && *input.neutral != input.size;
    std::optional<Term<FeetPerOhm>> neutral;
    if (own_neutral)
        neutral =
            state_constant(desk, input, *input.neutral, names.line + "_constant_own", "C_own");
    if (!constant || (own_neutral && !neutral)) {
        desk.sheet.judge(line_for(desk, names.line + "_current", "", "Available fault current",
                                  desk.book.cite("fault.run")),
                         "no constant is listed for " + name(input.size) + " " +
                             std::string(name(input.material)),
                         false, input.available.from);
        return {};
    }
    return after(desk, "fault.run", names, input.available,
                 run_factor(desk, input, names.line, *constant, neutral));
}

FaultRunResult fault_current_after_transformer(const Desk& desk,
                                               const TransformerStepInput& input) {
    const auto impedance = state_impedance(desk, input.impedance, input.least_impedance);
    const auto primary = given("V_p", input.primary);
    const auto power = given_va("S", input.rating);
    const auto drop = input.phases == 3 ? root_three() * input.available * primary * impedance
                                        : input.available * primary * impedance;
    const auto seen = desk.sheet.define(
        line_for(desk, "fault_at_primary", "I_seen", "Fault current ahead, seen from the secondary",
                 desk.book.cite("fault.transformer"), ShownAs::kiloamps),
        primary / given("V_s", input.secondary) * input.available);
    return after(desk, "fault.transformer", names_of(FaultPath::three_phase), seen, drop / power);
}

Term<Amps> add_fault_contributions(const Desk& desk, const Term<Amps>& utility,
                                   const std::vector<FaultContribution>& contributions,
                                   Amps motors) {
    auto sum = utility;
    for (const FaultContribution& each : contributions)
        sum = sum + given(each.symbol, each.current, {}, ShownAs::kiloamps);
    if (motors > Amps{})
        sum = sum + factor(desk.book.number("fault.motors")) * given("I_motors", motors);
    return desk.sheet.define(line_for(desk, "fault_total", "I_sc.total",
                                      "Available fault current, all sources",
                                      desk.book.cite("fault.sources"), ShownAs::kiloamps),
                             sum);
}

} // namespace ohmfolio
