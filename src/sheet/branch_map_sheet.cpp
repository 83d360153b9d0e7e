// Which module is on which branch: the modules of each plane seen square to the roof, each with its
// number and room for the serial number of its microinverter, for who commissions the array.

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "model/roof_geometry.h"
#include "model/sited.h"
#include "sheet/no_room.h"
#include "sheet/plan_view.h"
#include "sheet/schedule_rows.h"
#include "sheet/view_title.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

constexpr Length clear = points(4);
/// Maps are spread over the height of the sheet, no further apart than this.
constexpr Length most_gap = inches(1.2);

/// All fields of a plane together.
RoofArea extent_of_modules(const RoofPlane& plane) {
    RoofArea all = extent_of(plane.fields.front());
    for (const ModuleField& field : plane.fields)
        all = extent_of(all, extent_of(field));
    return all;
}

/// The modules of one plane at one scale.
class ModuleMap {
  public:
    ModuleMap(const RoofPlane& plane, const DrawingScale& scale, const Job& job)
        : plane_(plane), scale_(scale), job_(job) {
        const RoofArea all = extent_of_modules(plane);
        low_ = {all.along, all.up};
        high_ = {all.right(), all.top()};
    }

    Frame draw() {
        margin_ = lead_ + widest_target();
        frame_.size = {2 * margin_ + scale_.on_paper(high_.along - low_.along),
                       scale_.on_paper(high_.up - low_.up)};
        for (const ModuleField& field : plane_.fields) {
            for (const SetModule& module : field.modules)
                draw_module(module);
            for (const SetModule& module : field.modules)
                bound(module, field);
            for (const int source : sources_of(field))
                point_to_target(source, field);
        }
        return std::move(frame_);
    }

    bool has_room_for_names() const {
        for (const ModuleField& field : plane_.fields) {
            for (const SetModule& module : field.modules) {
                const Box box = box_of(module.area);
                const Length least = 2 * line_pitch(style()) + 2 * clear;
                if (job_.measure.width(name_of(module), style()) + 2 * clear > box.width() ||
                    least > box.height())
                    return false;
            }
        }
        return true;
    }

  private:
    const TextStyle& style() const { return job_.layout.lettering.body; }

    Point at(Feet along, Feet up) const {
        return {margin_ + scale_.on_paper(along - low_.along), scale_.on_paper(high_.up - up)};
    }
    Box box_of(const RoofArea& area) const {
        return {at(area.along, area.top()), at(area.right(), area.up)};
    }
    std::string name_of(const SetModule& module) const {
        return fmt::format("{}.{}", job_.equipment(module.source).id, module.number);
    }
    std::string shown_by(const SetModule& module) const {
        return "equipment:" + job_.equipment(module.source).id;
    }

    /// The name above, below it an empty field for the label with the serial number.
    void draw_module(const SetModule& module) {
        const Box box = box_of(module.area);
        frame_.add(rectangle(box, {thin_pen}), Role::enclosure, shown_by(module));
        write_line(frame_, {box.centre().x, box.low.y + clear}, name_of(module),
                   {style(), Align::centre, black, shown_by(module)}, job_.measure);
        const Length top = box.low.y + clear + job_.measure.cap_height(style()) + clear;
        const Box label{{box.low.x + clear, top}, {box.high.x - clear, box.high.y - clear}};
        frame_.add(rectangle(label, {fine_pen, LineType::short_dashed}), Role::overlay,
                   shown_by(module));
    }

    /// A wide line on each side where the next module is not of the same branch.
    void bound(const SetModule& module, const ModuleField& field) {
        const Box box = box_of(module.area);
        const RoofArea& area = module.area;
        const Feet step{0.3};
        const PlanPoint right{area.right() + step, area.up + area.height / 2};
        const PlanPoint left{area.along - step, right.y};
        const PlanPoint above{area.along + area.width / 2, area.top() + step};
        const PlanPoint below{above.x, area.up - step};
        const auto side = [&](PlanPoint beyond, Point from, Point to) {
            if (!continues(field, module.source, beyond))
                frame_.add(polyline({from, to}, {wide_pen}), Role::enclosure, shown_by(module));
        };
        const Point upper_right{box.high.x, box.low.y}, lower_left{box.low.x, box.high.y};
        side(left, box.low, lower_left);
        side(right, upper_right, box.high);
        side(above, box.low, upper_right);
        side(below, lower_left, box.high);
    }

