#include "sheet/general_blocks.h"

#include <algorithm>
#include <span>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "drawing/sheet.h"
#include "sheet/conditions.h"
#include "sheet/legend.h"
#include "sheet/places.h"
#include "sheet/system_summary.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

/// What every block needs to set its lettering.
struct Setter {
    const Job& job;
    Length width;

    Look body() const { return {job.layout.lettering.body}; }
    Look strong() const { return {job.layout.lettering.strong}; }
    Length below() const { return job.measure.descent(job.layout.lettering.body); }
};

Group headed(const Setter& set, std::string_view title) {
    Group group;
    group.heading = block_heading(title, set.width, set.job.layout, set.job.measure);
    group.continued = block_heading(fmt::format("{}, continued", title), set.width, set.job.layout,
                                    set.job.measure);
    group.heading_gap = points(5);
    group.entry_gap = set.job.layout.item_gap;
    return group;
}

/// Label at the left, value from a common edge on, a fine rule below.
Frame fact_row(const Setter& set, const Fact& fact, Length label_width) {
    Frame frame;
    const Length value_width = set.width - label_width;
    const Length label = write_paragraph(frame, {}, label_width - points(6),
                                         drafting_case(fact.label), set.body(), set.job.measure);
    const Length value = write_paragraph(frame, {label_width, {}}, value_width,
                                         drafting_case(fact.value), set.strong(), set.job.measure);
    const Length line = std::max(label, value) + set.below() + points(1.5);
    frame.add(polyline({{{}, line}, {set.width, line}}, {fine_pen}), Role::rule);
    frame.size = {set.width, line};
    return frame;
}

Group facts_block(const Setter& set, std::string_view title, const std::vector<Fact>& facts) {
    Group group = headed(set, title);
    for (const Fact& fact : facts) {
        if (!fact.value.empty())
            group.entries.push_back(fact_row(set, fact, scaled(set.width, 0.36)));
    }
    return group;
}

Frame paragraph(const Setter& set, const std::string& text) {
    Frame frame;
    const Length height =
        write_paragraph(frame, {}, set.width, drafting_case(text), set.body(), set.job.measure);
    frame.size = {set.width, height + set.below()};
    return frame;
}

Frame numbered(const Setter& set, const std::string& mark, const std::string& text) {
    const Length hang =
        std::max(inches(0.27), set.job.measure.width(mark, set.strong().style) + points(4));
    Frame frame;
    Look number = set.strong();
    number.shows = a_count;
    write_line(frame, {}, mark, number, set.job.measure);
    const Length height = write_paragraph(frame, {hang, {}}, set.width - hang, drafting_case(text),
                                          set.body(), set.job.measure);
    frame.size = {set.width, height + set.below()};
    return frame;
}

Group notes_block(const Setter& set, std::string_view title, bool caution) {
    Group group = headed(set, title);
    const Job& job = set.job;
    for (const Note& note : job.texts.notes) {
        if (note.caution != caution || !note.use.editions.contains(job.system.edition) ||
            !all_hold(note.use.needs, note.use.unless, job.system, job.study))
            continue;
        const auto text = filled(note.text, job.facts, job.findings);
        if (text) {
            group.entries.push_back(
                numbered(set, fmt::format("{}.", group.entries.size() + 1), *text));
        }
    }
    return group;
}

Group scope_block(const Setter& set) {
    Group group = headed(set, "Scope of work");
    if (!set.job.system.project.scope.empty())
        group.entries.push_back(paragraph(set, set.job.system.project.scope + "."));
    return group;
}

Group codes_block(const Setter& set) {
    Group group = headed(set, "Governing codes");
    const Project& project = set.job.system.project;
    std::string electrical = name(set.job.system.edition) + " (NFPA 70), National Electrical Code";
    if (!project.adoption.empty())
        electrical += ", " + project.adoption;
    group.entries.push_back(paragraph(set, electrical));
    for (const std::string& code : project.other_codes)
        group.entries.push_back(paragraph(set, code));
    return group;
}

