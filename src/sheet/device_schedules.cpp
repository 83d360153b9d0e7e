#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "sheet/conductor_words.h"
#include "sheet/schedule_rows.h"
#include "sheet/schedules.h"

namespace ohmfolio::sheets {

namespace {

std::string enclosure_of(const System& system, const Equipment& e) {
    const Record* record = system.record(e);
    return record ? record->enclosure : std::string{};
}

/// "C14, from MID-1" on the way of a source's power, "C15, to BLP" toward loads.
std::string protects(const System& system, const Circuit& circuit) {
    const bool toward_loads = system.source_end(circuit) == system.parent_of(circuit);
    const Equipment& far = system.at(system.child_of(circuit));
    return fmt::format("{}, {} {}", circuit.tag, toward_loads ? "to" : "from", far.id);
}

std::string origin_of_rating(bool stated, bool existing) {
    if (existing)
        return "field data";
    return stated ? "designer's choice" : "calculated";
}

/// "breaker"; in a switch that holds them, fuses.
std::string device_kind(const Equipment& holder) {
    return holder.is<Disconnect>() ? "fuses" : "breaker";
}

Row breaker_row(const System& system, const Study& study, std::size_t index) {
    const Breaker& breaker = system.breakers[index];
    const BreakerStudy& result = study.breakers[index];
    const Equipment& holder = system.at(breaker.at);
    const Circuit* circuit =
        breaker.circuit < 0 ? nullptr : &system.circuits[static_cast<std::size_t>(breaker.circuit)];
    const bool existing = circuit && is_existing(system, *circuit);
    std::string calculation = calculation_anchor(study, "breaker:" + breaker.tag);
    if (calculation.empty() && circuit)
        calculation = calculation_anchor(study, "circuit:" + circuit->tag);
    RowMaker row("breaker:" + breaker.tag);
    row.tag(breaker.tag, "schedule:" + breaker.tag, calculation);
    row.add(id_with_status(holder)).add(circuit ? protects(system, *circuit) : none);
    row.add(device_kind(holder));
    row.add(schedule_amps(result.minimum)).add(schedule_amps(result.rating));
    row.add(fmt::format("{}", breaker.poles));
    if (lines_of(system.site.supply) == 3)
        row.add(circuit ? circuit->phases.name() : none);
    row.add(schedule_kiloamps(result.interrupting));
    row.add(enclosure_of(system, holder)).add(holder.location);
    row.add(origin_of_rating(result.stated, existing)).add(existing ? "existing" : "new");
    return row.row();
}

/// Fuses in series with the strings of an array, at its inverter.
Row string_fuse_row(const System& system, const Study& study, std::size_t index) {
    const Circuit& circuit = system.circuits[index];
    const Equipment& inverter = system.at(system.parent_of(circuit));
    const auto& array = *system.at(system.child_of(circuit)).as<StringArray>();
    RowMaker row("circuit:" + circuit.tag);
    row.tag("Fuses").add(id_with_status(inverter)).add(protects(system, circuit)).add("fuses");
    row.add(schedule_amps(study.circuits[index].required)).add(schedule_amps(array.fuse->value));
    row.add(fmt::format("{}", 2 * array.strings));
    if (lines_of(system.site.supply) == 3)
        row.add(none); // direct current
    row.add(none);
    row.add(enclosure_of(system, inverter)).add(inverter.location);
    row.add(origin_of_rating(true, inverter.existing)).add(inverter.existing ? "existing" : "new");
    return row.row();
}

/// The device that a generator brings along.
Row generator_row(const System& system, const Equipment& e, const GeneratorRatings& ratings) {
    std::string circuit;
    for (const Circuit& c : system.circuits) {
        if (&system.at(system.child_of(c)) == &e)
            circuit = c.tag;
    }
    RowMaker row("equipment:" + e.id);
    row.tag("Integral").add(id_with_status(e)).add(fmt::format("{}, from {}", circuit, e.id));
    const int poles = ratings.phases == 3 ? 3 : 2;
    row.add("breaker").add(none).add(schedule_amps(ratings.breaker)).add(fmt::format("{}", poles));
    if (lines_of(system.site.supply) == 3)
        row.add(poles == 3 ? Phases::all(3).name() : none);
    row.add(none);
    row.add(enclosure_of(system, e)).add(e.location).add("nameplate");
    row.add(e.existing ? "existing" : "new");
    return row.row();
}

/// The main breaker of a panel, which belongs to no circuit of ours.
Row main_row(const System& system, const Equipment& e, Amps rating, int poles) {
    const auto* ratings = system.ratings<PanelRatings>(e);
    RowMaker row("equipment:" + e.id);
    row.tag("Main").add(id_with_status(e)).add(fmt::format("bus of {}", e.id));
    row.add("breaker").add(none).add(schedule_amps(rating)).add(fmt::format("{}", poles));
    if (lines_of(system.site.supply) == 3)
        row.add(Phases::all(poles).name());
    row.add(ratings ? schedule_kiloamps(ratings->interrupting) : none);
    row.add(enclosure_of(system, e)).add(e.location);
    row.add(origin_of_rating(true, e.existing)).add(e.existing ? "existing" : "new");
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
    if (disconnect.service)
        words.emplace_back("service disconnect");
    return join(words, ", ");
}

std::string required_through(const System& system, const Study& study, int equipment) {
    for (std::size_t i = 0; i < system.circuits.size(); ++i) {
        if (system.child_of(system.circuits[i]) == equipment && study.circuits[i].sized)
            return schedule_amps(study.circuits[i].required);
    }
    return {};
}

Row disconnect_row(const System& system, const Study& study, int index) {
    const Equipment& e = system.at(index);
    const auto* ratings = system.ratings<DisconnectRatings>(e);
    RowMaker row("equipment:" + e.id);
    row.tag(id_with_status(e)).add(e.title).add(required_through(system, study, index));
    row.add(ratings ? schedule_amps(ratings->rating) : none);
    row.add(ratings ? fmt::format("{}", ratings->poles) : none);
    row.add(ratings ? (ratings->fused ? "yes" : "no") : none);
    row.add(ratings ? (ratings->lockable ? "open" : "no") : none);
    row.add(ratings ? schedule_kiloamps(ratings->interrupting) : none);
    row.add(enclosure_of(system, e)).add(e.location).add(uses(*e.as<Disconnect>()));
    return row.row();
}

/// "transfers SBP to GEN-1, neutral not switched"
std::string transfer_words(const System& system, int index, int poles) {
    std::vector<std::string> panels;
    std::vector<std::string> sources;
    for (const int child : system.children(index))
        (system.at(child).is<Panel>() ? panels : sources).push_back(system.at(child).id);
    return fmt::format("transfers {} to {}, neutral {}", join(panels, ", "), join(sources, ", "),
                       poles >= 3 ? "switched" : "not switched");
}

Row transfer_row(const System& system, const Study& study, int index) {
    const Equipment& e = system.at(index);
    const auto* ratings = system.ratings<TransferSwitchRatings>(e);
    RowMaker row("equipment:" + e.id);
    row.tag(id_with_status(e)).add(e.title).add(required_through(system, study, index));
    row.add(ratings ? schedule_amps(ratings->rating) : none);
    row.add(ratings ? fmt::format("{}", ratings->poles) : none).add("no").add(none);
    row.add(ratings ? schedule_kiloamps(ratings->interrupting) : none);
    row.add(enclosure_of(system, e)).add(e.location);
    row.add(transfer_words(system, index, ratings ? ratings->poles : 2));
    return row.row();
}

/// What the fullest input of an inverter brings through the switch there: the strings of one input
/// meet before it.
Amps required_of_inputs(const System& system, const Study& study, int inverter) {
    std::map<int, Amps> inputs;
    for (std::size_t i = 0; i < system.circuits.size(); ++i) {
        const Circuit& circuit = system.circuits[i];
        if (circuit.use != CircuitUse::string || system.parent_of(circuit) != inverter)
            continue;
        const auto& array = *system.at(system.child_of(circuit)).as<StringArray>();
        Amps& input = inputs[array.input.value];
        input = input + study.circuits[i].current * circuit.sets;
    }
    Amps most{};
    for (const auto& [input, current] : inputs)
        most = std::max(most, current);
    return most;
}

/// The switch that an inverter holds for its strings.
Row string_disconnect_row(const System& system, const Study& study, int index) {
    const Equipment& e = system.at(index);
    const auto& ratings = *system.ratings<StringInverterRatings>(e);
    RowMaker row("equipment:" + e.id);
    row.tag(id_with_status(e)).add("DC disconnect, in the inverter");
    row.add(schedule_amps(required_of_inputs(system, study, index)))
        .add(schedule_amps(ratings.input_short_circuit));
    row.add(fmt::format("{}", 2 * ratings.inputs)).add("no").add(none).add(none);
    row.add(enclosure_of(system, e)).add(e.location);
    row.add(fmt::format("DC disconnecting means of its strings, {} V DC",
                        trimmed(ratings.input_limit.value, 1)));
    return row.row();
}

/// The circuit whose conductors a current transformer encloses.
std::string circuit_at(const System& system, const CurrentTransformer& transformer) {
    for (const Circuit& circuit : system.circuits) {
        const bool leaves =
            system.child_of(circuit) == transformer.at && circuit.from == transformer.port;
        const bool arrives =
            system.parent_of(circuit) == transformer.at && circuit.to == transformer.port;
        if (leaves || arrives)
            return circuit.tag;
    }
    return {};
}

Row transformer_row(const System& system, const CurrentTransformer& transformer) {
    const Equipment& at = system.at(transformer.at);
    RowMaker row("equipment:" + at.id);
    row.tag(transformer.tag);
    row.add(transformer.production ? "Production current transformer"
                                   : "Consumption current transformer");
    row.add(id_with_status(at)).add(circuit_at(system, transformer));
    row.add(transformer.reports_to < 0 ? none : system.at(transformer.reports_to).id);
    return row.row();
}

Row control_row(const System& system, const ControlLink& link) {
    const Equipment& from = system.at(link.from);
    RowMaker row("equipment:" + from.id);
    if (link.controller.empty())
        row.add(none);
    else
        row.tag(link.controller);
    row.add(link.purpose).add(id_with_status(from)).add(none);
    row.add(id_with_status(system.at(link.to)));
    return row.row();
}

} // namespace

Table overcurrent_schedule(const System& system, const Study& study) {
    Table table;
    table.title = drafting_case("Overcurrent device schedule");
    table.columns = {text_column("Tag"),           text_column("In"),
                     text_column("Protects", 1.6), text_column("Kind"),
                     number_column("Required\nA"), number_column("Rating\nA"),
                     number_column("Poles"),       number_column("kAIC"),
                     text_column("Enclosure"),     text_column("Location"),
                     text_column("Rating is"),     text_column("Status")};
    if (lines_of(system.site.supply) == 3)
        table.columns.insert(table.columns.begin() + 7, text_column("Lines"));
    for (std::size_t i = 0; i < system.breakers.size(); ++i)
        table.rows.push_back(breaker_row(system, study, i));
    for (std::size_t i = 0; i < system.circuits.size(); ++i) {
        const auto* array = system.at(system.child_of(system.circuits[i])).as<StringArray>();
        if (array && array->fuse)
            table.rows.push_back(string_fuse_row(system, study, i));
    }
    for (int i = 0; i < static_cast<int>(system.equipment.size()); ++i) {
        const Equipment& e = system.at(i);
        if (const auto* panel = e.as<Panel>(); panel && panel->main)
            table.rows.push_back(main_row(system, e, panel->main->value, system.lines_at(i)));
        if (const auto* generator = system.ratings<GeneratorRatings>(e);
            generator && generator->breaker.value > 0)
            table.rows.push_back(generator_row(system, e, *generator));
    }
    return table;
}

Table disconnect_schedule(const System& system, const Study& study) {
    Table table;
    table.title = drafting_case("Disconnect schedule");
    table.columns = {
        text_column("Tag"),         text_column("Title"),      number_column("Required\nA"),
        number_column("Rating\nA"), number_column("Poles"),    number_column("Fused"),
        number_column("Lockable"),  number_column("SCCR\nkA"), text_column("Enclosure"),
        text_column("Location"),    text_column("Use", 3.6)};
    for (int i = 0; i < static_cast<int>(system.equipment.size()); ++i) {
        const Equipment& e = system.at(i);
        const auto* inverter = system.ratings<StringInverterRatings>(e);
        if (e.is<Disconnect>())
            table.rows.push_back(disconnect_row(system, study, i));
        if (e.is<TransferSwitch>())
            table.rows.push_back(transfer_row(system, study, i));
        if (inverter && inverter->disconnect)
            table.rows.push_back(string_disconnect_row(system, study, i));
    }
    return table;
}

Table metering_schedule(const System& system) {
    Table table;
    table.title =
        drafting_case("Metering and control wiring,\nby the instructions of the equipment");
    table.columns = {text_column("Tag"), text_column("Purpose", 1.75), text_column("At / from"),
                     text_column("On circuit"), text_column("To")};
    for (const CurrentTransformer& transformer : system.transformers)
        table.rows.push_back(transformer_row(system, transformer));
    for (const ControlLink& link : system.controls)
        table.rows.push_back(control_row(system, link));
    return table;
}

} // namespace ohmfolio::sheets
