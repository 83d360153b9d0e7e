#include <algorithm>

#include <fmt/format.h>

#include "sheet/calculation_entries.h"
#include "sheet/calculation_sections.h"
#include "sheet/flow.h"
#include "sheet/pages.h"
#include "sheet/sheet_case.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

struct Tally {
    int checks = 0, failed = 0;
};

/// A rule that was tried and not chosen is no check that the packet rests on.
Tally tally(const CalculationGroup& group, const Study& study, const TriedSteps& tried) {
    Tally count;
    for (const std::string& id : group.steps) {
        const Derivation& line = study.derivation(id);
        if (!line.verdict || tried.contains(id))
            continue;
        ++count.checks;
        count.failed += line.verdict == Verdict::fail ? 1 : 0;
    }
    return count;
}

Cell cell(std::string text, std::string link = {}, bool bold = false) {
    Cell made;
    made.text = std::move(text);
    made.link = std::move(link);
    made.bold = bold;
    return made;
}

/// Every group with the number of its checks: the page that a checker opens first.
Table summary_table(const Study& study, const TriedSteps& tried) {
    Table table;
    table.title = "SUMMARY OF CHECKS";
    table.columns = {{"CALCULATION", Align::left, {}},
                     {"CHECKS", Align::right, {}},
                     {"VERDICT", Align::left, {}}};
    for (const CalculationGroup& group : study.groups) {
        const Tally count = tally(group, study, tried);
        const std::string verdict = count.checks == 0   ? "-"
                                    : count.failed == 0 ? "PASS"
                                                        : fmt::format("{} FAIL", count.failed);
        Row row;
        row.cells = {cell(sheet_case(group.title), group.anchor),
                     cell(fmt::format("{}", count.checks)), cell(verdict, {}, true)};
        for (Cell& each : row.cells)
            each.shows = group.subject;
        table.rows.push_back(std::move(row));
    }
    return table;
}

std::string outcome(const ConnectionOption& option) {
    if (!option.applies)
        return "NOT USED";
    if (!option.passes)
        return "NOT MET";
    return option.chosen ? "PASS, CHOSEN" : "PASS";
}

/// Every rule that was tried for a bus, with why it carries or not.
Table connection_table(const Job& job, const ConnectionStudy& connection) {
    Table table;
    table.title = fmt::format("POINT OF CONNECTION, RULES TRIED AT {}",
                              sheet_case(job.equipment(connection.panel).id));
    table.columns = {{"RULE", Align::left, inches(1.05)},
                     {"SECTION", Align::left, inches(0.95)},
                     {"REASON", Align::left, {}},
                     {"VERDICT", Align::left, inches(0.65)}};
    for (const ConnectionOption& option : connection.options) {
        Row row;
        row.cells = {cell(sheet_case(option.rule)), cell(printed(option.cite)),
                     cell(sheet_case(option.reason)), cell(outcome(option), {}, true)};
        for (Cell& each : row.cells)
            each.shows = "equipment:" + job.equipment(connection.panel).id;
        table.rows.push_back(std::move(row));
    }
    return table;
}

void add_table(std::vector<Group>& groups, const Table& table, Length width, const Job& job) {
    if (table.rows.empty())
        return;
    for (Frame& piece :
         set_table(table, job.layout.table, width, job.area.height, true, job.measure)) {
        Group group;
        group.entries.push_back(std::move(piece));
        groups.push_back(std::move(group));
    }
}

/// "schedule:C5" for the calculation of a circuit: the way back.
std::string schedule_row(const CalculationGroup& group) {
    constexpr std::string_view circuit = "circuit:";
    return group.subject.starts_with(circuit) ? "schedule:" + group.subject.substr(circuit.size())
                                              : std::string{};
}

std::string key_of(const CalculationGroup& group) {
    return group.subject.substr(group.subject.find(':') + 1);
}

