// The key to the marks of the roof plan, and words that its sheets share.

#include <algorithm>
#include <tuple>

#include <fmt/format.h>

#include "base/angle.h"
#include "base/drafting_case.h"
#include "base/text.h"
#include "sheet/roof_drawing.h"

namespace ohmfolio::sheets {

std::vector<std::size_t> described_planes(const System& system) {
    std::vector<std::size_t> planes;
    for (std::size_t i = 0; i < system.site.roofs.size(); ++i) {
        if (!system.site.roofs[i].corners.empty())
            planes.push_back(i);
    }
    return planes;
}

std::string pitch_words(double tilt) {
    constexpr double run = 12;
    const double rise = run * sine(Degrees{tilt}) / cosine(Degrees{tilt});
    return fmt::format("{}:12", trimmed(rise, 1));
}

Frame roof_legend(Length width, const Job& job) {
    const Size sample{inches(0.55), inches(0.16)};
    const Box box{{}, {sample.width, sample.height}};
    const std::vector<Point> corners = {
        box.low, {box.high.x, box.low.y}, box.high, {box.low.x, box.high.y}};
    const Point left{{}, sample.height / 2}, right{sample.width, sample.height / 2};
    Frame module, pathway, raceway, drop, device, object;
    module.add(rectangle(box, {thin_pen}), Role::enclosure);
    pathway.add(closed(corners, {medium_pen, LineType::dashed}), Role::overlay);
    for (Path& line : hatching(corners, hatch_pitch, {fine_pen}))
        pathway.add(std::move(line), Role::overlay);
    raceway.add(polyline({left, right}, {medium_pen, LineType::short_dashed}), Role::overlay);
    const Length half = sample.height / 2;
    const Box small{{sample.width / 2 - half, {}}, {sample.width / 2 + half, sample.height}};
    drop.add(circle(box.centre(), drop_radius, {medium_pen}), Role::overlay);
    device.add(filled_rectangle(Box{small.low, small.high}.grown(-inches(0.035)), black),
               Role::symbol);
    object.add(rectangle(small, {medium_pen}), Role::symbol);
    object.add(polyline({small.low, small.high}, {fine_pen}), Role::symbol);
    object.add(polyline({{small.low.x, small.high.y}, {small.high.x, small.low.y}}, {fine_pen}),
               Role::symbol);

    const Site& site = job.system.site;
    const auto on_roof = [](const Route& route) { return route.way == RouteWay::on_roof; };
    const auto has_objects = [](const RoofPlane& plane) { return !plane.objects.empty(); };
    const auto is_sited = [](const SitedEquipment& e) { return e.roof >= 0; };
    const std::vector<std::tuple<bool, const Frame*, std::string_view>> entries = {
        {true, &module, "PV module with its branch or string"},
        {!job.study.pathways.empty(), &pathway, "Pathway, kept free"},
        {std::ranges::any_of(site.plan.routes, on_roof), &raceway, "Raceway on the roof, by tag"},
        {std::ranges::any_of(site.plan.routes, on_roof), &drop, "Its way down to equipment below"},
        {std::ranges::any_of(site.plan.equipment, is_sited), &device, "Equipment on the roof"},
        {std::ranges::any_of(site.roofs, has_objects), &object, "Vent, skylight or the like"}};
    Frame legend = block_heading("Marks of this plan", width, job.layout, job.measure);
    const Length pitch = std::max(sample.height, line_pitch(job.layout.lettering.body)) + points(4);
    for (const auto& [occurs, frame, words] : entries) {
        if (!occurs)
            continue;
        const Length top = legend.size.height + points(4);
        legend.add(*frame, {{}, top});
        const Length capitals = job.measure.cap_height(job.layout.lettering.body);
        write_line(legend, {sample.width + points(8), top + (sample.height - capitals) / 2},
                   drafting_case(std::string(words)), {job.layout.lettering.body}, job.measure);
        legend.size.height += pitch;
    }
    return legend;
}

} // namespace ohmfolio::sheets
