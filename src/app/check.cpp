#include <ostream>

#include "app/commands.h"
#include "app/stages.h"

namespace ohmfolio {

int check(const CheckOptions& options, const Surroundings& where, std::ostream& out) {
    SourceFiles sources;
    Findings findings;
    read_and_study(options.system, where, sources, findings);
    out << written(findings, sources, options.format, where.colour);
    return exit_code(findings);
}

} // namespace ohmfolio
