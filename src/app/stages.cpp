#include "app/stages.h"

#include <algorithm>
#include <ostream>

#include "code/code_book.h"
#include "input/input.h"

namespace ohmfolio {

std::optional<Studied> read_and_study(const std::filesystem::path& path, SourceFiles& sources,
                                      Findings& findings) {
    std::optional<System> system = read_system(path, sources, findings);
    if (!system) {
        return std::nullopt;
    }
    const CodeBook book(system->edition);
    Study study = make_study(*system, book);
    findings.insert(findings.end(), study.findings.begin(), study.findings.end());
    return Studied{std::move(*system), std::move(study)};
}

void print_findings(Findings findings, const SourceFiles& sources, bool colour, std::ostream& out) {
    sort_for_print(findings);
    for (const Finding& finding : findings) {
        out << print(finding, sources, colour) << '\n';
    }
    const auto count = [&findings](Severity severity) {
        return std::count_if(findings.begin(), findings.end(),
                             [severity](const Finding& f) { return f.severity == severity; });
    };
    out << count(Severity::error) << " errors, " << count(Severity::violation) << " violations, "
        << count(Severity::warning) << " warnings, " << count(Severity::advice) << " advice\n";
}

int exit_code(const Findings& findings) {
    if (has(findings, Severity::error)) {
        return exit_usage;
    }
    return has(findings, Severity::violation) ? exit_violations : exit_clean;
}

} // namespace ohmfolio
