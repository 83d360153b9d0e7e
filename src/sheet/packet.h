/// System, study and diagram become the sheets of a packet. What a sheet holds and where stands in
/// layouts/*.toml; wording of notes and placards stands in src/sheet/texts/*.toml.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "base/finding.h"
#include "drawing/measure.h"
#include "drawing/sheet.h"
#include "model/system.h"
#include "study/study.h"
#include "symbol/symbol.h"

namespace ohmfolio {

struct PacketOptions {
    std::filesystem::path layouts;          ///< folder of sheet formats
    std::filesystem::path own_layouts = {}; ///< the office's, before those; empty: none
    std::filesystem::path texts; ///< folder of notes and placards; empty: "texts" beside layouts
    Spanned<std::string> format = {"ansi-b", {}}; ///< layouts/ansi-b.toml, and who asked for it
    bool draft = false;                           ///< unresolved violations: every sheet is marked
    /// The revision that sheets unchanged since were last issued under, by their numbers; a sheet
    /// that is not named is issued under the latest.
    std::map<std::string, std::string> issued_under = {};
    /// Of sheets that had another number in the issue before, that number.
    std::map<std::string, std::string> were = {};
};

Packet make_packet(const System& system, const Study& study, const SymbolSet& symbols,
                   const PacketOptions& options, const TextMeasure& measure, SourceFiles& sources,
                   Findings& findings);

/// Names of the tables that a packet may have for those who read it by machine: "conductors".
std::vector<std::string> machine_table_names();

} // namespace ohmfolio