    static bool continues(const ModuleField& field, int source, PlanPoint beyond) {
        return std::ranges::any_of(field.modules, [&](const SetModule& other) {
            return other.source == source && beyond.x >= other.area.along &&
                   beyond.x <= other.area.right() && beyond.y >= other.area.up &&
                   beyond.y <= other.area.top();
        });
    }

    static bool is_covered(const ModuleField& field, PlanPoint point) {
        return std::ranges::any_of(sources_of(field),
                                   [&](int source) { return continues(field, source, point); });
    }

    static std::vector<int> sources_of(const ModuleField& field) {
        std::vector<int> sources;
        for (const SetModule& module : field.modules) {
            if (std::ranges::find(sources, module.source) == sources.end())
                sources.push_back(module.source);
        }
        return sources;
    }

    const std::string& target_of(int source) const {
        return job_.equipment(job_.equipment(source).parent).id;
    }

    Length widest_target() const {
        Length widest{};
        for (const ModuleField& field : plane_.fields) {
            for (const int source : sources_of(field))
                widest = std::max(widest, job_.measure.width(target_of(source), style()));
        }
        return widest;
    }

    /// What the branch leads to stands at the left only when it is there on the roof.
    bool is_at_left(int source) const {
        const SitePlan& plan = job_.system.site.plan;
        const SitedEquipment* place = sited(plan, job_.equipment(source).parent);
        if (place == nullptr || place->roof < 0 ||
            job_.system.site.roofs[static_cast<std::size_t>(place->roof)].name != plane_.name)
            return false;
        return frame_of(plane_, plan.north).slope(place->at).along <
               low_.along + (high_.along - low_.along) / 2;
    }

    /// An arrow from the end of the branch's last row to what it leads to.
    void point_to_target(int source, const ModuleField& field) {
        const bool left = is_at_left(source);
        const SetModule* end = nullptr;
        for (const SetModule& module : field.modules) {
            const bool further =
                end == nullptr || module.area.up < end->area.up ||
                (module.area.up == end->area.up && (module.area.along < end->area.along) == left);
            if (module.source == source && further)
                end = &module;
        }
        const RoofArea& area = end->area;
        const Feet step{0.3};
        const Feet beyond = left ? area.along - step : area.right() + step;
        if (is_covered(field, {beyond, area.up + area.height / 2}))
            return; // another branch lies between; the table tells
        const Box box = box_of(area);
        const int way = left ? -1 : 1;
        const Point from{left ? box.low.x : box.high.x, box.centre().y};
        const Point tip{from.x + way * (lead_ - clear), from.y};
        const std::string shows = "equipment:" + target_of(source);
        frame_.add(polyline({from, tip}, {medium_pen}), Role::leader, shows);
        const Length barb = inches(0.05);
        Path head = closed(
            {tip, {tip.x - way * 2 * barb, tip.y - barb}, {tip.x - way * 2 * barb, tip.y + barb}},
            {fine_pen});
        head.filled = true;
        frame_.add(std::move(head), Role::leader, shows);
        write_line(frame_, {tip.x + way * points(3), tip.y - job_.measure.cap_height(style()) / 2},
                   target_of(source), {style(), left ? Align::right : Align::left, black, shows},
                   job_.measure);
    }

    struct Corner {
        Feet along{}, up{};
    };
    const RoofPlane& plane_;
    const DrawingScale& scale_;
    const Job& job_;
    Corner low_, high_;
    const Length lead_ = inches(0.3); ///< of the arrow to what a branch feeds
    Length margin_{};
    Frame frame_;
};

