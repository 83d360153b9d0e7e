/// What the drafter changed: the leaves of two descriptions, side by side.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "base/finding.h"
#include "base/source.h"
#include "toml/toml.h"

namespace ohmfolio::revision {

/// One value that the drafter wrote differently.
struct StatedChange {
    std::string path;          ///< "panel.MSP.main"
    std::string subject;       ///< "MSP"
    std::string what;          ///< "main breaker"
    std::string before, after; ///< as written; empty: it was, or is, not there
    std::string where;         ///< "description", "house style", "catalogue"
};

/// What keys are called in the trade's words: the end of a path, "run.length", to "length".
using KeyWords = std::map<std::string, std::string>;
/// Reads changes.toml of the folder of texts.
KeyWords read_key_words(const std::filesystem::path& texts, SourceFiles& sources,
                        Findings& findings);

/// All that a job was drawn from, in the words of its author.
struct Statements {
    toml_text::Node description;
    std::vector<toml_text::Node> house;             ///< none or one
    std::vector<toml_text::Node> catalogues;        ///< in the order in which they are searched
    std::map<std::string, std::string> other_files; ///< name to content: appended documents, logos
};

/// In the order of the newer description. Rows of the revision block and comments are left out:
/// they tell of the issue, not of the system; so are records that the job does not use.
std::vector<StatedChange> stated_changes(const Statements& older, const Statements& newer,
                                         const KeyWords& words);

/// "MSP: main breaker 200 A to 175 A"
std::string text(const StatedChange& change);

} // namespace ohmfolio::revision
