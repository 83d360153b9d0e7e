#include "sheet/layout.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "base/text.h"
#include "sheet/layout_file.h"
#include "sheet/reading.h"

namespace ohmfolio::sheets {

namespace {

/// The letters of the alphabet without I and O, which are read as figures.
constexpr int most_zone_rows = 24;

bool one_of(const std::string& word, const std::vector<std::string>& words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

TextStyle read_style(TableReader& lettering, std::string_view key) {
    TableReader table = lettering.table(key);
    TextStyle style{table.length("size"), table.flag_or("bold", false)};
    table.finish();
    return style;
}

LetteringLayout read_lettering(TableReader table) {
    LetteringLayout lettering;
    lettering.body = read_style(table, "body");
    lettering.strong = read_style(table, "strong");
    lettering.heading = read_style(table, "heading");
    lettering.title = read_style(table, "title");
    lettering.banner = read_style(table, "banner");
    lettering.sheet_number = read_style(table, "sheet_number");
    lettering.draft = read_style(table, "draft");
    lettering.zone = read_style(table, "zone");
    table.finish();
    return lettering;
}

Size read_paper(TableReader table) {
    const Size paper{table.length("width"), table.length("height")};
    table.finish();
    return paper;
}

BorderLayout::Origin read_origin(TableReader& table) {
    const std::string origin = table.text_or("zone_origin", "lower right");
    if (origin == "upper left")
        return BorderLayout::Origin::upper_left;
    if (origin != "lower right") {
        table.fault("zone_origin", fmt::format("zones do not begin at \"{}\"", origin),
                    "\"lower right\" as ASME Y14.1 has it, or \"upper left\" as ISO 5457 does");
    }
    return BorderLayout::Origin::lower_right;
}

BorderLayout read_border(TableReader table) {
    BorderLayout border;
    border.left = table.length("left");
    border.right = table.length("right");
    border.top = table.length("top");
    border.bottom = table.length("bottom");
    border.zone_band = table.length("zone_band");
    border.zone_columns = table.whole("zone_columns");
    border.zone_rows = table.whole("zone_rows");
    border.zone_origin = read_origin(table);
    border.outer_pen = table.length("outer_pen");
    border.border_pen = table.length("border_pen");
    border.zone_pen = table.length("zone_pen");
    border.clear = table.length("clear");
    if (border.zone_columns < 1 || border.zone_rows < 1 || border.zone_rows > most_zone_rows) {
        table.fault("zone_rows", "the border needs at least one zone each way, and a letter a row",
                    "zone_columns = 8, zone_rows = 4");
    }
    table.finish();
    return border;
}

TitleCell::Kind read_cell_kind(TableReader& table) {
    const std::string kind = table.text("kind");
    if (kind == "lines")
        return TitleCell::Kind::lines;
    if (kind == "pairs")
        return TitleCell::Kind::pairs;
    if (kind == "revisions")
        return TitleCell::Kind::revisions;
    if (kind == "space")
        return TitleCell::Kind::space;
    if (kind == "sheet")
        return TitleCell::Kind::sheet;
    table.fault("kind", fmt::format("\"{}\" is no kind of title block cell", kind),
                "lines, pairs, revisions, space or sheet");
    return TitleCell::Kind::lines;
}

TitleCell read_cell(TableReader cell) {
    TitleCell read;
    read.kind = read_cell_kind(cell);
    read.heading = cell.text_or("heading", "");
    read.strong = cell.texts("strong");
    read.lines = cell.texts("lines");
    read.logo = cell.length_or("logo", {});
    read.rows = cell.whole_or("rows", 0);
    read.stretches = cell.flag_or("stretches", false);
    cell.finish();
    return read;
}

using NamedCells = std::map<std::string, TitleCell, std::less<>>;

NamedCells read_cells(TableReader table) {
    NamedCells cells;
    for (const std::string& name : table.keys())
        cells[name] = read_cell(table.table(name));
    table.finish();
    return cells;
}

TitleColumn read_title_column(TableReader& table, const NamedCells& cells) {
    TitleColumn column;
    column.share = table.whole_or("share", 1);
    if (column.share < 1)
        table.fault("share", "a column needs a share of the width", "share = 1");
    for (const std::string& name : table.texts("cells")) {
        const auto found = cells.find(name);
        if (found != cells.end()) {
            column.cells.push_back(found->second);
            continue;
        }
        std::vector<std::string> names;
        for (const auto& [known, cell] : cells)
            names.push_back(known);
        table.fault("cells", fmt::format("no cell of the title block is called \"{}\"", name),
                    join(names, ", "));
    }
    table.finish();
    return column;
}

TitleBlockLayout::Edge read_edge(TableReader& table) {
    const std::string edge = table.text("edge");
    if (edge == "bottom")
        return TitleBlockLayout::Edge::bottom;
    if (edge != "right") {
        table.fault("edge", fmt::format("no title block stands at the edge \"{}\"", edge),
                    "right or bottom");
    }
    return TitleBlockLayout::Edge::right;
}

TitleBlockLayout read_title_block(TableReader table) {
    TitleBlockLayout block;
    block.edge = read_edge(table);
    block.depth = table.length("depth");
    block.pad_x = table.length("pad_x");
    block.pad_y = table.length("pad_y");
    block.outline_pen = table.length("outline_pen");
    block.rule_pen = table.length("rule_pen");
    const NamedCells cells = read_cells(table.table("cell"));
    for (TableReader& column : table.tables("column"))
        block.columns.push_back(read_title_column(column, cells));
    table.finish();
    return block;
}

/// Discipline, type digit and title: what sheets are numbered and named by.
void read_number(TableReader& table, SheetEntry& entry) {
    entry.discipline = table.text("discipline");
    entry.type = table.whole("type");
    entry.title = table.text("title");
}

std::vector<SheetEntry> read_sheets(TableReader& root) {
    std::vector<SheetEntry> sheets;
    for (TableReader& table : root.tables("sheet")) {
        SheetEntry entry;
        entry.content = table.text("content");
        read_number(table, entry);
        if (!one_of(entry.content, sheet_contents())) {
            table.fault("content", fmt::format("nothing is called \"{}\"", entry.content),
                        join(sheet_contents(), ", "));
        }
        table.finish();
        sheets.push_back(std::move(entry));
    }
    return sheets;
}

/// Schedules name the sheets of the appendix before any sheet is numbered.
void check_appendix_series(const std::vector<SheetEntry>& sheets, TableReader& root) {
    const auto appendix = std::ranges::find(sheets, "appendix", &SheetEntry::content);
    for (const SheetEntry& entry : sheets) {
        if (appendix != sheets.end() && entry.content != "appendix" &&
            entry.discipline == appendix->discipline && entry.type == appendix->type) {
            root.fault("sheet",
                       fmt::format("\"appendix\" and \"{}\" share the series {}-{}", entry.content,
                                   entry.discipline, entry.type),
                       "a type digit for the appendix alone");
        }
    }
}

Stroke read_stroke(TableReader& table, std::string_view key) {
    return {table.length(key), LineType::solid, black};
}

TableStyle read_table_style(TableReader table, const LetteringLayout& lettering) {
    TableStyle style;
    style.title = lettering.heading;
    style.heading = lettering.strong;
    style.body = lettering.body;
    style.pad_x = table.length("pad_x");
    style.pad_y = table.length("pad_y");
    style.frame = read_stroke(table, "frame_pen");
    style.rule = read_stroke(table, "rule_pen");
    style.heading_ground = table.color("heading_ground");
    table.finish();
    return style;
}

void read_blocks(TableReader table, SheetLayout& layout) {
    layout.column_gap = table.length("column_gap");
    layout.block_gap = table.length("gap");
    layout.widest_block_gap = table.length("widest_gap");
    layout.heading_pen = table.length("heading_pen");
    layout.item_gap = table.length("item_gap");
    table.finish();
}

/// A number of columns, at least one.
int read_columns(TableReader& table, std::string_view key) {
    const int columns = table.whole(key);
    if (columns < 1)
        table.fault(key, "at least one column is needed", fmt::format("{} = 2", key));
    return std::max(columns, 1);
}

std::vector<ColumnLayout> read_general_columns(TableReader& table, std::string_view key) {
    std::vector<ColumnLayout> columns;
    for (TableReader& column : table.tables(key)) {
        ColumnLayout read{column.whole_or("sheet", 1), column.whole("share"),
                          column.texts("blocks")};
        const int last = columns.empty() ? 1 : columns.back().sheet;
        if (read.sheet != last && read.sheet != last + 1)
            column.fault("sheet", "sheets follow one another", "1, then 2");
        if (read.share < 1)
            column.fault("share", "a column needs a share of the width", "share = 1");
        for (const std::string& block : read.blocks) {
            if (!one_of(block, general_block_names())) {
                column.fault("blocks", fmt::format("no block is called \"{}\"", block),
                             join(general_block_names(), ", "));
            }
        }
        column.finish();
        columns.push_back(std::move(read));
    }
    return columns;
}

void read_general(TableReader table, SheetLayout& layout) {
    layout.legend_columns = read_columns(table, "legend_columns");
    layout.abbreviation_gap = table.length("abbreviation_gap");
    layout.general_columns = read_general_columns(table, "column");
    if (table.has("spread"))
        layout.general_spread = read_general_columns(table, "spread");
    table.finish();
}

/// Scales in the order in which they are tried.
std::vector<DrawingScale> read_scales(TableReader& table, std::string_view key) {
    std::vector<DrawingScale> scales;
    for (const std::string& words : table.texts(key)) {
        if (const auto scale = parse_scale(words)) {
            scales.push_back(*scale);
        } else {
            table.fault(key, fmt::format("\"{}\" is no scale", words),
                        "1/2\" = 1'-0\", 1\" = 20'-0\", or 1:20");
        }
    }
    if (scales.empty())
        table.fault(key, "at least one scale is needed", fmt::format("{} = [\"1:20\"]", key));
    return scales;
}

void read_chart(TableReader table, SheetLayout& layout) {
    read_number(table, layout.chart);
    layout.chart_columns = read_columns(table, "columns");
    table.finish();
}

void read_placards(TableReader table, SheetLayout& layout) {
    layout.placard_gap = table.length("gap");
    layout.placard_columns = read_columns(table, "columns");
    layout.cut_pen = table.length("cut_pen");
    table.finish();
}

} // namespace

const std::vector<std::string>& sheet_contents() {
    static const std::vector<std::string> contents = {
        "general",   "site plan",    "roof plan", "branch map", "elevations", "diagram",
        "schedules", "calculations", "material",  "placards",   "appendix"};
    return contents;
}

const std::vector<std::string>& general_block_names() {
    static const std::vector<std::string> names = {
        "project", "scope",    "system",  "site",       "codes",         "index",
        "notes",   "cautions", "waivers", "violations", "abbreviations", "symbols"};
    return names;
}

std::filesystem::path LayoutFolders::file(const std::string& name) const {
    std::error_code ignored;
    if (!own.empty() && std::filesystem::is_regular_file(own / name, ignored))
        return own / name;
    return shipped / name;
}

std::optional<SheetLayout> read_layout(const LayoutFolders& folders,
                                       const Spanned<std::string>& format, SourceFiles& sources,
                                       Findings& findings) {
    const auto node = read_layout_file(folders, format, sources, findings);
    if (!node)
        return std::nullopt;
    const std::size_t before = findings.size();
    TableReader root(*node, "the sheet format", findings);
    SheetLayout layout;
    layout.paper = read_paper(root.table("paper"));
    layout.border = read_border(root.table("border"));
    layout.lettering = read_lettering(root.table("lettering"));
    layout.title_block = read_title_block(root.table("title_block"));
    layout.sheets = read_sheets(root);
    check_appendix_series(layout.sheets, root);
    layout.table = read_table_style(root.table("table"), layout.lettering);
    read_blocks(root.table("blocks"), layout);
    read_general(root.table("general"), layout);
    TableReader elevations = root.table("elevations");
    layout.elevation_scales = read_scales(elevations, "scales");
    elevations.finish();
    TableReader plans = root.table("plans");
    layout.site_scales = read_scales(plans, "site_scales");
    layout.roof_scales = read_scales(plans, "roof_scales");
    layout.array_scales = read_scales(plans, "array_scales");
    plans.finish();
    TableReader diagram = root.table("diagram");
    layout.note_columns = diagram.whole("note_columns");
    diagram.finish();
    TableReader calculations = root.table("calculations");
    layout.calculation_columns = read_columns(calculations, "columns");
    calculations.finish();
    read_placards(root.table("placards"), layout);
    read_chart(root.table("symbol_chart"), layout);
    root.finish();
    if (findings.size() > before)
        return std::nullopt;
    return layout;
}

} // namespace ohmfolio::sheets
