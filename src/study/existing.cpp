// Wiring that was there before this work. The code in force does not reach back to it: where what
// flows through it is what flowed before, a size that falls short is told, not held against the
// drafter. What a new source or a new load adds to is judged as new.

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "model/existing.h"
#include "study/paragraphs.h"
#include "study/steps.h"

namespace ohmfolio::workings {

namespace {

/// Findings about a circuit, its raceway or its device.
constexpr std::array<std::string_view, 3> about_wiring = {"circuit:", "run:", "breaker:"};

bool nothing_new_below(const System& system, int equipment) {
    return std::ranges::all_of(system.subtree(equipment), [&](int i) {
        const Equipment& e = at(system.equipment, i);
        const auto* panel = e.as<Panel>();
        return stays(e) &&
               (panel == nullptr || std::ranges::none_of(panel->loads, &LoadCircuit::added));
    });
}

bool as_it_was(const System& system, const Circuit& circuit) {
    return stays(at(system.equipment, system.parent_of(circuit))) &&
           nothing_new_below(system, system.child_of(circuit));
}

/// Subjects of all wiring that stays as it was.
std::vector<std::string> existing_wiring(const System& system) {
    std::vector<std::string> subjects;
    for (std::size_t i = 0; i < system.circuits.size(); ++i) {
        const Circuit& circuit = system.circuits[i];
        if (!as_it_was(system, circuit))
            continue;
        subjects.push_back(subject_of(circuit));
        subjects.push_back(subject_of(at(system.runs, circuit.run)));
        if (const Breaker* breaker = system.breaker_of(static_cast<int>(i)))
            subjects.push_back(subject_of(*breaker));
    }
    return subjects;
}

bool is_about_wiring(const Finding& finding) {
    return std::ranges::any_of(
        about_wiring, [&](std::string_view kind) { return finding.subject.starts_with(kind); });
}

} // namespace

void warn_of_unstated_sizes(Work& work) {
    for (std::size_t i = 0; i < work.system.circuits.size(); ++i) {
        const Circuit& circuit = work.system.circuits[i];
        const CircuitStudy& result = work.study.circuits[i];
        if (!result.sized || !is_size_unverified(work.system, circuit))
            continue;
        complain_of_missing(
            work, paragraph::protection,
            {.rule = "existing.size",
             .severity = Severity::warning,
             .span = at(work.system.runs, circuit.run).span,
             .message = fmt::format("{}: it is existing, and the size of its conductors is not "
                                    "stated; {} is the smallest that complies, not what is there",
                                    called(work.system, circuit), name(result.size)),
             .expected = "the size found in the field",
             .hint = "size = \"...\" in its run; the schedules say FIELD VERIFY until then",
             .subject = subject_of(circuit)});
    }
}

void spare_existing_wiring(Work& work) {
    const auto subjects = existing_wiring(work.system);
    for (Finding& finding : work.study.findings) {
        if (finding.severity != Severity::violation || !is_about_wiring(finding) ||
            std::ranges::find(subjects, finding.subject) == subjects.end())
            continue;
        finding.severity = Severity::advice;
        finding.message += " (existing, and nothing is added to it: judged by the code that it was "
                           "installed under)";
    }
}

} // namespace ohmfolio::workings