Group waivers_block(const Setter& set) {
    Group group = headed(set, "Findings accepted with reason");
    for (const WaivedFinding& waived : set.job.study.waived) {
        const Finding& finding = waived.finding;
        const std::string section =
            finding.section.empty() ? std::string{} : " (" + finding.section + ")";
        group.entries.push_back(numbered(set, fmt::format("{}.", group.entries.size() + 1),
                                         fmt::format("{}{}. Accepted by {}: {}", finding.message,
                                                     section, waived.by, waived.reason)));
    }
    return group;
}

/// What is wrong, the paragraph, and the place in the description.
Frame violation_row(const Setter& set, std::size_t number, const Finding& violation) {
    const std::string& section = violation.section;
    return numbered(set, fmt::format("{}.", number),
                    section.empty() ? violation.message
                                    : fmt::format("{} ({})", violation.message, section));
}

/// Points to the sheet after this one.
Frame more_violations(const Setter& set, std::size_t from, std::size_t to) {
    Frame frame;
    frame.size.width = set.width;
    frame.size.height = write_paragraph(
        frame, {}, set.width,
        drafting_case(fmt::format("Numbers {} to {} follow on the next sheet.", from, to)),
        set.strong(), set.job.measure);
    return frame;
}

/// Items two abreast, read down the left half and then down the right.
std::vector<Frame> two_abreast(const std::vector<Frame>& items, Length half) {
    std::vector<Frame> rows((items.size() + 1) / 2);
    for (std::size_t i = 0; i < items.size(); ++i) {
        Frame& row = rows[i % rows.size()];
        row.add(items[i], {i < rows.size() ? Length{} : half, {}});
        row.size = {half * 2, std::max(row.size.height, items[i].size.height)};
    }
    return rows;
}

/// A sheet that has another number than before says so beside its title, where there is room: it
/// takes none, so that the sheet comes out the same in the next issue.
void add_earlier_number(Frame& row, const Setter& set, const IndexEntry& entry, Length title_at) {
    if (entry.was.empty())
        return;
    const std::string words = drafting_case("was " + entry.was);
    const TextStyle& style = set.job.layout.lettering.body;
    const Length free =
        set.width - title_at - set.job.measure.width(drafting_case(entry.title), style) - points(8);
    if (set.job.measure.width(words, style) <= free)
        write_line(row, {set.width - points(4), {}}, words,
                   {style, Align::right, black, std::string(the_issue)}, set.job.measure);
}

/// Number, title and latest revision of a sheet; without revisions the titles take the room.
Frame index_row(const Setter& set, const IndexEntry& entry, Length revision_width) {
    const Setter left{set.job, set.width - revision_width};
    const Length title_at = inches(0.62);
    Frame row = fact_row(left, {entry.number, entry.title}, title_at);
    add_earlier_number(row, left, entry, title_at);
    row.size.width = set.width;
    if (revision_width > Length{}) {
        write_line(row, {set.width, {}}, drafting_case(entry.revision),
                   {set.job.layout.lettering.strong, Align::right, black, std::string(the_issue)},
                   set.job.measure);
        row.add(polyline({{left.width, row.size.height}, {set.width, row.size.height}}, {fine_pen}),
                Role::rule);
    }
    return row;
}

Group index_block(const Setter& set, const std::vector<IndexEntry>& index) {
    Group group = headed(set, "Sheet index");
    const Length gap = set.job.layout.column_gap / 2;
    const bool abreast = set.width > inches(4.5); // else titles would break
    const Setter half{set.job, abreast ? (set.width - gap) / 2 : set.width};
    const bool issued = !index.empty() && !index.front().revision.empty();
    const Length revision =
        issued ? set.job.measure.width("REV", half.strong().style) + points(4) : Length{};
    std::vector<Frame> items;
    for (const IndexEntry& entry : index) {
        Frame row = index_row(half, entry, revision);
        add_link(row, {{}, {half.width, row.size.height}}, "sheet:" + entry.number);
        items.push_back(std::move(row));
    }
    if (issued) { // each half is headed
        const Frame head = index_row(half, {"Sheet", "Title", "Rev"}, revision);
        const auto middle = static_cast<std::ptrdiff_t>((items.size() + 1) / 2);
        if (abreast)
            items.insert(items.begin() + middle, head);
        items.insert(items.begin(), head);
    }
    group.entries = abreast ? two_abreast(items, half.width + gap) : std::move(items);
    return group;
}

