#include "revision/letter.h"

#include <algorithm>
#include <set>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "base/text.h"
#include "revision/consequences.h"
#include "sheet/facts.h"
#include "sheet/flow.h"
#include "sheet/reading.h"
#include "sheet/writing.h"

namespace ohmfolio::revision {

namespace {

using sheets::Group;
using sheets::Look;
using sheets::write_line;
using sheets::write_paragraph;

constexpr std::string_view text_keys[] = {
    "title",
    "to",
    "project",
    "application",
    "set",
    "set_words",
    "introduction",
    "comment",
    "response",
    "changed",
    "used",
    "shown",
    "left_out",
    "made",
    "made_none",
    "followed",
    "followed_none",
    "tags",
    "material_row",
    "material_rows",
    "sheets",
    "sheet_changed",
    "sheet_arranged",
    "sheet_added",
    "sheet_left_out",
    "sheet_same",
    "sheet_was",
    "sheet_now",
    "sheet_index",
    "signature",
    "caution",
    "footer",
};

constexpr Size paper{inches(8.5), inches(11)};
constexpr Length margin = inches(0.9);
constexpr Length foot = inches(0.35); ///< for the line with the page number
constexpr Length label_width = inches(1.15);

/// Sets paragraphs below one another in the width of the page.
class Setting {
  public:
    Setting(const PacketStyle& style, const TextMeasure& measure)
        : style_(style), measure_(measure) {}

    Length width() const { return paper.width - 2 * margin; }

    Frame paragraph(std::string_view words, const TextStyle& style) const {
        Frame frame;
        frame.size.height =
            write_paragraph(frame, {}, width(), words, {style}, measure_) + measure_.descent(style);
        frame.size.width = width();
        return frame;
    }
    /// A bold label, and beside it what it labels.
    Frame labelled(std::string_view label, std::string_view words) const {
        Frame frame;
        write_line(frame, {}, label, {style_.strong}, measure_);
        frame.size.height = write_paragraph(frame, {label_width, {}}, width() - label_width, words,
                                            {style_.body}, measure_) +
                            measure_.descent(style_.body);
        frame.size.width = width();
        return frame;
    }
    Frame heading(std::string_view words) const {
        Frame frame = paragraph(words, style_.heading);
        frame.size.height += points(2);
        frame.add(polyline({{{}, frame.size.height}, {width(), frame.size.height}}, {thin_pen}),
                  Role::rule);
        return frame;
    }
    Group group(Frame head) const {
        Group group;
        group.heading = head;
        group.continued = std::move(head);
        group.heading_gap = points(7);
        group.entry_gap = points(5);
        return group;
    }
    static void put_below(Frame& frame, const Frame& other, Length gap) {
        if (frame.size.height > Length{})
            frame.size.height += gap;
        frame.add(other, {{}, frame.size.height});
        frame.size.height += other.size.height;
        frame.size.width = std::max(frame.size.width, other.size.width);
    }

    const PacketStyle& style() const { return style_; }
    const TextMeasure& measure() const { return measure_; }

  private:
    const PacketStyle& style_;
    const TextMeasure& measure_;
};

class Letter {
  public:
    Letter(const LetterContents& contents, const LetterTexts& texts, const TextMeasure& measure,
           Findings& findings)
        : contents_(contents), texts_(texts), set_(contents.packet.style, measure),
          findings_(findings), project_(contents.system.project),
          facts_(sheets::facts_of(contents.system, contents.study)) {
        facts_["revision"] = latest().number;
        facts_["date"] = latest().date;
        facts_["permit"] = project_.permit;
    }

    Packet write() const {
        std::vector<Group> groups = {head()};
        for (const Answer& answer : contents_.answers)
            groups.push_back(answered(answer));
        groups.push_back(made());
        groups.push_back(followed());
        groups.push_back(sheets_issued());
        groups.push_back(close());
        const sheets::FlowRoom room{.columns = 1,
                                    .width = set_.width(),
                                    .gap = {},
                                    .height = paper.height - 2 * margin - foot,
                                    .group_gap = points(15),
                                    .widest_group_gap = points(15)};
        return bound(sheets::flow(groups, room));
    }

