#include "code/conductor_trial.h"

#include <algorithm>

#include "base/text.h"

namespace ohmfolio {

namespace {

/// Writes the lines of one size under one subject.
class ConductorSheet {
  public:
    ConductorSheet(const Desk& desk, const ConductorInput& input, WireSize size)
        : desk_(desk), input_(input), size_(size) {}

    ConductorTrial run() {
        if (!state_terminal_ampacity() || !state_corrected_ampacity())
            return trial_;
        trial_.in_table = true;
        if (input_.dwelling_service) {
            check_dwelling_service();
        } else {
            check_terminals();
            check_corrected();
            if (!input_.unprotected)
                check_protection();
        }
        if (!input_.unprotected)
            check_small_conductor();
        return trial_;
    }

  private:
    Heading heading(std::string name, std::string symbol, std::string title, Citation cite) const {
        return {.subject = desk_.subject,
                .name = std::move(name),
                .symbol = std::move(symbol),
                .title = std::move(title),
                .cite = std::move(cite)};
    }

    std::string row(int column, std::string_view table = "ampacity") const {
        return desk_.book.table_name(table) + ", " + name(size_) + " " +
               std::string(name(input_.material)) + ", " + shown(Celsius{double(column)}) +
               " column";
    }

    /// Keeps the outcome of the check whose line was written last.
    void note(ConductorCheck check) {
        check.line = desk_.sheet.all().back().id;
        trial_.checks.push_back(std::move(check));
    }

    bool small_circuit() const {
        return input_.overcurrent.value.value <= desk_.book.number("terminals.small_circuit");
    }
    std::string terminal_rule() const {
        return small_circuit() ? "conductor.terminals.small" : "conductor.terminals.large";
    }

    /// 60 or 75 C: what the terminations are marked for, 75 above 100 A, never above the
    /// insulation.
    int terminal_column() const {
        const bool marked = input_.terminals.value >= 75;
        const int column = marked || !small_circuit() ? 75 : 60;
        return std::min(column, input_.insulation_column);
    }

    bool state_terminal_ampacity();
    bool state_corrected_ampacity();
    std::optional<Term<Ratio>> state_ambient_factor();
    Term<Celsius> state_ambient();
    Term<Celsius> design_temperature();
    void check_terminals();
    void check_corrected();
    void check_protection();
    void check_small_conductor();
    void check_dwelling_service();
    Term<Amps> usable_ampacity();
    std::string correction_that_governs() const;