Frame map_of(const RoofPlane& plane, const std::string& name, std::size_t number,
             const DrawingScale& scale, const Job& job) {
    const Frame modules = ModuleMap(plane, scale, job).draw();
    const Frame title = view_title(fmt::format("{}", number), name, "SCALE " + scale.words, job);
    Frame frame;
    frame.add(modules, {});
    frame.add(title, {{}, modules.size.height + job.layout.block_gap});
    frame.size = {std::max(modules.size.width, title.size.width),
                  modules.size.height + job.layout.block_gap + title.size.height};
    return frame;
}

/// How many parts a length is cut into, where each may be `most` long.
int parts_of(Feet length, Feet most) {
    return std::max(1, static_cast<int>(std::ceil(length.value / std::max(most.value, 1.0))));
}

/// A plane whose modules are too many for the sheet is mapped in parts, from the ridge down and
/// from the left.
std::vector<RoofPlane> parts_of(const RoofPlane& plane, const DrawingScale& scale, const Job& job) {
    const RoofArea all = extent_of_modules(plane);
    const RoofArea& module = plane.fields.front().modules.front().area;
    const double foot = scale.on_paper(Feet{1}).in_inches();
    // A module more on either side, and the arrows; below the map stands its title.
    const Feet across{(job.area.width - inches(2)).in_inches() / foot - module.width.value};
    const Feet down{(job.area.height - inches(1)).in_inches() / foot - module.height.value};
    const int columns = parts_of(all.width, across), rows = parts_of(all.height, down);
    std::vector<RoofPlane> parts;
    for (int row = rows; row-- > 0;) {
        for (int column = 0; column < columns; ++column) {
            RoofPlane part = plane;
            for (ModuleField& field : part.fields) {
                std::erase_if(field.modules, [&](const SetModule& one) {
                    const double along = (one.area.along + one.area.width / 2 - all.along).value;
                    const double up = (one.area.up + one.area.height / 2 - all.up).value;
                    return static_cast<int>(along / all.width.value * columns) != column ||
                           static_cast<int>(up / all.height.value * rows) != row;
                });
            }
            std::erase_if(part.fields, [](const ModuleField& f) { return f.modules.empty(); });
            if (!part.fields.empty())
                parts.push_back(std::move(part));
        }
    }
    return parts;
}

Table branch_table(const Job& job) {
    Table table{.title = drafting_case("Branches and strings"),
                .columns = {text_column("TAG"), number_column("MODULES"), text_column("ROOF"),
                            text_column("MODULE"), text_column("MICROINVERTER"),
                            text_column("FEEDS")},
                .rows = {}};
    const auto model = [&](int record) {
        return record < 0 ? std::string("—")
                          : job.system.catalogue.records[static_cast<std::size_t>(record)].model;
    };
    std::map<int, int> counts;
    for (const RoofPlane& plane : job.system.site.roofs) {
        for (const ModuleField& field : plane.fields) {
            for (const SetModule& module : field.modules)
                ++counts[module.source];
        }
    }
    for (const auto& [index, count] : counts) {
        const Equipment& e = job.equipment(index);
        const auto* branch = e.as<BranchArray>();
        const auto* string = e.as<StringArray>();
        RowMaker row("equipment:" + e.id);
        row.add(id_with_status(e)).add(fmt::format("{}", count)).add(e.location);
        row.add(model(branch != nullptr ? branch->module : string->module));
        row.add(branch != nullptr ? model(branch->microinverter) : "—");
        row.add(job.equipment(e.parent).id);
        table.rows.push_back(row.row());
    }
    return table;
}

std::vector<Frame> blocks_at(const DrawingScale& scale, const Job& job) {
    std::vector<Frame> blocks;
    std::size_t number = 0;
    for (const RoofPlane& plane : job.system.site.roofs) {
        if (plane.fields.empty())
            continue;
        const std::vector<RoofPlane> parts = parts_of(plane, scale, job);
        for (std::size_t i = 0; i < parts.size(); ++i) {
            const std::string name =
                parts.size() == 1
                    ? plane.name
                    : fmt::format("{}, PART {} OF {}", plane.name, i + 1, parts.size());
            blocks.push_back(map_of(parts[i], name, ++number, scale, job));
        }
    }
    return blocks;
}

