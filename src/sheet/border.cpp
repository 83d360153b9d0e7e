#include "sheet/border.h"

#include <algorithm>
#include <cstdint>
#include <string_view>

#include "base/text.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

/// I and O are left out, as ASME Y14.1 and ISO 5457 ask: they are read as figures.
constexpr std::string_view row_letters = "ABCDEFGHJKLMNPQRSTUVWXYZ";

bool from_upper_left(const SheetLayout& layout) {
    return layout.border.zone_origin == BorderLayout::Origin::upper_left;
}

/// The row that is `from_bottom` rows above the lowest.
std::string row_letter(const SheetLayout& layout, int from_bottom) {
    const int row =
        from_upper_left(layout) ? layout.border.zone_rows - 1 - from_bottom : from_bottom;
    return std::string(1, row_letters[static_cast<std::size_t>(row)]);
}

std::string column_number(const SheetLayout& layout, int from_right) {
    const int column =
        from_upper_left(layout) ? layout.border.zone_columns - 1 - from_right : from_right;
    return trimmed(column + 1, 0);
}

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
        const std::string number = column_number(layout, i);
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
        const std::string letter = row_letter(layout, i);
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

std::string zone_at(const SheetLayout& layout, Point point) {
    const Box outer = outer_box(layout);
    const auto index = [](Length from, Length whole, int count) {
        const auto at = static_cast<int>(from * count / whole);
        return std::clamp(at, 0, count - 1);
    };
    const int column = index(outer.high.x - point.x, outer.width(), layout.border.zone_columns);
    const int row = index(outer.high.y - point.y, outer.height(), layout.border.zone_rows);
    return row_letter(layout, row) + column_number(layout, column);
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
    frame.add(filled_rectangle(areas.band, black), Role::ground);
    const Point centre = areas.band.centre();
    write_line(frame, {centre.x, centre.y - measure.cap_height(style) / 2},
               "DRAFT - NOT FOR CONSTRUCTION", {style, Align::centre, white}, measure);
}

} // namespace ohmfolio::sheets
