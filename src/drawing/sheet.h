/// A finished sheet and the packet it belongs to.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "drawing/frame.h"
#include "drawing/table.h"

namespace ohmfolio {

/// The zones along the border, by which a place on a sheet is named.
struct Zones {
    Box outer; ///< what they divide
    int columns = 1, rows = 1;
    bool from_upper_left =
        false; ///< else counted from the lower right corner, as ASME Y14.1 has it
};
/// "B3": the row's letter and the column's number.
std::string zone_at(const Zones& zones, Point point);
std::string zone_row(const Zones& zones, int from_bottom);
std::string zone_column(const Zones& zones, int from_right);

/// What marks show that tell of the issue itself, such as its date: they are no part of what was
/// designed, and no revision of it is told by them.
inline constexpr std::string_view the_issue = "issue";

/// What the numbers of rows show: they count what stands before them, and no revision is told by
/// them.
inline constexpr std::string_view a_count = "count";
/// Begins what the marks of a revision show: clouds and deltas.
inline constexpr std::string_view a_revision = "revision:";
/// True of marks that are no part of what was designed.
inline bool tells_of_the_issue(const Mark& mark) {
    return mark.shows == the_issue || mark.shows.starts_with(a_revision);
}

struct Sheet {
    std::string number; ///< "E-601", by the US National CAD Standard
    std::string title;  ///< "SINGLE-LINE DIAGRAM"
    Frame frame;
    Box drawing_area; ///< inside the border, without the title block: where marks belong
    Box border;       ///< nothing may be drawn outside
    Zones zones = {};
    std::string content = {};  ///< what fills it, by the list of sheets: "schedules"
    std::string revision = {}; ///< that it was last issued under; empty: none
};

/// Metadata written into the PDF.
struct PacketInfo {
    std::string title;
    std::string author;
    std::string subject;
    std::string keywords;
    std::string date; ///< "2026-03-02"; the only date that ever enters a file
};

/// A schedule as it stands on the sheets, for those who read it by machine.
struct NamedTable {
    std::string name; ///< "conductors", as in the name of its file
    Table table;
};

/// How the lettering of a packet looks, for what is added to it later.
struct PacketStyle {
    TextStyle body, strong, heading, title;
};

struct Packet {
    PacketInfo info;
    std::vector<Sheet> sheets;
    std::vector<NamedTable> tables;
    PacketStyle style = {};
};

} // namespace ohmfolio