bool fit(const std::vector<Frame>& blocks, const Job& job) {
    return std::ranges::all_of(blocks, [&](const Frame& block) {
        return block.size.width <= job.area.width && block.size.height <= job.area.height;
    });
}

/// In as few pages as they need; what is left of the height parts them.
std::vector<Frame> stacked(const std::vector<Frame>& blocks, const Job& job) {
    std::vector<std::vector<const Frame*>> pages(1);
    Length used{};
    for (const Frame& block : blocks) {
        const Length gap = pages.back().empty() ? Length{} : job.layout.widest_block_gap;
        if (!pages.back().empty() && used + gap + block.size.height > job.area.height) {
            pages.emplace_back();
            used = {};
        }
        used += (pages.back().empty() ? Length{} : gap) + block.size.height;
        pages.back().push_back(&block);
    }
    std::vector<Frame> frames;
    for (const auto& page : pages) {
        Frame frame;
        frame.size = job.area;
        Length taken{};
        for (const Frame* block : page)
            taken += block->size.height;
        const Length share = page.size() < 2
                                 ? Length{}
                                 : (job.area.height - taken) / static_cast<int>(page.size() - 1);
        const Length gap = std::clamp(share, job.layout.widest_block_gap, most_gap);
        Length y{};
        for (const Frame* block : page) {
            frame.add(*block, {{}, y});
            y += block->size.height + gap;
        }
        frames.push_back(std::move(frame));
    }
    return frames;
}

/// The table stands at the right of the maps where they leave room, else below them.
std::vector<Frame> with_table(std::vector<Frame> blocks, const Job& job) {
    Length widest{}, height = job.layout.widest_block_gap * (static_cast<int>(blocks.size()) - 1);
    for (const Frame& block : blocks) {
        widest = std::max(widest, block.size.width);
        height += block.size.height;
    }
    const Length left = job.area.width - widest - job.layout.column_gap;
    const Table table = branch_table(job);
    auto beside = set_table(table, job.layout.table, left, job.area.height, false, job.measure);
    if (height <= job.area.height && beside.size() == 1 && beside.front().size.width <= left) {
        std::vector<Frame> pages = stacked(blocks, job);
        Frame& right = beside.front();
        add_remark(right, job.texts.remarks.branch_map, job);
        pages.front().add(right, {job.area.width - right.size.width, {}});
        return pages;
    }
    for (Frame& piece :
         set_table(table, job.layout.table, job.area.width, job.area.height, true, job.measure))
        blocks.push_back(std::move(piece));
    add_remark(blocks.back(), job.texts.remarks.branch_map, job);
    return stacked(blocks, job);
}

bool names_fit(const DrawingScale& scale, const Job& job) {
    return std::ranges::all_of(job.system.site.roofs, [&](const RoofPlane& plane) {
        return plane.fields.empty() || ModuleMap(plane, scale, job).has_room_for_names();
    });
}

} // namespace

std::vector<Frame> branch_map_pages(const Job& job) {
    const auto& roofs = job.system.site.roofs;
    const auto mapped =
        std::ranges::find_if(roofs, [](const RoofPlane& p) { return !p.fields.empty(); });
    if (mapped == roofs.end())
        return {};
    std::optional<std::vector<Frame>> best;
    for (const DrawingScale& scale : job.layout.array_scales) {
        std::vector<Frame> blocks = blocks_at(scale, job);
        if (!fit(blocks, job) || !names_fit(scale, job))
            continue;
        std::vector<Frame> pages = with_table(blocks, job);
        // A smaller scale that saves a sheet is the better one.
        if (!best || pages.size() < best->size())
            best = std::move(pages);
    }
    if (best)
        return std::move(*best);
    tell_no_room(job, Severity::error, mapped->span,
                 "the modules of a roof plane are too many for the sheet at every scale",
                 "a larger sheet format, or the plane in parts");
    return {};
}

} // namespace ohmfolio::sheets
