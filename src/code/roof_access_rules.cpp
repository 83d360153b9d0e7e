#include "code/roof_access_rules.h"

#include <algorithm>
#include <stdexcept>

#include <fmt/format.h>

#include "base/text.h"
#include "code/rounding.h"
#include "code/tables.h"
#include "code/verdict_line.h"

namespace ohmfolio {

namespace {

/// A number of an adopted code, with its paragraph.
struct Limit {
    double value;
    Citation cite;
};

TableRow code_row(const std::string& id) {
    for (const TableRow& row : code_tables().file("roof_access").rows("code")) {
        if (row.text("id") == id)
            return row;
    }
    throw std::logic_error("the table of roof access has no code " + id);
}

Limit limit_of(const TableRow& row, const std::string& code, std::string_view key) {
    const auto group = row.group_if_any(key);
    if (!group)
        throw std::logic_error("the table of roof access lacks a value for " + code);
    return {group->number_if_any("limit").value_or(0),
            {code, group->text("cite"), group->flag("unverified")}};
}

std::vector<std::string> codes_with(std::string_view key) {
    std::vector<std::string> codes;
    for (const TableRow& row : code_tables().file("roof_access").rows("code")) {
        if (row.group_if_any(key))
            codes.push_back(row.text("id"));
    }
    return codes;
}

class Access {
  public:
    Access(const Desk& desk, const RoofAccessInput& input)
        : desk_(desk), input_(input), row_(code_row(input.code)) {}

    RoofAccessResult judge() {
        RoofAccessResult result;
        if (!take_steep_planes()) {
            result.exempt = true;
            return result;
        }
        result.coverage = cover();
        state_setback(result.coverage);
        result.ridge = setback_;
        for (const RoofPlaneInput& plane : input_.planes) {
            if (has_pathway(plane))
                counted_.push_back(&plane);
        }
        desk_.sheet.state(
            line_for(desk_, "pathway_needed", "w_min", "Width of a pathway", limit("width").cite),
            Feet{limit("width").value});
        for (const RoofPlaneInput* plane : steep_)
            result.planes.push_back(judge_plane(*plane));
        result.roof = {count_check(), street_check(), obstruction_check()};
        for (const RoofPlaneInput* plane : counted_)
            result.pathways.push_back(plane->name);
        return result;
    }

  private:
    Limit limit(std::string_view key) const { return limit_of(row_, input_.code, key); }

    /// Planes with modules that are steep enough; false when there are none. What is exempt is
    /// said.
    bool take_steep_planes() {
        const Limit slope = limit("slope");
        for (const RoofPlaneInput& plane : input_.planes) {
            if (plane.array <= SquareFeet{0})
                continue;
            if (plane.rise > slope.value) {
                steep_.push_back(&plane);
                continue;
            }
            desk_.sheet.choose(line_for(desk_, as_line(plane.name + "_slope"), {},
                                        "Slope of " + plane.name, slope.cite),
                               fmt::format("{} in 12 ≤ {} in 12: no access asked for",
                                           trimmed(plane.rise, 1), trimmed(slope.value, 1)),
                               {});
        }
        return !steep_.empty();
    }

    Term<SquareFeet> sum(const std::string& symbol, const std::string& meaning,
                         SquareFeet RoofPlaneInput::*area) const {
        std::optional<Term<SquareFeet>> total;
        int number = 0;
        for (const RoofPlaneInput& plane : input_.planes) {
            ++number;
            if (plane.*area <= SquareFeet{0})
                continue;
            const auto one =
                given(fmt::format("{}{}", symbol, number), plane.*area, meaning + plane.name);
            total = total ? *total + one : one;
        }
        return *total;
    }

    double cover() {
        const Limit share = limit("share");
        const auto roof = desk_.sheet.define(
            line_for(desk_, "roof_area", "A_roof", "Area of the roof in plan", share.cite),
            sum("A_", "in plan, ", &RoofPlaneInput::area));
        const auto array = desk_.sheet.define(
            line_for(desk_, "array_area", "A_array", "Area of the modules in plan", share.cite),
            sum("a_", "modules in plan, ", &RoofPlaneInput::array));
        Heading heading =
            line_for(desk_, "coverage", "k", "Share of the roof that modules cover", share.cite);
        heading.as = ShownAs::percent;
        return desk_.sheet.define(heading, array / roof).value.value;
    }

    void state_setback(double coverage) {
        const Limit share = limit(input_.sprinklers ? "sprinklered" : "share");
        const bool small = at_most(coverage, share.value);
        const Limit setback = limit(small ? "setback" : "larger");
        setback_ = Feet{setback.value};
        Heading heading = line_for(desk_, "ridge_setback", "d_min", "Setback from the ridge",
                                   input_.sprinklers ? share.cite : setback.cite);
        heading.governs = fmt::format("the modules cover {} than {} %{}",
                                      small ? "no more" : "more", trimmed(share.value * 100, 0),
                                      input_.sprinklers ? ", with sprinklers" : "");
        desk_.sheet.state(heading, setback_, {desk_.sheet.all().back().id});
    }

