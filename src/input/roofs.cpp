#include "input/roofs.h"

#include <algorithm>
#include <charconv>
#include <map>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "input/faults.h"
#include "input/named_equipment.h"
#include "input/units.h"
#include "model/roof_geometry.h"

namespace ohmfolio {
namespace {

constexpr std::string_view gap_word = "gap";

/// "8 PV-1": a stretch of a row.
struct Stretch {
    int count = 0;
    std::string source; ///< empty: a gap
};

/// "1 gap, 7 PV-2"; nothing when it is not understood.
std::optional<std::vector<Stretch>> parse_row(std::string_view row) {
    std::vector<Stretch> stretches;
    while (true) {
        const auto comma = row.find(',');
        const std::string_view part = trim(row.substr(0, comma));
        Stretch stretch;
        const auto number = std::from_chars(part.data(), part.data() + part.size(), stretch.count);
        const std::string_view rest =
            part.substr(static_cast<std::size_t>(number.ptr - part.data()));
        constexpr int most = 1'000;
        if (number.ec != std::errc{} || stretch.count < 1 || stretch.count > most ||
            !rest.starts_with(' ')) {
            return std::nullopt;
        }
        const std::string_view word = trim(rest);
        stretch.source = word == gap_word || word == "gaps" ? "" : std::string(word);
        stretches.push_back(std::move(stretch));
        if (comma == std::string_view::npos) {
            return stretches;
        }
        row.remove_prefix(comma + 1);
    }
}

/// What a branch or a string says of its modules.
struct Source {
    int modules = 0;
    int record = -1;
    std::string roof;
    std::optional<Spanned<Orientation>> orientation;
};

std::optional<Source> source_of(const Equipment& e) {
    if (const auto* branch = e.as<BranchArray>()) {
        return Source{branch->count, branch->module, branch->roof, branch->orientation};
    }
    if (const auto* string = e.as<StringArray>()) {
        return Source{string->modules(), string->module, string->roof, {}};
    }
    return std::nullopt;
}

bool overlap(const RoofArea& a, const RoofArea& b) {
    constexpr double touch = 1e-6; // edges that meet do not overlap
    return a.along.value + touch < b.right().value && b.along.value + touch < a.right().value &&
           a.up.value + touch < b.top().value && b.up.value + touch < a.top().value;
}

class RoofReader {
  public:
    RoofReader(System& system, std::map<int, int>& counted, Findings& findings)
        : system_(system), counted_(counted), findings_(findings) {}

    RoofPlane read(const Form& form) {
        plane_ = {drafting_case(form.id), form.value<Degrees>("tilt").value,
                  form.value<Degrees>("azimuth").value, form.span};
        check_tilt(form);
        plane_.corners = form.values<PlanPoint>("corners");
        plane_.from_street = form.value<bool>("from_street");
        if (!check_corners(form)) {
            return plane_;
        }
        for (const Form& object : form.forms("object")) {
            plane_.objects.push_back({drafting_case(object.id),
                                      {object.value<Feet>("left"), object.value<Feet>("up"),
                                       object.value<Feet>("width"), object.value<Feet>("height")},
                                      object.span});
        }
        for (const Form& field : form.forms("array")) {
            read_field(field);
        }
        for (const Form& place : form.forms("equipment")) {
            place_equipment(place);
        }
        check_places();
        return plane_;
    }

  private:
    void check_tilt(const Form& form) {
        if (plane_.tilt < 0 || plane_.tilt >= 90) {
            report("input.value", form.span_of("tilt"),
                   fmt::format("{} is tilted by {} deg, which no roof is", plane_.name,
                               trimmed(plane_.tilt, 1)),
                   {"0 deg to less than 90 deg, from level", ""});
        }
    }

    void report(std::string rule, Span span, std::string message, Advice advice) {
        findings_.push_back(input_fault(std::move(rule), span, "roof:" + plane_.name,
                                        std::move(message), std::move(advice)));
    }

    /// False when nothing can be set out on the plane.
    bool check_corners(const Form& form) {
        if (plane_.corners.empty()) {
            for (const char* key : {"array", "object", "equipment"}) {
                if (form.written(key)) {
                    report("input.required", form.span,
                           fmt::format("{} has no corners, so nothing can lie on it", plane_.name),
                           {"corners = [\"0 ft, 0 ft\", \"44 ft, 0 ft\", …]",
                            "its corners in plan, in order"});
                    break;
                }
            }
            return false;
        }
        constexpr double least_area = 1; // square feet
        if (plane_.corners.size() < 3 || plan_area(plane_.corners).value < least_area) {
            report("input.value", form.span_of("corners"),
                   fmt::format("the corners of {} enclose no area", plane_.name),
                   {"three corners or more, in order around the plane", ""});
            return false;
        }
        return check_bearing(form);
    }

