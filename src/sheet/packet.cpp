#include "sheet/packet.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "sheet/abbreviations.h"
#include "sheet/appendix.h"
#include "sheet/border.h"
#include "sheet/calculation_pages.h"
#include "sheet/diagram_style.h"
#include "sheet/framing.h"
#include "sheet/house_style.h"
#include "sheet/logo.h"
#include "sheet/pages.h"

namespace ohmfolio {

namespace sheets {

namespace {

/// All that the data files of one format hold.
struct Data {
    SheetLayout layout;
    SheetTexts texts;
    DiagramStyle diagram_style;
};

std::optional<Data> read_data(const PacketOptions& options, const House& house,
                              const TextMeasure& measure, SourceFiles& sources,
                              Findings& findings) {
    const LayoutFolders folders(options.layouts, options.own_layouts);
    auto layout = read_layout(folders, options.format, sources, findings);
    auto texts =
        read_texts(options.texts.empty() ? options.layouts.parent_path() / "texts" : options.texts,
                   sources, findings);
    if (!layout || !texts)
        return std::nullopt;
    apply_house(house, measure, *layout, *texts, findings);
    auto style = read_diagram_style(folders, layout->lettering, sources, findings);
    if (!style)
        return std::nullopt;
    return Data{std::move(*layout), std::move(*texts), std::move(*style)};
}

/// A page that knows which entry of the list of sheets it belongs to.
struct Page {
    const SheetEntry* entry = nullptr;
    std::string title;
    Frame frame;
};

void add_pages(std::vector<Page>& pages, const SheetEntry& entry, std::vector<Frame> frames) {
    const std::size_t count = frames.size();
    for (std::size_t i = 0; i < count; ++i) {
        const std::string title =
            count == 1 ? entry.title : fmt::format("{}, {} of {}", entry.title, i + 1, count);
        pages.push_back({&entry, title, std::move(frames[i])});
    }
}

/// Each page has the next number of its discipline and type.
class Numbering {
  public:
    Numbering(const System& system, const PacketOptions& options) : options_(options) {
        if (!system.revisions.empty())
            latest_ = system.revisions.back().number;
    }

    std::vector<IndexEntry> of(const std::vector<Page>& pages) const {
        std::map<std::string, int> sequences;
        std::vector<IndexEntry> index;
        for (const Page& page : pages) {
            const std::string series =
                fmt::format("{}-{}", page.entry->discipline, page.entry->type);
            const std::string number = sheet_number(*page.entry, ++sequences[series]);
            const auto earlier = options_.issued_under.find(number);
            const auto was = options_.were.find(number);
            index.push_back({number, page.title,
                             earlier == options_.issued_under.end() ? latest_ : earlier->second,
                             was == options_.were.end() ? "" : was->second});
        }
        return index;
    }

  private:
    const PacketOptions& options_;
    std::string latest_;
};

/// The rows of the revision block up to the one that a sheet was last issued under.
std::vector<Revision> rows_until(const std::string& number, const std::vector<Revision>& all) {
    if (number.empty())
        return {};
    const auto last = std::ranges::find(all, number, &Revision::number);
    return {all.begin(), last == all.end() ? last : last + 1};
}

/// In the order of the text; the place in it stands beside the section.
Findings violations_of(const Study& study, const SourceFiles& sources) {
    Findings violations;
    for (const Finding& finding : study.findings) {
        if (finding.severity >= Severity::violation)
            violations.push_back(finding);
    }
    sort_for_print(violations);
    for (Finding& violation : violations) {
        if (!violation.span.known())
            continue;
        const std::filesystem::path file = sources.name(violation.span.file);
        violation.section += fmt::format("{}{}, line {}", violation.section.empty() ? "" : "; ",
                                         file.filename().string(), violation.span.begin.line);
    }
    return violations;
}

class PacketMaker {
  public:
    PacketMaker(const Job& job, const SourceFiles& sources, bool draft, const Numbering& numbering)
        : job_(job), sources_(sources), draft_(draft), numbering_(numbering),
          placards_(placard_pages(job)) {}

    std::vector<Page> pages() {
        for (const SheetEntry& entry : job_.layout.sheets) {
            if (entry.content == "appendix") {
                for (TitledPage& page : appendix_pages(job_))
                    others_.push_back({&entry, page.title, std::move(page.frame)});
            } else {
                add_pages(others_, entry, frames_of(entry));
            }
        }
        return with_general();
    }

  private:
    std::vector<Frame> frames_of(const SheetEntry& entry) {
        if (entry.content == "diagram") {
            DiagramPages diagram =
                diagram_pages(job_, placards_.keys, page_names(entry),
                              [&](std::size_t pages) { return conductor_schedule(entry, pages); });
            symbols_.insert(symbols_.end(), diagram.symbols.begin(), diagram.symbols.end());
            return std::move(diagram.pages);
        }
        if (entry.content == "schedules")
            return schedule_pages(job_);
        if (entry.content == "calculations") {
            return calculation_pages(job_, [&](std::size_t page, std::size_t) {
                return sheet_number(entry, pages_before(entry) + static_cast<int>(page) + 1);
            });
        }
        if (entry.content == "material")
            return material_pages(job_);
        if (entry.content == "site plan")
            return site_plan_pages(job_);
        if (entry.content == "roof plan")
            return roof_plan_pages(job_);
        if (entry.content == "branch map")
            return branch_map_pages(job_);
        if (entry.content == "elevations")
            return elevation_pages(job_);
        if (entry.content == "placards")
            return std::move(placards_.pages);
        return {};
    }