    PlaneAccess judge_plane(const RoofPlaneInput& plane) const {
        const RoofPlaneInput& on = pathway_for(plane);
        return {plane.name, those_given({ridge_check(plane), pathway_check(plane, on)}),
                has_pathway(on) ? on.name : ""};
    }

    std::optional<RuleVerdict> ridge_check(const RoofPlaneInput& plane) const {
        if (!plane.to_ridge)
            return std::nullopt;
        return check_by(desk_,
                        {as_line(plane.name + "_ridge"), "Ridge of " + plane.name,
                         "roof.access.ridge", limit("setback").cite},
                        given("d", *plane.to_ridge, "from the nearest module, up the slope"), "≥",
                        constant(setback_));
    }

    /// The plane itself, or one that adjoins it where that has more and the plane too little.
    const RoofPlaneInput& pathway_for(const RoofPlaneInput& plane) const {
        const RoofPlaneInput* on = &plane;
        for (const RoofPlaneInput& other : input_.planes) {
            const bool adjoins =
                std::ranges::find(plane.adjacent, other.name) != plane.adjacent.end();
            if (adjoins && !has_pathway(*on) && width_of(other) > width_of(*on))
                on = &other;
        }
        return *on;
    }

    RuleVerdict pathway_check(const RoofPlaneInput& plane, const RoofPlaneInput& on) const {
        const Limit width = limit("width");
        std::string title = "Pathway of " + plane.name;
        if (&on != &plane)
            title += ", on " + on.name;
        return check_by(
            desk_, {as_line(plane.name + "_pathway"), title, "roof.access.pathway", width.cite},
            given("w", width_of(on), "free from the lowest edge to the ridge"), "≥",
            constant(Feet{width.value}));
    }

    static Feet width_of(const RoofPlaneInput& plane) { return plane.pathway.value_or(Feet{0}); }
    bool has_pathway(const RoofPlaneInput& plane) const {
        return at_most(limit("width").value, width_of(plane).value);
    }

    RuleVerdict count_check() const {
        return check_by(
            desk_,
            {"pathways", "Pathways on planes of their own", "roof.access.pathways",
             limit("count").cite},
            given("N", Ratio{static_cast<double>(counted_.size())}, "planes with a pathway"), "≥",
            constant(Ratio{limit("count").value}));
    }

    RuleVerdict street_check() const {
        const auto plane = std::ranges::find_if(counted_, &RoofPlaneInput::from_street);
        const bool found = plane != counted_.end();
        return judge_by(desk_,
                        {"street", "Pathway from the street or the driveway", "roof.access.street",
                         limit("street").cite},
                        found ? (*plane)->name : "on no plane", found);
    }

    RuleVerdict obstruction_check() const {
        std::string found;
        for (const RoofPlaneInput* plane : counted_) {
            for (const std::string& thing : plane->obstructed_by)
                found += (found.empty() ? "" : ", ") + thing + " on " + plane->name;
        }
        const bool free = found.empty();
        return judge_by(desk_,
                        {"obstructions", "Raceways and equipment in pathways",
                         "roof.access.obstructions", limit("obstructions").cite},
                        free ? "none" : found, free);
    }

    const Desk& desk_;
    const RoofAccessInput& input_;
    TableRow row_;
    std::vector<const RoofPlaneInput*> steep_;
    std::vector<const RoofPlaneInput*> counted_; ///< with a pathway
    Feet setback_{};
};

} // namespace

RoofAccessResult judge_roof_access(const Desk& desk, const RoofAccessInput& input) {
    return Access(desk, input).judge();
}

RuleVerdicts judge_roof_perimeter(const Desk& desk, const RoofPerimeterInput& input) {
    const TableRow row = code_row(input.code);
    const auto limit = [&](std::string_view key) { return limit_of(row, input.code, key); };
    const bool narrow = at_most(input.shorter_axis.value, limit("axis").value);
    const Limit way = limit(narrow ? "narrow" : "perimeter");
    const Limit array = limit("array");
    const std::string axis =
        fmt::format("Way along the edges, the shorter axis {} {} ft", narrow ? "at most" : "over",
                    trimmed(limit("axis").value, 0));
    return {check_by(desk, {"perimeter", axis, "roof.access.perimeter", way.cite},
                     given("d", input.to_edge, "from the edge to the nearest module"), "≥",
                     constant(Feet{way.value})),
            check_by(desk, {"array", "Longest array", "roof.access.array", array.cite},
                     given("l", input.longest_array, "longer side of the array"), "≤",
                     constant(Feet{array.value}))};
}

Feet roof_pathway_width(const std::string& code) {
    return Feet{limit_of(code_row(code), code, "width").value};
}

Feet roof_arrays_parted(const std::string& code) {
    return Feet{limit_of(code_row(code), code, "parted").value};
}

std::vector<std::string> roof_access_codes() { return codes_with("width"); }
std::vector<std::string> roof_perimeter_codes() { return codes_with("perimeter"); }

} // namespace ohmfolio
