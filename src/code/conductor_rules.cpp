// Conductor size: the smallest that complies, or the verdict on a stated one.
//
// Every size is tried by the same function that writes the calculation: candidates on a scratch
// worksheet, the size that is used on the real one. So the search and the sheet cannot disagree.
#include <algorithm>
#include <array>
#include <stdexcept>

#include "base/text.h"
#include "code/conductor_rules.h"
#include "code/conductor_trial.h"

namespace ohmfolio {

namespace {

constexpr std::array insulation_columns = {90, 75, 60};

ConductorTrial try_on_scratch(const Desk& desk, const ConductorInput& input, WireSize size) {
    Worksheet scratch;
    const Desk aside{scratch, desk.book, desk.subject};
    return try_conductor(aside, input, size);
}

struct Search {
    std::optional<WireSize> size;
    std::string governs;
};

/// The first check that the next smaller size fails, and it fails one, in the order of the checks:
/// a size refused at its terminals is commonly refused by its protection too, and one reason is
/// what a reader can use.
std::string first_failure(const ConductorTrial& trial) {
    const auto failed = std::find_if(trial.checks.begin(), trial.checks.end(),
                                     [](const ConductorCheck& check) { return !check.passes; });
    return failed->governs + " governs";
}

Search search(const Desk& desk, const ConductorInput& input) {
    std::string governs = "smallest size used";
    for (const WireSize size : desk.book.listed_sizes(input.material)) {
        if (size < input.smallest)
            continue;
        const ConductorTrial trial = try_on_scratch(desk, input, size);
        if (trial.passes())
            return {size, governs};
        if (trial.in_table)
            governs = first_failure(trial);
    }
    return {std::nullopt, "no listed size complies"};
}

/// Why a size could not be judged at all.
std::string not_in_table(const Desk& desk, const ConductorInput& input, WireSize size,
                         const ConductorTrial& trial) {
    const CodeBook& book = desk.book;
    const auto insulation =
        input.free_air ? book.ampacity_free_air(size, input.material, input.insulation_column)
                       : book.ampacity(size, input.material, input.insulation_column);
    const bool terminals =
        book.ampacity(size, input.material, trial.values.terminal_column).has_value();
    if (!terminals || !insulation) { // the columns of a table list the same sizes
        return name(size) + " " + std::string(name(input.material)) + " is not listed in " +
               book.table_name(terminals ? "ampacity_free_air" : "ampacity");
    }
    return "no ampacity is permitted at " + shown(trial.values.ambient) + " with " +
           shown(Celsius{double(input.insulation_column)}) + " insulation";
}

void collect_faults(const Desk& desk, const ConductorInput& input, WireSize size,
                    const ConductorTrial& trial, ConductorResult& result) {
    if (!trial.in_table) {
        result.faults.push_back(not_in_table(desk, input, size, trial));
        result.fault_rules.push_back("conductor.corrected");
    }
    for (const ConductorCheck& check : trial.checks) {
        if (check.passes)
            continue;
        result.faults.push_back(check.fault);
        result.fault_rules.push_back(check.rule);
    }
}

/// "8 AWG CU", or "2 sets of 3/0 AWG CU".
std::string words(const ConductorInput& input, WireSize size) {
    const std::string one = name(size) + " " + std::string(name(input.material));
    return input.sets_in_parallel == 1 ? one
                                       : std::to_string(input.sets_in_parallel) + " sets of " + one;
}

std::vector<std::string> ids(const ConductorTrial& trial) {
    std::vector<std::string> result;
    for (const ConductorCheck& check : trial.checks)
        result.push_back(check.line);
    return result;
}

} // namespace

ConductorResult size_conductor(const Desk& desk, const ConductorInput& input) {
    if (std::find(insulation_columns.begin(), insulation_columns.end(), input.insulation_column) ==
        insulation_columns.end())
        throw std::logic_error("insulation is rated 60, 75 or 90 C");
    if (input.sets_in_parallel < 1)
        throw std::logic_error("a circuit has at least one set of conductors");
    const Search found = search(desk, input);
    // Where nothing complies, the largest size shows by how much it fails.
    const WireSize size =
        input.stated.value_or(found.size.value_or(desk.book.listed_sizes(input.material).back()));
    const ConductorTrial trial = try_conductor(desk, input, size);

    ConductorResult result = trial.values;
    result.found = input.stated || found.size;
    result.size = size;
    result.smallest_that_complies = found.size;
    result.passes = trial.passes();
    collect_faults(desk, input, size, trial, result);
    result.governs = found.governs;
    if (input.stated && found.size && *found.size != size) {
        result.governs = "stated; " + name(*found.size) +
                         (result.passes ? " would comply (" : " is needed (") + found.governs + ")";
    }
    desk.sheet.choose({.subject = desk.subject,
                       .name = "size",
                       .title = "Conductor size",
                       .cite = desk.book.cite_table("ampacity"),
                       .governs = result.governs},
                      words(input, size), ids(trial));
    return result;
}

} // namespace ohmfolio