  private:
    /// What the title block says of it: the office may stand in the house style.
    std::string fact_named(std::string_view name) const {
        const auto found = facts_.find(name);
        return found == facts_.end() ? std::string{} : found->second;
    }
    const Revision& latest() const { return contents_.system.revisions.back(); }
    const std::string& words(std::string_view key) const { return texts_.find(key)->second; }
    /// With what this place alone knows among the facts.
    std::string filled_words(std::string_view key, const sheets::Facts& here = {}) const {
        sheets::Facts facts = here;
        facts.insert(facts_.begin(), facts_.end());
        return sheets::filled(words(key), facts, findings_).value_or("");
    }

    Group head() const {
        Group group;
        Frame frame;
        const PacketStyle& style = set_.style();
        const auto put = [&](const std::string& line, const TextStyle& look, Length gap) {
            if (!line.empty())
                Setting::put_below(frame, set_.paragraph(line, look), gap);
        };
        put(fact_named("designer_name"), style.heading, {});
        put(fact_named("designer_address"), style.body, points(4));
        put(fact_named("designer_phone"), style.body, points(4));
        put(fact_named("designer_web"), style.body, points(4));
        put(words("title"), style.title, points(22));
        const auto fact = [&](std::string_view key, const std::string& value) {
            if (!value.empty())
                Setting::put_below(frame, set_.labelled(words(key), value), points(4));
        };
        frame.size.height += points(8);
        fact("to", project_.jurisdiction);
        fact("project", project_.name + ", " + project_.address);
        fact("application", project_.permit);
        fact("set", filled_words("set_words"));
        put(filled_words("introduction"), style.body, points(12));
        group.entries.push_back(std::move(frame));
        return group;
    }

    std::string place_in_comment(const Comment& comment) const {
        std::vector<std::string> parts;
        if (!comment.reviewer.empty())
            parts.push_back(comment.reviewer);
        if (!comment.sheet.empty())
            parts.push_back("sheet " + comment.sheet);
        if (const std::string now = number_now(comment.sheet); !now.empty())
            parts.back() += " " + filled_words("sheet_now", {{"number", now}});
        if (!comment.zone.empty())
            parts.push_back("zone " + comment.zone);
        return join(parts, ", ");
    }

    /// Comment and answer stay on one page.
    Group answered(const Answer& answer) const {
        const Comment& comment = *answer.comment;
        const std::string place = place_in_comment(comment);
        std::string head = filled_words("comment", {{"comment", comment.number}});
        if (!place.empty())
            head += " — " + place;
        Group group = set_.group(set_.heading(head));
        Frame block = set_.paragraph(comment.text, set_.style().body);
        const auto add = [&](std::string_view key, const std::string& value) {
            if (!value.empty())
                Setting::put_below(block, set_.labelled(words(key), value), points(6));
        };
        add("response", comment.response);
        add("changed", text(answer.changed));
        add("used", text(answer.used));
        add("shown", text(answer.shown));
        add("left_out", join(answer.left_out, ", "));
        group.entries.push_back(std::move(block));
        return group;
    }

    Group listed(std::string_view heading, const std::vector<std::string>& lines,
                 std::string_view none) const {
        Group group = set_.group(set_.heading(words(heading)));
        for (const std::string& line : lines)
            group.entries.push_back(set_.paragraph(line, set_.style().body));
        if (lines.empty())
            group.entries.push_back(set_.paragraph(words(none), set_.style().body));
        return group;
    }

    /// All of it: a checker looks for what was not asked for.
    Group made() const {
        std::vector<std::string> lines;
        for (const StatedChange& change : contents_.comparison.stated)
            lines.push_back(text(change));
        return listed("made", lines, "made_none");
    }

    Group followed() const {
        const Comparison& comparison = contents_.comparison;
        std::vector<std::string> lines = consequences(comparison);
        std::vector<std::string> tags;
        for (const auto& [before, after] : comparison.renamed)
            tags.push_back(fmt::format("{} is now {}", before, after));
        if (!tags.empty())
            lines.push_back(filled_words("tags", {{"tags", join(tags, ", ")}}));
        if (const std::size_t rows = material_rows(comparison); rows > 0)
            lines.push_back(filled_words(rows == 1 ? "material_row" : "material_rows",
                                         {{"rows", std::to_string(rows)}}));
        return listed("followed", lines, "followed_none");
    }

    Frame sheet_line(const std::string& number, const std::string& title,
                     std::string_view state) const {
        Frame frame;
        const TextMeasure& measure = set_.measure();
        write_line(frame, {}, number, {set_.style().strong}, measure);
        write_line(frame, {inches(0.8), {}}, title, {set_.style().body}, measure);
        write_line(frame, {set_.width(), {}}, state, {set_.style().body, Align::right}, measure);
        frame.size = {set_.width(), sheets::lettering_height(1, set_.style().body, measure) +
                                        measure.descent(set_.style().body)};
        return frame;
    }

