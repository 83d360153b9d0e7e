#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "sheet/conductor_words.h"
#include "sheet/schedule_rows.h"
#include "sheet/schedules.h"

namespace ohmfolio::sheets {

namespace {

std::string percent(double fraction, int decimals) { return decimal(fraction * 100, decimals); }

std::string source_id(const System& system, const Circuit& circuit) {
    return system.at(system.source_end(circuit)).id;
}
std::string load_id(const System& system, const Circuit& circuit) {
    return system.at(system.load_end(circuit)).id;
}

void add_empty(RowMaker& row, std::size_t count) {
    for (std::size_t i = 0; i < count; ++i)
        row.add(none);
}

/// A feeder that also carries loads inward is sized for its breaker where that is more than 125 %
/// of the sources behind it.
bool loads_govern(const Study& study, const Circuit& circuit, const CircuitStudy& result) {
    if (circuit.use == CircuitUse::backup_feeder)
        return true;
    if (circuit.use != CircuitUse::source_feeder || result.breaker < 0)
        return false;
    const auto breaker = static_cast<std::size_t>(result.breaker);
    return study.breakers[breaker].minimum < result.required;
}

/// "terminal ampacity" of "terminal ampacity governs".
std::string without_verb(std::string words) {
    for (const std::string_view verb : {" governs", " govern"}) {
        if (words.ends_with(verb))
            words.erase(words.size() - verb.size());
    }
    return words;
}

std::string decided_by(const System& system, const Study& study, const Circuit& circuit,
                       const CircuitStudy& result) {
    if (result.stated && result.smallest != result.size) {
        return fmt::format("{}; {} {}", is_existing(system, circuit) ? "existing" : "stated",
                           name(result.smallest), result.passes ? "complies" : "is needed");
    }
    if (circuit.use == CircuitUse::trunk)
        return "listed ampacity";
    const std::string words = without_verb(result.governs);
    return loads_govern(study, circuit, result) ? words + "; loads up to breaker" : words;
}

/// What a conductor must carry. Service conductors follow from the rating of the service instead,
/// 310.12, and not from a current with its 125 %.
std::string required_words(const Circuit& circuit, const CircuitStudy& result) {
    return circuit.use == CircuitUse::service ? none : schedule_amps(result.required);
}

/// Ambient temperature and number of conductors do not correct trunk cable: its listing covers
/// them.
void add_ampacity_cells(RowMaker& row, const Circuit& circuit, const CircuitStudy& result) {
    const bool listed = circuit.use == CircuitUse::trunk;
    row.add(listed ? trimmed(result.ambient.value, 1)
                   : fmt::format("{} / {}", trimmed(result.ambient.value, 1),
                                 decimal(result.ambient_factor, 2)));
    row.add(listed ? none
                   : fmt::format("{} / {}", result.current_carrying,
                                 decimal(result.bundling_factor, 2)));
    const std::string terminals = schedule_amps(result.ampacity_terminals);
    row.add(listed ? terminals : fmt::format("{} ({})", terminals, result.terminal_column));
    row.add(schedule_amps(result.ampacity_corrected));
}

Row conductor_row(const System& system, const Study& study, std::size_t index,
                  std::size_t columns) {
    const Circuit& circuit = system.circuits[index];
    const CircuitStudy& result = study.circuits[index];
    const Run& run = system.runs[static_cast<std::size_t>(circuit.run)];
    const RunStudy& run_result = study.runs[static_cast<std::size_t>(circuit.run)];
    const std::string subject = "circuit:" + circuit.tag;
    RowMaker row(subject);
    row.tag(tag_with_status(system, circuit), "schedule:" + circuit.tag,
            calculation_anchor(study, subject));
    row.add(source_id(system, circuit)).add(load_id(system, circuit));
    if (!result.sized) {
        row.add("By the utility");
        add_empty(row, columns - 4);
        return row.row();
    }
    row.add(field_verify(ungrounded_words(result, circuit), is_size_unverified(system, circuit)));
    row.add(neutral_words(result));
    row.add(equipment_ground_words(system, circuit, result))
        .add(tagged_raceway_words(run, run_result));
    row.add(trimmed(run.length.value, 1));
    row.add(schedule_amps(result.current)).add(required_words(circuit, result));
    add_ampacity_cells(row, circuit, result);
    row.add(schedule_amps(result.overcurrent)).add(percent(result.voltage_change, 2));
    row.add(decided_by(system, study, circuit, result));
    return row.row();
}

/// The grounding electrode conductor, tagged G1 on the diagram.
Row electrode_conductor_row(const System& system, const Study& study, std::size_t columns) {
    RowMaker row("circuit:G1");
    const bool existing = system.at(system.grounding.at).existing;
    row.tag(existing ? "G1 (E)" : "G1", "schedule:G1", calculation_anchor(study, "grounding:GEC"));
    row.add(system.at(system.grounding.at).id).add("GES");
    row.add(field_verify(electrode_conductor_words(system, study),
                         existing && !system.grounding.stated_size));
    add_empty(row, columns - 5);
    row.add(without_verb(study.derivation(study.grounding_steps.back()).governs));
    return row.row();
}

std::string exposure(const Run& run) {
    if (run.above_roof)
        return fmt::format("on roof, {} in above it", trimmed(run.above_roof->in_inches(), 2));
    return run.on_roof ? "on roof" : "";
}

Row raceway_row(const System& system, const Run& run, const RunStudy& result) {
    const Circuit& first = system.circuits[static_cast<std::size_t>(run.circuits.front())];
    std::vector<std::string> tags;
    for (const int circuit : run.circuits)
        tags.push_back(system.circuits[static_cast<std::size_t>(circuit)].tag);
    RowMaker row("run:" + run.tag);
    row.tag(is_existing(system, first) ? run.tag + " (E)" : run.tag);
    row.add(source_id(system, first)).add(load_id(system, first)).add(join(tags, ", "));
    row.add(field_verify(raceway_words(run, result),
                         is_existing(system, first) && !run.stated_trade_size));
    row.add(trimmed(run.length.value, 1));
    row.add(decimal(result.conductors.value, 4)).add(decimal(result.allowed.value, 4));
    row.add(percent(result.fill, 1)).add(exposure(run));
    return row.row();
}

} // namespace

std::string calculation_anchor(const Study& study, std::string_view subject) {
    for (const CalculationGroup& group : study.groups) {
        if (group.subject == subject)
            return group.anchor;
    }
    return {};
}

Table conductor_schedule(const System& system, const Study& study) {
    Table table;
    table.title = drafting_case("Conductor schedule");
    table.columns = {text_column("Tag"),
                     text_column("From"),
                     text_column("To"),
                     text_column("Ungrounded conductors"),
                     text_column("Neutral"),
                     text_column("EGC", 0.92),
                     text_column("Raceway"),
                     number_column("Length\nft"),
                     number_column("Current\nA"),
                     number_column("Required\nA"),
                     number_column("Ambient\n°C /\nfactor"),
                     number_column("CCC /\nfactor"),
                     number_column("Terminal\nampacity\nA (°C)"),
                     number_column("Corrected\nampacity\nA"),
                     number_column("OCPD\nA"),
                     number_column("Volt.\nchange\n%"),
                     text_column("Governed by", 1.36)};
    for (std::size_t i = 0; i < system.circuits.size(); ++i)
        table.rows.push_back(conductor_row(system, study, i, table.columns.size()));
    if (system.grounding.at >= 0 && !study.grounding_steps.empty())
        table.rows.push_back(electrode_conductor_row(system, study, table.columns.size()));
    return table;
}

Table raceway_schedule(const System& system, const Study& study) {
    Table table;
    table.title = drafting_case("Raceway schedule");
    table.columns = {text_column("Tag"),
                     text_column("From"),
                     text_column("To"),
                     text_column("Circuits"),
                     text_column("Raceway"),
                     number_column("Length\nft"),
                     number_column("Conductors\nin²"),
                     number_column("Allowed\nin²"),
                     number_column("Fill\n%"),
                     text_column("Exposure")};
    for (std::size_t i = 0; i < system.runs.size(); ++i) {
        if (!system.runs[i].tag.empty() && !system.runs[i].circuits.empty() && study.runs[i].sized)
            table.rows.push_back(raceway_row(system, system.runs[i], study.runs[i]));
    }
    return table;
}

} // namespace ohmfolio::sheets
