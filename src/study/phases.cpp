// Sources on the lines of a wye, and how unequally single-phase ones load a three-phase service.

#include "study/phases.h"

#include <fmt/format.h>

#include "base/text.h"
#include "code/source_device_rules.h"
#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

const std::string unbalance_subject = "site:phases";

/// Currents that differ by less are equal: what binary arithmetic leaves over.
constexpr Amps alike{0.005};

/// What arrives at the service: at the outermost equipment whose circuits carry sources.
PhaseSources at_service(const Work& work) {
    PhaseSources all;
    for (std::size_t i = 0; i < work.system.circuits.size(); ++i) {
        const Circuit& circuit = work.system.circuits[i];
        const int next = next_circuit(work.system, static_cast<int>(i));
        if (at(work.sources, static_cast<int>(i)) && !circuit.direct_current &&
            (next < 0 || !at(work.sources, next)))
            all.add(phase_sources_of(work, {static_cast<int>(i)}));
    }
    return all;
}

std::string line_words(const std::array<Term<Amps>, 3>& currents) {
    return fmt::format("A {}, B {}, C {}", shown(currents[0].value), shown(currents[1].value),
                       shown(currents[2].value));
}

Complaint beyond_limit(const Work& work, const std::array<Term<Amps>, 3>& currents,
                       Amps difference) {
    const auto& limit = work.system.site.unbalance_limit;
    return {.rule = "unbalance",
            .severity = limit ? Severity::violation : Severity::advice,
            .span = limit ? limit->span : Span{},
            .message = fmt::format("single-phase sources load the lines unequally: {}; that is {} "
                                   "apart",
                                   line_words(currents), shown(difference)),
            .expected = limit ? fmt::format("{} apart at most", shown(limit->value))
                              : std::string("branches in threes, alike on A-B, B-C and C-A"),
            .hint = limit ? "" : "where the utility allows it: [site] unbalance_limit = \"... A\""};
}

} // namespace

PhaseSources phase_sources_of(const Work& work, const std::vector<int>& circuits) {
    PhaseSources all;
    for (const int index : circuits) {
        const auto& current = at(work.sources, index);
        const Circuit& circuit = at(work.system.circuits, index);
        if (!current || circuit.direct_current)
            continue;
        PhaseSources one;
        if (circuit.lines == 3) {
            one = at(work.phase_sources, index);
        } else if (circuit.lines == 2) {
            one.between[static_cast<std::size_t>(circuit.phases.pair())] = current;
        } else {
            one.to_neutral[static_cast<std::size_t>(circuit.phases.first())] = current;
        }
        all.add(one);
    }
    return all;
}

bool meets_unequally(const Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    return circuit.lines == 3 && phase_sources_of(work, feeding(work.system, index)).single_phase();
}

std::optional<Term<Amps>> current_of_lines(Work& work, int index) {
    const PhaseSources sources = phase_sources_of(work, feeding(work.system, index));
    return greatest_line_current(work.desk(subject_of(at(work.system.circuits, index))), sources);
}

void keep_phase_sources(Work& work, int index) {
    if (at(work.system.circuits, index).lines != 3)
        return;
    auto& kept = at(work.phase_sources, index);
    if (meets_unequally(work, index)) {
        kept = phase_sources_of(work, feeding(work.system, index));
    } else {
        kept.three_phase = at(work.sources, index);
    }
}

void check_phase_balance(Work& work) {
    if (lines_of(work.system.site.supply) != 3)
        return;
    PhaseSources single = at_service(work);
    single.three_phase.reset();
    if (!single.any())
        return;
    const Desk desk = work.desk(unbalance_subject);
    const auto currents = line_currents(desk, single);
    PhaseCurrents input{.a = currents[0], .b = currents[1], .c = currents[2]};
    if (const auto& limit = work.system.site.unbalance_limit) {
        input.limit = state_once(work,
                                 {.subject = unbalance_subject,
                                  .name = "limit",
                                  .symbol = "I_limit",
                                  .title = "Most that the utility allows",
                                  .cite = {},
                                  .source = "as stated in the description"},
                                 limit->value);
    }
    const auto result = check_unbalance(desk, input);
    const bool within = input.limit ? result.difference.value <= input.limit->value
                                    : result.difference.value <= alike;
    if (!within) {
        complain(work, work.study.worksheet.all().back().id,
                 beyond_limit(work, currents, result.difference.value));
    }
}

} // namespace ohmfolio::workings
