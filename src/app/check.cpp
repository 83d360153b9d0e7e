#include <ostream>

#include "app/commands.h"
#include "app/stages.h"

namespace ohmfolio {

int check(const std::filesystem::path& system, const Surroundings& where, std::ostream& out,
          std::ostream&) {
    SourceFiles sources;
    Findings findings;
    read_and_study(system, where, sources, findings);
    print_findings(findings, sources, where.colour, out);
    return exit_code(findings);
}

} // namespace ohmfolio
