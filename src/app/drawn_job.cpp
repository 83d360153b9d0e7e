#include "app/drawn_job.h"

#include <algorithm>

#include "app/output.h"
#include "diagram/diagram.h"
#include "sheet/packet.h"
#include "toml/toml.h"

namespace ohmfolio {

namespace {

namespace fs = std::filesystem;

} // namespace

void study_job(DrawnJob& job, const fs::path& path, const Surroundings& where) {
    job.path = path;
    job.studied = read_and_study(path, where, job.sources, job.findings);
    job.files_of_job = job.sources.count();
}

void draw_job(DrawnJob& job, const SetOptions& options, const Surroundings& where,
              const Lettering& lettering) {
    const auto& [system, study] = *job.studied;
    const SymbolSet symbols =
        load_symbols(where, system.house, options.style, job.sources, job.findings);
    PacketOptions sheets;
    sheets.layouts = where.data / "layouts";
    sheets.own_layouts = system.house.layouts;
    if (!options.style.sheet.empty()) {
        sheets.format = {options.style.sheet, {}};
    } else if (!system.sheet.value.empty()) {
        sheets.format = system.sheet;
    }
    sheets.draft = options.draft;
    sheets.issued_under = options.issued_under;
    sheets.were = options.were;
    job.packet =
        make_packet(system, study, symbols, sheets, lettering.measure(), job.sources, job.findings);
}

Findings drawing_findings(const DrawnJob& job, const TextMeasure& measure) {
    Findings findings = drafting_faults(job.packet, measure);
    std::vector<const Frame*> frames;
    for (const Sheet& sheet : job.packet.sheets) {
        frames.push_back(&sheet.frame);
    }
    const Findings wiring =
        compare_netlists(read_netlist(frames), intended_netlist(job.studied->system));
    findings.insert(findings.end(), wiring.begin(), wiring.end());
    return findings;
}

revision::Statements statements_of(const DrawnJob& job) {
    revision::Statements statements;
    bool described = false;
    for (int file = 0; file < job.files_of_job; ++file) {
        const std::string& name = job.sources.name(file);
        if (fs::path(name).extension() != ".toml") {
            statements.other_files.emplace(fs::path(name).filename().string(),
                                           job.sources.text(file));
            continue;
        }
        Findings told_before; // reading the job has reported them
        auto tree = toml_text::parse(file, job.sources, told_before);
        if (!tree) {
            continue;
        }
        if (name == job.path.string() && !described) {
            statements.description = std::move(*tree);
            described = true;
        } else if (!described) {
            statements.house.push_back(std::move(*tree)); // it is read before the description
        } else {
            statements.catalogues.push_back(std::move(*tree));
        }
    }
    return statements;
}

} // namespace ohmfolio
