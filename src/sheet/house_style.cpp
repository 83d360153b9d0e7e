#include "sheet/house_style.h"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>

#include "base/text.h"
#include "drawing/lint.h"
#include "sheet/conditions.h"

namespace ohmfolio::sheets {

namespace {

/// Lines thinner than the fine pen do not survive a copier; common practice, no source.
constexpr Length thinnest_pen = fine_pen;
constexpr Length widest_pen = millimetres(2);

class Applier {
  public:
    Applier(const House& house, const TextMeasure& measure, Findings& findings)
        : house_(house), measure_(measure), findings_(findings) {}

    void lettering(SheetLayout& layout) {
        LetteringLayout& l = layout.lettering;
        set_size("body", l.body);
        if (house_.lettering.contains("body"))
            l.strong.size = l.body.size;
        set_size("strong", l.strong);
        set_size("heading", l.heading);
        set_size("title", l.title);
        set_size("banner", l.banner);
        set_size("sheet_number", l.sheet_number);
        set_size("draft", l.draft);
        set_size("zone", l.zone);
        layout.table.title = l.heading;
        layout.table.heading = l.strong;
        layout.table.body = l.body;
    }

    void pens(SheetLayout& layout) {
        set_pen("outer", layout.border.outer_pen);
        set_pen("border", layout.border.border_pen);
        set_pen("zone", layout.border.zone_pen);
        set_pen("title_block", layout.title_block.outline_pen);
        set_pen("title_rule", layout.title_block.rule_pen);
        set_pen("table_frame", layout.table.frame.width);
        set_pen("table_rule", layout.table.rule.width);
        set_pen("heading", layout.heading_pen);
    }

    /// The sheets that the house names come first, in its order; the others follow in theirs.
    void numbering(SheetLayout& layout) {
        std::vector<SheetEntry> rest = layout.sheets;
        std::vector<SheetEntry> sheets;
        for (const HouseSheet& stated : house_.sheets) {
            const auto found = std::ranges::find(rest, stated.content.value, &SheetEntry::content);
            if (found == rest.end()) {
                report_content(stated, layout.sheets);
                continue;
            }
            if (!stated.title.empty())
                found->title = stated.title;
            if (!stated.first.value.empty())
                number(*found, stated.first);
            check_series(*found, sheets, stated.content.span);
            sheets.push_back(*found);
            rest.erase(found);
        }
        sheets.insert(sheets.end(), rest.begin(), rest.end());
        share_beginnings(sheets);
        layout.sheets = std::move(sheets);
    }

    /// A note with the id of one of ours stands in its place, the others after ours.
    void notes(SheetTexts& texts) {
        for (const HouseNote& stated : house_.notes) {
            check_conditions(stated.needs);
            check_conditions(stated.unless);
            const auto ours = stated.id.empty()
                                  ? texts.notes.end()
                                  : std::ranges::find(texts.notes, stated.id, &Note::id);
            if (ours != texts.notes.end() && stated.text.empty()) {
                texts.notes.erase(ours);
            } else if (ours != texts.notes.end()) {
                *ours = note(stated);
            } else if (!stated.text.empty()) {
                texts.notes.push_back(note(stated));
            } else {
                report_note(stated, texts);
            }
        }
    }

  private:
    void report(const Span& span, std::string rule, std::string message, std::string expected,
                std::string hint = {}) {
        Finding finding;
        finding.rule = std::move(rule);
        finding.span = span;
        finding.message = std::move(message);
        finding.expected = std::move(expected);
        finding.hint = std::move(hint);
        findings_.push_back(std::move(finding));
    }

    /// What the lint of a sheet holds too small is refused here, where it was written.
    void set_size(std::string_view name, TextStyle& style) {
        const auto stated = house_.lettering.find(name);
        if (stated == house_.lettering.end())
            return;
        const LintRules floor;
        const TextStyle wanted{stated->second.value, style.bold};
        if (wanted.size < floor.smallest_em ||
            measure_.cap_height(wanted) < floor.smallest_capitals) {
            report(stated->second.span, "house.lettering_small",
                   fmt::format("lettering of {} pt has capitals {} in high, which cities refuse",
                               trimmed(wanted.size.in_points(), 2),
                               trimmed(measure_.cap_height(wanted).in_inches(), 3)),
                   fmt::format("{} point type or larger, capitals {} in or higher",
                               trimmed(floor.smallest_em.in_points(), 2),
                               trimmed(floor.smallest_capitals.in_inches(), 3)));
            return;
        }
        style = wanted;
    }

    void set_pen(std::string_view name, Length& width) {
        const auto stated = house_.pens.find(name);
        if (stated == house_.pens.end())
            return;
        const auto& [wanted, span] = stated->second;
        if (wanted < thinnest_pen || wanted > widest_pen) {
            report(span, "house.pen",
                   fmt::format("no pen draws a line of {:.2f} mm", wanted.in_inches() * 25.4),
                   fmt::format("a width from {:.2f} mm to {:.2f} mm",
                               thinnest_pen.in_inches() * 25.4, widest_pen.in_inches() * 25.4));
            return;
        }
        width = wanted;
    }

