#include <ostream>

#include "app/appendix.h"
#include "app/attachments.h"
#include "app/binder_module.h"
#include "app/commands.h"
#include "app/files.h"
#include "app/output.h"
#include "app/report.h"
#include "app/stages.h"
#include "diagram/diagram.h"
#include "drawing/lint.h"
#include "sheet/packet.h"
#include "symbol/symbol.h"

namespace ohmfolio {

namespace {

/// The drawing is held against the system before anyone sees it: a wire that joins what it should
/// not is worse than no drawing.
Findings drawing_findings(const Packet& packet, const System& system, const TextMeasure& measure) {
    Findings findings = drafting_faults(packet, measure);
    std::vector<const Frame*> frames;
    for (const Sheet& sheet : packet.sheets) {
        frames.push_back(&sheet.frame);
    }
    const Findings wiring = compare_netlists(read_netlist(frames), intended_netlist(system));
    findings.insert(findings.end(), wiring.begin(), wiring.end());
    return findings;
}

} // namespace

int draw(const DrawOptions& options, const Surroundings& where, std::ostream& out,
         std::ostream& err) {
    SourceFiles sources;
    Findings findings;
    const auto studied = read_and_study(options.system, where, sources, findings);
    const bool stops =
        has(findings, Severity::error) || (has(findings, Severity::violation) && !options.draft);
    if (!studied || stops) {
        print_findings(findings, sources, where.colour, err);
        err << "Nothing was drawn."
            << (studied ? " Resolve the violations, or draw a marked draft with --draft.\n" : "\n");
        return exit_code(findings);
    }
    const auto& [system, study] = *studied;
    const int verdict = exit_code(findings);
    const int files_of_job = sources.count();

    const SymbolSet symbols = load_symbols(where, system.house, options.style, sources, findings);
    const Lettering lettering(where.data / "layouts" / "lettering");
    PacketOptions sheets;
    sheets.layouts = where.data / "layouts";
    sheets.own_layouts = system.house.layouts;
    if (!options.style.sheet.empty()) {
        sheets.format = {options.style.sheet, {}};
    } else if (!system.sheet.value.empty()) {
        sheets.format = system.sheet;
    }
    sheets.draft = verdict == exit_violations;
    const Packet packet =
        make_packet(system, study, symbols, sheets, lettering.measure(), sources, findings);
    if (!has(findings, Severity::error)) {
        const Findings drawn = drawing_findings(packet, system, lettering.measure());
        findings.insert(findings.end(), drawn.begin(), drawn.end());
    }
    if (has(findings, Severity::error)) {
        print_findings(findings, sources, where.colour, err);
        err << "Nothing was drawn.\n";
        return exit_code(findings);
    }
    const std::string stem = options.system.stem().string();
    std::vector<OutputFile> files = rendered(packet, lettering, stem);
    files.push_back({"report.json", report(system, study, packet, findings, sources)});
    PdfBinding binding{packet.info.date, appended_pages(packet, system, sources), {}};
    binding.attachments = attachments(
        sources, {options.system, files_of_job, where.data, system.appendix}, files.back().bytes);
    files.front().bytes = binder().bind(files.front().bytes, binding);
    write_all(options.out, files);
    remove_stale_sheets(options.out, stem, files);

    if (!findings.empty()) {
        print_findings(findings, sources, where.colour, err);
    }
    out << packet.sheets.size() << " sheets: " << (options.out / files.front().name).string()
        << '\n';
    return exit_code(findings);
}

} // namespace ohmfolio
