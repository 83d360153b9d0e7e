#include "app/report.h"

#include <cmath>
#include <filesystem>

#include <nlohmann/json.hpp>

#include "app/finding_json.h"

namespace ohmfolio {

namespace {

/// A number as a person would write it: the noise of binary fractions is cut off far below any
/// tolerance of the trade.
double number(double value) {
    constexpr double steps = 1e6;
    return std::round(value * steps) / steps;
}
template <class Q> double number(Q quantity) { return number(quantity.value); }

Json written(const Citation& cite) {
    return {{"section", text(cite)}, {"unverified", cite.unverified}};
}

Json written(const Derivation& d) {
    Json out{{"id", d.id},
             {"subject", d.subject},
             {"title", d.title},
             {"symbol", d.symbol},
             {"formula", d.formula},
             {"figures", d.figures},
             {"result", d.result},
             {"value", number(d.value)},
             {"cite", written(d.cite)},
             {"source", d.source},
             {"from", d.from}};
    if (!d.rounding.empty()) {
        out["rounding"] = d.rounding;
    }
    if (!d.governs.empty()) {
        out["governs"] = d.governs;
    }
    if (d.verdict) {
        out["comparison"] = d.comparison;
        out["verdict"] = *d.verdict == Verdict::pass ? "pass" : "fail";
    }
    return out;
}

Json circuit_row(const System& system, const Study& study, std::size_t index) {
    const Circuit& circuit = system.circuits[index];
    const CircuitStudy& s = study.circuits[index];
    const Run& run = system.runs[static_cast<std::size_t>(circuit.run)];
    const auto id = [&system](int e) { return system.at(e).id; };
    Json out{{"tag", circuit.tag},
             {"from", id(system.source_end(circuit))},
             {"to", id(system.load_end(circuit))},
             {"sized", s.sized}};
    if (!s.sized) {
        return out;
    }
    out["run"] = run.tag;
    out["length_ft"] = number(run.length);
    out["current_A"] = number(s.current);
    out["required_A"] = number(s.required);
    out["overcurrent_A"] = number(s.overcurrent);
    out["size"] = name(s.size);
    out["material"] = name(circuit.material);
    out["insulation"] = name(circuit.insulation);
    out["phase_conductors"] = s.phase_conductors;
    out["parallel_sets"] = s.parallel_sets;
    out["neutral"] = s.neutral;
    out["equipment_ground"] = s.has_equipment_ground ? name(s.equipment_ground) : "";
    out["ambient_C"] = number(s.ambient);
    out["ambient_factor"] = number(s.ambient_factor);
    out["current_carrying"] = s.current_carrying;
    out["bundling_factor"] = s.bundling_factor;
    out["ampacity_terminals_A"] = number(s.ampacity_terminals);
    out["terminal_column_C"] = s.terminal_column;
    out["ampacity_corrected_A"] = number(s.ampacity_corrected);
    out["voltage_change"] = number(s.voltage_change);
    out["governs"] = s.governs;
    out["stated"] = s.stated;
    out["passes"] = s.passes;
    out["derivations"] = s.steps;
    return out;
}

Json circuit_rows(const System& system, const Study& study) {
    Json rows = Json::array();
    for (std::size_t i = 0; i < system.circuits.size(); ++i) {
        rows.push_back(circuit_row(system, study, i));
    }
    return rows;
}

Json raceway_rows(const System& system, const Study& study) {
    Json rows = Json::array();
    for (std::size_t i = 0; i < system.runs.size(); ++i) {
        const RunStudy& s = study.runs[i];
        if (s.sized) {
            rows.push_back({{"tag", system.runs[i].tag},
                            {"raceway", name(system.runs[i].raceway)},
                            {"trade_size", name(s.trade_size)},
                            {"fill", number(s.fill)},
                            {"passes", s.passes},
                            {"derivations", s.steps}});
        }
    }
    return rows;
}

Json breaker_rows(const System& system, const Study& study) {
    Json rows = Json::array();
    for (std::size_t i = 0; i < system.breakers.size(); ++i) {
        const Breaker& b = system.breakers[i];
        const BreakerStudy& s = study.breakers[i];
        rows.push_back({{"tag", b.tag},
                        {"at", system.at(b.at).id},
                        {"circuit", system.circuits[static_cast<std::size_t>(b.circuit)].tag},
                        {"rating_A", number(s.rating)},
                        {"minimum_A", number(s.minimum)},
                        {"poles", b.poles},
                        {"interrupting_A", number(s.interrupting)},
                        {"stated", s.stated},
                        {"passes", s.passes},
                        {"derivations", s.steps}});
    }
    return rows;
}

Json equipment_rows(const System& system) {
    Json rows = Json::array();
    for (const Equipment& e : system.equipment) {
        const Record* record = system.record(e);
        rows.push_back({{"id", e.id},
                        {"title", e.title},
                        {"location", e.location},
                        {"existing", e.existing},
                        {"maker", record != nullptr ? record->maker : ""},
                        {"model", record != nullptr ? record->model : ""},
                        {"listing", record != nullptr ? record->listing : ""}});
    }
    return rows;
}

Json connection_rows(const System& system, const Study& study) {
    Json rows = Json::array();
    for (const ConnectionStudy& connection : study.connections) {
        Json options = Json::array();
        for (const ConnectionOption& option : connection.options) {
            options.push_back({{"rule", option.rule},
                               {"cite", written(option.cite)},
                               {"applies", option.applies},
                               {"passes", option.passes},
                               {"chosen", option.chosen},
                               {"reason", option.reason},
                               {"derivations", option.steps}});
        }
        rows.push_back({{"at", system.at(connection.panel).id}, {"options", std::move(options)}});
    }
    return rows;
}

/// By which a later issue knows this one.
void add_issue(Json& out, const System& system, const ReportedIssue& issue) {
    out["draft"] = issue.draft;
    out["sheet_format"] = issue.format;
    out["content"] = issue.digests.content;
    out["revisions"] = Json::array();
    for (const Revision& row : system.revisions) {
        out["revisions"].push_back({{"number", row.number},
                                    {"date", row.date},
                                    {"by", row.by},
                                    {"description", row.description}});
    }
    out["sheets"] = Json::array();
    for (std::size_t i = 0; i < issue.packet.sheets.size(); ++i) {
        const Sheet& sheet = issue.packet.sheets[i];
        out["sheets"].push_back({{"number", sheet.number},
                                 {"title", sheet.title},
                                 {"revision", sheet.revision},
                                 {"digest", issue.digests.sheets[i]}});
    }
}

Json totals(const Totals& t) {
    return {{"modules", t.modules},
            {"dc_W", number(t.dc)},
            {"ac_VA", number(t.ac)},
            {"storage_Wh", number(t.storage)},
            {"storage_VA", number(t.storage_ac)},
            {"pv_current_A", number(t.pv_current)},
            {"storage_current_A", number(t.storage_current)}};
}

} // namespace

std::string report(const System& system, const Study& study, const ReportedIssue& issue,
                   const Findings& findings, const SourceFiles& sources) {
    Json out{{"project", system.project.name},
             {"edition", name(system.edition)},
             {"date", system.project.date},
             {"totals", totals(study.totals)}};
    add_issue(out, system, issue);
    out["equipment"] = equipment_rows(system);
    out["circuits"] = circuit_rows(system, study);
    out["raceways"] = raceway_rows(system, study);
    out["breakers"] = breaker_rows(system, study);
    out["connections"] = connection_rows(system, study);
    out["grounding_electrode_conductor"] = {{"size", name(study.grounding_electrode)},
                                            {"derivations", study.grounding_steps}};
    out["derivations"] = Json::array();
    for (const Derivation& d : study.worksheet.all()) {
        out["derivations"].push_back(written(d));
    }
    Findings sorted = findings;
    sort_for_print(sorted);
    out["findings"] = Json::array();
    for (const Finding& f : sorted) {
        // The folder a job stands in must not change its report.
        out["findings"].push_back(finding_json(f, sources, Places::file_names));
    }
    constexpr int indent = 2;
    return json_text(out, indent) + "\n";
}

} // namespace ohmfolio
