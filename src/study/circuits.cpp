// Conductors: sized to the smallest that complies, or checked as stated. Trunk cable is listed
// with its ampacity and is only checked.

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
#include "code/counting_rules.h"
#include "code/supply_side_rules.h"
#include "study/steps.h"
#include "study/strings.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

constexpr WireSize smallest_of_all{2}; // 14 AWG, the smallest of the ampacity tables in use

/// Temperature rating of the insulation, dry and wet (Table 310.4(A)).
int column_of(Insulation insulation) {
    switch (insulation) {
    case Insulation::thwn_2:
    case Insulation::xhhw_2:
    case Insulation::use_2:
    case Insulation::pv_wire:
    case Insulation::trunk_cable:
        return 90;
    case Insulation::bare:
        return 75;
    }
    return 75;
}

CircuitWiring wiring_of(const System& system, const Circuit& circuit) {
    if (circuit.direct_current)
        return CircuitWiring::direct_current;
    if (circuit.lines == 3) {
        return circuit.neutral ? CircuitWiring::three_phase_neutral : CircuitWiring::three_phase;
    }
    if (circuit.lines == 1 || !circuit.neutral)
        return CircuitWiring::two_wire;
    return is_wye(system.site.supply) ? CircuitWiring::two_lines_of_wye
                                      : CircuitWiring::split_phase;
}

/// Conductors of one raceway that count for bundling; the code book tells which neutrals do. That
/// a wye is behind them deserves lines of its own.
int current_carrying(Work& work, const Run& run) {
    int conductors = 0;
    std::vector<CountedCircuit> counted;
    for (const int index : run.circuits) {
        const Circuit& circuit = at(work.system.circuits, index);
        if (circuit.by_utility)
            continue;
        counted.push_back({.wiring = wiring_of(work.system, circuit), .sets = circuit.sets});
        conductors += circuit.sets * current_carrying_of(counted.back());
    }
    const bool told = !is_wye(work.system.site.supply) || run.tag.empty() ||
                      work.study.worksheet.find(run.tag + ".current_carrying") != nullptr;
    if (!told && !counted.empty())
        count_current_carrying(work.desk(subject_of(run)), counted);
    return conductors;
}

/// Two lines of a wye have no share of their own as services, a three-phase one has none at all.
bool has_dwelling_share(const System& system, const Circuit& circuit) {
    return circuit.use == CircuitUse::service && is_dwelling(system) &&
           system.site.supply == Supply::split_phase;
}

/// Whose nameplates the column of the terminations rests on: those with the lowest marking.
std::string terminals_by(const System& system, const Circuit& circuit) {
    const Celsius lowest = terminals(system, circuit);
    std::vector<std::string> models;
    for (const int end : {system.child_of(circuit), system.parent_of(circuit)}) {
        const Record* record = system.record(at(system.equipment, end));
        if (record != nullptr && record->terminals == lowest &&
            std::ranges::find(models, record->model) == models.end())
            models.push_back(record->model);
    }
    if (models.empty())
        return {};
    return fmt::format("terminations {} by nameplate of {}", shown(lowest), join(models, ", "));
}

ConductorInput input_for(Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    const Run& run = at(work.system.runs, circuit.run);
    const Work::Load& load = *at(work.load, index);
    ConductorInput input{.continuous = load.current,
                         .required = load.required,
                         .overcurrent = load.overcurrent,
                         .material = circuit.material,
                         .insulation_column = column_of(circuit.insulation),
                         .terminals = terminals(work.system, circuit),
                         .ambient = run.ambient.value_or(work.system.site.hottest),
                         .on_roof = run.on_roof,
                         .above_roof = {},
                         .adder_exempt = circuit.insulation == Insulation::xhhw_2,
                         .current_carrying = current_carrying(work, run),
                         .stated = {},
                         .dwelling_service = has_dwelling_share(work.system, circuit),
                         .ambient_stated = run.ambient.has_value(),
                         .terminals_by = terminals_by(work.system, circuit),
                         .sets_in_parallel = run.parallel_sets};
    if (circuit.use == CircuitUse::supply_side) {
        if (const auto least = smallest_supply_conductor(work.book, circuit.material))
            input.smallest = std::max(input.smallest, *least);
    }
    if (run.above_roof)
        input.above_roof = Feet{run.above_roof->in_inches() / 12};
    if (circuit.stated_size)
        input.stated = circuit.stated_size->value;
    return input;
}

/// Each fault of a stated size, with the check that shows it.
void complain_of_faults(Work& work, int index, const ConductorResult& result,
                        const std::vector<std::string>& steps) {
    const Circuit& circuit = at(work.system.circuits, index);
    std::vector<std::string> failed;
    std::ranges::copy_if(steps, std::back_inserter(failed), [&](const std::string& id) {
        return work.study.derivation(id).verdict == Verdict::fail;
    });
    const auto right = result.smallest_that_complies;
    if (failed.empty()) { // the size is in no table, so that no check of it could be made
        failed.push_back(steps.empty() ? at(work.load, index)->required.from.front()
                                       : steps.back());
    }
    for (std::size_t i = 0; i < result.faults.size(); ++i) {
        complain(
            work, failed[std::min(i, failed.size() - 1)],
            {.rule = result.fault_rules[i],
             .span = circuit.stated_size->span,
             .message = fmt::format("{}: {} {} is too small: {}", called(work.system, circuit),
                                    name(result.size), name(circuit.material), result.faults[i]),
             .expected = right ? fmt::format("{} or larger", name(*right))
                               : std::string("no single conductor of the table is enough")});
    }
}