    const Desk& desk_;
    const ConductorInput& input_;
    WireSize size_;
    ConductorTrial trial_;
    Term<Amps> terminal_, insulation_, corrected_;
};

bool ConductorSheet::state_terminal_ampacity() {
    const int column = terminal_column();
    trial_.values.terminal_column = column;
    const auto amps = desk_.book.ampacity(size_, input_.material, column);
    if (!amps)
        return false;
    Heading line = heading("ampacity_terminals", "I_term",
                           "Ampacity at the terminations, " + shown(Celsius{double(column)}),
                           desk_.book.cite(terminal_rule()));
    line.source = row(column);
    if (!input_.terminals_by.empty())
        line.source += "; " + input_.terminals_by;
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
        line.source = "raceway in sunlight nearer than " +
                      trimmed(desk_.book.rooftop_height().value * 12, 3) + " in to the roof";
        return desk_.sheet.define(line,
                                  design_temperature() + constant(desk_.book.rooftop_adder()));
    }
    line.source =
        input_.ambient_stated ? "as stated for the run" : "design temperature of the site";
    return desk_.sheet.state(line, input_.ambient);
}

std::optional<Term<Ratio>> ConductorSheet::state_ambient_factor() {
    const auto ambient = state_ambient();
    trial_.values.ambient = ambient.value;
    const auto found = desk_.book.ambient_factor(ambient.value, input_.insulation_column);
    Heading line = heading("ambient_factor", "C_a", "Correction for ambient temperature",
                           desk_.book.cite("conductor.ambient"));
    if (!found) {
        desk_.sheet.judge(line, "no ampacity is permitted at " + shown(ambient.value), false,
                          ambient.from);
        return std::nullopt;
    }
    trial_.values.ambient_factor = *found;
    line.source = desk_.book.table_name("ambient") + " at " + shown(ambient.value) + ", " +
                  shown(Celsius{double(input_.insulation_column)}) + " column";
    return desk_.sheet.state(line, Ratio{*found}, ambient.from);
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
    const double share = desk_.book.bundling_factor(input_.current_carrying);
    trial_.values.bundling_factor = share;
    line = heading("bundling_factor", "C_b", "Adjustment for conductors bundled",
                   desk_.book.cite("conductor.bundling"));
    line.source = desk_.book.table_name("bundling") + ", " +
                  std::to_string(input_.current_carrying) + " current-carrying conductors";
    const auto bundling = desk_.sheet.state(line, Ratio{share});
    corrected_ = desk_.sheet.define(heading("ampacity_corrected", "I_cor", "Corrected ampacity",
                                            desk_.book.cite("conductor.corrected")),
                                    insulation_ * *ambient * bundling);
    trial_.values.ampacity_corrected = corrected_.value;
    return true;
}

void ConductorSheet::check_terminals() {
    const std::string rule = terminal_rule();
    const bool passes = desk_.sheet.check(heading("terminals_check", "",
                                                  "Ampacity at the terminations is sufficient",
                                                  desk_.book.cite(rule)),
                                          terminal_, "≥", input_.required);
    note({rule, passes, "terminal ampacity",
          shown(terminal_.value) + " at the terminations is below the " +
              shown(input_.required.value) + " required"});
}

std::string ConductorSheet::correction_that_governs() const {
    const Amps unbundled = insulation_.value * trial_.values.ambient_factor;
    const Amps cool = insulation_.value * trial_.values.bundling_factor;
    const bool bundling = unbundled >= input_.continuous.value;
    const bool ambient = cool >= input_.continuous.value;
    if (bundling != ambient)
        return bundling ? "bundling" : "ambient temperature";
    return "corrected ampacity";
}

void ConductorSheet::check_corrected() {
    const bool passes =
        desk_.sheet.check(heading("corrected_check", "", "Corrected ampacity carries the current",
                                  desk_.book.cite(input_.carries_by)),
                          corrected_, "≥", input_.continuous);
    note({input_.carries_by, passes, correction_that_governs(),
          "corrected ampacity " + shown(corrected_.value) + " is below the continuous current " +
              shown(input_.continuous.value)});
}

Term<Amps> ConductorSheet::usable_ampacity() {
    return desk_.sheet.define(
        heading("ampacity", "I_z", "Ampacity in use", desk_.book.cite("conductor.corrected")),
        lesser(corrected_, terminal_));
}

void ConductorSheet::check_protection() {
    const auto ampacity = usable_ampacity();
    const Amps limit{desk_.book.number("overcurrent.next_size_limit")};
    const auto next = desk_.book.standard_rating_up(ampacity.value);
    Term<Amps> most = ampacity;
    std::string rule = "conductor.protection.large";
    if (next && *next <= limit) {
        rule = "conductor.protection";
        Heading line = heading("largest_device", "I_next", "Largest device that protects it",
                               desk_.book.cite(rule));
        most =
            desk_.sheet.define(line, smallest_not_below("next standard rating", ampacity, *next));
    }
    const bool passes = desk_.sheet.check(
        heading("protection_check", "", "Conductor is protected", desk_.book.cite(rule)),
        input_.overcurrent, "≤", most);
    note({rule, passes, "protection",
          shown(input_.overcurrent.value) + " device is above the " + shown(most.value) +
              " that protects an ampacity of " + shown(ampacity.value)});
}

void ConductorSheet::check_small_conductor() {
    const auto limit = desk_.book.small_conductor_limit(size_, input_.material);
    if (!limit)
        return;
    const Citation cite = desk_.book.cite_small_conductor(size_, input_.material);
    Heading line =
        heading("small_conductor_limit", "I_small", "Largest device of a small conductor", cite);
    line.source = name(size_) + " " + std::string(name(input_.material)) + ", " +
                  desk_.book.table_name("small_conductors");
    const auto most = desk_.sheet.state(line, *limit);
    const bool passes =
        desk_.sheet.check(heading("small_conductor_check", "", "Device of a small conductor", cite),
                          input_.overcurrent, "≤", most);
    note({"conductor.small", passes, "small-conductor limit",
          shown(input_.overcurrent.value) + " device is above the limit of " + shown(*limit) +
              " for " + name(size_)});
}

/// The rating of the service stands for the load of the dwelling, so the share of it replaces the
/// checks against the current and 240.4(B).
void ConductorSheet::check_dwelling_service() {
    const std::string rule = "conductor.dwelling_service";
    const auto needed = desk_.sheet.define(
        heading("service_share", "I_83", "Share of the service rating", desk_.book.cite(rule)),
        factor(desk_.book.number(rule)) * input_.overcurrent);
    const auto ampacity = usable_ampacity();
    const bool passes = desk_.sheet.check(
        heading("service_check", "", "Conductor of the dwelling service", desk_.book.cite(rule)),
        ampacity, "≥", needed);
    note({rule, passes, "share of the service rating",
          "ampacity " + shown(ampacity.value) + " is below the " + shown(needed.value) +
              " required of a " + shown(input_.overcurrent.value) + " service"});
}

} // namespace

bool ConductorTrial::passes() const {
    return in_table && std::all_of(checks.begin(), checks.end(),
                                   [](const ConductorCheck& check) { return check.passes; });
}

ConductorTrial try_conductor(const Desk& desk, const ConductorInput& input, WireSize size) {
    return ConductorSheet(desk, input, size).run();
}

} // namespace ohmfolio
