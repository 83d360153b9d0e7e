// The site plan: the parcel with its buildings at the largest scale that fits, equipment called out
// in the margins.

#include <algorithm>

#include "drawing/free_room.h"
#include "sheet/no_room.h"
#include "sheet/site_drawing.h"

namespace ohmfolio::sheets {

namespace {

std::optional<Frame> page_at(const DrawingScale& scale, const Job& job) {
    const Frame title = plan_title("1", "Site plan", scale, job);
    const Length room = job.area.height - title.size.height - job.layout.block_gap;
    Findings findings;
    Frame plan = draw_site(scale, room, trial_of(job, findings));
    add_north_arrow(plan, job.system.site.plan.north, job);
    if (plan.size.width > job.area.width || plan.size.height > room)
        return std::nullopt;
    Frame page;
    page.size = job.area;
    page.add(plan, {(job.area.width - plan.size.width) / 2, (room - plan.size.height) / 2});
    page.add(title, {{}, job.area.height - title.size.height});
    const Frame legend = site_legend(job);
    const auto corner = free_room(page, legend.size, inches(0.12), job.measure);
    if (!corner)
        return std::nullopt;
    page.add(legend, *corner);
    tell(job, findings);
    return page;
}

} // namespace

std::vector<Frame> site_plan_pages(const Job& job) {
    if (!job.system.site.plan.described())
        return {};
    for (const DrawingScale& scale : job.layout.site_scales) {
        if (auto page = page_at(scale, job))
            return {std::move(*page)};
    }
    tell_no_room(job, Severity::error, job.system.site.plan.span,
                 "the parcel is too large for the sheet at every scale",
                 "a larger sheet format, or a smaller scale in its layout");
    return {};
}

} // namespace ohmfolio::sheets
