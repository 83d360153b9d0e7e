/// Public tables of equipment become records of a catalogue.
#pragma once

#include <cstddef>
#include <string>

#include "base/finding.h"
#include "base/source.h"

namespace ohmfolio {

struct ImportedRecords {
    std::string text; ///< of a catalogue file; empty where the table or the map cannot be read
    std::size_t written = 0;
    std::size_t passed_over = 0; ///< rows that the map does not want
    std::size_t left_out = 0;    ///< rows with a fault
};

/// `table` and `map` are files of `sources`. Every record is read as the catalogue's reader would,
/// nameplates included; a row that it would refuse is left out, with a finding at its line.
ImportedRecords import_records(int table, int map, SourceFiles& sources, Findings& findings);

} // namespace ohmfolio
