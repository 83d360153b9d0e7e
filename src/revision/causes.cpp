#include "revision/causes.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include <fmt/format.h>

#include "base/text.h"
#include "revision/sentence.h"

namespace ohmfolio::revision {

namespace {

const std::string& outcome(const Derivation& line) {
    return line.verdict ? line.comparison : line.result;
}

/// The value of `symbol` among the givens of an older line.
const Leaf* given(const Derivation& line, const std::string& symbol) {
    const auto found = std::ranges::find(line.givens, symbol, &Leaf::symbol);
    return found == line.givens.end() ? nullptr : &*found;
}

std::string from_to(const std::string& what, const std::string& before, const std::string& after) {
    return fmt::format("{} {} to {}", what, before, after);
}

/// "(1) 6 AWG" as "6 AWG", "115 (75)" as "115", `1" EMT` as "1 in EMT".
std::string plain(std::string_view cell) {
    std::string words = upper(cell);
    if (const auto end = words.find(") "); words.starts_with("(") && end != std::string::npos)
        words.erase(0, end + 2);
    if (const auto begin = words.rfind(" ("); begin != std::string::npos && words.ends_with(")"))
        words.erase(begin);
    for (auto at = words.find('"'); at != std::string::npos; at = words.find('"', at))
        words.replace(at, 1, " IN");
    return words;
}

/// A number alone is shown with fewer digits in a schedule: 26.6 of "26.61 %".
bool rounds_to(const std::string& result, const std::string& cell) {
    char* cell_end = nullptr;
    char* result_end = nullptr;
    (void)std::strtod(cell.c_str(), &cell_end);
    const double value = std::strtod(result.c_str(), &result_end);
    if (*cell_end != '\0' || result_end == result.c_str() || !std::isfinite(value))
        return false;
    const auto point = cell.find('.');
    const auto decimals = point == std::string::npos ? 0 : cell.size() - point - 1;
    return decimal(value, static_cast<int>(decimals)) == cell;
}

/// "47.93 A" is what a cell says with "47.93"; "2 AWG CU" what it says with "(2) 2 AWG CU THWN-2".
bool fits(const std::string& result, std::string_view cell) {
    if (result.empty() || cell.empty())
        return false;
    const std::string mine = upper(result), theirs = plain(cell);
    const bool several_words = mine.find(' ') != std::string::npos;
    return mine == theirs || mine.starts_with(theirs + " ") || rounds_to(mine, theirs) ||
           (several_words && theirs.starts_with(mine + " ")) ||
           theirs.find(": " + mine) != std::string::npos;
}

/// "2 AWG" of "2 AWG CU"; nothing of what is no size.
std::string size_words(const std::string& result) {
    for (const std::string_view unit : {" AWG", " kcmil"}) {
        if (const auto at = result.find(unit); at != std::string::npos)
            return result.substr(0, at + unit.size());
    }
    return {};
}

/// Of the column of a table: "75 C column, 10 AWG CU" is about 10 AWG, not about 0 AWG.
bool names(const std::string& source, const std::string& size) {
    return !size.empty() && (" " + source).find(" " + size + " ") != std::string::npos;
}

std::string_view key_of(std::string_view id) { return id.substr(0, id.find('.')); }

/// Areas of a table of sizes, without the size in their source.
bool is_read_for_the_size(const Derivation& line) {
    return line.name == "equipment_ground_area_used";
}

} // namespace

Causes::Causes(const Study& older, const Study& newer, const System& system, const TagNames& names,
               const std::vector<StatedChange>& stated)
    : newer_(newer), system_(system), stated_(stated) {
    for (const Derivation& line : older.worksheet.all())
        older_.emplace(names.newer_id(line.id), &line);
}

const Derivation* Causes::older(const Derivation& line) const {
    const auto found = older_.find(line.id);
    return found == older_.end() ? nullptr : found->second;
}

bool Causes::changed(const Derivation& line) const {
    const Derivation* before = older(line);
    return before == nullptr || outcome(*before) != outcome(line);
}

bool Causes::came_to(const Derivation& line, const CellChange& cell) const {
    const Derivation* before = older(line);
    return fits(line.result, cell.after) &&
           (before == nullptr || fits(before->result, cell.before));
}

/// A size that changed without a cause that can be told is one itself.
void Causes::tell_size(const Derivation& line, Search& search) const {
    Search own{search.sizes, {}, {}};
    own.sizes.insert(line.id);
    descend(line, own, true);
    const Derivation* was = older(line);
    if (own.causes.empty() && was != nullptr)
        own.causes.push_back(
            from_to(fmt::format("{} of {}", in_a_sentence(line.title), key_of(line.id)),
                    size_words(was->result), size_words(line.result)));
    search.causes.insert(search.causes.end(), own.causes.begin(), own.causes.end());
}

/// The size that the drafter wrote, or does not write any more.
const StatedChange* Causes::stated_size(const Derivation& size) const {
    const Derivation* before = older(size);
    const auto circuit = std::ranges::find(system_.circuits, key_of(size.id), &Circuit::tag);
    if (circuit == system_.circuits.end() || size.name != "size")
        return nullptr;
    const std::string& child = system_.at(system_.child_of(*circuit)).id;
    const std::string& parent = system_.at(system_.parent_of(*circuit)).id;
    const auto found = std::ranges::find_if(stated_, [&](const StatedChange& change) {
        const bool backup = change.path.ends_with(".backup_run.size");
        if (!change.path.ends_with(".run.size") && !backup)
            return false;
        const bool now = size_words(size.result).starts_with(change.after) && !change.after.empty();
        const bool was = change.after.empty() && before != nullptr &&
                         size_words(before->result) == change.before;
        return change.subject == (backup ? parent : child) && (now || was);
    });
    return found == stated_.end() ? nullptr : &*found;
}

/// What is read from another row of a table was read for a size: of its circuit, or of those in
/// its raceway; what is read of a raceway for its own size.
void Causes::tell_sizes_read_for(const Derivation& line, Search& search) const {
    const std::string_view key = key_of(line.id);
    const auto follow = [&](const std::string& id, bool whichever) {
        const Derivation* size = newer_.worksheet.find(id);
        if (size != nullptr && changed(*size) && !search.sizes.contains(size->id) &&
            (whichever || names(line.source, size_words(size->result))))
            tell_size(*size, search);
    };
    const auto follow_circuit = [&](const std::string& tag) {
        follow(tag + ".size", is_read_for_the_size(line));
        follow(tag + ".equipment_ground", false);
    };
    follow_circuit(std::string(key));
    const auto run = std::ranges::find(system_.runs, key, &Run::tag);
    if (run == system_.runs.end())
        return;
    for (const int circuit : run->circuits)
        follow_circuit(system_.circuits[static_cast<std::size_t>(circuit)].tag);
    if (const Derivation* size = newer_.worksheet.find(fmt::format("{}.trade_size", key)))
        descend(*size, search, true);
}

void Causes::tell(const Derivation& line, Search& search, bool is_the_result) const {
    const Derivation* before = older(line);
    const bool read = line.formula.empty() && !line.verdict;
    if (read && (before == nullptr || before->source != line.source)) {
        tell_sizes_read_for(line, search);
        return;
    }
    if (before == nullptr)
        return; // new as a whole, which is told by itself
    for (const Leaf& leaf : line.givens) {
        const Leaf* was = given(*before, leaf.symbol);
        if (was != nullptr && was->figure != leaf.figure)
            search.causes.push_back(from_to(leaf.meaning.empty() ? leaf.symbol : leaf.meaning,
                                            was->figure, leaf.figure));
    }
    // A value that stands in the schedule is not its own cause.
    if (read && !line.title.empty() && !is_the_result)
        search.causes.push_back(
            from_to(in_a_sentence(line.title), outcome(*before), outcome(line)));
}

void Causes::descend(const Derivation& line, Search& search, bool is_the_result) const {
    if (!changed(line) || (!search.seen.insert(line.id).second && !is_the_result))
        return;
    if (const StatedChange* change = stated_size(line)) {
        search.causes.push_back(text(*change));
        return;
    }
    const Lines below = changed_below({&line});
    for (const Derivation* next : below)
        descend(*next, search, false);
    if (below.empty())
        tell(line, search, is_the_result);
}

Causes::Lines Causes::changed_under(std::string_view subject) const {
    Lines lines;
    for (const std::size_t at : newer_.worksheet.under(subject)) {
        const Derivation& line = newer_.worksheet.all()[at];
        if (changed(line))
            lines.push_back(&line);
    }
    return lines;
}

Causes::Lines Causes::changed_below(const Lines& lines) const {
    Lines below;
    for (const Derivation* line : lines) {
        for (const std::string& id : line->from) {
            const Derivation* next = newer_.worksheet.find(id);
            if (next != nullptr && changed(*next))
                below.push_back(next);
        }
    }
    return below;
}

std::vector<std::string> Causes::of(std::string_view subject, const CellChange& cell) const {
    Lines lines = changed_under(subject);
    // The row of a circuit names its raceway.
    const auto circuit = std::ranges::find_if(
        system_.circuits, [&](const Circuit& each) { return "circuit:" + each.tag == subject; });
    if (circuit != system_.circuits.end()) {
        const Run& run = system_.runs[static_cast<std::size_t>(circuit->run)];
        const Lines of_run = changed_under("run:" + run.tag);
        lines.insert(lines.end(), of_run.begin(), of_run.end());
    }
    Search search;
    // A device's row shows what its checks compare, which is worked out elsewhere.
    for (const Lines& level : {lines, changed_below(lines)}) {
        for (const Derivation* line : level) {
            if (came_to(*line, cell))
                descend(*line, search, true);
        }
        if (!search.causes.empty())
            break;
    }
    std::vector<std::string> causes;
    for (const std::string& cause : search.causes) {
        if (std::ranges::find(causes, cause) == causes.end())
            causes.push_back(cause);
    }
    return causes;
}

} // namespace ohmfolio::revision
