#include <algorithm>
#include <cmath>

#include "base/drafting_case.h"
#include "drawing/table.h"
#include "sheet/building_plan.h"
#include "sheet/placards.h"
#include "sheet/places.h"
#include "sheet/plan_view.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

constexpr Length edge = inches(0.09);  ///< from the cut line to the placard's own outline
constexpr Length inset = inches(0.13); ///< from the outline to lettering
constexpr Length below = inches(1.65); ///< kept below a placard: its caption, the foot of the sheet
constexpr Length least_picture = inches(1); ///< a lower plan of a building says nothing

/// Lettering whose capitals are `height` tall: true size is what the code measures.
TextStyle lettering_of_height(Length height, bool bold, const TextMeasure& measure) {
    const TextStyle reference{points(1000), bold};
    const double capitals = static_cast<double>(measure.cap_height(reference).nm) /
                            static_cast<double>(reference.size.nm);
    // A nanometre more, so that rounding never takes a letter below the height asked for.
    return {scaled(height, 1.0 / capitals) + Length{1'000}, bold};
}

struct PanelDesk {
    const NeededPlacard& needed;
    const Job& job;
    Length width;  ///< of the panel
    Length room{}; ///< that the other panels leave for a picture of the building
    std::string shows = {};

    TextStyle style(const PlacardPanel& panel) const {
        return lettering_of_height(panel.letter_height, panel.bold, job.measure);
    }
    std::vector<std::string> lines(const PlacardPanel& panel) const {
        std::vector<std::string> lines;
        for (const std::string& line : panel.lines) {
            if (auto text = filled(line, needed.facts, job.findings))
                lines.push_back(std::move(*text));
        }
        return lines;
    }
};

void fill_ground(Frame& frame, Color ground, const std::string& shows) {
    if (ground == white)
        return;
    Frame under;
    under.size = frame.size;
    under.add(filled_rectangle({{}, {frame.size.width, frame.size.height}}, ground), Role::ground,
              shows);
    under.add(frame, {});
    frame = std::move(under);
}

/// The safety alert symbol of ANSI Z535.4: an exclamation mark in a triangle, in the ink of the
/// panel with the mark left out in its ground.
void draw_alert(Frame& frame, Point top_left, Length height, Color ink, Color ground,
                const std::string& shows) {
    const Length width = scaled(height, 2.0 / std::sqrt(3.0));
    const Point top{top_left.x + width / 2, top_left.y};
    Path triangle = polyline(
        {top, {top_left.x + width, top_left.y + height}, {top_left.x, top_left.y + height}, top},
        {fine_pen, LineType::solid, ink});
    triangle.filled = true;
    triangle.fill = ink;
    frame.add(std::move(triangle), Role::symbol, shows);
    const Length half = scaled(height, 0.07);
    Path stem = polyline({{top.x - half, top.y + scaled(height, 0.36)},
                          {top.x + half, top.y + scaled(height, 0.36)},
                          {top.x + half / 2, top.y + scaled(height, 0.70)},
                          {top.x - half / 2, top.y + scaled(height, 0.70)},
                          {top.x - half, top.y + scaled(height, 0.36)}},
                         {fine_pen, LineType::solid, ground});
    stem.filled = true;
    stem.fill = ground;
    frame.add(std::move(stem), Role::symbol, shows);
    frame.add(disc({top.x, top.y + scaled(height, 0.83)}, half, ground), Role::symbol, shows);
}

Frame signal_panel(const PanelDesk& desk, const PlacardPanel& panel) {
    const Signal& signal = desk.job.texts.signals.find(panel.signal)->second;
    const TextStyle style = desk.style(panel);
    const TextMeasure& measure = desk.job.measure;
    const Length letters = measure.cap_height(style);
    const Length alert_height = signal.triangle ? scaled(letters, 1.25) : Length{};
    const Length alert_width = scaled(alert_height, 2.0 / std::sqrt(3.0));
    const Length gap = signal.triangle ? letters / 3 : Length{};
    const Length word = measure.width(signal.word, style);
    const Length height = std::max(letters, alert_height) + letters * 2 / 3;
    const Length left = (desk.width - alert_width - gap - word) / 2;
    Frame frame;
    frame.size = {desk.width, height};
    if (signal.triangle) {
        draw_alert(frame, {left, (height - alert_height) / 2}, alert_height, signal.ink,
                   signal.ground, desk.shows);
    }
    write_line(frame, {left + alert_width + gap, (height - letters) / 2}, signal.word,
               {style, Align::left, signal.ink, desk.shows}, measure);
    fill_ground(frame, signal.ground, desk.shows);
    return frame;
}

Frame lettering_panel(const PanelDesk& desk, const PlacardPanel& panel) {
    const TextStyle style = desk.style(panel);
    const TextMeasure& measure = desk.job.measure;
    const Length pad = std::max(inches(0.07), scaled(panel.letter_height, 0.55));
    Frame frame;
    frame.size.width = desk.width;
    const auto lines = desk.lines(panel);
    if (lines.empty()) // nothing of it holds here
        return frame;
    Length y = pad;
    for (const std::string& line : lines) {
        const Length room = desk.width - 2 * inset;
        const Length width = balanced_width(line, style, room, measure);
        const Length left = panel.centred ? (room - width) / 2 : Length{};
        y += write_paragraph(
            frame, {inset + left, y}, width, line,
            {style, panel.centred ? Align::centre : Align::left, panel.ink, desk.shows}, measure);
        y += line_pitch(style) - measure.cap_height(style);
    }
    y -= line_pitch(style) - measure.cap_height(style);
    frame.size = {desk.width, y + pad};
    fill_ground(frame, panel.ground, desk.shows);
    return frame;
}

/// A rule to write on, with room for tall figures above it.
Frame blank_panel(const PanelDesk& desk, const PlacardPanel& panel) {
    const Length side = desk.width / 6;
    const Length line = panel.letter_height * 2;
    Frame frame;
    frame.size = {desk.width, line + std::max(inches(0.14), panel.letter_height)};
    frame.add(polyline({{side, line}, {desk.width - side, line}}, {thin_pen}), Role::rule,
              desk.shows);
    return frame;
}

/// Points along the left slope of the house's roof: `at` 0 is the eaves, 1 the ridge; `lift` is the
/// height over it.
struct Roof {
    Point eaves, ridge;

    Point at(double share, Length lift) const {
        return {eaves.x + scaled(ridge.x - eaves.x, share),
                eaves.y + scaled(ridge.y - eaves.y, share) - lift};
    }
};

/// A house seen from the side, the array on its roof, the switch on its wall. An array drawn open
/// is one that the switch shuts down. Returns the middle of the switch.
Point draw_house(Frame& frame, Point low, Size size, const std::string& shows) {
    const Stroke pen{medium_pen};
    const Length wall = size.width / 10;
    const Length eaves = low.y + scaled(size.height, 0.56);
    const Length ground = low.y + size.height;
    const Roof roof{{low.x, eaves}, {low.x + size.width / 2, low.y + inches(0.08)}};
    const Point far{low.x + size.width, eaves};
    frame.add(polyline({roof.eaves, roof.ridge, far, roof.eaves}, pen), Role::symbol, shows);
    frame.add(polyline({{low.x + wall, eaves},
                        {low.x + wall, ground},
                        {far.x - wall, ground},
                        {far.x - wall, eaves}},
                       pen),
              Role::symbol, shows);
    for (int module = 0; module < 4; ++module) {
        const double from = 0.18 + module * 0.18;
        const double to = from + 0.16;
        const Length under = inches(0.03);
        const Length over = inches(0.11);
        frame.add(polyline({roof.at(from, under), roof.at(to, under), roof.at(to, over),
                            roof.at(from, over), roof.at(from, under)},
                           pen),
                  Role::symbol, shows);
    }
    const Box device = box_at({far.x - wall, eaves + inches(0.14)}, {inches(0.14), inches(0.22)});
    frame.add(rectangle(device, pen), Role::symbol, shows);
    return {device.high.x, device.centre().y};
}

/// Where the longest line of lettering ends.
Length right_end(const Frame& frame, const TextMeasure& measure) {
    Length end{};
    for (const Mark& mark : frame.marks) {
        if (const auto* text = std::get_if<Text>(&mark.item))
            end = std::max(end, text->at.x + measure.width(text->text, text->style));
    }
    return end;
}

/// The building as it is described in plan, else as a house seen from the side; `device` becomes
/// the place of the switch.
Frame building_with_switch(const PanelDesk& desk, const TextStyle& lettering, Point& device) {
    const Size house{inches(2.1), inches(1.15)},
        largest_plan{inches(3.4), std::min(inches(1.6), desk.room - inches(0.24))};
    if (auto plan = building_plan(rapid_shutdown_switches(desk.job.system), false, largest_plan,
                                  lettering, desk.shows, desk.job)) {
        device = plan->marks.front();
        return std::move(plan->frame);
    }
    Frame picture;
    device = draw_house(picture, {}, house, desk.shows);
    picture.size = house;
    return picture;
}

/// The building, and the switch named on the side where it is, both in the middle of the panel.
Frame roof_panel(const PanelDesk& desk, const PlacardPanel& panel) {
    const Length pad = inches(0.12), lead = inches(0.34);
    Point device;
    const Frame house = building_with_switch(desk, desk.style(panel), device);
    PanelDesk beside = desk;
    beside.width = desk.width - 2 * inset - house.size.width - lead;
    const Frame lettering = lettering_panel(beside, panel);
    const Length words = right_end(lettering, desk.job.measure) - inset;
    const bool words_left = device.x * 2 < house.size.width;
    const Length house_at = words_left ? words + lead : Length{};
    const Length words_at = words_left ? Length{} : house.size.width + lead;
    const Length leader_to = words_left ? words + points(4) : words_at - points(4);
    Frame picture;
    picture.add(house, {house_at, pad});
    device = device + Point{house_at, pad};
    picture.add(polyline({device, {leader_to, device.y}}, {thin_pen}), Role::leader, desk.shows);
    picture.add(lettering, {words_at - inset, device.y - lettering.size.height / 2});
    Frame frame;
    frame.size = {desk.width, house.size.height + 2 * pad};
    frame.add(picture, {(desk.width - house.size.width - lead - words) / 2, {}});
    return frame;
}

Frame directory_panel(const PanelDesk& desk, const PlacardPanel& panel) {
    Table table;
    for (const std::string& heading : panel.lines)
        table.columns.push_back({heading, Align::left, {}});
    const System& system = desk.job.system;
    for (const SourceRow& source : source_directory(system)) {
        const std::string units = ids(system, source.units);
        const std::string named = units.empty() ? source.source : source.source + ", " + units;
        Row row;
        for (const std::string& text : {named, source.disconnect, source.location}) {
            Cell cell;
            cell.text = drafting_case(text);
            cell.shows = desk.shows;
            row.cells.push_back(std::move(cell));
        }
        table.rows.push_back(std::move(row));
    }
    TableStyle style = desk.job.layout.table;
    style.heading = lettering_of_height(panel.letter_height, true, desk.job.measure);
    style.body = lettering_of_height(panel.letter_height, false, desk.job.measure);
    const auto pieces = set_table(table, style, desk.width - 2 * inset, desk.job.area.height, true,
                                  desk.job.measure);
    Frame frame;
    frame.size.width = desk.width;
    if (!pieces.empty()) {
        frame.add(pieces.front(), {inset, inset / 2});
        frame.size.height = pieces.front().size.height + inset;
    }
    return frame;
}

/// The building in plan, in the middle of the panel, with what the directory lists.
Frame plan_panel(const PanelDesk& desk, const PlacardPanel& panel) {
    std::vector<int> disconnects;
    for (const SourceRow& source : source_directory(desk.job.system)) {
        for (const int e : source.at) {
            if (std::find(disconnects.begin(), disconnects.end(), e) == disconnects.end())
                disconnects.push_back(e);
        }
    }
    Frame frame;
    frame.size.width = desk.width;
    const Size most{scaled(desk.width, 0.5), std::min(inches(1.9), desk.room - inches(0.2))};
    if (most.height < least_picture)
        return frame;
    const auto plan =
        building_plan(disconnects, true, most, desk.style(panel), desk.shows, desk.job);
    if (!plan)
        return frame;
    const Frame arrow =
        north_arrow(desk.job.system.site.plan.north, desk.style(panel), desk.job.measure);
    const Length pad = inches(0.1);
    const Length side = (desk.width - plan->frame.size.width) / 2;
    frame.add(plan->frame, {side, pad});
    // Where the names of disconnects leave room for it.
    const Length needed = inset + arrow.size.width + pad;
    if (side >= needed)
        frame.add(arrow, {desk.width - inset - arrow.size.width, pad});
    frame.size.height = plan->frame.size.height + 2 * pad;
    return frame;
}

bool is_picture(const PlacardPanel& panel) {
    return panel.kind == PlacardPanel::Kind::plan || panel.kind == PlacardPanel::Kind::roof_plan;
}

Frame panel_frame(const PanelDesk& desk, const PlacardPanel& panel) {
    switch (panel.kind) {
    case PlacardPanel::Kind::signal:
        return signal_panel(desk, panel);
    case PlacardPanel::Kind::blank:
        return blank_panel(desk, panel);
    case PlacardPanel::Kind::roof_plan:
        return roof_panel(desk, panel);
    case PlacardPanel::Kind::plan:
        return plan_panel(desk, panel);
    case PlacardPanel::Kind::directory:
        return directory_panel(desk, panel);
    case PlacardPanel::Kind::lettering:
        break;
    }
    return lettering_panel(desk, panel);
}

} // namespace

Frame draw_placard(const NeededPlacard& needed, const Job& job) {
    return draw_placard(needed, needed.placard->width, job);
}

Frame draw_placard(const NeededPlacard& needed, Length width, const Job& job) {
    const Placard& placard = *needed.placard;
    const std::string shows = "placard:" + placard.id;
    PanelDesk desk{.needed = needed, .job = job, .width = width - 2 * edge, .shows = shows};
    // A picture takes the room that the lettering leaves on the sheet.
    desk.room = job.area.height - below - 2 * edge;
    for (const PlacardPanel& panel : placard.panels) {
        if (panel.editions.contains(job.system.edition) && !is_picture(panel))
            desk.room -= panel_frame(desk, panel).size.height;
    }
    Frame frame;
    Length y = edge;
    for (const PlacardPanel& panel : placard.panels) {
        if (!panel.editions.contains(job.system.edition))
            continue;
        const Frame set = panel_frame(desk, panel);
        frame.add(set, {edge, y});
        y += set.size.height;
    }
    frame.add(rectangle({{edge, edge}, {width - edge, y}}, {medium_pen}), Role::rule, shows);
    frame.size = {width, y + edge};
    frame.add(rectangle({{}, {frame.size.width, frame.size.height}},
                        {job.layout.cut_pen, LineType::dashed}),
              Role::rule, shows);
    return frame;
}

} // namespace ohmfolio::sheets
