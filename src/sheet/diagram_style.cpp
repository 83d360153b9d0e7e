#include "sheet/diagram_style.h"

#include "sheet/reading.h"

namespace ohmfolio::sheets {

std::optional<DiagramStyle> read_diagram_style(const LayoutFolders& folders,
                                               const LetteringLayout& lettering,
                                               SourceFiles& sources, Findings& findings) {
    const std::size_t before = findings.size();
    const auto node = read_file(folders.file("callouts.toml"), sources, findings);
    if (!node)
        return std::nullopt;
    DiagramStyle style;
    style.note = lettering.body;
    style.name = lettering.strong;
    style.tag = lettering.strong;
    TableReader root(*node, "the callouts", findings);
    for (const std::string& kind : root.keys()) {
        TableReader table = root.table(kind);
        if (kind == "notes") {
            for (const std::string& note : table.keys())
                style.notes[note] = table.text(note);
        } else {
            style.callouts[kind] = {table.texts("above"), table.texts("below")};
        }
        table.finish();
    }
    if (findings.size() > before)
        return std::nullopt;
    return style;
}

} // namespace ohmfolio::sheets
