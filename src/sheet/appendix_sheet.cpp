#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "sheet/appendix.h"
#include "sheet/framing.h"
#include "sheet/pages.h"
#include "sheet/places.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

/// A page is laid on its side only where that makes it this much larger, and only if it would be
/// hard to read upright: heads are turned unwillingly.
constexpr double worth_a_turn = 1.25;
constexpr double small = 0.75;

/// The page is laid over the sheet last, and a viewer may paint a pixel more than it covers: the
/// line around it keeps so far away.
constexpr Length edge = points(1);

/// In the order of DocumentKind.
constexpr std::array<std::string_view, 7> kind_names = {
    "Cut sheet", "Listing",    "Structural letter", "Utility approval",
    "Manual",    "Photograph", "Document"};

std::string_view name(DocumentKind kind) { return kind_names.at(static_cast<std::size_t>(kind)); }

/// "WB-10 cut sheet": short, since the title block of a small sheet is narrow.
std::string title_of(const AppendedDocument& document, const System& system) {
    if (!document.title.empty())
        return document.title;
    std::vector<std::string> models;
    for (const int index : document.records) {
        const Record& record = system.catalogue.records[static_cast<std::size_t>(index)];
        if (std::ranges::find(models, record.model) == models.end())
            models.push_back(record.model);
    }
    return join(models, ", ") + " cut sheet";
}

/// How much larger a page gets in an area.
double scale(const DocumentPage& page, Size area, bool turned) {
    const Length width = turned ? page.height : page.width;
    const Length height = turned ? page.width : page.height;
    return std::min(area.width.in_points() / width.in_points(),
                    area.height.in_points() / height.in_points());
}

/// Where the page stands: as large as it can be, in the middle.
Insert fitted(const DocumentPage& page, int document, Size area) {
    Insert insert;
    insert.document = document;
    insert.page = page.number;
    const double upright = scale(page, area, false);
    const double sideways = scale(page, area, true);
    insert.turned = upright < small && sideways > upright * worth_a_turn;
    const double by = insert.turned ? sideways : upright;
    const Length width = points((insert.turned ? page.height : page.width).in_points() * by);
    const Length height = points((insert.turned ? page.width : page.height).in_points() * by);
    insert.area = box_at({(area.width - width) / 2, (area.height - height) / 2}, {width, height});
    return insert;
}

/// The page, and below it what it is and where it came from.
Frame page_frame(const Job& job, int index, const DocumentPage& page) {
    const AppendedDocument& document = job.system.appendix[static_cast<std::size_t>(index)];
    const TextStyle& style = job.layout.lettering.body;
    const Length line = lettering_height(1, style, job.measure) + job.measure.descent(style);
    const Length room = job.area.height - line - job.layout.item_gap;
    Frame frame;
    frame.size = job.area;
    Insert insert = fitted(page, index, {job.area.width - 2 * edge, room - 2 * edge});
    insert.area = insert.area.moved({edge, edge});
    // A file's name stands as it is written.
    insert.caption = fmt::format("PAGE {} OF {}", page.number, document.file.value);
    std::string words = drafting_case(name(document.kind));
    if (!document.equipment.empty())
        words += " FOR " + drafting_case(ids(job.system, document.equipment));
    words += ": " + insert.caption + ". " + drafting_case(job.texts.remarks.appendix);
    const std::string shows = fmt::format("document:{}", document.file.value);
    frame.add(rectangle(insert.area.grown(edge), {fine_pen}), Role::rule, shows);
    frame.add(std::move(insert), Role::none, shows);
    write_line(frame, {job.area.width / 2, job.area.height - line}, words,
               {style, Align::centre, black, shows}, job.measure);
    return frame;
}

} // namespace

std::vector<TitledPage> appendix_pages(const Job& job) {
    std::vector<TitledPage> pages;
    for (std::size_t i = 0; i < job.system.appendix.size(); ++i) {
        const AppendedDocument& document = job.system.appendix[i];
        const std::string title = title_of(document, job.system);
        const std::size_t count = document.pages.size();
        for (std::size_t p = 0; p < count; ++p) {
            pages.push_back({count == 1 ? title : fmt::format("{}, {} of {}", title, p + 1, count),
                             page_frame(job, static_cast<int>(i), document.pages[p])});
        }
    }
    return pages;
}

std::vector<std::string> appendix_sheets(const SheetLayout& layout, const System& system) {
    std::vector<std::string> sheets;
    const auto entry = std::ranges::find(layout.sheets, "appendix", &SheetEntry::content);
    if (entry == layout.sheets.end())
        return sheets;
    int sequence = 1;
    for (const AppendedDocument& document : system.appendix) {
        sheets.push_back(document.pages.empty() ? std::string{} : sheet_number(*entry, sequence));
        sequence += static_cast<int>(document.pages.size());
    }
    return sheets;
}

std::string appended_for(const System& system, const std::vector<std::string>& sheets, int record,
                         const std::vector<int>& equipment) {
    for (std::size_t i = 0; i < sheets.size(); ++i) {
        const AppendedDocument& document = system.appendix[i];
        const bool of_record =
            std::ranges::find(document.records, record) != document.records.end();
        const bool of_equipment =
            std::ranges::find_first_of(document.equipment, equipment) != document.equipment.end();
        if (of_record || of_equipment)
            return sheets[i];
    }
    return {};
}

} // namespace ohmfolio::sheets
