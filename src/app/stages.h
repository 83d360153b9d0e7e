/// The pipeline as far as findings go: text becomes a system, a system becomes a study.
#pragma once

#include <filesystem>
#include <iosfwd>
#include <optional>
#include <string>

#include "app/commands.h"
#include "base/finding.h"
#include "model/system.h"
#include "study/study.h"

namespace ohmfolio {

struct Studied {
    System system;
    Study study;
};

/// Nothing when the description or its house style cannot be understood. Findings of all stages are
/// in `findings`.
std::optional<Studied> read_and_study(const std::filesystem::path& path, const Surroundings& where,
                                      SourceFiles& sources, Findings& findings);
/// The same without an office: no house style, no catalogues but those beside the description.
std::optional<Studied> read_and_study(const std::filesystem::path& path, SourceFiles& sources,
                                      Findings& findings);

/// "1 error, 0 violations, 2 warnings, 0 advice".
std::string counted(const Findings& findings);

/// Prints findings in the order of the text and a closing count.
void print_findings(Findings findings, const SourceFiles& sources, bool colour, std::ostream& out);

/// exit_usage for errors, exit_violations for violations, else exit_clean.
int exit_code(const Findings& findings);

} // namespace ohmfolio
