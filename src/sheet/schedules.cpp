#include "sheet/schedules.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
#include "sheet/conductor_words.h"
#include "sheet/sheet_case.h"

namespace ohmfolio::sheets {

namespace {

const Equipment& at(const System& system, int equipment) {
    return system.equipment[static_cast<std::size_t>(equipment)];
}

std::string amps(Amps a, int decimals = 2) { return trimmed(a.value, decimals); }
std::string amps_or_none(Amps a) { return a.value > 0 ? amps(a) : none; }

/// "(E)" after what is existing: the customary mark of a drawing that adds to it.
std::string with_existing_mark(const Equipment& e) { return e.existing ? e.id + " (E)" : e.id; }

/// Collects the cells of a row that all show the same thing.
class RowMaker {
  public:
    explicit RowMaker(std::string shows) : shows_(std::move(shows)) {}
    RowMaker& add(std::string text) {
        Cell cell;
        cell.text = sheet_case(text);
        cell.shows = shows_;
        row_.cells.push_back(std::move(cell));
        return *this;
    }
    RowMaker& tag(std::string text, std::string anchor, std::string link) {
        add(std::move(text));
        row_.cells.back().bold = true;
        row_.cells.back().anchor = std::move(anchor);
        row_.cells.back().link = std::move(link);
        return *this;
    }
    Row row() { return std::move(row_); }

