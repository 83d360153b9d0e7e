#include "sheet/calculation_sources.h"

#include <algorithm>
#include <map>

#include "base/drafting_case.h"
#include "base/text.h"

namespace ohmfolio::sheets {

namespace {

using Words = std::vector<std::string>;

Words split(std::string_view text, std::string_view between) {
    Words parts;
    while (!text.empty()) {
        const auto at = text.find(between);
        if (at != 0)
            parts.emplace_back(text.substr(0, at));
        text.remove_prefix(at == std::string_view::npos ? text.size() : at + between.size());
    }
    return parts;
}

/// The part of an id before its name: "C5" of "C5.size".
std::string_view owner(const Derivation& line) {
    return std::string_view(line.id).substr(0, line.id.size() - line.name.size());
}

/// The lines of the owners of a row's lines, in the order of the worksheet.
using LinesByOwner = std::map<std::string_view, std::vector<const Derivation*>>;

LinesByOwner lines_by_owner(const std::vector<const Derivation*>& row, const Study& study) {
    LinesByOwner lines;
    for (const Derivation* line : row) {
        if (line != nullptr)
            lines[owner(*line)];
    }
    for (const Derivation& line : study.worksheet.all()) {
        if (const auto wanted = lines.find(owner(line)); wanted != lines.end())
            wanted->second.push_back(&line);
    }
    return lines;
}

/// "8" may be a count here and the number of a table there.
bool is_bare_number(const Words& words) {
    return words.size() == 1 && words.front().find_first_not_of("0123456789.") == std::string::npos;
}

void add_values(const Derivation& line, std::vector<Words>& known) {
    const auto add = [&](std::string_view text) {
        Words words = split(text, " ");
        if (!words.empty() && !is_bare_number(words))
            known.push_back(std::move(words));
    };
    if (!line.verdict) {
        add(line.result);
        return;
    }
    for (const std::string_view relation : {" ≤ ", " ≥ ", " < ", " > "}) {
        const auto at = line.comparison.find(relation);
        if (at == std::string::npos)
            continue;
        add(std::string_view(line.comparison).substr(0, at));
        add(std::string_view(line.comparison).substr(at + relation.size()));
    }
}

/// Values that a column shows elsewhere: results of its own steps, and what a step compares.
std::vector<Words> known_values(const Derivation& line, const LinesByOwner& owners,
                                const Study& study) {
    std::vector<const Derivation*> lines = owners.at(owner(line));
    for (const std::string& operand : line.from) {
        if (const Derivation* other = study.worksheet.find(operand))
            lines.push_back(other);
    }
    // In the order of the worksheet, which keeps its lines side by side.
    std::ranges::sort(lines);
    lines.erase(std::unique(lines.begin(), lines.end()), lines.end());
    std::vector<Words> known;
    for (const Derivation* other : lines) {
        if (other->id != line.id)
            add_values(*other, known);
    }
    std::stable_sort(known.begin(), known.end(),
                     [](const Words& a, const Words& b) { return a.size() > b.size(); });
    return known;
}

/// "in EMT" of "12 AWG CU in EMT" where "12 AWG CU" is known; words in another order count too.
std::string without_known(const std::string& fragment, const std::vector<Words>& known) {
    Words words = split(fragment, " ");
    for (const Words& value : known) {
        const auto at = std::search(words.begin(), words.end(), value.begin(), value.end());
        if (at != words.end()) {
            words.erase(at, at + static_cast<std::ptrdiff_t>(value.size()));
        } else if (std::is_permutation(words.begin(), words.end(), value.begin(), value.end())) {
            words.clear();
        }
    }
    return join(words, " ");
}

std::string without_last_preposition(std::string text) {
    for (const std::string_view word : {" at", " of", " in", " for"}) {
        if (text.ends_with(word))
            return text.substr(0, text.size() - word.size());
    }
    return text;
}

bool names_table(const std::string& text) {
    return text.starts_with("Table") || text.starts_with("Ch.");
}

/// "Table 250.66 at" without its size still says something; "device of" needs its rating.
std::string said_without_known(const std::string& fragment, const std::string& left) {
    const std::string shorter = without_last_preposition(left);
    return shorter == left || names_table(left) ? shorter : fragment;
}

std::string abbreviated(std::string text, const std::vector<Abbreviation>& abbreviations) {
    for (const Abbreviation& each : abbreviations) {
        const auto at = text.find(each.meaning);
        if (at == std::string::npos)
            continue;
        text.replace(at, each.meaning.size(), each.letters);
        if (const auto end = at + each.letters.size(); text.substr(end, 1) == "s")
            text.erase(end, 1); // "4 CCC", not "4 CCCs"
    }
    return text;
}

/// "Table 310.16", "12 AWG CU", "75 °C column"; what follows a semicolon is one remark.
Words fragments_of(const std::string& source) {
    const auto semicolon = std::min(source.find("; "), source.size());
    Words parts = split(source.substr(0, semicolon), ", ");
    if (semicolon < source.size())
        parts.push_back(source.substr(semicolon + 2));
    return parts;
}

bool all_equal(const Words& texts) {
    return std::all_of(texts.begin(), texts.end(),
                       [&](const std::string& each) { return each == texts.front(); });
}

class Sources {
  public:
    Sources(const std::vector<const Derivation*>& lines, const Job& job)
        : lines_(lines), job_(job) {
        for (const Derivation* line : lines) {
            fragments_.push_back(line ? fragments_of(line->source) : Words{});
            most_ = std::max(most_, fragments_.back().size());
        }
        if (most_ == 0)
            return;
        const LinesByOwner owners = lines_by_owner(lines, job.study);
        for (const Derivation* line : lines)
            known_.push_back(line ? known_values(*line, owners, job.study) : std::vector<Words>{});
    }

