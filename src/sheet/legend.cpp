#include "sheet/legend.h"
#include "drawing/sheet.h"

#include <algorithm>

#include "base/drafting_case.h"
#include "diagram/interior.h"
#include "diagram/plan.h"
#include "sheet/symbol_art.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

/// Tall symbols are shown smaller here than on the diagram, so that the rows stay even.
constexpr Size largest{inches(0.54), inches(0.33)};
constexpr Length line_length = inches(0.46);
constexpr Length gap = inches(0.06);
constexpr Length row_gap = inches(0.065);

struct LegendItem {
    Frame art;
    std::string words;
};

Frame line(Stroke stroke) {
    Frame art;
    art.size = {line_length, Length{}};
    art.add(polyline({{}, {line_length, {}}}, stroke), Role::symbol);
    return art;
}

Frame enclosure(bool existing) {
    Equipment equipment;
    equipment.existing = existing;
    Frame art;
    art.size = {line_length, inches(0.24)};
    art.add(
        rectangle({{}, {art.size.width, art.size.height}}, diagram::enclosure_stroke(equipment)),
        Role::symbol);
    return art;
}

Frame wire_tag(const Job& job) {
    const TextStyle& style = job.diagram_style.tag;
    const Length capitals = job.measure.cap_height(style);
    Frame art;
    art.size = {job.measure.width("C1", style) + capitals, capitals * 7 / 4};
    art.add(diagram::tag_outline({{}, {art.size.width, art.size.height}}), Role::leader);
    write_line(art, {art.size.width / 2, (art.size.height - capitals) / 2}, "C1",
               {style, Align::centre}, job.measure);
    return art;
}

/// A thin line to earth.
Frame electrode_conductor(const Job& job) {
    Frame art;
    const Symbol* ground = job.symbols.find("ground");
    const SymbolPort* earth = ground ? ground->port("earth") : nullptr;
    if (!earth)
        return line({thin_pen});
    const Length run = line_length - ground->size.width / 2;
    const Length drop = inches(0.06);
    art.size = {line_length, drop + ground->size.height};
    art.add(polyline({{}, {run, {}}, {run, drop}}, {thin_pen}), Role::symbol);
    art.add(ground->art, Point{run, drop} - earth->at);
    return art;
}

template <class... Kinds> bool any_is(const System& system) {
    return std::ranges::any_of(system.equipment,
                               [](const Equipment& e) { return (e.is<Kinds>() || ...); });
}

std::vector<LegendItem> lines_of(const Job& job) {
    const System& system = job.system;
    std::vector<LegendItem> items;
    items.push_back({line({medium_pen}), "Power conductors"});
    if (!system.controls.empty() || !system.transformers.empty())
        items.push_back({line(diagram::control_stroke), "Control and communications"});
    if (any_is<Combiner, Mid, Panel>(system))
        items.push_back({line({bus_pen}), "Bus"});
    items.push_back({enclosure(false), "New enclosure"});
    if (std::ranges::any_of(system.equipment, &Equipment::existing))
        items.push_back({enclosure(true), "Existing enclosure"});
    items.push_back({wire_tag(job), "Conductor tag"});
    if (!job.diagram_style.notes.empty())
        items.push_back({keyed_circle("1", job.layout.lettering.body, job.measure), "Keyed note"});
    if (system.grounding.at >= 0)
        items.push_back({electrode_conductor(job), "GEC to electrodes"});
    return items;
}

Frame item_frame(const LegendItem& item, Length width, const Job& job) {
    Frame frame;
    Frame words;
    const Length left = largest.width + gap;
    const Length height = write_paragraph(words, {}, width - left - gap, drafting_case(item.words),
                                          {job.layout.lettering.body}, job.measure);
    frame.size = {width, std::max(item.art.size.height, height)};
    frame.add(item.art, {(largest.width - item.art.size.width) / 2,
                         (frame.size.height - item.art.size.height) / 2});
    frame.add(words, {left, (frame.size.height - height) / 2});
    return frame;
}

} // namespace

Frame keyed_circle(std::string_view number, const TextStyle& style, const TextMeasure& measure) {
    const Length radius = millimetres(2.4);
    Frame frame;
    frame.size = {2 * radius, 2 * radius};
    frame.add(circle({radius, radius}, radius, {thin_pen}), Role::leader);
    write_line(frame, {radius, radius - measure.cap_height(style) / 2}, number,
               {style, Align::centre, black, std::string(a_count)}, measure);
    return frame;
}

std::vector<Frame> legend_rows(const std::vector<std::string>& symbols, Length width, int columns,
                               const Job& job) {
    std::vector<LegendItem> items;
    for (const std::string& name : symbols) {
        if (const Symbol* symbol = job.symbols.find(name))
            items.push_back({symbol_art(*symbol, largest, job.measure), symbol->title});
    }
    if (!items.empty()) {
        for (LegendItem& item : lines_of(job))
            items.push_back(std::move(item));
    }
    std::vector<Frame> frames;
    Length pitch{};
    for (const LegendItem& item : items) {
        frames.push_back(item_frame(item, width / columns, job));
        pitch = std::max(pitch, frames.back().size.height);
    }
    pitch += row_gap;
    const std::size_t count =
        (frames.size() + static_cast<std::size_t>(columns) - 1) / static_cast<std::size_t>(columns);
    std::vector<Frame> rows(count);
    for (std::size_t i = 0; i < frames.size(); ++i) {
        Frame& row = rows[i % count];
        row.add(frames[i], {width / columns * static_cast<std::int64_t>(i / count),
                            (pitch - frames[i].size.height) / 2});
        row.size = {width, pitch};
    }
    return rows;
}

} // namespace ohmfolio::sheets
