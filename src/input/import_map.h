/// How the columns of somebody's table become the keys of our records: a TOML file that the user
/// writes once for each source of tables.
///
///     kind = "module"
///     key = "{Maker} {Model}"      # cells in braces; blanks become dashes
///     [columns]                    # key of a record = heading of a column, or several for a list
///     maker = "Maker"
///     power = "Pmax"
///     [units]                      # of columns that hold bare numbers
///     power = "W"
///     [fixed]                      # the same for every record
///     listing = "UL 61730"
///     [only]                       # rows with one of these words in the column
///     Technology = ["Mono", "Multi"]
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "input/csv_text.h"
#include "input/keys.h"

namespace ohmfolio {

struct MappedKey {
    const Key* key = nullptr;
    std::vector<std::size_t> columns; ///< of the table; several make a list
    std::string unit;                 ///< empty: the cells say theirs
};

struct RowFilter {
    std::size_t column = 0;
    std::vector<std::string> words;
};

struct ImportMap {
    std::string kind;
    std::string key; ///< the pattern
    std::vector<MappedKey> keys;
    std::vector<std::string> fixed; ///< lines of TOML, "listing = \"UL 61730\""
    std::vector<RowFilter> only;
};

/// Reads the map against the table it is for. Nothing when it has a fault, which is a finding.
std::optional<ImportMap> read_import_map(int file, const CsvTable& table,
                                         const SourceFiles& sources, Findings& findings);

/// Pieces of a pattern: words as they are, and columns in braces. Nothing where braces are
/// unpaired.
struct PatternPiece {
    bool column = false;
    std::string text;
};
std::optional<std::vector<PatternPiece>> pattern_pieces(std::string_view pattern);

} // namespace ohmfolio