/// One half of the abbreviations, their meanings from a common edge on.
void add_abbreviations(std::vector<Frame>& items, const Setter& set,
                       std::span<const Abbreviation> list) {
    const Length half = set.width / 2;
    Length hang{};
    for (const Abbreviation& each : list)
        hang = std::max(hang, set.job.measure.width(each.letters, set.strong().style));
    hang += points(7);
    for (const Abbreviation& each : list) {
        Frame item;
        Look letters = set.strong();
        letters.shows = "abbreviation:" + each.letters;
        write_line(item, {}, each.letters, letters, set.job.measure);
        const Length height =
            write_paragraph(item, {hang, {}}, half - hang - points(3), drafting_case(each.meaning),
                            set.body(), set.job.measure);
        item.size = {half, height + set.below()};
        items.push_back(std::move(item));
    }
}

Group abbreviations_block(const Setter& set, const std::vector<Abbreviation>& list) {
    Group group = headed(set, "Abbreviations");
    const std::span<const Abbreviation> all(list);
    const std::size_t left = (list.size() + 1) / 2;
    std::vector<Frame> items;
    add_abbreviations(items, set, all.first(left));
    add_abbreviations(items, set, all.subspan(left));
    group.entries = two_abreast(items, set.width / 2);
    group.entry_gap = set.job.layout.abbreviation_gap;
    group.whole = true;
    return group;
}

Group symbols_block(const Setter& set, const std::vector<std::string>& names) {
    Group group = headed(set, "Symbols");
    group.entries = legend_rows(names, set.width, set.job.layout.legend_columns, set.job);
    group.entry_gap = {};
    group.whole = true;
    return group;
}

} // namespace

Group general_block(std::string_view name, Length width, const Job& job,
                    const GeneralContents& contents) {
    const Setter set{job, width};
    if (name == "project")
        return facts_block(set, "Project", project_rows(job.system));
    if (name == "scope")
        return scope_block(set);
    if (name == "system")
        return facts_block(set, "System", system_rows(job.system, job.study, job.facts));
    if (name == "site")
        return facts_block(set, "Site conditions", site_rows(job.facts));
    if (name == "codes")
        return codes_block(set);
    if (name == "index")
        return index_block(set, contents.index);
    if (name == "notes")
        return notes_block(set, "General notes", false);
    if (name == "cautions")
        return notes_block(set, "Safety cautions", true);
    if (name == "waivers")
        return waivers_block(set);
    if (name == "violations")
        return violation_list(contents.violations, 1, {width, {}}, job).group;
    if (name == "abbreviations")
        return abbreviations_block(set, contents.abbreviations);
    return symbols_block(set, contents.symbols);
}

ViolationList violation_list(const Findings& violations, std::size_t first, Size room,
                             const Job& job) {
    const Setter set{job, room.width};
    ViolationList list{headed(set, "Unresolved violations"), first};
    Group& group = list.group;
    if (first > 1)
        group.heading = group.continued;
    const std::size_t last = violations.size();
    const Frame remark = more_violations(set, last, last);
    Length height = group.heading.size.height + group.heading_gap;
    for (; list.next <= last; ++list.next) {
        Frame row = violation_row(set, list.next, violations[list.next - 1]);
        height += row.size.height + group.entry_gap;
        const Length below = list.next < last ? remark.size.height : Length{};
        if (room.height > Length{} && height + below > room.height && list.next > first)
            break;
        group.entries.push_back(std::move(row));
    }
    if (list.next <= last)
        group.entries.push_back(more_violations(set, list.next, last));
    return list;
}

} // namespace ohmfolio::sheets
