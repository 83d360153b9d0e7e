// One conductor size against every check.
#include "code/conductor_trial.h"

#include <algorithm>

#include "base/text.h"
#include "code/conductor_sheet.h"
#include "code/dwelling_rules.h"

namespace ohmfolio {

ConductorTrial ConductorSheet::run() {
    if (!state_terminal_ampacity() || !state_corrected_ampacity())
        return trial_;
    trial_.in_table = true;
    if (dwelling_share()) {
        check_dwelling_service();
    } else {
        check_terminals();
        check_corrected();
        if (!input_.unprotected)
            check_protection();
    }
    if (!input_.unprotected)
        check_small_conductor();
    check_parallel();
    return trial_;
}

Term<Amps> ConductorSheet::together(const Term<Amps>& one) const {
    const int sets = input_.sets_in_parallel;
    return sets == 1 ? one : factor(sets) * one;
}

void ConductorSheet::check_terminals() {
    const auto terminals = together(terminal_);
    const bool passes = desk_.sheet.check(heading("terminals_check", "",
                                                  "Ampacity at the terminations is sufficient",
                                                  desk_.book.cite(terminal_rule_)),
                                          terminals, "≥", input_.required);
    note({terminal_rule_, passes, "terminal ampacity",
          shown(terminals.value) + " at the terminations is below the " +
              shown(input_.required.value) + " required"});
}

std::string ConductorSheet::correction_that_governs() const {
    const double sets = input_.sets_in_parallel;
    const Amps unbundled = sets * insulation_.value * trial_.values.ambient_factor;
    const Amps cool = sets * insulation_.value * trial_.values.bundling_factor;
    const bool bundling = unbundled >= input_.continuous.value;
    const bool ambient = cool >= input_.continuous.value;
    if (bundling != ambient)
        return bundling ? "bundling" : "ambient temperature";
    return "corrected ampacity";
}

void ConductorSheet::check_corrected() {
    const auto corrected = together(corrected_);
    const bool passes =
        desk_.sheet.check(heading("corrected_check", "", "Corrected ampacity carries the current",
                                  desk_.book.cite(input_.carries_by)),
                          corrected, "≥", input_.continuous);
    note({input_.carries_by, passes, correction_that_governs(),
          "corrected ampacity " + shown(corrected.value) + " is below the continuous current " +
              shown(input_.continuous.value)});
}

Term<Amps> ConductorSheet::usable_ampacity() {
    const bool one = input_.sets_in_parallel == 1;
    const std::string title = one ? "Ampacity in use" : "Ampacity in use, of one conductor";
    auto ampacity =
        desk_.sheet.define(heading(one ? "ampacity" : "ampacity_each", one ? "I_z" : "I_each",
                                   title, desk_.book.cite("conductor.corrected")),
                           lesser(corrected_, terminal_));
    if (!one) {
        ampacity = desk_.sheet.define(heading("ampacity", "I_z", "Ampacity of the sets in parallel",
                                              desk_.book.cite("conductor.parallel")),
                                      together(ampacity));
    }
    trial_.values.ampacity = ampacity.value;
    return ampacity;
}

/// 240.4(B): the next standard rating above the ampacity, to 800 A, and not on circuits of
/// receptacles for portable loads; 240.4(C): above that the ampacity itself.
void ConductorSheet::check_protection() {
    if (input_.other_protection) {
        check_other_protection();
        return;
    }
    const auto ampacity = usable_ampacity();
    const Amps limit{desk_.book.number("overcurrent.next_size_limit")};
    const auto next = desk_.book.standard_rating_up(ampacity.value, input_.device);
    Term<Amps> most = ampacity;
    std::string rule = "conductor.protection.large";
    if (input_.portable_loads) {
        rule = "conductor.protection.portable";
    } else if (next && *next <= limit) {
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

/// 240.4(E) and (F): the rule of 240.21 gives the ampacity, and rounding up is not permitted.
void ConductorSheet::check_other_protection() {
    const OtherProtection& other = *input_.other_protection;
    const auto ampacity = usable_ampacity();
    const bool passes =
        desk_.sheet.check(heading("protection_check", "", "Conductor is protected at its end",
                                  desk_.book.cite(other.rule)),
                          ampacity, "≥", other.least);
    note({other.rule, passes, "protection at the end of the tap",
          "ampacity " + shown(ampacity.value) + " is below the " + shown(other.least.value) +
              " of the tap rule"});
}

void ConductorSheet::check_small_conductor() {
    const auto limit = desk_.book.small_conductor_limit(size_, input_.material);
    if (!limit || input_.other_protection)
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

/// Ratings beyond those of the share keep to the ordinary checks, and a line says so.
bool ConductorSheet::dwelling_share() const {
    if (!input_.dwelling_service)
        return false;
    const bool applies = has_dwelling_rating(desk_.book, input_.overcurrent.value);
    if (!applies) {
        ohmfolio::dwelling_share(desk_,
                                 {.rating = input_.overcurrent, .feeder = input_.dwelling_feeder});
    }
    return applies;
}

/// The rating of the service stands for the load of the dwelling, so the share of it replaces the
/// checks against the current and 240.4(B). A feeder need not exceed the service conductors.
void ConductorSheet::check_dwelling_service() {
    const std::string rule =
        input_.dwelling_feeder ? "conductor.dwelling_feeder" : "conductor.dwelling_service";
    auto needed = desk_.sheet.define(
        heading("service_share", "I_83", "Share of the service rating", desk_.book.cite(rule)),
        factor(desk_.book.number(rule)) * input_.overcurrent);
    if (input_.dwelling_feeder && input_.service_ampacity &&
        input_.service_ampacity->value > Amps{}) {
        needed =
            desk_.sheet.define(heading("feeder_most", "I_feeder", "Ampacity asked of the feeder",
                                       desk_.book.cite("conductor.dwelling_feeder.most")),
                               lesser(needed, *input_.service_ampacity));
    }
    const auto ampacity = usable_ampacity();
    const bool passes = desk_.sheet.check(
        heading("service_check", "", "Conductor of the dwelling service", desk_.book.cite(rule)),
        ampacity, "≥", needed);
    note({rule, passes, "share of the service rating",
          "ampacity " + shown(ampacity.value) + " is below the " + shown(needed.value) +
              " required of a " + shown(input_.overcurrent.value) + " service"});
}

/// Sets must also be alike in length, material, size, insulation and terminations: one size and one
/// run describe all of them, so that is what the drawing asks for.
void ConductorSheet::check_parallel() {
    if (input_.sets_in_parallel == 1)
        return;
    static const WireSize smallest = *parse_wire_size("1/0"); // 310.10
    const bool passes = size_ >= smallest;
    Heading line = heading("parallel_check", "", "Conductors in parallel",
                           desk_.book.cite("conductor.parallel"));
    line.source = std::to_string(input_.sets_in_parallel) +
                  " sets alike in length, material, size, insulation and terminations";
    const std::string holds =
        name(size_) + (passes ? " is not smaller than " : " is smaller than ") + name(smallest);
    desk_.sheet.judge(line, holds, passes, {});
    note({"conductor.parallel", passes, "smallest size in parallel",
          name(size_) + " in parallel is smaller than " + name(smallest)});
}

bool ConductorTrial::passes() const {
    return in_table && std::all_of(checks.begin(), checks.end(),
                                   [](const ConductorCheck& check) { return check.passes; });
}

ConductorTrial try_conductor(const Desk& desk, const ConductorInput& input, WireSize size) {
    return ConductorSheet(desk, input, size).run();
}

} // namespace ohmfolio
