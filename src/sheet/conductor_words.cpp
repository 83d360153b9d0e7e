#include "sheet/conductor_words.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"

namespace ohmfolio::sheets {

namespace {

/// "(2) 8 AWG + (1) 8 AWG N CU THWN-2".
std::string all_conductors(const CircuitStudy& study, const Circuit& circuit) {
    const std::string kind = fmt::format("{} {}", name(circuit.material), name(circuit.insulation));
    const std::string phases = fmt::format("({}) {}", study.phase_conductors, name(study.size));
    return study.neutral ? fmt::format("{} + (1) {} N {}", phases, name(study.size), kind)
                         : fmt::format("{} {}", phases, kind);
}

std::vector<std::string> key_cells(const System& system, const Study& study, std::size_t index) {
    const Circuit& circuit = system.circuits[index];
    const CircuitStudy& result = study.circuits[index];
    if (!result.sized) {
        return {"By the utility", none, none, none};
    }
    const auto run = static_cast<std::size_t>(circuit.run);
    return {all_conductors(result, circuit), equipment_ground_words(result),
            raceway_words(system.runs[run], study.runs[run]),
            result.overcurrent.value > 0 ? trimmed(result.overcurrent.value, 1) + " A" : none};
}

} // namespace

std::string ungrounded_words(const CircuitStudy& study, const Circuit& circuit) {
    return fmt::format("({}) {} {} {}", study.phase_conductors, name(study.size),
                       name(circuit.material), name(circuit.insulation));
}

std::string neutral_words(const CircuitStudy& study) {
    return study.neutral ? fmt::format("(1) {}", name(study.size)) : none;
}

std::string equipment_ground_words(const CircuitStudy& study) {
    return study.has_equipment_ground ? fmt::format("(1) {}", name(study.equipment_ground)) : none;
}

std::string raceway_words(const Run& run, const RunStudy& study) {
    return study.sized ? fmt::format("{} in {}", name(study.trade_size), name(run.raceway))
                       : std::string(name(run.raceway));
}

Table conductor_key(const System& system, const Study& study) {
    Table table;
    table.title = drafting_case("Conductors");
    for (const char* heading : {"Tag", "Conductors", "EGC", "Raceway", "OCPD"}) {
        table.columns.push_back({drafting_case(heading), Align::left, {}});
    }
    std::vector<std::vector<std::string>> seen;
    for (std::size_t i = 0; i < system.circuits.size(); ++i) {
        const std::vector<std::string> cells = key_cells(system, study, i);
        const auto known = std::find(seen.begin(), seen.end(), cells);
        const std::string& tag = system.circuits[i].tag;
        if (known != seen.end()) {
            Cell& tags = table.rows[static_cast<std::size_t>(known - seen.begin())].cells.front();
            tags.text += ", " + tag;
            continue;
        }
        seen.push_back(cells);
        Row row;
        row.cells.push_back({tag, "circuit:" + tag, "schedule:" + tag, {}, true});
        for (const std::string& cell : cells) {
            row.cells.push_back({drafting_case(cell), "circuit:" + tag, {}, {}, false});
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

} // namespace ohmfolio::sheets
