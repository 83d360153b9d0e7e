// Equipment changed: another product, another main, a breaker moved, a switch marked.

#include "study/changes.h"

#include <algorithm>

#include <fmt/format.h>

#include "study/topology.h"

namespace ohmfolio::workings {

/// The nearest smaller count that the branch's own limit allows.
Candidates fewer_modules(const Situation& here) {
    const int index = here.equipment();
    const Derivation* most = here.study.worksheet.find(here.key() + ".most");
    if (index < 0 || most == nullptr || most->value < 1)
        return {};
    Candidate candidate{fmt::format("{} modules on {}", most->value, here.key()), here.system};
    std::get<BranchArray>(at(candidate.system.equipment, index).detail).count =
        static_cast<int>(most->value);
    return {candidate};
}

/// Standard ratings below the main breaker's, largest first, down to half the busbar.
Candidates smaller_main(const Situation& here) {
    const int index = here.equipment();
    const auto* panel = index < 0 ? nullptr : at(here.system.equipment, index).as<Panel>();
    if (panel == nullptr || !panel->main)
        return {};
    Candidates candidates;
    const double present = panel->main->value.value;
    for (double amps = present - 5; amps >= present / 2; amps -= 5) {
        if (!here.book.is_standard_rating(Amps{amps}))
            continue;
        Candidate candidate{fmt::format("a {} main breaker in {}, if its loads allow",
                                        shown(Amps{amps}), here.key()),
                            here.system};
        std::get<Panel>(at(candidate.system.equipment, index).detail).main->value = Amps{amps};
        candidates.push_back(std::move(candidate));
    }
    return candidates;
}

Candidates other_end(const Situation& here) {
    const int index = here.equipment();
    const auto* panel = index < 0 ? nullptr : at(here.system.equipment, index).as<Panel>();
    if (panel == nullptr || panel->opposite_end)
        return {};
    Candidate candidate{
        fmt::format("the source breaker at the end of the busbar of {} opposite the main",
                    here.key()),
        here.system};
    std::get<Panel>(at(candidate.system.equipment, index).detail).opposite_end = true;
    return {candidate};
}

/// The far end and a smaller main together, where neither alone is enough.
Candidates other_end_and_smaller_main(const Situation& here) {
    Candidates candidates;
    for (Candidate& candidate : smaller_main(here)) {
        auto& panel = std::get<Panel>(at(candidate.system.equipment, here.equipment()).detail);
        if (panel.opposite_end)
            return {};
        panel.opposite_end = true;
        candidate.change = fmt::format(
            "the source breaker at the end of the busbar of {} opposite the main, and {}",
            here.key(), candidate.change);
        candidates.push_back(std::move(candidate));
    }
    return candidates;
}

/// One load breaker moved elsewhere, the largest first.
Candidates one_load_less(const Situation& here) {
    Candidates candidates;
    const int index = here.equipment();
    const auto* panel = index < 0 ? nullptr : at(here.system.equipment, index).as<Panel>();
    for (std::size_t i = 0; panel != nullptr && i < panel->loads.size(); ++i) {
        const LoadCircuit& load = panel->loads[i];
        Candidate candidate{fmt::format("move the {} {} breaker off {}", shown(load.breaker.value),
                                        load.name, here.key()),
                            here.system};
        auto& loads = std::get<Panel>(at(candidate.system.equipment, index).detail).loads;
        loads.erase(loads.begin() + static_cast<std::ptrdiff_t>(i));
        candidates.push_back(std::move(candidate));
    }
    std::ranges::stable_sort(candidates, {}, [&](const Candidate& candidate) {
        double sum = 0;
        for (const LoadCircuit& load :
             std::get<Panel>(at(candidate.system.equipment, index).detail).loads) {
            sum += load.breaker.value.value;
        }
        return sum;
    });
    return candidates;
}

/// Each disconnect that PV passes through, nearest the service last.
Candidates marked_for_shutdown(const Situation& here) {
    Candidates candidates;
    for (int i = 0; i < static_cast<int>(here.system.equipment.size()); ++i) {
        const Equipment& e = at(here.system.equipment, i);
        if (!e.is<Disconnect>() || branches_below(here.system, i).empty())
            continue;
        Candidate candidate{fmt::format("{} marked for rapid shutdown", e.id), here.system};
        std::get<Disconnect>(at(candidate.system.equipment, i).detail).rapid_shutdown = true;
        candidates.push_back(std::move(candidate));
    }
    return candidates;
}

/// Each disconnect between the units and their bus.
Candidates marked_for_storage(const Situation& here) {
    Candidates candidates;
    const int unit = here.equipment();
    for (int i = unit < 0 ? -1 : at(here.system.equipment, unit).parent;
         i >= 0 && !is_bus(at(here.system.equipment, i)); i = at(here.system.equipment, i).parent) {
        if (!at(here.system.equipment, i).is<Disconnect>())
            continue;
        Candidate candidate{fmt::format("{} marked for storage", at(here.system.equipment, i).id),
                            here.system};
        std::get<Disconnect>(at(candidate.system.equipment, i).detail).storage = true;
        candidates.push_back(std::move(candidate));
    }
    return candidates;
}

/// Any other product of the catalogue of the same kind in the place of the finding's.
Candidates other_product(const Situation& here) {
    Candidates candidates;
    const int index = here.equipment();
    const int present = index < 0 ? -1 : at(here.system.equipment, index).record;
    if (present < 0)
        return candidates;
    const auto& records = here.system.catalogue.records;
    for (std::size_t i = 0; i < records.size(); ++i) {
        if (static_cast<int>(i) == present ||
            records[i].ratings.index() != at(records, present).ratings.index())
            continue;
        Candidate candidate{
            fmt::format("{} {} for {}", records[i].maker, records[i].model, here.key()),
            here.system};
        at(candidate.system.equipment, index).record = static_cast<int>(i);
        candidates.push_back(std::move(candidate));
    }
    return candidates;
}

namespace {

/// Another module, or another microinverter, on every branch that has the pair of the finding.
Candidates other_pair(const Situation& here, int BranchArray::*part) {
    Candidates candidates;
    const int index = here.equipment();
    const auto* named = index < 0 ? nullptr : at(here.system.equipment, index).as<BranchArray>();
    const auto& records = here.system.catalogue.records;
    for (int i = 0; named != nullptr && i < static_cast<int>(records.size()); ++i) {
        if (named->*part == i ||
            at(records, named->*part).ratings.index() != at(records, i).ratings.index())
            continue;
        Candidate candidate{fmt::format("{} {}", at(records, i).maker, at(records, i).model),
                            here.system};
        for (Equipment& e : candidate.system.equipment) {
            auto* branch = std::get_if<BranchArray>(&e.detail);
            if (branch != nullptr && branch->module == named->module &&
                branch->microinverter == named->microinverter)
                branch->*part = i;
        }
        candidates.push_back(std::move(candidate));
    }
    return candidates;
}

} // namespace

Candidates other_module(const Situation& here) { return other_pair(here, &BranchArray::module); }
Candidates other_microinverter(const Situation& here) {
    return other_pair(here, &BranchArray::microinverter);
}

} // namespace ohmfolio::workings