    /// How the pages of a diagram name one another, and places on them.
    PageNames page_names(const SheetEntry& entry) const {
        const Point low = areas_of(job_.layout, draft_, job_.measure).drawing.low;
        return {[&entry, before = pages_before(entry)](std::size_t page) {
                    return sheet_number(entry, before + static_cast<int>(page) + 1);
                },
                [this, low](Point at) { return zone_at(job_.layout, at + low); }};
    }

    /// The first sheet of the schedules, after `pages` of the diagram. Where a format puts others
    /// of the series between them, or has the schedules first, it is not known.
    std::string conductor_schedule(const SheetEntry& diagram, std::size_t pages) const {
        const std::vector<SheetEntry>& list = job_.layout.sheets;
        const auto at = std::ranges::find(list, &diagram, [](const SheetEntry& e) { return &e; });
        if (at == list.end() || at + 1 == list.end() || (at + 1)->content != "schedules")
            return {};
        const SheetEntry& schedules = *(at + 1);
        const bool same =
            schedules.discipline == diagram.discipline && schedules.type == diagram.type;
        const int before = pages_before(schedules) + (same ? static_cast<int>(pages) : 0);
        return sheet_number(schedules, before + 1);
    }

    /// How many pages of the same series are already there.
    int pages_before(const SheetEntry& entry) const {
        return static_cast<int>(std::count_if(others_.begin(), others_.end(), [&](const Page& p) {
            return p.entry->discipline == entry.discipline && p.entry->type == entry.type;
        }));
    }

    /// All pages in the order of the list, with `general` for the general sheet.
    std::vector<Page> joined(const std::vector<Frame>& general) const {
        std::vector<Page> pages;
        for (const SheetEntry& entry : job_.layout.sheets) {
            if (entry.content == "general")
                add_pages(pages, entry, general);
            for (const Page& page : others_) {
                if (page.entry == &entry)
                    pages.push_back(page);
            }
        }
        return pages;
    }

    std::vector<Abbreviation> abbreviations(const std::vector<Frame>& general) const {
        std::vector<const Frame*> frames;
        for (const Page& page : others_)
            frames.push_back(&page.frame);
        for (const Frame& frame : general)
            frames.push_back(&frame);
        return occurring(job_.texts.abbreviations, frames);
    }

    /// The general sheet lists pages, its own among them, and explains the abbreviations that
    /// occur, its own among them: so it is laid out until its number of pages no longer changes.
    std::vector<Page> with_general() const {
        GeneralContents contents;
        contents.symbols = symbols_;
        if (draft_)
            contents.violations = violations_of(job_.study, sources_);
        std::vector<Frame> general(1);
        for (int round = 0; round < 5; ++round) {
            contents.index = numbering_.of(joined(general));
            std::vector<Frame> set = general_pages(job_, contents);
            contents.abbreviations = abbreviations(set);
            set = general_pages(job_, contents);
            const bool settled = set.size() == general.size();
            general = std::move(set);
            if (settled)
                break;
        }
        return joined(general);
    }

    const Job& job_;
    const SourceFiles& sources_; ///< for places in the description
    bool draft_;
    const Numbering& numbering_;
    PlacardPages placards_; ///< the diagram names them
    std::vector<Page> others_;
    std::vector<std::string> symbols_;
};

PacketInfo info_of(const System& system) {
    const Project& project = system.project;
    PacketInfo info;
    info.title = project.name;
    info.author = project.designer;
    info.subject = project.scope;
    info.keywords = join({name(system.edition), project.address, project.parcel}, ", ");
    info.date = project.date;
    return info;
}

} // namespace

} // namespace sheets

Packet make_packet(const System& system, const Study& study, const SymbolSet& symbols,
                   const PacketOptions& options, const TextMeasure& measure, SourceFiles& sources,
                   Findings& findings) {
    using namespace sheets;
    Packet packet;
    packet.info = info_of(system);
    const auto data = read_data(options, system.house, measure, sources, findings);
    if (!data)
        return packet;
    const Facts facts = facts_of(system, study);
    const Box area = areas_of(data->layout, options.draft, measure).drawing;
    const Job job{system,
                  study,
                  symbols,
                  data->layout,
                  data->texts,
                  data->diagram_style,
                  facts,
                  measure,
                  {area.width(), area.height()},
                  findings,
                  appendix_sheets(data->layout, system)};
    const Numbering numbering(system, options);
    const std::vector<Page> pages = PacketMaker(job, sources, options.draft, numbering).pages();
    const std::vector<IndexEntry> index = numbering.of(pages);
    const int count = static_cast<int>(pages.size());
    const Logo logo = read_logo(system.house, sources, findings);
    const Framing framing{data->layout, facts, measure, options.draft, &logo};
    for (std::size_t i = 0; i < pages.size(); ++i) {
        packet.sheets.push_back(framed(pages[i].frame, index[i], {static_cast<int>(i) + 1, count},
                                       rows_until(index[i].revision, system.revisions), framing,
                                       findings));
        packet.sheets.back().content = pages[i].entry->content;
    }
    packet.tables = machine_tables(job);
    const LetteringLayout& lettering = data->layout.lettering;
    packet.style = {lettering.body, lettering.strong, lettering.heading, lettering.title};
    return packet;
}

} // namespace ohmfolio
