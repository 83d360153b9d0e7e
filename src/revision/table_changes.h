/// What changed in the schedules and in the material list.
#pragma once

#include <string>
#include <vector>

#include "drawing/sheet.h"
#include "revision/tag_names.h"

namespace ohmfolio::revision {

struct CellChange {
    std::string column; ///< "size"
    std::string before, after;
    std::vector<std::string> causes; ///< "length 85 ft to 140 ft"; filled by compare()
};

/// One row of a schedule that is not as it was.
struct RowChange {
    enum class Kind { changed, added, left_out } kind = Kind::changed;
    std::string table; ///< "conductors", as its file is named
    std::string row;   ///< by which it is known: "C3"; of an added one more of its words
    std::string shows; ///< "circuit:C3"
    std::vector<CellChange> cells;
};

/// Rows are the same when they are about the same thing, whatever its tag is now.
std::vector<RowChange> table_changes(const std::vector<NamedTable>& older,
                                     const std::vector<NamedTable>& newer, const TagNames& names);

/// "C3: size 8 AWG to 6 AWG, because length 85 ft to 140 ft"
std::string text(const RowChange& change);
/// The same without the name of the row.
std::string what_changed(const RowChange& change);
/// Of all its cells, each once.
std::vector<std::string> causes_of(const RowChange& change);

} // namespace ohmfolio::revision