/// The name of a section within a group, in bold.
Frame section_heading(const std::string& title, Length width, const Job& job) {
    Frame frame;
    const TextStyle& style = job.layout.lettering.strong;
    const Length above = points(3);
    const Length height =
        write_paragraph(frame, {{}, above}, width, sheet_case(title), {style}, job.measure);
    frame.size = {width, above + height + job.measure.descent(style)};
    return frame;
}

/// Joins `below` to `above`, so that they cannot come apart.
Frame joined(Frame above, const Frame& below, Length gap) {
    const Length top = above.size.height + gap;
    above.add(below, {{}, top});
    above.size.height = top + below.size.height;
    return above;
}

void add_section(Group& group, const CalculationSection& section, const std::string& title,
                 const TriedSteps& tried, const Job& job) {
    const Length width = group.heading.size.width;
    bool first = !title.empty();
    for (const Derivation* line : section.lines) {
        Derivation shown = *line;
        // Under the name of the product "nameplate" says enough.
        if (!title.empty() && line->subject.starts_with("record:"))
            shown.source.clear();
        Frame entry = calculation_entry(shown, tried, width, job);
        group.entries.push_back(
            first ? joined(section_heading(title, width, job), entry, job.layout.item_gap)
                  : std::move(entry));
        first = false;
    }
}

Group calculation_group(const PrintedGroup& source, const TriedSteps& tried, Length width,
                        const Job& job) {
    Group group;
    const std::string title = title_of(source);
    group.heading = block_heading(title, width, job.layout, job.measure);
    for (const CalculationGroup* each : source.groups)
        group.heading.add(Anchor{{}, each->anchor}, Role::none, each->subject);
    add_link(group.heading, {{}, {width, group.heading.size.height}},
             schedule_row(*source.groups.front()));
    group.continued =
        block_heading(fmt::format("{}, continued", title), width, job.layout, job.measure);
    group.heading_gap = points(5);
    group.entry_gap = job.layout.item_gap;
    const std::string typical =
        source.groups.size() > 1 ? fmt::format("Typical of {}; symbols of {} shown",
                                               source.groups.size(), key_of(*source.groups.front()))
                                 : std::string{};
    for (const CalculationSection& section : source.sections)
        add_section(group, section,
                    source.sections.size() > 1 ? title_of(section, job.system) : typical, tried,
                    job);
    return group;
}

bool any_unverified(const Job& job) {
    const auto& all = job.study.worksheet.all();
    return std::any_of(all.begin(), all.end(),
                       [](const Derivation& line) { return line.cite.unverified; });
}

Group reading_notes(Length width, const Job& job) {
    std::string words = job.texts.remarks.calculations;
    if (any_unverified(job))
        words += " " + job.texts.remarks.unverified;
    Frame frame;
    const Length height = write_paragraph(frame, {}, width, sheet_case(words),
                                          {job.layout.lettering.body}, job.measure);
    frame.size = {width, height + job.measure.descent(job.layout.lettering.body)};
    Group group;
    group.entries.push_back(std::move(frame));
    return group;
}

} // namespace

std::vector<Frame> calculation_pages(const Job& job) {
    FlowRoom room;
    room.columns = job.layout.calculation_columns;
    room.gap = job.layout.column_gap;
    room.width = (job.area.width - room.gap * (room.columns - 1)) / room.columns;
    room.height = job.area.height;
    room.group_gap = job.layout.block_gap;
    room.widest_group_gap = job.layout.block_gap;
    const TriedSteps tried = steps_not_chosen(job.study);
    std::vector<Group> groups;
    add_table(groups, summary_table(job.study, tried), room.width, job);
    groups.push_back(reading_notes(room.width, job));
    for (const ConnectionStudy& connection : job.study.connections)
        add_table(groups, connection_table(job, connection), room.width, job);
    for (const PrintedGroup& source : printed_groups(job.study))
        groups.push_back(calculation_group(source, tried, room.width, job));
    return flow(groups, room);
}

} // namespace ohmfolio::sheets
