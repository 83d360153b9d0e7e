#include "sheet/conductor_words.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/name_runs.h"
#include "base/text.h"

namespace ohmfolio::sheets {

namespace {

/// "CU THWN-2"; trunk cable comes in one material.
std::string kind_words(const Circuit& circuit) {
    return circuit.insulation == Insulation::trunk_cable
               ? std::string(name(circuit.insulation))
               : fmt::format("{} {}", name(circuit.material), name(circuit.insulation));
}

/// "4 sets of " of conductors in parallel.
std::string sets_words(const CircuitStudy& study) {
    return study.parallel_sets > 1 ? fmt::format("{} sets of ", study.parallel_sets)
                                   : std::string{};
}

/// "4 sets of (3) 350 kcmil"; the conductors of all strings of a circuit lie in one raceway and are
/// counted together, as its fill counts them.
std::string phase_words(const CircuitStudy& study, const Circuit& circuit) {
    return fmt::format("{}({}) {}", sets_words(study), study.phase_conductors * circuit.sets,
                       name(study.size));
}

/// "(2) 8 AWG, (1) 8 AWG neutral, CU THWN-2".
std::string all_conductors(const CircuitStudy& study, const Circuit& circuit) {
    const std::string kind = kind_words(circuit);
    const std::string phases = phase_words(study, circuit);
    return study.neutral ? fmt::format("{}, (1) {} neutral, {}", phases, name(study.size), kind)
                         : fmt::format("{} {}", phases, kind);
}

/// Ahead of the service disconnect of sources it is a supply-side bonding jumper. What exists is
/// fact only where it was stated.
std::string ground_words(const System& system, const Circuit& circuit, const CircuitStudy& study,
                         std::string_view shared = {}) {
    if (!study.has_equipment_ground)
        return none;
    const bool jumper = circuit.use == CircuitUse::supply_side;
    const bool unverified = is_existing(system, circuit) && circuit.use != CircuitUse::trunk &&
                            !circuit.stated_equipment_ground;
    return field_verify(fmt::format("{}(1) {}{}{}", sets_words(study), name(study.equipment_ground),
                                    jumper ? " SSBJ" : "", shared),
                        unverified);
}

std::vector<std::string> key_cells(const System& system, const Study& study, std::size_t index) {
    const Circuit& circuit = system.circuits[index];
    const CircuitStudy& result = study.circuits[index];
    const auto run = static_cast<std::size_t>(circuit.run);
    return {field_verify(all_conductors(result, circuit), is_size_unverified(system, circuit)),
            ground_words(system, circuit, result), raceway_words(system.runs[run], study.runs[run]),
            result.overcurrent.value > 0 ? trimmed(result.overcurrent.value, 1) + " A" : none};
}

Row key_row(const std::string& tag, const std::string& subject,
            const std::vector<std::string>& cells) {
    Row row;
    const std::string shows = "circuit:" + subject;
    row.cells.push_back(cell_of(tag, shows));
    row.cells.back().bold = true;
    row.cells.back().link = "schedule:" + subject;
    for (const std::string& cell : cells)
        row.cells.push_back(cell_of(cell, shows));
    return row;
}

} // namespace

Cell cell_of(std::string_view text, std::string shows) {
    Cell cell;
    cell.text = drafting_case(text);
    cell.words = text;
    cell.shows = std::move(shows);
    if (text == none)
        cell.align = Align::centre;
    return cell;
}

std::string field_verify(std::string words, bool unverified) {
    return unverified ? words + ", field verify" : words;
}

std::string tag_with_status(const System& system, const Circuit& circuit) {
    return is_existing(system, circuit) ? circuit.tag + " (E)" : circuit.tag;
}

std::string ungrounded_words(const CircuitStudy& study, const Circuit& circuit) {
    return fmt::format("{} {}", phase_words(study, circuit), kind_words(circuit));
}

std::string neutral_words(const CircuitStudy& study) {
    return study.neutral ? fmt::format("{}(1) {}", sets_words(study), name(study.size)) : none;
}

std::string equipment_ground_words(const System& system, const Circuit& circuit,
                                   const CircuitStudy& study) {
    const Run& run = system.runs[static_cast<std::size_t>(circuit.run)];
    const bool shared = run.circuits.size() > 1 && !run.tag.empty();
    return ground_words(system, circuit, study,
                        shared ? fmt::format(", shared in {}", run.tag) : std::string{});
}

std::string electrode_conductor_words(const System& system, const Study& study) {
    return fmt::format("(1) {} {} GEC", name(study.grounding_electrode),
                       name(system.grounding.material));
}

std::string raceway_words(const Run& run, const RunStudy& study) {
    if (!study.sized)
        return std::string(name(run.raceway));
    const std::string one = fmt::format("{}\" {}", name(study.trade_size), name(run.raceway));
    return run.parallel_sets > 1 ? fmt::format("({}) {}", run.parallel_sets, one) : one;
}

std::string tagged_raceway_words(const Run& run, const RunStudy& study) {
    const std::string words = raceway_words(run, study);
    return run.tag.empty() ? words : fmt::format("{}: {}", run.tag, words);
}

Table conductor_key(const System& system, const Study& study, const std::vector<int>& circuits) {
    Table table;
    table.title = drafting_case("Conductors");
    for (const char* heading : {"Tag", "Conductors", "EGC", "Raceway", "OCPD"})
        table.columns.push_back({drafting_case(heading), Align::left, {}});
    std::vector<std::vector<std::string>> seen, tags;
    for (const int index : circuits) {
        const auto i = static_cast<std::size_t>(index);
        if (!study.circuits[i].sized)
            continue;
        const Circuit& circuit = system.circuits[i];
        const std::vector<std::string> cells = key_cells(system, study, i);
        const auto known = std::find(seen.begin(), seen.end(), cells);
        const auto row = static_cast<std::size_t>(known - seen.begin());
        if (known == seen.end()) {
            seen.push_back(cells);
            tags.emplace_back();
            table.rows.push_back(key_row({}, circuit.tag, cells));
        }
        tags[row].push_back(tag_with_status(system, circuit));
    }
    for (std::size_t row = 0; row < tags.size(); ++row)
        table.rows[row].cells.front().text = runs(tags[row], "\u2013", all_pieces);
    return table;
}

} // namespace ohmfolio::sheets