void complain_of_none(Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    complain(work, at(work.load, index)->required.from.front(),
             {.rule = "conductor.none",
              .span = at(work.system.runs, circuit.run).span,
              .message = fmt::format("{}: no conductor of the table carries {}",
                                     called(work.system, circuit),
                                     shown(at(work.load, index)->required.value)),
              .expected = "a smaller circuit, or fewer circuits in the raceway"});
}

/// Whether the search ended where it began: a smaller size than the trade uses might do.
bool began_with(const ConductorInput& input, const CircuitStudy& study) {
    return study.smallest == input.smallest;
}

/// What an increase of the conductors is counted from (250.122(B)).
WireSize needed_of_all_sizes(const Work& work, const Circuit& circuit, ConductorInput input) {
    input.smallest = smallest_of_all;
    input.stated = {};
    Worksheet scratch;
    const auto result = size_conductor({scratch, work.book, subject_of(circuit)}, input);
    return result.smallest_that_complies.value_or(input.smallest);
}

void store(CircuitStudy& study, const ConductorResult& result, int sets) {
    study.size = result.size;
    study.smallest = result.smallest_that_complies.value_or(result.size);
    study.parallel_sets = sets;
    study.ampacity_terminals = sets * result.ampacity_terminals;
    study.terminal_column = result.terminal_column;
    study.ambient = result.ambient;
    study.ambient_factor = result.ambient_factor;
    study.bundling_factor = result.bundling_factor;
    study.ampacity_corrected = sets * result.ampacity_corrected;
    study.governs = result.governs;
    study.passes = result.found && result.passes;
}

void size_one(Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    CircuitStudy& study = at(work.study.circuits, index);
    const std::size_t before = work.study.worksheet.all().size();
    const auto input = input_for(work, index);
    const auto result = circuit.use == CircuitUse::string
                            ? size_string_conductor(work, index, input)
                            : size_conductor(work.desk(subject_of(circuit)), input);
    store(study, result, input.sets_in_parallel);
    study.current_carrying = input.current_carrying;
    study.stated = circuit.stated_size.has_value();
    const bool by_trade =
        circuit.use != CircuitUse::string && circuit.use != CircuitUse::supply_side;
    study.needed = result.found && by_trade && began_with(input, study)
                       ? needed_of_all_sizes(work, circuit, input)
                       : study.smallest;
    if (!result.found) {
        complain_of_none(work, index);
    } else if (!result.passes) {
        complain_of_faults(work, index, result, ids_since(work.study, before));
    }
}

/// Service conductors have none, since the neutral is bonded where they end; trunk cable has one
/// where its record says so.
bool has_equipment_ground(const System& system, const Circuit& circuit) {
    if (circuit.use == CircuitUse::trunk)
        return microinverter_of(system, circuit).trunk_ground.has_value();
    return circuit.use != CircuitUse::service && !circuit.by_utility;
}

void check_trunk(Work& work, int index) {
    const Circuit& circuit = at(work.system.circuits, index);
    const Equipment& e = at(work.system.equipment, work.system.child_of(circuit));
    const auto& branch = std::get<BranchArray>(e.detail);
    const Record& inverter = at(work.system.catalogue.records, branch.microinverter);
    const auto& ratings = std::get<MicroinverterRatings>(inverter.ratings);
    CircuitStudy& study = at(work.study.circuits, index);
    const auto trunk = from_nameplate(work, inverter, "trunk_ampacity", "I_trunk",
                                      "Listed ampacity of the trunk cable", ratings.trunk_ampacity);
    study.size = study.smallest = study.needed = ratings.trunk_size;
    study.ampacity_terminals = trunk.value;
    study.ampacity_corrected = trunk.value;
    study.terminal_column = 0;
    study.listed_assembly = true;
    study.ambient = work.system.site.hottest;
    study.governs = "listed ampacity of the trunk cable";
    // The count of microinverters answers for the trunk too (branches.cpp), so that one slip is
    // reported once.
    study.passes =
        work.study.worksheet.check({.subject = subject_of(circuit),
                                    .name = "trunk_kept",
                                    .symbol = {},
                                    .title = "Branch within the listed ampacity of the trunk cable",
                                    .cite = work.book.cite(paragraph::source_conductor),
                                    .governs = study.governs},
                                   at(work.load, index)->required, "≤", trunk);
}

/// An ambient temperature stated for trunk cable changes nothing, and must not seem to.
void warn_of_ambient(Work& work, const Circuit& circuit) {
    const Run& run = at(work.system.runs, circuit.run);
    if (!run.ambient)
        return;
    complain(work, circuit.tag + ".trunk_kept",
             {.rule = "trunk.ambient",
              .severity = Severity::warning,
              .span = run.span,
              .message = fmt::format("{}: the stated ambient temperature of {} is not used: trunk "
                                     "cable is a listed assembly, whose listing gives its ampacity",
                                     called(work.system, circuit), shown(*run.ambient)),
              .expected = "no ambient temperature on trunk cable",
              .hint = "where the listing asks for a correction, lower trunk_ampacity in the "
                      "catalogue"});
}

} // namespace

void size_conductors(Work& work) {
    for (int i = 0; i < static_cast<int>(work.system.circuits.size()); ++i) {
        const Circuit& circuit = at(work.system.circuits, i);
        CircuitStudy& study = at(work.study.circuits, i);
        study.phase_conductors = circuit.lines;
        study.neutral = circuit.neutral;
        study.has_equipment_ground = has_equipment_ground(work.system, circuit);
        study.sized = at(work.load, i).has_value();
        if (!study.sized)
            continue;
        if (circuit.use == CircuitUse::trunk) {
            check_trunk(work, i);
            warn_of_ambient(work, circuit);
        } else {
            size_one(work, i);
        }
    }
}

} // namespace ohmfolio::workings
