// Raceways: filled by all circuits of the run and one equipment grounding conductor.

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
#include "study/steps.h"

namespace ohmfolio::workings {

namespace {

bool is_raceway(RacewayKind kind) {
    return kind != RacewayKind::free_air && kind != RacewayKind::cable;
}

std::vector<FillConductor> conductors_in(const Work& work, const Run& run) {
    std::vector<FillConductor> all;
    std::optional<FillConductor> ground;
    for (const int index : run.circuits) {
        const CircuitStudy& study = at(work.study.circuits, index);
        const Insulation insulation = at(work.system.circuits, index).insulation;
        if (!study.sized)
            continue;
        const int each = study.phase_conductors + (study.neutral ? 1 : 0);
        all.push_back({each * at(work.system.circuits, index).sets, study.size, insulation});
        if (study.has_equipment_ground && (!ground || study.equipment_ground > ground->size))
            ground = FillConductor{1, study.equipment_ground, insulation};
    }
    if (ground)
        all.push_back(*ground);
    return all;
}

/// As many digits as it takes to see that the fill is above the limit.
std::string filled_words(const std::string& place, const Run& run, const RacewayResult& result) {
    const Ratio fill{result.fill};
    const Ratio limit = result.allowed / result.inside;
    const bool alike = shown_percent(fill) == shown_percent(limit);
    return fmt::format("{}: {} in {} is filled to {}; {} is the limit", place, name(result.size),
                       name(run.raceway), shown_percent(fill, alike ? Digits::full : Digits::usual),
                       shown_percent(limit));
}

void complain_of_fill(Work& work, const Run& run, const RacewayResult& result,
                      const std::string& shown_by) {
    const Equipment& child = at(work.system.equipment, run.child);
    const std::string place =
        fmt::format("{} ({} to {})", run.tag, child.id, at(work.system.equipment, child.parent).id);
    complain(work, shown_by,
             {.rule = "raceway.fill",
              .span = run.stated_trade_size ? run.stated_trade_size->span : run.span,
              .message = result.found ? filled_words(place, run, result)
                                      : fmt::format("{}: no {} of the table holds its conductors",
                                                    place, name(run.raceway)),
              .expected = "a larger trade size, or circuits moved to a second raceway"});
}

void size_one(Work& work, int index) {
    const Run& run = at(work.system.runs, index);
    RacewayInput input{.kind = run.raceway,
                       .conductors = conductors_in(work, run),
                       .length = run.length,
                       .stated = {}};
    if (input.conductors.empty() || !is_raceway(run.raceway))
        return;
    if (run.stated_trade_size)
        input.stated = run.stated_trade_size->value;
    const auto result = size_raceway(work.desk(subject_of(run)), input);
    RunStudy& study = at(work.study.runs, index);
    study.sized = result.found;
    study.trade_size = result.size;
    study.conductors = result.conductors;
    study.allowed = result.allowed;
    study.inside = result.inside;
    study.fill = result.fill;
    study.passes = result.found && result.passes;
    if (!study.passes)
        complain_of_fill(work, run, result, work.study.worksheet.all().back().id);
}

} // namespace

void size_raceways(Work& work) {
    for (int i = 0; i < static_cast<int>(work.system.runs.size()); ++i) {
        size_one(work, i);
    }
}

} // namespace ohmfolio::workings
