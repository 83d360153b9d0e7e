#include <ostream>

#include "app/commands.h"
#include "app/stages.h"
#include "base/text.h"

namespace ohmfolio {

int explain(const std::filesystem::path& system, const std::string& id, const Surroundings& where,
            std::ostream& out, std::ostream& err) {
    SourceFiles sources;
    Findings findings;
    const auto studied = read_and_study(system, where, sources, findings);
    if (!studied) {
        print_findings(findings, sources, where.colour, err);
        return exit_code(findings);
    }
    const std::string text =
        id.empty() ? std::string{} : explain(studied->system, studied->study, id);
    if (text.empty()) {
        const std::vector<std::string> known = explainable(studied->system, studied->study);
        const std::string near = nearest(id, known);
        err << "ohmfolio: nothing is called \"" << id << "\"";
        err << (near.empty() ? "" : "; did you mean \"" + near + "\"?") << '\n';
        return exit_usage;
    }
    out << text;
    return exit_clean;
}

} // namespace ohmfolio
