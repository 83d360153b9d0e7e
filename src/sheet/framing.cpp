#include "sheet/framing.h"

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "sheet/border.h"
#include "sheet/title_block.h"

namespace ohmfolio::sheets {

std::string sheet_number(const SheetEntry& entry, int sequence) {
    return fmt::format("{}-{}{:02}", entry.discipline, entry.type, entry.first - 1 + sequence);
}

Sheet framed(const Frame& page, const IndexEntry& entry, SheetCount of,
             const std::vector<Revision>& revisions, const Framing& framing, Findings& findings) {
    const SheetLayout& layout = framing.layout;
    const SheetAreas areas = areas_of(layout, framing.draft, framing.measure);
    Sheet sheet;
    sheet.number = entry.number;
    sheet.title = drafting_case(entry.title);
    sheet.revision = entry.revision;
    sheet.border = areas.outer;
    sheet.drawing_area = areas.drawing;
    sheet.zones = zones_of(layout);
    sheet.frame.size = layout.paper;
    sheet.frame.add(Anchor{areas.outer.low, "sheet:" + entry.number}, Role::none,
                    std::string(the_issue));
    // What is read first comes first: the title block closes the sheet.
    sheet.frame.add(page, areas.drawing.low);
    draw_border(sheet.frame, layout, areas, framing.measure);
    if (framing.draft)
        draw_draft_band(sheet.frame, layout, areas, framing.measure);
    const TitleBlockText text{framing.facts, revisions, entry.title,   entry.number,
                              of.position,   of.count,  framing.draft, framing.logo};
    draw_title_block(sheet.frame, areas.title, text, layout, framing.measure, findings);
    return sheet;
}

} // namespace ohmfolio::sheets