    std::string_view state_of(const Sheet& sheet, SheetChange change) const {
        switch (change) {
        case SheetChange::added:
            return "sheet_added";
        case SheetChange::changed:
            return "sheet_changed";
        case SheetChange::arranged:
            return "sheet_arranged";
        case SheetChange::none:
            break;
        }
        // The general sheets bear the index.
        return sheet.revision == latest().number && sheet.content == "general" ? "sheet_index"
                                                                               : "sheet_same";
    }

    /// Where it was another one.
    std::string earlier_number(const std::string& number) const {
        const auto& were = contents_.comparison.sheets.were;
        const auto found = were.find(number);
        return found == were.end() ? std::string{} : found->second;
    }
    /// What the sheet of the issue before that bore a number is called now, where that is another.
    std::string number_now(const std::string& number) const {
        for (const auto& [now, was] : contents_.comparison.sheets.were) {
            if (was == number)
                return now;
        }
        return {};
    }

    Group sheets_issued() const {
        Group group = set_.group(set_.heading(words("sheets")));
        group.entry_gap = points(2);
        const Packet& packet = contents_.packet;
        for (std::size_t i = 0; i < packet.sheets.size(); ++i) {
            const Sheet& sheet = packet.sheets[i];
            std::string state = words(state_of(sheet, contents_.sheets[i]));
            if (const std::string was = earlier_number(sheet.number); !was.empty())
                state += ", " + filled_words("sheet_was", {{"number", was}});
            group.entries.push_back(sheet_line(sheet.number, sheet.title, state));
        }
        for (const GoneSheet& sheet : contents_.comparison.sheets.gone)
            group.entries.push_back(sheet_line(sheet.number, sheet.title, words("sheet_left_out")));
        return group;
    }

    Group close() const {
        Group group;
        Frame frame = set_.paragraph(words("caution"), set_.style().body);
        frame.size.height += inches(0.6);
        frame.add(polyline({{{}, frame.size.height}, {inches(3.2), frame.size.height}}, {thin_pen}),
                  Role::rule);
        Setting::put_below(frame, set_.paragraph(words("signature"), set_.style().body), points(4));
        group.entries.push_back(std::move(frame));
        return group;
    }

    /// Pages with their margins and the line at the foot.
    Packet bound(std::vector<Frame> pages) const {
        Packet packet;
        packet.info = contents_.packet.info;
        packet.info.title = project_.name + ": " + words("title");
        packet.style = set_.style();
        for (std::size_t i = 0; i < pages.size(); ++i) {
            Sheet sheet;
            sheet.number = fmt::format("Response-{}", i + 1);
            sheet.title = words("title");
            sheet.content = "response";
            sheet.border = {{}, {paper.width, paper.height}};
            sheet.drawing_area = sheet.border.grown(-margin);
            sheet.frame.size = paper;
            sheet.frame.add(pages[i], {margin, margin});
            const std::string footer =
                filled_words("footer", {{"page", std::to_string(i + 1)},
                                        {"pages", std::to_string(pages.size())}});
            write_line(sheet.frame, {margin, paper.height - margin}, footer, {set_.style().body},
                       set_.measure());
            packet.sheets.push_back(std::move(sheet));
        }
        return packet;
    }

    const LetterContents& contents_;
    const LetterTexts& texts_;
    Setting set_;
    Findings& findings_;
    const Project& project_;
    sheets::Facts facts_;
};

} // namespace

std::optional<LetterTexts> read_letter_texts(const std::filesystem::path& folder,
                                             SourceFiles& sources, Findings& findings) {
    const std::size_t before = findings.size();
    const auto tree = sheets::read_file(folder / "response.toml", sources, findings);
    if (!tree)
        return std::nullopt;
    sheets::TableReader file(*tree, "response.toml", findings);
    sheets::TableReader letter = file.table("letter");
    LetterTexts texts;
    for (const std::string_view key : text_keys)
        texts.emplace(key, letter.text(key));
    letter.finish();
    file.finish();
    if (findings.size() > before)
        return std::nullopt;
    return texts;
}

Packet response_letter(const LetterContents& contents, const LetterTexts& texts,
                       const TextMeasure& measure, Findings& findings) {
    return Letter(contents, texts, measure, findings).write();
}

} // namespace ohmfolio::revision
