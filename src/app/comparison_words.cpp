#include "app/comparison_words.h"

#include <fmt/format.h>

#include "app/finding_json.h"
#include "base/text.h"

namespace ohmfolio {

namespace {

using revision::Comparison;

/// A heading and a line for each; nothing where there are none.
void add_block(std::string& text, std::string_view heading, const std::vector<std::string>& lines) {
    if (lines.empty()) {
        return;
    }
    text += text.empty() ? "" : "\n";
    text += fmt::format("{}\n", heading);
    for (const std::string& line : lines) {
        text += fmt::format("  {}\n", line);
    }
}

std::vector<std::string> stated_lines(const Comparison& comparison) {
    std::vector<std::string> lines;
    for (const auto& change : comparison.stated) {
        const std::string where = change.where == "description" || change.where == "file"
                                      ? ""
                                      : fmt::format(" ({})", change.where);
        lines.push_back(revision::text(change) + where);
    }
    return lines;
}

std::vector<std::string> sheet_lines(const revision::SheetList& sheets) {
    std::vector<std::string> lines;
    const auto add = [&](std::string_view what, std::vector<std::string> numbers) {
        if (numbers.empty()) {
            return;
        }
        for (std::string& number : numbers) {
            if (const auto was = sheets.were.find(number); was != sheets.were.end()) {
                number += fmt::format(" (was {})", was->second);
            }
        }
        lines.push_back(fmt::format("{}: {}", what, join(numbers, ", ")));
    };
    const auto withdrawn = [&sheets] {
        std::vector<std::string> names;
        for (const auto& sheet : sheets.gone) {
            names.push_back(fmt::format("{} {}", sheet.number, sheet.title));
        }
        return join(names, "; ");
    };
    add("changed", sheets.changed);
    add("new", sheets.added);
    if (!sheets.gone.empty()) {
        lines.push_back("withdrawn: " + withdrawn());
    }
    add("rearranged, same contents", sheets.arranged);
    add("same contents", sheets.renumbered);
    return lines;
}

/// The rows of one schedule after the other, each under its name.
void add_followed(std::string& text, const Comparison& comparison) {
    std::vector<std::string> renamed;
    for (const auto& [before, after] : comparison.renamed) {
        renamed.push_back(fmt::format("{} is now {}", before, after));
    }
    std::vector<std::string> lines = comparison.rules;
    if (!renamed.empty()) {
        lines.push_back("tags: " + join(renamed, ", "));
    }
    std::string table;
    for (const auto& row : comparison.followed) {
        if (row.table != table) {
            table = row.table;
            lines.push_back(table);
        }
        lines.push_back("  " + revision::text(row));
    }
    add_block(text, "What followed", lines);
}

std::size_t sheets_touched(const revision::SheetList& sheets) {
    return sheets.changed.size() + sheets.added.size() + sheets.gone.size() +
           sheets.arranged.size() + sheets.renumbered.size();
}

Json json_of(const Comparison& comparison) {
    Json out;
    out["stated"] = Json::array();
    for (const auto& change : comparison.stated) {
        out["stated"].push_back({{"path", change.path},
                                 {"subject", change.subject},
                                 {"what", change.what},
                                 {"before", change.before},
                                 {"after", change.after},
                                 {"where", change.where}});
    }
    out["renamed"] = Json::array();
    for (const auto& [before, after] : comparison.renamed) {
        out["renamed"].push_back({{"before", before}, {"after", after}});
    }
    out["followed"] = Json::array();
    for (const auto& row : comparison.followed) {
        static constexpr const char* kinds[] = {"changed", "added", "left out"};
        Json cells = Json::array();
        for (const auto& cell : row.cells) {
            cells.push_back(
                {{"column", cell.column}, {"before", cell.before}, {"after", cell.after}});
        }
        out["followed"].push_back({{"schedule", row.table},
                                   {"row", row.row},
                                   {"shows", row.shows},
                                   {"kind", kinds[static_cast<std::size_t>(row.kind)]},
                                   {"cells", std::move(cells)},
                                   {"because", revision::causes_of(row)}});
    }
    out["rules"] = comparison.rules;
    out["findings"] = {{"new", comparison.new_faults}, {"mended", comparison.mended}};
    Json withdrawn = Json::array();
    for (const auto& sheet : comparison.sheets.gone) {
        withdrawn.push_back(sheet.number);
    }
    out["sheets"] = {{"changed", comparison.sheets.changed},
                     {"added", comparison.sheets.added},
                     {"withdrawn", withdrawn},
                     {"rearranged", comparison.sheets.arranged},
                     {"renumbered", comparison.sheets.renumbered},
                     {"were", comparison.sheets.were}};
    return out;
}

constexpr int indent = 2;

} // namespace

std::string as_text(const Comparison& comparison) {
    if (comparison.nothing_changed()) {
        return "Nothing changed.\n";
    }
    std::string text;
    add_block(text, "Changed by the drafter", stated_lines(comparison));
    add_followed(text, comparison);
    add_block(text, "Findings that are new", comparison.new_faults);
    add_block(text, "Findings that are gone", comparison.mended);
    add_block(text, "Sheets", sheet_lines(comparison.sheets));
    return text;
}

std::string as_text(const FolderComparison& all) {
    std::string text;
    std::size_t changed = 0;
    for (const auto& [stem, comparison] : all.jobs) {
        if (comparison.nothing_changed()) {
            continue;
        }
        ++changed;
        text += fmt::format("{}: {} sheets change\n", stem, sheets_touched(comparison.sheets));
        std::string how = as_text(comparison);
        for (std::size_t at = 0, end = 0; at < how.size(); at = end + 1) {
            end = how.find('\n', at);
            text += end == at ? "\n" : fmt::format("  {}\n", how.substr(at, end - at));
        }
        text += '\n';
    }
    const auto list = [&text](std::string_view what, const std::vector<std::string>& stems) {
        if (!stems.empty()) {
            text += fmt::format("{}: {}\n", what, join(stems, ", "));
        }
    };
    list("No earlier set", all.only_newer);
    list("No later one", all.only_older);
    list("Not read", all.unreadable);
    return text + fmt::format("{} of {} packets change.\n", changed, all.jobs.size());
}

std::string as_json(const Comparison& comparison) {
    return json_text(json_of(comparison), indent) + "\n";
}

std::string as_json(const FolderComparison& all) {
    Json out;
    out["jobs"] = Json::array();
    for (const auto& [stem, comparison] : all.jobs) {
        Json job = json_of(comparison);
        job["job"] = stem;
        out["jobs"].push_back(std::move(job));
    }
    out["only_older"] = all.only_older;
    out["only_newer"] = all.only_newer;
    out["unreadable"] = all.unreadable;
    return json_text(out, indent) + "\n";
}

} // namespace ohmfolio