    /// An edge has to lie across the slope, or the azimuth is that of another plane.
    bool check_bearing(const Form& form) {
        constexpr double most = 15; // degrees
        const double north = system_.site.plan.north;
        const double bearing = downhill_bearing(plane_, north).value_or(0) - north;
        const double apart = std::abs(std::remainder(bearing - plane_.azimuth, 360.0));
        if (apart <= most) {
            return true;
        }
        report("input.value", form.span_of("azimuth"),
               fmt::format("the azimuth of {} is {} deg, and its edge that faces nearest to that "
                           "faces {} deg",
                           plane_.name, trimmed(plane_.azimuth, 0),
                           trimmed(std::fmod(bearing + 360, 360.0), 0)),
               {"an azimuth square to the eave", "check azimuth, corners and the plan's north"});
        return false;
    }

    void read_field(const Form& form) {
        ModuleField field{.span = form.span};
        const std::vector<Item>& rows = form.items("rows");
        std::vector<std::vector<Stretch>> parsed;
        for (const Item& item : rows) {
            if (auto row = parse_row(std::get<std::string>(item.value))) {
                parsed.push_back(std::move(*row));
                continue;
            }
            report("input.value", item.span,
                   fmt::format("\"{}\" is not a row of modules", std::get<std::string>(item.value)),
                   {"how many of which branch, parted by commas", "\"1 gap, 7 PV-2\""});
        }
        if (parsed.size() == rows.size() && set_size(form, parsed, field)) {
            set_rows(form, parsed, field);
            plane_.fields.push_back(std::move(field));
        }
    }

    /// All modules of a field are as large as those of its first branch.
    bool set_size(const Form& form, const std::vector<std::vector<Stretch>>& rows,
                  ModuleField& field) {
        const auto word = form.word("orientation");
        std::optional<Orientation> lie;
        if (word) {
            lie = static_cast<Orientation>(*word);
        }
        module_ = {};
        for (const auto& row : rows) {
            for (const Stretch& stretch : row) {
                if (!stretch.source.empty() && !take_size(form, stretch, lie)) {
                    return false;
                }
            }
        }
        field.orientation = lie.value_or(Orientation::portrait);
        if (module_.width.value <= 0) {
            report("input.value", form.span, "an array without modules",
                   {"rows with modules of a branch or a string", "rows = [\"8 PV-1\"]"});
            return false;
        }
        if (field.orientation == Orientation::landscape) {
            std::swap(module_.width, module_.height);
        }
        return true;
    }

    bool take_size(const Form& form, const Stretch& stretch, std::optional<Orientation>& lie) {
        const int index = named_equipment(system_, stretch.source, form.span_of("rows"), findings_);
        if (index < 0) {
            return false;
        }
        const auto source = source_of(system_.at(index));
        if (!source) {
            report("input.value", form.span_of("rows"),
                   fmt::format("{} is no branch and no string of modules", stretch.source),
                   {"the id of a branch or a string", ""});
            return false;
        }
        return source->record >= 0 && agrees(form, stretch.source, *source, lie) &&
               has_size(form, *source);
    }

    bool agrees(const Form& form, const std::string& id, const Source& source,
                std::optional<Orientation>& lie) {
        if (source.roof != plane_.name) {
            report("input.value", form.span_of("rows"),
                   fmt::format("{} is on {} by its branch, and lies on {}", id, source.roof,
                               plane_.name),
                   {"modules on the plane that their branch names", "check `roof` of the branch"});
            return false;
        }
        if (source.orientation && lie && source.orientation->value != *lie) {
            report("input.value", form.span_of("orientation"),
                   fmt::format("{} lies otherwise by its branch", id),
                   {"the same orientation in both places", "leave one of them out"});
            return false;
        }
        if (source.orientation) {
            lie = source.orientation->value;
        }
        return true;
    }

    bool has_size(const Form& form, const Source& source) {
        const Record& record = system_.catalogue.records[static_cast<std::size_t>(source.record)];
        const auto& module = std::get<ModuleRatings>(record.ratings);
        if (module.width.value <= 0 || module.height.value <= 0) {
            report("input.required", form.span,
                   fmt::format("the catalogue record {} states no size", record.key),
                   {"width and height in its record", "width = \"44.6 in\", height = \"67.8 in\""});
            return false;
        }
        const bool first = module_.width.value <= 0;
        if (!first && (module_.width != module.width || module_.height != module.height)) {
            report("input.value", form.span_of("rows"), "modules of different sizes in one array",
                   {"an array for each size of module", ""});
            return false;
        }
        module_.width = module.width;
        module_.height = module.height;
        return true;
    }

    void set_rows(const Form& form, const std::vector<std::vector<Stretch>>& rows,
                  ModuleField& field) {
        const Feet gap = form.value<Feet>("gap");
        Feet up =
            form.value<Feet>("up") + static_cast<double>(rows.size() - 1) * (module_.height + gap);
        for (const auto& row : rows) {
            Feet along = form.value<Feet>("left");
            for (const Stretch& stretch : row) {
                const int source = system_.find(stretch.source);
                for (int i = 0; i < stretch.count; ++i) {
                    if (source >= 0) {
                        field.modules.push_back({source,
                                                 ++counted_[source],
                                                 {along, up, module_.width, module_.height}});
                    }
                    along = along + module_.width + gap;
                }
            }
            up = up - module_.height - gap;
        }
        orient(field);
    }

