/// What a checker opens first: every calculation with its checks, how the sheets are read, and the
/// rules tried for a bus.
#pragma once

#include <string>
#include <vector>

#include "drawing/table.h"
#include "sheet/calculation_words.h"
#include "sheet/pages.h"

namespace ohmfolio::sheets {

/// One line of the summary: a group, or the circuits that are worked out alike.
struct SummaryLine {
    std::vector<const CalculationGroup*> groups;
    std::string sheet; ///< on which it stands
};

Table summary_table(const std::vector<SummaryLine>& lines, const TriedSteps& tried, const Job& job);
/// Edition, rounding, and the paragraphs that only one source or memory speaks for.
std::vector<std::string> reading_notes(const Job& job);

/// True for the bus that no other bus with sources stands above: there the premises connect.
bool is_point_of_connection(const ConnectionStudy& connection, const Job& job);
/// Every rule that was tried for the buses, with why it carries or not.
std::vector<Table> connection_tables(const Job& job);
/// The title of the group; that of a bus within the premises says so.
std::string group_title(const CalculationGroup& group, const Job& job);

} // namespace ohmfolio::sheets