    RowSources read(const std::string& section) {
        RowSources result;
        result.own.resize(lines_.size());
        Words common;
        for (std::size_t i = 0; i < most_; ++i) {
            const std::string shared = fragment(i, result.own);
            const std::string words = drafting_case(shared);
            // "12 AWG CU, 240.4(D)" beside 240.4(D)(6) says nothing more.
            const bool said = section.starts_with(words) ||
                              (section == "STATED" && words.starts_with("AS STATED"));
            if (!words.empty() && !said)
                common.push_back(words);
        }
        result.common = join(common, ", ");
        return result;
    }

  private:
    /// What all share of their fragment `i`; adds what differs to `own`.
    std::string fragment(std::size_t i, Words& own) const {
        Words raw;
        Words left;
        for (std::size_t column = 0; column < lines_.size(); ++column) {
            if (lines_[column] == nullptr)
                continue;
            const Words& parts = fragments_[column];
            raw.push_back(i < parts.size() ? parts[i] : std::string{});
            left.push_back(without_known(raw.back(), known_[column]));
        }
        if (all_equal(raw))
            return left.front().empty() ? "" : raw.front();
        if (all_equal(left))
            return names_table(left.front()) ? without_last_preposition(left.front())
                                             : std::string{};
        std::size_t at = 0;
        for (std::size_t column = 0; column < lines_.size(); ++column) {
            if (lines_[column] == nullptr)
                continue;
            const std::string words = said_without_known(raw[at], left[at]);
            ++at;
            const std::string text = drafting_case(abbreviated(words, job_.texts.abbreviations));
            if (!text.empty())
                own[column] += (own[column].empty() ? "" : ", ") + text;
        }
        return {};
    }

    const std::vector<const Derivation*>& lines_;
    const Job& job_;
    std::vector<Words> fragments_;
    std::vector<std::vector<Words>> known_; ///< parallel to the lines
    std::size_t most_ = 0;
};

} // namespace

RowSources row_sources(const std::vector<const Derivation*>& lines, const std::string& section,
                       const Job& job) {
    return Sources(lines, job).read(section);
}

} // namespace ohmfolio::sheets
