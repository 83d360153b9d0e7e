#include "app/stages.h"

#include <algorithm>
#include <future>
#include <ostream>
#include <set>
#include <string>

#include "app/appendix.h"
#include "app/house.h"
#include "code/code_book.h"
#include "input/input.h"

namespace ohmfolio {

namespace {

std::optional<Studied> study_of(std::optional<System> system, const SourceFiles& sources,
                                Findings& findings) {
    if (!system) {
        return std::nullopt;
    }
    understand_appendix(*system, sources, findings);
    const CodeBook book(system->edition);
    Study study = make_study(*system, book);
    findings.insert(findings.end(), study.findings.begin(), study.findings.end());
    return Studied{std::move(*system), std::move(study)};
}

} // namespace

std::optional<Studied> read_and_study(const std::filesystem::path& path, const Surroundings& where,
                                      SourceFiles& sources, Findings& findings) {
    // The book takes as long to read as the description: both at once. No thread, no harm: then the
    // study reads it.
    const std::future<void> book = std::async([] { CodeBook::read_ahead(); });
    Findings of_house;
    const Office office{read_house_of(path, where, sources, of_house), where.data / "catalogues"};
    findings.insert(findings.end(), of_house.begin(), of_house.end());
    std::optional<System> system = read_system(path, office, sources, findings);
    if (has(of_house, Severity::error)) {
        system.reset(); // all faults have been told; nothing is made of a house half understood
    }
    return study_of(std::move(system), sources, findings);
}

std::optional<Studied> read_and_study(const std::filesystem::path& path, SourceFiles& sources,
                                      Findings& findings) {
    return study_of(read_system(path, sources, findings), sources, findings);
}

std::string counted(const Findings& findings) {
    const auto count = [&findings](Severity severity) {
        return std::ranges::count(findings, severity, &Finding::severity);
    };
    const auto with_noun = [&count](Severity severity, const std::string& what) {
        const auto number = count(severity);
        return std::to_string(number) + " " + what + (number == 1 ? "" : "s");
    };
    return with_noun(Severity::error, "error") + ", " +
           with_noun(Severity::violation, "violation") + ", " +
           with_noun(Severity::warning, "warning") + ", " +
           std::to_string(count(Severity::advice)) + " advice";
}

void print_findings(Findings findings, const SourceFiles& sources, bool colour, std::ostream& out) {
    // Thousands come of one cause, such as a file in the wrong place: the first ones tell it, or
    // the first of another kind.
    constexpr std::size_t most_printed = 500;
    sort_for_print(findings);
    std::set<std::string> told;
    std::size_t printed = 0;
    for (const Finding& finding : findings) {
        const bool is_news = told.insert(finding.rule).second;
        if (is_news || printed < most_printed) {
            out << print(finding, sources, colour) << '\n';
            ++printed;
        }
    }
    if (printed < findings.size()) {
        out << "... and " << findings.size() - printed << " more\n\n";
    }
    out << counted(findings) << '\n';
}

int exit_code(const Findings& findings) {
    if (has(findings, Severity::error)) {
        return exit_usage;
    }
    return has(findings, Severity::violation) ? exit_violations : exit_clean;
}

} // namespace ohmfolio