  private:
    std::string shows_;
    Row row_;
};

Column column(std::string heading, Align align = Align::left, double widest_inches = 0) {
    return {sheet_case(heading), align, inches(widest_inches)};
}

std::string percent(double fraction, int decimals) { return decimal(fraction * 100, decimals); }

void add_utility_cells(RowMaker& row, std::size_t columns) {
    row.add("By the utility");
    for (std::size_t i = 1; i < columns; ++i)
        row.add(none);
}

Row conductor_row(const System& system, const Study& study, std::size_t index,
                  std::size_t columns) {
    const Circuit& circuit = system.circuits[index];
    const CircuitStudy& result = study.circuits[index];
    const Run& run = system.runs[static_cast<std::size_t>(circuit.run)];
    const RunStudy& run_result = study.runs[static_cast<std::size_t>(circuit.run)];
    const std::string subject = "circuit:" + circuit.tag;
    RowMaker row(subject);
    row.tag(circuit.tag, "schedule:" + circuit.tag, calculation_anchor(study, subject));
    row.add(at(system, system.child_of(circuit)).id).add(at(system, system.parent_of(circuit)).id);
    if (!result.sized) {
        add_utility_cells(row, columns - 3);
        return row.row();
    }
    row.add(ungrounded_words(result, circuit)).add(neutral_words(result));
    row.add(equipment_ground_words(result));
    row.add(raceway_words(run, run_result));
    row.add(run_result.sized ? percent(run_result.fill, 1) : none);
    row.add(trimmed(run.length.value, 1));
    row.add(decimal(result.current.value, 2)).add(decimal(result.required.value, 2));
    row.add(trimmed(result.ambient.value, 1)).add(decimal(result.ambient_factor, 2));
    row.add(fmt::format("{} / {}", result.current_carrying, decimal(result.bundling_factor, 2)));
    row.add(fmt::format("{} ({})", amps(result.ampacity_terminals), result.terminal_column));
    row.add(decimal(result.ampacity_corrected.value, 2)).add(amps_or_none(result.overcurrent));
    row.add(percent(result.voltage_change, 2)).add(result.governs.empty() ? none : result.governs);
    return row.row();
}

/// The grounding electrode conductor, tagged G1 on the diagram.
Row electrode_conductor_row(const System& system, const Study& study, std::size_t columns) {
    RowMaker row("circuit:G1");
    row.tag("G1", "schedule:G1", calculation_anchor(study, "grounding:GEC"));
    row.add(at(system, system.grounding.at).id).add("Electrodes");
    row.add(fmt::format("(1) {} {} GEC", name(study.grounding_electrode),
                        name(system.grounding.material)));
    for (std::size_t i = 4; i + 1 < columns; ++i)
        row.add(none);
    const Derivation& size = study.derivation(study.grounding_steps.back());
    row.add(size.governs.empty() ? none : size.governs);
    return row.row();
}

/// Where the rating of a device comes from: what protects it, in the words of the schedule.
std::string protects(const System& system, const Breaker& breaker) {
    if (breaker.circuit < 0)
        return none;
    const Circuit& circuit = system.circuits[static_cast<std::size_t>(breaker.circuit)];
    return fmt::format("{}, from {}", circuit.tag, at(system, system.child_of(circuit)).id);
}

Row breaker_row(const System& system, const Study& study, std::size_t index) {
    const Breaker& breaker = system.breakers[index];
    const BreakerStudy& result = study.breakers[index];
    const Equipment& holder = at(system, breaker.at);
    const std::string circuit =
        breaker.circuit < 0 ? std::string{}
                            : system.circuits[static_cast<std::size_t>(breaker.circuit)].tag;
    const std::string own = calculation_anchor(study, "breaker:" + breaker.tag);
    RowMaker row("breaker:" + breaker.tag);
    row.tag(breaker.tag, "schedule:" + breaker.tag,
            own.empty() ? calculation_anchor(study, "circuit:" + circuit) : own);
    row.add(with_existing_mark(holder)).add(protects(system, breaker));
    row.add(result.minimum.value > 0 ? decimal(result.minimum.value, 2) : none);
    row.add(amps(result.rating));
    row.add(fmt::format("{}", breaker.poles));
    row.add(result.interrupting.value > 0 ? trimmed(result.interrupting.value / 1000, 1) : none);
    const Record* record = system.record(holder);
    row.add(record && !record->enclosure.empty() ? record->enclosure : none);
    row.add(holder.location);
    row.add(result.stated ? "Stated, checked" : "Selected");
    return row.row();
}

std::string uses(const Disconnect& disconnect) {
    std::vector<std::string> words;
    if (disconnect.utility)
        words.emplace_back("utility lockable disconnect");
    if (disconnect.rapid_shutdown)
        words.emplace_back("rapid shutdown initiation");
    if (disconnect.storage)
        words.emplace_back("ESS disconnecting means");
    return words.empty() ? none : join(words, ", ");
}

std::string current_through(const System& system, const Study& study, int equipment) {
    for (std::size_t i = 0; i < system.circuits.size(); ++i)
        if (system.child_of(system.circuits[i]) == equipment && study.circuits[i].sized)
            return decimal(study.circuits[i].required.value, 2);
    return none;
}

Row disconnect_row(const System& system, const Study& study, int index) {
    const Equipment& e = at(system, index);
    const auto* ratings = system.ratings<DisconnectRatings>(e);
    const Record* record = system.record(e);
    RowMaker row("equipment:" + e.id);
    row.tag(with_existing_mark(e), "", "").add(e.title);
    row.add(current_through(system, study, index));
    row.add(ratings ? amps(ratings->rating) : none);
    row.add(ratings ? fmt::format("{}", ratings->poles) : none);
    row.add(ratings ? (ratings->fused ? "yes" : "no") : none);
    row.add(ratings ? (ratings->lockable ? "open" : "no") : none);
    row.add(ratings && ratings->interrupting.value > 0
                ? trimmed(ratings->interrupting.value / 1000, 1)
                : none);
    row.add(record && !record->enclosure.empty() ? record->enclosure : none).add(e.location);
    row.add(uses(*e.as<Disconnect>()));
    return row.row();
}

/// Equipment of one record and title in one row: identical pieces differ by id and place only.
struct EquipmentRow {
    std::vector<const Equipment*> pieces;
    int record = -1;
    int quantity = 0;
    std::string role;
};

EquipmentRow& row_for(std::vector<EquipmentRow>& rows, int record, const std::string& role,
                      bool existing) {
    for (EquipmentRow& row : rows)
        if (row.record == record && row.role == role &&
            (row.pieces.empty() || row.pieces.front()->existing == existing))
            return row;
    rows.push_back({{}, record, 0, role});
    return rows.back();
}

std::vector<EquipmentRow> equipment_rows(const System& system) {
    std::vector<EquipmentRow> rows;
    for (const Equipment& e : system.equipment) {
        if (const auto* array = e.as<BranchArray>()) {
            for (const auto& [record, role] :
                 {std::pair<int, std::string>{array->module, "PV module"},
                  {array->microinverter, "Microinverter"}}) {
                EquipmentRow& row = row_for(rows, record, role, e.existing);
                row.pieces.push_back(&e);
                row.quantity += array->count;
            }
        } else if (!e.is<Utility>()) {
            EquipmentRow& row = row_for(rows, e.record, e.title, e.existing);
            row.pieces.push_back(&e);
            ++row.quantity;
        }
    }
    return rows;
}

std::string ids_of(const EquipmentRow& row) {
    std::vector<std::string> ids;
    for (const Equipment* e : row.pieces)
        ids.push_back(e->id);
    return join(ids, ", ");
}

std::string places_of(const EquipmentRow& row) {
    std::vector<std::string> places;
    for (const Equipment* e : row.pieces) {
        const auto* array = e->as<BranchArray>();
        const std::string& place = array ? array->roof : e->location;
        if (!place.empty() && std::find(places.begin(), places.end(), place) == places.end())
            places.push_back(place);
    }
    return places.empty() ? none : join(places, "; ");
}

std::string or_none(const std::string& text) { return text.empty() ? none : text; }

Row equipment_row(const System& system, const EquipmentRow& row) {
    const Record* record =
        row.record < 0 ? nullptr : &system.catalogue.records[static_cast<std::size_t>(row.record)];
    RowMaker maker("equipment:" + row.pieces.front()->id);
    maker.tag(ids_of(row), "", "").add(row.role);
    maker.add(record ? record->maker : none).add(record ? record->model : none);
    maker.add(record ? or_none(ratings_text(*record)) : none);
    maker.add(record ? or_none(record->listing) : none);
    maker.add(record ? or_none(record->enclosure) : none);
    maker.add(places_of(row)).add(fmt::format("{}", row.quantity));
    maker.add(row.pieces.front()->existing ? "Existing" : "New");
    return maker.row();
}

} // namespace

std::string calculation_anchor(const Study& study, std::string_view subject) {
    for (const CalculationGroup& group : study.groups)
        if (group.subject == subject)
            return group.anchor;
    return {};
}

Table conductor_schedule(const System& system, const Study& study) {
    Table table;
    table.title = sheet_case("Conductor and raceway schedule");
    const Align r = Align::right;
    table.columns = {column("Tag"),
                     column("From"),
                     column("To"),
                     column("Ungrounded conductors", Align::left, 1.05),
                     column("Neutral", Align::left, 0.75),
                     column("EGC", Align::left, 0.75),
                     column("Raceway", Align::left, 0.75),
                     column("Fill\n%", r, 0.4),
                     column("Length\nft", r, 0.45),
                     column("Current\nA", r, 0.55),
                     column("125 %\nA", r, 0.5),
                     column("Ambient\n°C", r, 0.55),
                     column("Amb.\nfactor", r, 0.5),
                     column("CCC /\nfactor", r, 0.6),
                     column("Ampacity at\nterminals\nA (°C)", r),
                     column("Ampacity\ncorrected\nA", r),
                     column("OCPD\nA", r, 0.45),
                     column("Voltage\nchange\n%", r),
                     column("Governed by")};
    for (std::size_t i = 0; i < system.circuits.size(); ++i)
        table.rows.push_back(conductor_row(system, study, i, table.columns.size()));
    if (system.grounding.at >= 0 && !study.grounding_steps.empty())
        table.rows.push_back(electrode_conductor_row(system, study, table.columns.size()));
    return table;
}

Table overcurrent_schedule(const System& system, const Study& study) {
    Table table;
    table.title = sheet_case("Overcurrent device schedule");
    const Align r = Align::right;
    table.columns = {column("Tag"),
                     column("In"),
                     column("Protects", Align::left, 1.6),
                     column("125 %\nA", r),
                     column("Rating\nA", r, 0.55),
                     column("Poles", r),
                     column("kAIC", r),
                     column("Enclosure", Align::left),
                     column("Location", Align::left, 1.8),
                     column("Rating is")};
    for (std::size_t i = 0; i < system.breakers.size(); ++i)
        table.rows.push_back(breaker_row(system, study, i));
    return table;
}

Table disconnect_schedule(const System& system, const Study& study) {
    Table table;
    table.title = sheet_case("Disconnect schedule");
    const Align r = Align::right;
    table.columns = {column("Tag"),
                     column("Title", Align::left, 1.5),
                     column("125 %\nA", r),
                     column("Rating\nA", r, 0.55),
                     column("Poles", r),
                     column("Fused", Align::left),
                     column("Lockable"),
                     column("kAIC", r),
                     column("Enclosure", Align::left),
                     column("Location", Align::left, 1.8),
                     column("Use", Align::left, 2.2)};
    for (int i = 0; i < static_cast<int>(system.equipment.size()); ++i)
        if (at(system, i).is<Disconnect>())
            table.rows.push_back(disconnect_row(system, study, i));
    return table;
}

Table equipment_schedule(const System& system) {
    Table table;
    table.title = sheet_case("Equipment schedule");
    table.columns = {column("Tag", Align::left, 0.9),
                     column("Equipment", Align::left, 1.3),
                     column("Maker"),
                     column("Model"),
                     column("Ratings", Align::left, 3.6),
                     column("Listing", Align::left, 1.0),
                     column("Enclosure", Align::left),
                     column("Location", Align::left, 1.4),
                     column("Qty", Align::right),
                     column("Status")};
    for (const EquipmentRow& row : equipment_rows(system))
        table.rows.push_back(equipment_row(system, row));
    return table;
}

} // namespace ohmfolio::sheets
