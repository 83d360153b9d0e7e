/// A finished sheet and the packet it belongs to.
#pragma once

#include <string>
#include <vector>

#include "drawing/frame.h"
#include "drawing/table.h"

namespace ohmfolio {

struct Sheet {
    std::string number; ///< "E-601", by the US National CAD Standard
    std::string title;  ///< "SINGLE-LINE DIAGRAM"
    Frame frame;
    Box drawing_area; ///< inside the border, without the title block: where marks belong
    Box border;       ///< nothing may be drawn outside
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

struct Packet {
    PacketInfo info;
    std::vector<Sheet> sheets;
    std::vector<NamedTable> tables;
};

} // namespace ohmfolio
