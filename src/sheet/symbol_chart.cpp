#include "sheet/symbol_chart.h"

#include <algorithm>
#include <optional>
#include <set>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "sheet/border.h"
#include "sheet/flow.h"
#include "sheet/framing.h"
#include "sheet/reading.h"
#include "sheet/symbol_art.h"
#include "sheet/writing.h"
#include "study/study.h"

namespace ohmfolio {

namespace sheets {

namespace {

/// The widest symbols of a single-line diagram; larger ones are shown smaller.
constexpr Size art_room{millimetres(28), millimetres(28)};
constexpr Length art_gap = inches(0.10);
constexpr Length row_gap = inches(0.16);
constexpr Length port_ring = millimetres(0.7);

struct ChartGroup {
    std::string title;
    std::vector<std::string> symbols;
};

/// layouts/symbol-chart.toml.
struct ChartPlan {
    std::string date; ///< of the set of symbols; there is no other that a chart could bear
    std::vector<ChartGroup> groups;
};

struct Chart {
    const SymbolSet& symbols;
    const SheetLayout& layout;
    const TextMeasure& measure;
    Size area;

    Length cell_width() const { return area.width / layout.chart_columns; }
};

bool is_date(std::string_view text) {
    constexpr std::string_view form = "0000-00-00";
    return text.size() == form.size() && std::ranges::equal(text, form, [](char c, char expected) {
               return expected == '-' ? c == '-' : c >= '0' && c <= '9';
           });
}

std::optional<ChartPlan> read_plan(const std::filesystem::path& folder, SourceFiles& sources,
                                   Findings& findings) {
    const std::size_t before = findings.size();
    const auto node = read_file(folder / "symbol-chart.toml", sources, findings);
    if (!node)
        return std::nullopt;
    ChartPlan plan;
    TableReader root(*node, "the chart of symbols", findings);
    plan.date = root.text("date");
    if (!is_date(plan.date))
        root.fault("date", fmt::format("\"{}\" is not a date", plan.date), "\"2026-03-02\"");
    for (TableReader& table : root.tables("group")) {
        plan.groups.push_back({table.text("title"), table.texts("symbols")});
        table.finish();
    }
    root.finish();
    return findings.size() > before ? std::nullopt : std::optional(std::move(plan));
}

/// What no group names, so that a symbol that was dropped in appears without further ado.
ChartGroup others(const SymbolSet& symbols, const std::vector<ChartGroup>& groups) {
    std::set<std::string, std::less<>> named;
    for (const ChartGroup& group : groups)
        named.insert(group.symbols.begin(), group.symbols.end());
    ChartGroup rest{"Further symbols", {}};
    for (const auto& [name, symbol] : symbols.all()) {
        if (!named.contains(name))
            rest.symbols.push_back(name);
    }
    return rest;
}

/// Rings around the terminals, and what slots hold in a viewer.
Frame art_with_ports(const Symbol& symbol, const TextMeasure& measure) {
    const double scale = symbol_scale(symbol, art_room);
    Frame art = symbol_art(symbol, art_room, measure);
    for (const SymbolPort& port : symbol.ports)
        art.add(circle(scaled(port.at, scale), port_ring, {fine_pen}), Role::overlay);
    for (const SymbolSlot& slot : symbol.slots) {
        if (!slot.sample.empty()) {
            art.add(Text{scaled(slot.at, scale), slot.sample, slot.style, slot.align, black, false},
                    Role::lettering);
        }
    }
    return art;
}

std::string in_millimetres(Length length) {
    return trimmed(static_cast<double>(length.nm) / 1e6, 2);
}

/// "15 × 14 mm, pens 0.25, 0.35"
std::string size_words(const Symbol& symbol) {
    std::set<Length> pens;
    for (const Mark& mark : symbol.art.marks) {
        const auto* path = std::get_if<Path>(&mark.item);
        if (path && path->stroked)
            pens.insert(path->stroke.width);
    }
    std::vector<std::string> widths;
    for (const Length pen : pens)
        widths.push_back(in_millimetres(pen));
    std::string words = fmt::format("{} × {} mm", in_millimetres(symbol.size.width),
                                    in_millimetres(symbol.size.height));
    if (!widths.empty())
        words += fmt::format(", pen{} {}", widths.size() == 1 ? "" : "s", join(widths, ", "));
    const double scale = symbol_scale(symbol, art_room);
    if (scale < 1)
        words += fmt::format(", shown at {} %", trimmed(100 * scale, 0));
    return words;
}

template <class Named> std::string names_of(std::string_view what, const std::vector<Named>& list) {
    std::vector<std::string> names;
    for (const Named& one : list)
        names.push_back(one.name);
    if (names.empty())
        return {};
    return fmt::format("{}{} {}", what, names.size() == 1 ? "" : "s", join(names, ", "));
}

Frame chart_cell(const Symbol& symbol, const Chart& chart) {
    const Frame art = art_with_ports(symbol, chart.measure);
    const Length left = art_room.width + art_gap;
    const Length width = chart.cell_width() - left - art_gap;
    const LetteringLayout& lettering = chart.layout.lettering;
    Frame words;
    const auto write = [&](const std::string& text, const TextStyle& style) {
        if (text.empty())
            return;
        if (words.size.height > Length{})
            words.size.height += line_pitch(style) - chart.measure.cap_height(style);
        words.size.height +=
            write_paragraph(words, {{}, words.size.height}, width, text, {style}, chart.measure);
    };
    write(drafting_case(symbol.title), lettering.strong);
    write(symbol.name + ".svg", lettering.body);
    write(drafting_case(size_words(symbol)), lettering.body);
    write(names_of("port", symbol.ports), lettering.body);
    write(names_of("slot", symbol.slots), lettering.body);
    Frame cell;
    cell.size = {chart.cell_width(), std::max(art.size.height, words.size.height)};
    cell.add(art,
             {(art_room.width - art.size.width) / 2, (cell.size.height - art.size.height) / 2});
    cell.add(words, {left, (cell.size.height - words.size.height) / 2});
    return cell;
}

/// Cells side by side, in the middle of the tallest.
std::vector<Frame> chart_rows(const std::vector<const Symbol*>& symbols, const Chart& chart) {
    std::vector<Frame> rows;
    const auto columns = static_cast<std::size_t>(chart.layout.chart_columns);
    for (std::size_t first = 0; first < symbols.size(); first += columns) {
        std::vector<Frame> cells;
        Frame row;
        row.size.width = chart.area.width;
        for (std::size_t i = first; i < std::min(first + columns, symbols.size()); ++i) {
            cells.push_back(chart_cell(*symbols[i], chart));
            row.size.height = std::max(row.size.height, cells.back().size.height);
        }
        for (std::size_t i = 0; i < cells.size(); ++i) {
            row.add(cells[i], {chart.cell_width() * static_cast<std::int64_t>(i),
                               (row.size.height - cells[i].size.height) / 2});
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

std::vector<Group> chart_groups(const std::vector<ChartGroup>& groups, const Chart& chart) {
    std::vector<Group> set;
    for (const ChartGroup& group : groups) {
        std::vector<const Symbol*> symbols;
        for (const std::string& name : group.symbols) {
            if (const Symbol* symbol = chart.symbols.find(name))
                symbols.push_back(symbol);
        }
        if (symbols.empty())
            continue;
        Group block;
        const Length width = chart.area.width;
        block.heading = block_heading(group.title, width, chart.layout, chart.measure);
        block.continued =
            block_heading(group.title + " (continued)", width, chart.layout, chart.measure);
        block.heading_gap = row_gap;
        block.entry_gap = row_gap;
        block.entries = chart_rows(symbols, chart);
        set.push_back(std::move(block));
    }
    return set;
}

/// A sample at the left, what it means at its right; returns the right end.
Length key_item(Frame& foot, Length left, const Frame& sample, const std::string& words,
                const Chart& chart) {
    const TextStyle& body = chart.layout.lettering.body;
    const Length middle = foot.size.height / 2;
    foot.add(sample, {left, middle - sample.size.height / 2});
    left += sample.size.width + points(6);
    const std::string text = drafting_case(words);
    write_line(foot, {left, middle - chart.measure.cap_height(body) / 2}, text, {body},
               chart.measure);
    return left + chart.measure.width(text, body) + chart.layout.column_gap;
}

Frame pen_sample(Length pen) {
    Frame sample;
    sample.size = {millimetres(10), {}};
    sample.add(polyline({{}, {sample.size.width, {}}}, {pen}), Role::symbol);
    return sample;
}

/// What the chart is drawn with: pens, the ring of a terminal, the scale.
Frame chart_foot(const Chart& chart) {
    Frame foot;
    foot.size = {chart.area.width, 2 * chart.measure.cap_height(chart.layout.lettering.body)};
    Length left{};
    left = key_item(foot, left, pen_sample(thin_pen), "thin 0.25", chart);
    left = key_item(foot, left, pen_sample(medium_pen), "medium 0.35", chart);
    left = key_item(foot, left, pen_sample(wide_pen), "wide 0.70 mm", chart);
    Frame ring;
    ring.size = {2 * port_ring, 2 * port_ring};
    ring.add(circle({port_ring, port_ring}, port_ring, {fine_pen}), Role::overlay);
    left = key_item(foot, left, ring, "port", chart);
    Frame bar;
    const Length tick = millimetres(2);
    bar.size = {millimetres(20), tick};
    bar.add(polyline({{}, {{}, tick}, {bar.size.width, tick}, {bar.size.width, {}}}, {thin_pen}),
            Role::symbol);
    key_item(foot, left, bar, "20 mm at true size", chart);
    return foot;
}

/// The title block says what the chart is; it belongs to no project.
Facts chart_facts(const SheetLayout& layout, const std::string& date) {
    Facts facts = facts_of(System{}, Study{});
    for (auto& [name, value] : facts)
        value.clear();
    facts["project"] = layout.chart.title;
    facts["date"] = date;
    return facts;
}

std::vector<Frame> chart_pages(const std::vector<ChartGroup>& groups, const Chart& chart) {
    const Frame foot = chart_foot(chart);
    const Length foot_top = chart.area.height - foot.size.height;
    FlowRoom room;
    room.width = chart.area.width;
    room.height = foot_top - chart.layout.block_gap;
    room.group_gap = room.widest_group_gap = chart.layout.block_gap;
    std::vector<Frame> pages;
    for (const Frame& content : flow(chart_groups(groups, chart), room)) {
        Frame page;
        page.size = chart.area;
        page.add(content, {});
        page.add(foot, {{}, foot_top});
        pages.push_back(std::move(page));
    }
    return pages;
}

} // namespace

} // namespace sheets

Packet make_symbol_chart(const SymbolSet& symbols, const PacketOptions& options,
                         const TextMeasure& measure, SourceFiles& sources, Findings& findings) {
    using namespace sheets;
    Packet packet;
    const auto layout = read_layout(LayoutFolders(options.layouts, options.own_layouts),
                                    options.format, sources, findings);
    auto plan = read_plan(options.layouts, sources, findings);
    if (!layout || !plan)
        return packet;
    plan->groups.push_back(others(symbols, plan->groups));
    const Box area = areas_of(*layout, false, measure).drawing;
    const Chart chart{symbols, *layout, measure, {area.width(), area.height()}};
    const std::vector<Frame> pages = chart_pages(plan->groups, chart);
    const Facts facts = chart_facts(*layout, plan->date);
    const Framing framing{*layout, facts, measure};
    packet.info.title = layout->chart.title;
    packet.info.date = plan->date;
    for (std::size_t i = 0; i < pages.size(); ++i) {
        const int position = static_cast<int>(i) + 1;
        packet.sheets.push_back(
            framed(pages[i], {sheet_number(layout->chart, position), layout->chart.title},
                   {position, static_cast<int>(pages.size())}, {}, framing, findings));
    }
    return packet;
}

} // namespace ohmfolio