    void report_content(const HouseSheet& stated, const std::vector<SheetEntry>& known) {
        std::vector<std::string> names;
        for (const SheetEntry& entry : known)
            names.push_back(entry.content);
        const std::string& name = stated.content.value;
        const bool twice = std::ranges::find(names, name) != names.end();
        report(stated.content.span, "house.numbering",
               twice ? fmt::format("\"{}\" is numbered twice", name)
                     : fmt::format("no sheet holds \"{}\"", name),
               join(names, ", "), twice ? std::string{} : did_you_mean(name, names));
    }

    /// "E-701": the discipline, the digit of the type, at which the series begins.
    void number(SheetEntry& entry, const Spanned<std::string>& first) {
        const std::string& text = first.value;
        const auto dash = text.find('-');
        const auto is = [](const std::string& part, int (*kind)(int)) {
            return !part.empty() && std::ranges::all_of(part, [kind](char c) {
                return kind(static_cast<unsigned char>(c)) != 0;
            });
        };
        const std::string letters = text.substr(0, dash);
        const std::string digits = dash == std::string::npos ? "" : text.substr(dash + 1);
        if (!is(letters, std::isupper) || letters.size() > 2 || digits.size() != 3 ||
            !is(digits, std::isdigit) || digits.ends_with("00")) {
            report(first.span, "house.numbering",
                   fmt::format("\"{}\" is not the number of a sheet", text),
                   "one or two letters, a dash, the digit of the type and two digits from 01: "
                   "\"E-701\"");
            return;
        }
        entry.discipline = letters;
        entry.type = digits[0] - '0';
        entry.first = (digits[1] - '0') * 10 + digits[2] - '0';
    }

    /// Sheets of one series are counted on; the general sheet, which lists all, has its own.
    void check_series(const SheetEntry& entry, const std::vector<SheetEntry>& before,
                      const Span& span) {
        for (const SheetEntry& other : before) {
            if (other.discipline != entry.discipline || other.type != entry.type)
                continue;
            if (other.first != entry.first && entry.first != 1) {
                report(span, "house.numbering",
                       fmt::format("the series {}-{} begins twice", entry.discipline, entry.type),
                       "one beginning; further sheets of a series are counted on");
                return;
            }
            if (other.content == "general" || entry.content == "general") {
                report(span, "house.numbering", "the general sheet shares its series",
                       "a series of its own for the general sheet, such as \"G-001\"");
                return;
            }
        }
    }

    static void share_beginnings(std::vector<SheetEntry>& sheets) {
        for (SheetEntry& entry : sheets) {
            const auto leader = std::ranges::find_if(sheets, [&](const SheetEntry& other) {
                return other.discipline == entry.discipline && other.type == entry.type;
            });
            entry.first = leader->first;
        }
    }

    void check_conditions(const std::vector<Spanned<std::string>>& stated) {
        for (const auto& [name, span] : stated) {
            if (find_condition(name))
                continue;
            std::vector<std::string> known;
            for (const Condition& condition : conditions())
                known.emplace_back(condition.name);
            report(span, "house.note", fmt::format("no condition is called \"{}\"", name),
                   join(known, ", "), did_you_mean(name, known));
        }
    }

    void report_note(const HouseNote& stated, const SheetTexts& texts) {
        std::vector<std::string> ids;
        for (const Note& known : texts.notes)
            ids.push_back(known.id);
        report(stated.span, "house.note", fmt::format("no note is called \"{}\"", stated.id),
               join(ids, ", "), did_you_mean(stated.id, ids));
    }

    static Note note(const HouseNote& stated) {
        const auto names = [](const std::vector<Spanned<std::string>>& list) {
            std::vector<std::string> result;
            for (const auto& [name, span] : list)
                result.push_back(name);
            return result;
        };
        Note note{stated.id, stated.caution, stated.text,
                  Use{names(stated.needs), names(stated.unless), {}}};
        for (const Edition edition : all_editions) {
            if (stated.editions.empty() ||
                std::ranges::find(stated.editions, edition) != stated.editions.end())
                note.use.editions.insert(edition);
        }
        return note;
    }

    const House& house_;
    const TextMeasure& measure_;
    Findings& findings_;
};

} // namespace

void apply_house(const House& house, const TextMeasure& measure, SheetLayout& layout,
                 SheetTexts& texts, Findings& findings) {
    Applier applier(house, measure, findings);
    applier.lettering(layout);
    applier.pens(layout);
    applier.numbering(layout);
    applier.notes(texts);
}

} // namespace ohmfolio::sheets
