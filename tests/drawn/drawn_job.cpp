#include "drawn/drawn_job.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include <fmt/format.h>

#include "code/code_book.h"
#include "render/render.h"
#include "sheet/packet.h"
#include "symbol/symbol.h"

namespace ohmfolio::drawn {
namespace {

const std::filesystem::path repository = OHMFOLIO_SOURCE;

/// Read once: every drawing of a test uses the same.
const SymbolSet& house_symbols() {
    static const SymbolSet symbols = [] {
        SourceFiles sources;
        Findings findings;
        SymbolSet set = SymbolSet::load(repository / "symbols", sources, findings);
        if (!findings.empty()) {
            throw std::runtime_error(said(findings.front()));
        }
        return set;
    }();
    return symbols;
}

void draw_sheets(DrawnJob& job) {
    if (!job.system) {
        return;
    }
    job.study = make_study(*job.system, CodeBook(job.system->edition));
    PacketOptions options;
    options.layouts = repository / "layouts";
    options.texts = repository / "src/sheet/texts";
    options.draft = has(job.study->findings, Severity::violation);
    job.packet = make_packet(*job.system, *job.study, house_symbols(), options, house_measure(),
                             job.sources, job.drawing);
}

bool leads_to_diagram(const Mark& mark) {
    const auto* anchor = std::get_if<Anchor>(&mark.item);
    return anchor != nullptr && anchor->name.starts_with("diagram:");
}

} // namespace

std::vector<const Sheet*> DrawnJob::diagram_sheets() const {
    std::vector<const Sheet*> sheets;
    for (const Sheet& sheet : packet.sheets) {
        if (std::ranges::any_of(sheet.frame.marks, leads_to_diagram)) {
            sheets.push_back(&sheet);
        }
    }
    return sheets;
}

std::unique_ptr<DrawnJob> draw_job(const std::string& job, const std::string& catalogue) {
    auto drawn = std::make_unique<DrawnJob>();
    drawn->system = read_system_text(job, catalogue, drawn->sources, drawn->input);
    draw_sheets(*drawn);
    return drawn;
}

std::unique_ptr<DrawnJob> draw_file(const std::string& path) {
    auto drawn = std::make_unique<DrawnJob>();
    drawn->system = read_system(repository / path, drawn->sources, drawn->input);
    draw_sheets(*drawn);
    return drawn;
}

const TextMeasure& house_measure() {
    static const Lettering lettering(repository / "layouts/lettering");
    return lettering.measure();
}

std::string repository_text(const std::string& path) {
    std::ifstream file(repository / path);
    if (!file) {
        throw std::runtime_error(path + " cannot be read");
    }
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

std::string said(const Finding& finding) {
    return fmt::format("{} {}: {}", finding.rule, finding.subject, finding.message);
}

} // namespace ohmfolio::drawn
