/// The command line: which command, which options, which exit code.
#pragma once

#include <cstddef>
#include <filesystem>
#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

#include "app/findings_output.h"
#include "app/schema.h"
#include "base/edition.h"

namespace ohmfolio {

inline constexpr int exit_clean = 0;
inline constexpr int exit_violations = 1;
inline constexpr int exit_usage = 2;          ///< wrong usage, or a description that cannot be read
inline constexpr int exit_machine_failed = 3; ///< disk full, no permission, no memory

/// Parses the command line and runs the command it names.
int run(int argc, const char* const argv[], std::ostream& out, std::ostream& err);

/// The drafter's choices of how the sheets of this run look; they come before those of the house.
struct Style {
    std::filesystem::path symbols; ///< laid over those of the program; empty: none
    std::string sheet;             ///< format, "ansi-d"; empty: the description's, or the usual
};

struct DrawOptions {
    std::filesystem::path system;
    std::filesystem::path out = "packet";
    bool draft = false;
    Style style = {};
    std::filesystem::path since = {};  ///< PDF of the set that was commented on; empty: first issue
    bool only_changed = false;         ///< hand in the sheets that changed, not the whole set
    bool replace = false;              ///< draw over an issued set that never left the office
    std::filesystem::path record = {}; ///< file that lists the issues; empty: none
};

struct CheckOptions {
    std::filesystem::path system;
    FindingsFormat format = FindingsFormat::text;
};

struct StartOptions {
    std::string kind; ///< file of starts/, "backup"
    std::string name, address;
    int modules = 0;
    std::string date; ///< of the set; empty: today
    std::filesystem::path out = "system.toml";
    bool interactive = false; ///< somebody is there to ask
};

struct KeysOptions {
    Document document = Document::description;
    std::string part; ///< only what has this in its name or place
    bool markdown = false;
};

struct CatalogueOptions {
    std::vector<std::filesystem::path> files; ///< empty: those of the house and of the program
    std::string kind, text;                   ///< empty: all
    std::vector<std::string> conditions;      ///< "power >= 400 W"
};

struct ImportOptions {
    std::filesystem::path table, map;
    std::filesystem::path out = "catalogue.toml";
};

struct CompareOptions {
    std::filesystem::path older, newer; ///< a description, an issued PDF, or folders of them
    bool json = false;
};

struct SymbolsOptions {
    std::filesystem::path out = "symbol-chart";
    Style style = {};
};

struct PreviewOptions {
    std::filesystem::path system;
    std::optional<int> port = {}; ///< none: the usual one, or another where that is taken
    Style style = {};
};

struct UnpackOptions {
    std::filesystem::path packet;
    std::filesystem::path out = "unpacked";
    bool force = false; ///< overwrite files that differ
};

struct RulesOptions {
    std::optional<Edition> edition = {}; ///< none: all of them, side by side
    bool markdown = false;
};

/// Folders and manners that all commands share.
struct Surroundings {
    std::filesystem::path data; ///< holds symbols/, layouts/ and texts/
    bool colour = false;
    std::filesystem::path house = {}; ///< named by option or environment; empty: beside the job
};

/// What a run of `draw` came to, for those who count.
struct DrawTally {
    std::size_t sheets = 0; ///< handed in; 0: nothing was drawn
    std::size_t violations = 0, warnings = 0;
    bool draft = false;
    bool kept = false; ///< an issued set stood in the way
};

int draw(const DrawOptions& options, const Surroundings& where, std::ostream& out,
         std::ostream& err, DrawTally* tally = nullptr);
int check(const CheckOptions& options, const Surroundings& where, std::ostream& out);
int explain(const std::filesystem::path& system, const std::string& id, const Surroundings& where,
            std::ostream& out, std::ostream& err);
/// What changed between two issues.
int compare(const CompareOptions& options, const Surroundings& where, std::ostream& out,
            std::ostream& err);
/// The chart of all symbols, of which no system is needed either.
int symbols(const SymbolsOptions& options, const Surroundings& where, std::ostream& out,
            std::ostream& err);
/// Restores the files that are attached to a packet.
int unpack(const UnpackOptions& options, std::ostream& out, std::ostream& err);
/// Shows the sheets and the findings in a browser of this machine, until it is ended.
int preview(const PreviewOptions& options, const Surroundings& where, std::ostream& out,
            std::ostream& err);
/// Writes a first description to go on from; an existing file is left as it is.
int start(StartOptions options, const Surroundings& where, std::ostream& out, std::ostream& err);
/// The reference page of keys; 2 when nothing has `part`.
int keys(const KeysOptions& options, std::ostream& out, std::ostream& err);
/// Lists the records of catalogues; what is wrong with the files goes to `err`.
int list_catalogue(const CatalogueOptions& options, const Surroundings& where, std::ostream& out,
                   std::ostream& err);
/// Makes a catalogue out of a table of equipment data; an existing file is left as it is. 1 when
/// rows were left out.
int import_table(const ImportOptions& options, const Surroundings& where, std::ostream& out,
                 std::ostream& err);
/// The code book itself, of which no system is needed.
int rules(const RulesOptions& options, std::ostream& out);

} // namespace ohmfolio
