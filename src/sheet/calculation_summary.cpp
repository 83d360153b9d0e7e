#include "sheet/calculation_summary.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/name_runs.h"
#include "base/text.h"
#include "sheet/calculation_sections.h"

namespace ohmfolio::sheets {

namespace {

struct Tally {
    int checks = 0, failed = 0;
    bool in_part = false; ///< something of it is left to be seen on site

    std::string verdict() const {
        if (failed > 0)
            return fmt::format("{} FAIL", failed);
        return checks == 0 ? "DATA" : in_part ? "IN PART" : "PASS";
    }
};

/// A rule that was tried and not chosen is no check that the packet rests on.
void count_checks(Tally& tally, const CalculationGroup& group, const Study& study,
                  const TriedSteps& tried) {
    for (const std::string& id : group.steps) {
        const Derivation& line = study.derivation(id);
        tally.in_part = tally.in_part || line.name.ends_with("not_checked");
        if (!line.verdict || tried.contains(id))
            continue;
        ++tally.checks;
        tally.failed += line.verdict == Verdict::fail ? 1 : 0;
    }
}

Cell cell(std::string text, std::string link = {}, bool bold = false) {
    Cell made;
    made.text = std::move(text);
    made.link = std::move(link);
    made.bold = bold;
    return made;
}

/// "CIRCUITS C1, C2: PV-1 TO JB-1, PV-2 TO JB-1".
std::string title_of(const SummaryLine& line, const Job& job) {
    if (line.groups.size() == 1)
        return drafting_case(group_title(*line.groups.front(), job));
    std::vector<std::string> names;
    std::vector<std::string> ends;
    for (const CalculationGroup* group : line.groups) {
        names.push_back(key_of(group->subject));
        const auto colon = group->title.find(": ");
        const std::string end =
            colon == std::string::npos ? group->title : group->title.substr(colon + 2);
        if (std::find(ends.begin(), ends.end(), end) == ends.end())
            ends.push_back(end);
    }
    const std::string tags = runs(names, "\u2013", all_pieces);
    constexpr std::size_t most_ends = 4; // past that the schedule tells where they run
    return drafting_case(ends.size() > most_ends
                             ? fmt::format("Circuits {}", tags)
                             : fmt::format("Circuits {}: {}", tags, join(ends, ", ")));
}

/// Numbers in a paragraph count as numbers: 240.4 before 240.21, 90 before 110.
std::vector<std::string> sort_key(std::string_view section) {
    std::vector<std::string> key;
    while (!section.empty()) {
        const auto digits = std::min(section.find_first_not_of("0123456789"), section.size());
        if (digits == 0) {
            key.emplace_back(section.substr(0, 1));
            section.remove_prefix(1);
            continue;
        }
        key.push_back(fmt::format("{:0>8}", section.substr(0, digits)));
        section.remove_prefix(digits);
    }
    return key;
}

std::vector<std::string> unverified_paragraphs(const Job& job) {
    std::vector<std::string> sections;
    const auto add = [&](const Citation& cite) {
        if (cite.unverified)
            sections.push_back(paragraph(cite));
    };
    for (const CalculationGroup& group : job.study.groups) {
        for (const std::string& id : group.steps)
            add(job.study.derivation(id).cite);
    }
    for (const ConnectionStudy& connection : job.study.connections) {
        for (const ConnectionOption& option : connection.options)
            add(option.cite);
    }
    std::sort(sections.begin(), sections.end(),
              [](const std::string& a, const std::string& b) { return sort_key(a) < sort_key(b); });
    sections.erase(std::unique(sections.begin(), sections.end()), sections.end());
    return sections;
}

std::string outcome(const ConnectionOption& option, const ConnectionStudy& connection) {
    if (option.counted)
        return "RELIED ON";
    if (!option.applies)
        return "NOT USED";
    if (option.passes)
        return option.chosen ? "PASS, CHOSEN" : "PASS";
    const auto chosen = std::find_if(connection.options.begin(), connection.options.end(),
                                     [](const ConnectionOption& each) { return each.chosen; });
    return chosen == connection.options.end()
               ? "NOT MET"
               : fmt::format("NOT MET, SEE {}", paragraph(chosen->cite));
}

} // namespace

Table summary_table(const std::vector<SummaryLine>& lines, const TriedSteps& tried,
                    const Job& job) {
    Table table;
    table.title = "SUMMARY OF CHECKS";
    table.columns = {{"CALCULATION", Align::left, {}},
                     {"CHECKS", Align::right, {}},
                     {"VERDICT", Align::left, {}},
                     {"SHEET", Align::left, {}}};
    for (const SummaryLine& line : lines) {
        Tally count;
        for (const CalculationGroup* group : line.groups)
            count_checks(count, *group, job.study, tried);
        Row row;
        row.cells = {cell(title_of(line, job), line.groups.front()->anchor),
                     cell(count.checks == 0 ? "" : fmt::format("{}", count.checks)),
                     cell(count.verdict(), {}, count.checks > 0),
                     cell(line.sheet, line.groups.front()->anchor)};
        for (Cell& each : row.cells)
            each.shows = line.groups.front()->subject;
        table.rows.push_back(std::move(row));
    }
    return table;
}

std::vector<std::string> reading_notes(const Job& job) {
    std::vector<std::string> notes{
        drafting_case(fmt::format("{} {}. {}", job.texts.remarks.paragraphs,
                                  name(job.system.edition), job.texts.remarks.without_paragraph)),
        drafting_case(job.texts.remarks.calculations)};
    const auto sections = unverified_paragraphs(job);
    if (!sections.empty()) {
        notes.push_back(drafting_case(job.texts.remarks.unverified) + " " + join(sections, ", ") +
                        ".");
    }
    return notes;
}

bool is_point_of_connection(const ConnectionStudy& connection, const Job& job) {
    for (int above = job.equipment(connection.panel).parent; above >= 0;
         above = job.equipment(above).parent) {
        for (const ConnectionStudy& other : job.study.connections) {
            if (other.panel == above)
                return false;
        }
    }
    return true;
}

namespace {

std::string heading_of(const ConnectionStudy& connection, const Job& job) {
    const std::string id = drafting_case(job.equipment(connection.panel).id);
    return is_point_of_connection(connection, job)
               ? fmt::format("POINT OF CONNECTION, RULES TRIED AT {}", id)
               : fmt::format("BUSBAR RULES TRIED AT {}", id);
}

/// The rules in the order in which the first bus tried them.
std::vector<const ConnectionOption*> all_rules(const std::vector<ConnectionStudy>& connections) {
    std::vector<const ConnectionOption*> rules;
    for (const ConnectionStudy& connection : connections) {
        for (const ConnectionOption& option : connection.options) {
            if (std::none_of(rules.begin(), rules.end(), [&](const ConnectionOption* other) {
                    return other->rule == option.rule;
                }))
                rules.push_back(&option);
        }
    }
    return rules;
}

void add_outcome(Row& row, const ConnectionStudy& connection, const std::string& rule,
                 const Job& job) {
    const auto option =
        std::find_if(connection.options.begin(), connection.options.end(),
                     [&](const ConnectionOption& each) { return each.rule == rule; });
    if (option == connection.options.end()) {
        row.cells.insert(row.cells.end(), 2, cell("—"));
        return;
    }
    row.cells.push_back(cell(drafting_case(option->reason)));
    row.cells.push_back(cell(outcome(*option, connection), {}, option->applies || option->counted));
    for (auto made = row.cells.end() - 2; made != row.cells.end(); ++made)
        made->shows = "equipment:" + job.equipment(connection.panel).id;
}

} // namespace

std::vector<Table> connection_tables(const Job& job) {
    constexpr std::size_t abreast = 3; // what the width of a sheet holds
    const auto& all = job.study.connections;
    std::vector<Table> tables;
    for (std::size_t first = 0; first < all.size(); first += abreast) {
        Table table;
        table.columns = {{"RULE", Align::left, inches(1.9)}, {"SECTION", Align::left, {}}};
        const std::size_t end = std::min(first + abreast, all.size());
        for (std::size_t i = first; i < end; ++i) {
            table.columns.push_back({heading_of(all[i], job), Align::left, {}});
            table.columns.push_back({"VERDICT", Align::left, inches(1.0)});
        }
        for (const ConnectionOption* rule : all_rules(all)) {
            Row row;
            row.cells = {cell(drafting_case(rule->rule)), cell(paragraph(rule->cite))};
            for (std::size_t i = first; i < end; ++i)
                add_outcome(row, all[i], rule->rule, job);
            table.rows.push_back(std::move(row));
        }
        tables.push_back(std::move(table));
    }
    return tables;
}

std::string group_title(const CalculationGroup& group, const Job& job) {
    for (const ConnectionStudy& connection : job.study.connections) {
        const std::string& id = job.equipment(connection.panel).id;
        if (group.subject == "equipment:" + id && !is_point_of_connection(connection, job))
            return fmt::format("Busbar: {}", id);
    }
    return group.title;
}

} // namespace ohmfolio::sheets
