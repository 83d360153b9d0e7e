// What a conductor carries: at its terminations, and in its surroundings.
#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "code/conductor_sheet.h"

namespace ohmfolio {

namespace {

constexpr double table_ambient = 30; ///< of the ampacity table, in C

/// Columns of the ampacity table that a termination may ask for; 90 C only beyond equipment.
int column_of(Celsius marked) {
    if (marked.value >= 90)
        return 90;
    return marked.value >= 75 ? 75 : 60;
}

std::string in_inches(Feet length) { return trimmed(length.value * 12, 3) + " in"; }

} // namespace

std::string ConductorSheet::row(int column, std::string_view table) const {
    return desk_.book.table_name(table) + ", " + name(size_) + " " +
           std::string(name(input_.material)) + ", " + shown(Celsius{double(column)}) + " column";
}

bool ConductorSheet::small_circuit() const {
    return input_.overcurrent.value.value <= desk_.book.number("terminals.small_circuit");
}

/// 60 or 75 C: what the terminations are marked for, 75 above 100 A.
ConductorSheet::Column ConductorSheet::column_by_rating() const {
    if (!small_circuit())
        return {75, "conductor.terminals.large"};
    return {input_.terminals.value >= 75 ? 75 : 60, "conductor.terminals.small"};
}

/// One end of the circuit, by its marking. Equipment never goes beyond 75 C here: a listing for
/// 90 C at the equipment's own terminals is not known for what the program draws.
ConductorSheet::Column ConductorSheet::column_at(const Termination& end) const {
    if (end.separate_connector)
        return {column_of(end.marked.value_or(Celsius{60})), "conductor.terminals.connector",
                end.at};
    const bool small =
        end.sizes == MarkedSizes::none ? small_circuit() : end.sizes == MarkedSizes::to_1_awg;
    if (!small) { // 75 C, unless a marking says less: the lowest rating of any termination holds
        return {std::min(column_of(end.marked.value_or(Celsius{75})), 75),
                "conductor.terminals.large", end.at};
    }
    const Celsius marked = end.marked.value_or(Celsius{60});
    return {std::min(column_of(marked), 75), "conductor.terminals.small", end.at};
}

/// The lowest of both ends holds for the whole conductor, and never above the insulation.
ConductorSheet::Column ConductorSheet::terminal_column() const {
    Column lowest = column_by_rating();
    if (!input_.terminations.empty()) {
        lowest = column_at(input_.terminations.front());
        for (const Termination& end : input_.terminations) {
            const Column column = column_at(end);
            if (column.celsius < lowest.celsius)
                lowest = column;
        }
        lowest.why =
            "terminations " + shown(Celsius{double(lowest.celsius)}) + ", lowest at " + lowest.why;
    }
    lowest.celsius = std::min(lowest.celsius, input_.insulation_column);
    return lowest;
}

bool ConductorSheet::state_terminal_ampacity() {
    const Column column = terminal_column();
    terminal_rule_ = column.rule;
    trial_.values.terminal_column = column.celsius;
    const auto amps = desk_.book.ampacity(size_, input_.material, column.celsius);
    if (!amps)
        return false;
    Heading line =
        heading("ampacity_terminals", "I_term",
                "Ampacity at the terminations, " + shown(Celsius{double(column.celsius)}),
                desk_.book.cite(column.rule));
    line.source = row(column.celsius);
    for (const std::string& more : {column.why, input_.terminals_by}) {
        if (!more.empty())
            line.source += "; " + more;
    }
    terminal_ = desk_.sheet.state(line, *amps);
    trial_.values.ampacity_terminals = *amps;
    return true;
}

/// What the rooftop adder is added to.
Term<Celsius> ConductorSheet::design_temperature() {
    if (input_.ambient_stated) {
        Heading line = heading("ambient_stated", "T_run", "Temperature along the run",
                               desk_.book.cite("conductor.ambient"));
        line.source = "as stated for the run";
        return desk_.sheet.state(line, input_.ambient);
    }
    return desk_.sheet.state_once({.subject = "site:climate",
                                   .name = "hottest",
                                   .symbol = "T_hot",
                                   .title = "Highest temperature for conductors",
                                   .cite = desk_.book.cite("conductor.ambient")},
                                  input_.ambient);
}

Term<Celsius> ConductorSheet::state_ambient() {
    const bool near_roof = input_.on_roof && !input_.adder_exempt &&
                           (!input_.above_roof || *input_.above_roof < desk_.book.rooftop_height());
    Heading line = heading("ambient", "T_amb", "Ambient temperature of the conductors",
                           desk_.book.cite(near_roof ? "conductor.rooftop" : "conductor.ambient"));
    if (near_roof) {
        line.source = "raceway in sunlight nearer than " + in_inches(desk_.book.rooftop_height()) +
                      " to the roof";
        return desk_.sheet.define(line,
                                  design_temperature() + constant(desk_.book.rooftop_adder()));
    }
    line.source =
        input_.ambient_stated ? "as stated for the run" : "design temperature of the site";
    return desk_.sheet.state(line, input_.ambient);
}

/// By the table, which gives two decimals for bands of 5 C, or by the equation that it was made
/// with. Nothing: the insulation has no temperature left to rise.
std::optional<double> ConductorSheet::ambient_factor(Celsius ambient, Heading& line) const {
    const double limit = input_.insulation_column;
    if (!input_.ambient_by_equation) {
        line.source = desk_.book.table_name("ambient") + " at " + shown(ambient) + ", " +
                      shown(Celsius{limit}) + " column";
        return desk_.book.ambient_factor(ambient, input_.insulation_column);
    }
    line.cite = desk_.book.cite("conductor.ambient.equation");
    line.source = "√((" + shown(Celsius{limit}) + " − " + shown(ambient) + ") ÷ (" +
                  shown(Celsius{limit}) + " − " + shown(Celsius{table_ambient}) + "))";
    if (ambient.value >= limit)
        return std::nullopt;
    return std::sqrt((limit - ambient.value) / (limit - table_ambient));
}

std::optional<Term<Ratio>> ConductorSheet::state_ambient_factor() {
    const auto ambient = state_ambient();
    trial_.values.ambient = ambient.value;
    Heading line = heading("ambient_factor", "C_a", "Correction for ambient temperature",
                           desk_.book.cite("conductor.ambient"));
    const auto found = ambient_factor(ambient.value, line);
    if (!found) {
        line.source.clear();
        desk_.sheet.judge(line, "no ampacity is permitted at " + shown(ambient.value), false,
                          ambient.from);
        return std::nullopt;
    }
    trial_.values.ambient_factor = *found;
    return desk_.sheet.state(line, Ratio{*found}, ambient.from);
}

Term<Ratio> ConductorSheet::state_bundling_factor() {
    const bool nipple = input_.bundled_length && *input_.bundled_length > Feet{} &&
                        *input_.bundled_length <= desk_.book.nipple_length();
    const double share = nipple ? 1.0 : desk_.book.bundling_factor(input_.current_carrying);
    trial_.values.bundling_factor = share;
    Heading line =
        heading("bundling_factor", "C_b", "Adjustment for conductors bundled",
                desk_.book.cite(nipple ? "conductor.bundling.nipple" : "conductor.bundling"));
    line.source = desk_.book.table_name("bundling") + ", " +
                  std::to_string(input_.current_carrying) + " current-carrying conductors";
    if (nipple)
        line.source = "together for " + in_inches(*input_.bundled_length) + ", not over " +
                      in_inches(desk_.book.nipple_length());
    return desk_.sheet.state(line, Ratio{share});
}

bool ConductorSheet::state_corrected_ampacity() {
    const auto amps =
        input_.free_air
            ? desk_.book.ampacity_free_air(size_, input_.material, input_.insulation_column)
            : desk_.book.ampacity(size_, input_.material, input_.insulation_column);
    if (!amps)
        return false;
    const std::string_view table = input_.free_air ? "ampacity_free_air" : "ampacity";
    Heading line = heading("ampacity_insulation", "I_ins", "Ampacity of the insulation",
                           desk_.book.cite_table(table));
    line.source = row(input_.insulation_column, table);
    insulation_ = desk_.sheet.state(line, *amps);
    const auto ambient = state_ambient_factor();
    if (!ambient)
        return false;
    const auto bundling = state_bundling_factor();
    corrected_ = desk_.sheet.define(heading("ampacity_corrected", "I_cor", "Corrected ampacity",
                                            desk_.book.cite("conductor.corrected")),
                                    insulation_ * *ambient * bundling);
    trial_.values.ampacity_corrected = corrected_.value;
    return true;
}

} // namespace ohmfolio