    /// The plan tells how modules lie where their branch does not say.
    void orient(const ModuleField& field) {
        for (const SetModule& module : field.modules) {
            auto* branch = std::get_if<BranchArray>(
                &system_.equipment[static_cast<std::size_t>(module.source)].detail);
            if (branch != nullptr && !branch->orientation) {
                branch->orientation = {field.orientation, field.span};
            }
        }
    }

    void place_equipment(const Form& form) {
        const int index = named_equipment(system_, form.id, form.span, findings_);
        if (index < 0) {
            return;
        }
        const RoofFrame frame = frame_of(plane_, system_.site.plan.north);
        system_.site.plan.equipment.push_back(
            {index, frame.plan({form.value<Feet>("left"), form.value<Feet>("up")}), form.span,
             static_cast<int>(system_.site.roofs.size())});
        check_within({form.value<Feet>("left"), form.value<Feet>("up"), {}, {}}, form.span,
                     form.id);
    }

    bool check_within(const RoofArea& area, Span span, const std::string& what) {
        const RoofFrame frame = frame_of(plane_, system_.site.plan.north);
        const auto corners = corners_on_plan(frame, area);
        if (std::ranges::all_of(corners,
                                [&](PlanPoint p) { return is_inside(plane_.corners, p); })) {
            return true;
        }
        report("input.value", span, fmt::format("{} reaches beyond {}", what, plane_.name),
               {"a place within the corners of the plane",
                "lengths are along the slope, not in plan"});
        return false;
    }

    void check_places() {
        std::vector<std::pair<const SetModule*, Span>> before;
        for (const RoofObject& object : plane_.objects) {
            check_within(object.area, object.span, object.name);
        }
        for (const ModuleField& field : plane_.fields) {
            // Of a field the first module that has no place is told.
            bool sound = true;
            for (const SetModule& module : field.modules) {
                sound = sound && check_within(module.area, field.span, module_name(module)) &&
                        check_free(module, field.span, before);
            }
            for (const SetModule& module : field.modules) {
                before.emplace_back(&module, field.span);
            }
        }
    }

    bool check_free(const SetModule& module, Span span,
                    const std::vector<std::pair<const SetModule*, Span>>& before) {
        for (const RoofObject& object : plane_.objects) {
            if (overlap(module.area, object.area)) {
                report_overlap(module, span, object.name);
                return false;
            }
        }
        for (const auto& [other, other_span] : before) {
            if (overlap(module.area, other->area)) {
                report_overlap(module, span, module_name(*other));
                return false;
            }
        }
        return true;
    }

    void report_overlap(const SetModule& module, Span span, const std::string& other) {
        report("input.overlap", span,
               fmt::format("{} and {} take the same place", module_name(module), other),
               {"places that do not overlap", "move the array, or leave a gap in its row"});
    }

    std::string module_name(const SetModule& module) const {
        return fmt::format("module {} of {}", module.number, system_.at(module.source).id);
    }

    System& system_;
    std::map<int, int>& counted_; ///< modules set out so far, by branch or string
    Findings& findings_;
    RoofPlane plane_;
    RoofArea module_; ///< size of the modules of the field being read
};

/// A branch that is set out at all is set out whole.
void check_counts(const System& system, const std::map<int, int>& counted, Findings& findings) {
    for (const auto& [index, count] : counted) {
        const Equipment& e = system.at(index);
        const auto source = source_of(e);
        if (source && source->modules != count) {
            findings.push_back(
                input_fault("input.value", e.span, "equipment:" + e.id,
                            fmt::format("{} has {} modules, and {} are set out on the roof", e.id,
                                        source->modules, count),
                            {"as many modules in the rows of the roof as in the branch",
                             "check `modules` and the rows of [[roof.….array]]"}));
        }
    }
}

/// Sheets letter names in capitals, lines of calculations put underscores for blanks: planes whose
/// names differ in that alone would be one.
void check_names(const std::vector<Form>& planes, Findings& findings) {
    std::map<std::string, std::string> named;
    for (const Form& form : planes) {
        std::string name = drafting_case(form.id);
        std::ranges::replace(name, ' ', '_');
        const auto [first, is_new] = named.emplace(std::move(name), form.id);
        if (!is_new) {
            findings.push_back(input_fault(
                "input.duplicate_id", form.span, "roof:" + drafting_case(form.id),
                fmt::format("\"{}\" and \"{}\" are one name on the sheets", first->second, form.id),
                {"a name of its own for each roof plane", ""}));
        }
    }
}

} // namespace

void read_roofs(const Form& description, System& system, Findings& findings) {
    std::map<int, int> counted;
    check_names(description.forms("roof"), findings);
    for (const Form& form : description.forms("roof")) {
        system.site.roofs.push_back(RoofReader(system, counted, findings).read(form));
    }
    check_counts(system, counted, findings);
}

} // namespace ohmfolio
