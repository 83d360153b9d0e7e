/// A sheet format as layouts/*.toml describes it: paper, border and zones, lettering, the cells of
/// the title block, and the list of sheets that make a packet. What formats share stands in a file
/// that they name as their base: tables are joined key by key, anything else takes the place of
/// the base's.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/finding.h"
#include "drawing/frame.h"
#include "drawing/table.h"
#include "sheet/drawing_scale.h"

namespace ohmfolio::sheets {

struct BorderLayout {
    Length left, right, top, bottom; ///< from the edge of the paper to the outer line
    Length zone_band;                ///< between outer line and border: holds the zone marks
    int zone_columns = 0, zone_rows = 0;
    /// Where A1 is: ASME Y14.1 counts from the lower right corner, ISO 5457 from the upper left.
    enum class Origin { lower_right, upper_left } zone_origin = Origin::lower_right;
    Length outer_pen, border_pen, zone_pen;
    Length clear; ///< kept free inside the border
};

struct LetteringLayout {
    TextStyle body;
    TextStyle strong;       ///< body, bold
    TextStyle heading;      ///< of a block or table
    TextStyle title;        ///< of the sheet, in the title block
    TextStyle banner;       ///< name of the project on the general sheet
    TextStyle sheet_number; ///< lower right corner
    TextStyle draft;        ///< mark of a draft
    TextStyle zone;         ///< figures and letters along the border
};

/// One cell of the title block.
struct TitleCell {
    enum class Kind {
        lines,     ///< heading, strong lines, lines
        pairs,     ///< two columns of label over value
        revisions, ///< rows of the revision block
        space,     ///< left empty for a seal or a signature
        sheet      ///< title, number and count of the sheet
    } kind = Kind::lines;
    std::string heading;
    std::vector<std::string> strong, lines; ///< templates, see facts.h
    int rows = 0;                           ///< of the revision block
    bool stretches = false;                 ///< takes the height that is left over
    Length logo{}; ///< tallest that the logo of the house may stand here; 0: it does not
};

/// Cells of the title block one below the other.
struct TitleColumn {
    int share = 1; ///< of the width of the block
    std::vector<TitleCell> cells;
};

/// A strip at the right edge of the border, or along its foot.
struct TitleBlockLayout {
    enum class Edge { right, bottom } edge = Edge::right;
    Length depth; ///< of the strip, into the sheet
    Length pad_x, pad_y;
    Length outline_pen, rule_pen;
    std::vector<TitleColumn> columns; ///< from the left; the last holds the sheet number
};

/// One entry of the list of sheets. `content` names what fills it; how many pages that takes is
/// known only when it has been laid out.
struct SheetEntry {
    std::string content;    ///< one of sheet_contents()
    std::string discipline; ///< "E"
    int type = 0;           ///< 6: schedules and diagrams
    std::string title;      ///< "SCHEDULES"
    int first = 1;          ///< at which its series begins
};

struct ColumnLayout {
    int sheet = 1; ///< which of the general sheets it begins on
    int share = 1; ///< of the width
    std::vector<std::string> blocks;
};

struct SheetLayout {
    Size paper;
    BorderLayout border;
    LetteringLayout lettering;
    TitleBlockLayout title_block;
    std::vector<SheetEntry> sheets;
    TableStyle table;
    Length column_gap, block_gap, widest_block_gap, heading_pen, item_gap;
    std::vector<ColumnLayout> general_columns; ///< on one sheet
    /// Over several sheets, where one does not hold all; empty: the columns go on.
    std::vector<ColumnLayout> general_spread;
    int legend_columns = 1;
    Length abbreviation_gap; ///< between entries: more than between the lines of one
    int note_columns = 1;    ///< keyed notes below the diagram
    std::vector<DrawingScale> elevation_scales;                       ///< largest first
    std::vector<DrawingScale> site_scales, roof_scales, array_scales; ///< likewise
    int calculation_columns = 1;
    int placard_columns = 1;
    Length placard_gap, cut_pen;
    int chart_columns = 1; ///< of the chart of symbols
    SheetEntry chart;      ///< how its sheets are numbered and titled
};

/// Where layouts are looked for: in the office's own folder, then among those of the program.
struct LayoutFolders {
    std::filesystem::path shipped;
    std::filesystem::path own = {}; ///< empty: none

    LayoutFolders(std::filesystem::path of_program, std::filesystem::path of_office = {})
        : shipped(std::move(of_program)), own(std::move(of_office)) {}
    /// The file of that name that counts; one of the program's folder when neither has it.
    std::filesystem::path file(const std::string& name) const;
};

/// What may fill a sheet, and what the general sheet is made of.
const std::vector<std::string>& sheet_contents();
const std::vector<std::string>& general_block_names();

/// The formats in `folder`: its files that state the size of a paper, sorted by name.
std::vector<std::string> sheet_formats(const std::filesystem::path& folder);

/// Reads `format`.toml; nothing when it holds a fault. A format that is not there is a
/// finding at the place where it was asked for.
std::optional<SheetLayout> read_layout(const LayoutFolders& folders,
                                       const Spanned<std::string>& format, SourceFiles& sources,
                                       Findings& findings);

} // namespace ohmfolio::sheets
