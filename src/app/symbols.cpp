#include <ostream>

#include "app/commands.h"
#include "app/house.h"
#include "app/output.h"
#include "app/stages.h"
#include "sheet/symbol_chart.h"

namespace ohmfolio {

int symbols(const SymbolsOptions& options, const Surroundings& where, std::ostream& out,
            std::ostream& err) {
    SourceFiles sources;
    Findings findings;
    const HouseFile house = read_house_of({}, where, sources, findings);
    const SymbolSet set = load_symbols(where, house.house, options.style, sources, findings);
    const std::unique_ptr<Lettering> lettering = load_lettering(where);
    PacketOptions sheets;
    sheets.layouts = where.data / "layouts";
    sheets.own_layouts = house.house.layouts;
    if (!options.style.sheet.empty()) {
        sheets.format = {options.style.sheet, {}};
    }
    const Packet chart = make_symbol_chart(set, sheets, lettering->measure(), sources, findings);
    if (has(findings, Severity::error)) {
        print_findings(findings, sources, where.colour, err);
        err << "Nothing was drawn.\n";
        return exit_code(findings);
    }
    const Findings drawn = drafting_faults(chart, lettering->measure());
    findings.insert(findings.end(), drawn.begin(), drawn.end());
    const std::string stem = "symbols";
    const std::vector<OutputFile> files = rendered(chart, *lettering, stem);
    write_all(options.out, files);
    remove_stale_sheets(options.out, stem, files);
    if (!findings.empty()) {
        print_findings(findings, sources, where.colour, err);
    }
    out << set.all().size() << " symbols on " << chart.sheets.size()
        << " sheets: " << (options.out / files.front().name).string() << '\n';
    return exit_code(findings);
}

} // namespace ohmfolio
