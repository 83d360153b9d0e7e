/// What every kind of sheet is given, and what it gives back: pages as large as the drawing area,
/// which make_packet() numbers, frames and joins to a packet.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "base/finding.h"
#include "diagram/diagram.h"
#include "drawing/frame.h"
#include "drawing/measure.h"
#include "drawing/sheet.h"
#include "model/system.h"
#include "sheet/facts.h"
#include "sheet/layout.h"
#include "sheet/texts.h"
#include "study/study.h"
#include "symbol/symbol.h"

namespace ohmfolio::sheets {

struct Job {
    const System& system;
    const Study& study;
    const SymbolSet& symbols;
    const SheetLayout& layout;
    const SheetTexts& texts;
    const DiagramStyle& diagram_style;
    const Facts& facts;
    const TextMeasure& measure;
    Size area; ///< of the drawing, inside border and title block
    Findings& findings;
    /// Number of the first sheet of each appended document.
    std::vector<std::string> appendix_sheets = {};

    const Equipment& equipment(int index) const { return system.at(index); }
};

/// A packet's table of contents, known once all pages are laid out.
struct IndexEntry {
    std::string number, title;
    std::string revision = {}; ///< mark of the latest issue of the sheet
    std::string was = {};      ///< its number in the issue before; empty: the same, or none
};

/// What the general sheet tells of the others.
struct GeneralContents {
    std::vector<IndexEntry> index;
    std::vector<std::string> symbols; ///< names, in the order of the legend
    std::vector<Abbreviation> abbreviations;
    Findings violations; ///< printed on a draft
};

struct TitledPage {
    std::string title;
    Frame frame;
};

/// The number of a sheet that follows so many pages of the diagram; empty where it is not known
/// yet.
using SheetOf = std::function<std::string(std::size_t pages)>;

struct DiagramPages {
    std::vector<Frame> pages;
    std::vector<std::string> symbols;
};

/// A placard as the sheets call it, so that the diagram can name it where it is fixed.
struct PlacardKey {
    std::string number;  ///< "P4"
    std::vector<int> at; ///< equipment that bears it
};

struct PlacardPages {
    std::vector<Frame> pages;
    std::vector<PlacardKey> keys;
};

std::vector<Frame> general_pages(const Job& job, const GeneralContents& contents);
/// `names` tells where the diagram goes on when one page does not hold it, `conductor_schedule` the
/// sheet that a page refers to where it has no room for the conductors.
DiagramPages diagram_pages(const Job& job, const std::vector<PlacardKey>& placards,
                           const PageNames& names, const SheetOf& conductor_schedule);
std::vector<Frame> schedule_pages(const Job& job);
std::vector<Frame> calculation_pages(const Job& job);
PlacardPages placard_pages(const Job& job);
std::vector<Frame> material_pages(const Job& job);
/// The schedules and the material list as they stand on the sheets; those without rows are left
/// out.
std::vector<NamedTable> machine_tables(const Job& job);
std::vector<TitledPage> appendix_pages(const Job& job);
/// These are none where nothing is described.
std::vector<Frame> site_plan_pages(const Job& job);
std::vector<Frame> roof_plan_pages(const Job& job);
std::vector<Frame> branch_map_pages(const Job& job);
std::vector<Frame> elevation_pages(const Job& job); ///< none where no wall is described

} // namespace ohmfolio::sheets
