#include "sheet/border.h"

#include <algorithm>
#include <cstdint>

#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

Box outer_box(const SheetLayout& layout) {
    const BorderLayout& border = layout.border;
    return {{border.left, border.top},
            {layout.paper.width - border.right, layout.paper.height - border.bottom}};
}

void centred_text(Frame& frame, Point centre, const std::string& text, const SheetLayout& layout,
                  const TextMeasure& measure) {
    const TextStyle& style = layout.lettering.zone;
    write_line(frame, {centre.x, centre.y - measure.cap_height(style) / 2}, text,
               {style, Align::centre}, measure);
}

void zone_tick(Frame& frame, const SheetLayout& layout, Point from, Point to) {
    frame.add(polyline({from, to}, {layout.border.zone_pen}), Role::rule);
}

void draw_zone_columns(Frame& frame, const SheetLayout& layout, const Box& outer, const Box& border,
                       const TextMeasure& measure) {
    const int columns = layout.border.zone_columns;
    for (int i = 0; i < columns; ++i) {
        const Length right = outer.high.x - outer.width() * i / columns;
        const Length middle = right - outer.width() / (std::int64_t{2} * columns);
        const std::string number = zone_column(zones_of(layout), i);
        centred_text(frame, {middle, (outer.low.y + border.low.y) / 2}, number, layout, measure);
        centred_text(frame, {middle, (outer.high.y + border.high.y) / 2}, number, layout, measure);
        if (i == 0)
            continue;
        zone_tick(frame, layout, {right, outer.low.y}, {right, border.low.y});
        zone_tick(frame, layout, {right, border.high.y}, {right, outer.high.y});
    }
}

void draw_zone_rows(Frame& frame, const SheetLayout& layout, const Box& outer, const Box& border,
                    const TextMeasure& measure) {
    const int rows = layout.border.zone_rows;
    for (int i = 0; i < rows; ++i) {
        const Length bottom = outer.high.y - outer.height() * i / rows;
        const Length middle = bottom - outer.height() / (std::int64_t{2} * rows);
        const std::string letter = zone_row(zones_of(layout), i);
        centred_text(frame, {(outer.low.x + border.low.x) / 2, middle}, letter, layout, measure);
        centred_text(frame, {(outer.high.x + border.high.x) / 2, middle}, letter, layout, measure);
        if (i == 0)
            continue;
        zone_tick(frame, layout, {outer.low.x, bottom}, {border.low.x, bottom});
        zone_tick(frame, layout, {border.high.x, bottom}, {outer.high.x, bottom});
    }
}

} // namespace

SheetAreas areas_of(const SheetLayout& layout, bool draft, const TextMeasure& measure) {
    SheetAreas areas;
    areas.outer = outer_box(layout);
    areas.border = areas.outer.grown(-layout.border.zone_band);
    areas.title = areas.border;
    areas.drawing = areas.border;
    if (layout.title_block.edge == TitleBlockLayout::Edge::bottom) {
        areas.title.low.y = areas.border.high.y - layout.title_block.depth;
        areas.drawing.high.y = areas.title.low.y;
    } else {
        areas.title.low.x = areas.border.high.x - layout.title_block.depth;
        areas.drawing.high.x = areas.title.low.x;
    }
    areas.band = {areas.drawing.low, areas.drawing.low};
    if (draft) {
        const Length height = scaled(measure.cap_height(layout.lettering.draft), 2.0);
        areas.band = {areas.drawing.low, {areas.drawing.high.x, areas.drawing.low.y + height}};
        areas.drawing.low.y += height;
    }
    areas.drawing = areas.drawing.grown(-layout.border.clear);
    return areas;
}

Zones zones_of(const SheetLayout& layout) {
    const BorderLayout& border = layout.border;
    return {outer_box(layout), border.zone_columns, border.zone_rows,
            border.zone_origin == BorderLayout::Origin::upper_left};
}

std::string zone_at(const SheetLayout& layout, Point point) {
    return ohmfolio::zone_at(zones_of(layout), point);
}

void draw_border(Frame& frame, const SheetLayout& layout, const SheetAreas& areas,
                 const TextMeasure& measure) {
    frame.add(rectangle(areas.outer, {layout.border.outer_pen}), Role::rule);
    frame.add(rectangle(areas.border, {layout.border.border_pen}), Role::rule);
    draw_zone_columns(frame, layout, areas.outer, areas.border, measure);
    draw_zone_rows(frame, layout, areas.outer, areas.border, measure);
}

void draw_draft_band(Frame& frame, const SheetLayout& layout, const SheetAreas& areas,
                     const TextMeasure& measure) {
    const TextStyle& style = layout.lettering.draft;
    frame.add(filled_rectangle(areas.band, black), Role::ground, std::string(the_issue));
    const Point centre = areas.band.centre();
    write_line(frame, {centre.x, centre.y - measure.cap_height(style) / 2},
               "DRAFT - NOT FOR CONSTRUCTION",
               {style, Align::centre, white, std::string(the_issue)}, measure);
}

} // namespace ohmfolio::sheets
