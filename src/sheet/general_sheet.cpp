#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "sheet/flow.h"
#include "sheet/general_blocks.h"
#include "sheet/pages.h"
#include "sheet/places.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

/// "PHOTOVOLTAIC SYSTEM WITH ENERGY STORAGE"
std::string kind_of_system(const Job& job) {
    const bool pv = job.study.totals.modules > 0;
    const bool storage = job.study.totals.storage.value > 0;
    const bool generator = !generators(job.system).empty();
    std::vector<std::string> more;
    if (pv && storage)
        more.emplace_back("energy storage");
    if (generator)
        more.emplace_back("standby generator");
    const std::string base = pv        ? "Photovoltaic system"
                             : storage ? "Energy storage system"
                                       : "Electrical system";
    return more.empty() ? base : base + " with " + join(more, " and ");
}

/// Room under the large letters: a comma or bracket of theirs stays clear of the next line.
Length below_banner(const Job& job) {
    return job.measure.descent(job.layout.lettering.banner) + points(0.5);
}

/// A large number over what it counts, right edge at `right`; returns the left edge.
Length headline_number(Frame& frame, Length right, const std::string& number, std::string_view unit,
                       const Job& job) {
    if (number.empty())
        return right;
    const LetteringLayout& lettering = job.layout.lettering;
    const Length width = std::max(job.measure.width(number, lettering.banner),
                                  job.measure.width(unit, lettering.body));
    write_line(frame, {right, {}}, number, {lettering.banner, Align::right}, job.measure);
    const Length below = job.measure.cap_height(lettering.banner) + below_banner(job);
    write_line(frame, {right, below}, unit, {lettering.body, Align::right}, job.measure);
    return right - width - inches(0.36);
}

/// Name of the project with the three numbers that everyone asks for.
Frame banner(const Job& job) {
    Frame frame;
    const LetteringLayout& lettering = job.layout.lettering;
    const Length width = job.area.width;
    Length right = width;
    right = headline_number(frame, right, job.facts.at("size_storage"), "kWh STORAGE", job);
    right = headline_number(frame, right, job.facts.at("size_ac"), "kW AC", job);
    right = headline_number(frame, right, job.facts.at("size_dc"), "kW DC", job);
    Length height = write_paragraph(frame, {}, right, drafting_case(job.system.project.name),
                                    {lettering.banner}, job.measure);
    height += below_banner(job);
    const std::string& address = job.system.project.address;
    const std::string line = address.empty() ? kind_of_system(job)
                                             : fmt::format("{} — {}", kind_of_system(job), address);
    height += write_paragraph(frame, {{}, height}, right, drafting_case(line), {lettering.body},
                              job.measure);
    height += points(8);
    frame.add(polyline({{{}, height}, {width, height}}, {wide_pen}), Role::rule);
    frame.size = {width, height};
    return frame;
}

struct GeneralColumn {
    Length left, width;
    std::vector<Group> groups;
    Cursor cursor;
};

/// Violations take at most this part of their column on the first sheet, so that the project is
/// there told of as well.
constexpr double share_of_violations = 0.5;

/// One block of a column. `unlisted` becomes the number of the first violation that has no room
/// there.
Group block_of(const std::string& name, Length width, const Job& job,
               const GeneralContents& contents, std::size_t& unlisted) {
    if (name != "violations" || contents.violations.empty())
        return general_block(name, width, job, contents);
    const Size most{width, scaled(job.area.height, share_of_violations)};
    ViolationList list = violation_list(contents.violations, 1, most, job);
    unlisted = list.next <= contents.violations.size() ? list.next : 0;
    return std::move(list.group);
}

/// The columns that begin on one sheet, side by side over its width.
std::vector<GeneralColumn> columns_of(const std::vector<ColumnLayout>& layouts, int sheet,
                                      const Job& job, const GeneralContents& contents,
                                      std::size_t& unlisted) {
    std::vector<const ColumnLayout*> here;
    int shares = 0;
    for (const ColumnLayout& layout : layouts) {
        if (layout.sheet == sheet) {
            here.push_back(&layout);
            shares += layout.share;
        }
    }
    const auto gaps = static_cast<std::int64_t>(here.size()) - 1;
    const Length room = job.area.width - gaps * job.layout.column_gap;
    std::vector<GeneralColumn> columns;
    Length left{};
    for (const ColumnLayout* layout : here) {
        GeneralColumn column{left, room * layout->share / shares, {}, {}};
        for (const std::string& name : layout->blocks) {
            Group group = block_of(name, column.width, job, contents, unlisted);
            if (!group.entries.empty())
                column.groups.push_back(std::move(group));
        }
        left += column.width + job.layout.column_gap;
        columns.push_back(std::move(column));
    }
    return columns;
}

bool done(const std::vector<GeneralColumn>& columns) {
    return std::all_of(columns.begin(), columns.end(), [](const GeneralColumn& column) {
        return column.cursor.group >= column.groups.size();
    });
}

/// The violations from `first` on, in columns of equal width over pages of their own.
std::vector<Frame> violation_pages(const Job& job, const Findings& violations, std::size_t first) {
    FlowRoom room;
    room.columns = static_cast<int>(job.layout.general_columns.size());
    room.gap = job.layout.column_gap;
    room.width = (job.area.width - room.gap * (room.columns - 1)) / room.columns;
    room.height = job.area.height;
    room.group_gap = job.layout.block_gap;
    room.widest_group_gap = job.layout.block_gap;
    std::vector<Frame> pages =
        flow({violation_list(violations, first, {room.width, {}}, job).group}, room);
    for (Frame& page : pages)
        page.size = job.area;
    return pages;
}

/// The pages of one arrangement; what does not fit goes on on a page after its own.
std::vector<Frame> arranged(const std::vector<ColumnLayout>& layouts, const Job& job,
                            const GeneralContents& contents) {
    std::vector<Frame> pages;
    std::size_t unlisted = 0;
    const int last = layouts.empty() ? 0 : layouts.back().sheet;
    for (int sheet = 1; sheet <= last; ++sheet) {
        std::vector<GeneralColumn> columns = columns_of(layouts, sheet, job, contents, unlisted);
        do {
            Frame page;
            page.size = job.area;
            Length top{};
            if (pages.empty()) {
                const Frame head = banner(job);
                page.add(head, {});
                top = head.size.height + job.layout.block_gap;
            }
            const Length height = job.area.height - top;
            for (GeneralColumn& column : columns) {
                const FlowColumn filled =
                    fill_column(column.groups, column.cursor, height, job.layout.block_gap);
                page.add(stacked(filled, column.width, height, job.layout.block_gap,
                                 job.layout.widest_block_gap),
                         {column.left, top});
            }
            pages.push_back(std::move(page));
            if (unlisted > 0) {
                auto more = violation_pages(job, contents.violations, unlisted);
                std::ranges::move(more, std::back_inserter(pages));
                unlisted = 0;
            }
        } while (!done(columns));
    }
    return pages;
}

} // namespace

std::vector<Frame> general_pages(const Job& job, const GeneralContents& contents) {
    std::vector<Frame> pages = arranged(job.layout.general_columns, job, contents);
    if (pages.size() == 1 || job.layout.general_spread.empty())
        return pages;
    return arranged(job.layout.general_spread, job, contents);
}

} // namespace ohmfolio::sheets
