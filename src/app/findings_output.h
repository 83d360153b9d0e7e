/// Findings for a person, for a program of one's own, or for an editor or a build server.
#pragma once

#include <string>

#include "base/finding.h"
#include "base/source.h"

namespace ohmfolio {

enum class FindingsFormat {
    text,
    json, ///< as in report.json, with paths and a count by severity
    sarif ///< SARIF 2.1.0, OASIS: Static Analysis Results Interchange Format
};

/// All findings in the order of the text.
std::string written(Findings findings, const SourceFiles& sources, FindingsFormat format,
                    bool colour);

} // namespace ohmfolio
