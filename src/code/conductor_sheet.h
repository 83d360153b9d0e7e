/// The lines of one conductor size under one subject. Private to the room: conductor_ampacity.cpp
/// works out what the size carries, conductor_trial.cpp holds that against what is asked of it.
#pragma once

#include <optional>
#include <string>

#include "code/conductor_trial.h"

namespace ohmfolio {

class ConductorSheet {
  public:
    ConductorSheet(const Desk& desk, const ConductorInput& input, WireSize size)
        : desk_(desk), input_(input), size_(size) {}
    ConductorTrial run();

  private:
    Heading heading(std::string name, std::string symbol, std::string title, Citation cite) const {
        return {.subject = desk_.subject,
                .name = std::move(name),
                .symbol = std::move(symbol),
                .title = std::move(title),
                .cite = std::move(cite)};
    }
    std::string row(int column, std::string_view table = "ampacity") const;

    // What the size carries.
    /// The temperature column of the terminations, and the paragraph that gives it.
    struct Column {
        int celsius = 75;
        std::string rule;
        std::string why = {};
    };
    bool small_circuit() const;
    Column column_by_rating() const;
    Column column_at(const Termination& end) const;
    Column terminal_column() const;
    bool state_terminal_ampacity();
    bool state_corrected_ampacity();
    Term<Celsius> design_temperature();
    Term<Celsius> state_ambient();
    std::optional<Term<Ratio>> state_ambient_factor();
    std::optional<double> ambient_factor(Celsius ambient, Heading& line) const;
    Term<Ratio> state_bundling_factor();

    // What is asked of it.
    /// Keeps the outcome of the check whose line was written last.
    void note(ConductorCheck check) {
        check.line = desk_.sheet.all().back().id;
        trial_.checks.push_back(std::move(check));
    }
    /// What conductors in parallel carry together; one alone stays as it is.
    Term<Amps> together(const Term<Amps>& one) const;
    bool dwelling_share() const;
    Term<Amps> usable_ampacity();
    std::string correction_that_governs() const;
    void check_terminals();
    void check_corrected();
    void check_protection();
    void check_other_protection();
    void check_small_conductor();
    void check_dwelling_service();
    void check_parallel();

    const Desk& desk_;
    const ConductorInput& input_;
    WireSize size_;
    ConductorTrial trial_;
    std::string terminal_rule_;
    Term<Amps> terminal_, insulation_, corrected_;
};

} // namespace ohmfolio
