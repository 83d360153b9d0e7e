#include "app/output.h"

#include <set>

#include "app/program_modules.h"
#include "drawing/csv.h"
#include "drawing/lint.h"

namespace ohmfolio {

SymbolSet load_symbols(const Surroundings& where, const House& house, const Style& style,
                       SourceFiles& sources, Findings& findings) {
    SymbolSet symbols = SymbolSet::load(where.data / "symbols", sources, findings);
    for (const auto& folder : {house.symbols, style.symbols}) {
        if (!folder.empty()) {
            symbols.lay_over(folder, sources, findings);
        }
    }
    return symbols;
}

std::unique_ptr<Lettering> load_lettering(const Surroundings& where) {
    return renderer().lettering(where.data / "layouts" / "lettering");
}

Findings drafting_faults(const Packet& packet, const TextMeasure& measure) {
    Findings findings = lint(packet, measure);
    std::erase_if(findings, [](const Finding& f) { return f.severity == Severity::advice; });
    return findings;
}

void remove_dangling_links(Packet& packet) {
    std::set<std::string> anchors;
    for (const Sheet& sheet : packet.sheets) {
        for (const Mark& mark : sheet.frame.marks) {
            if (const auto* anchor = std::get_if<Anchor>(&mark.item)) {
                anchors.insert(anchor->name);
            }
        }
    }
    for (Sheet& sheet : packet.sheets) {
        std::erase_if(sheet.frame.marks, [&](const Mark& mark) {
            const auto* link = std::get_if<Link>(&mark.item);
            return link != nullptr && !anchors.contains(link->target);
        });
    }
}

std::vector<OutputFile> rendered(const Packet& packet, const Lettering& lettering,
                                 const std::string& stem) {
    std::vector<OutputFile> files;
    files.push_back({stem + ".pdf", renderer().to_pdf(packet, lettering)});
    for (const Sheet& sheet : packet.sheets) {
        files.push_back({stem + "-" + sheet.number + ".svg", renderer().to_svg(sheet, lettering)});
    }
    for (const NamedTable& each : packet.tables) {
        files.push_back({stem + "-" + each.name + ".csv", to_csv(each.table)});
    }
    return files;
}

} // namespace ohmfolio
