#include "code/working_space_rules.h"

#include <algorithm>

#include "code/tables.h"
#include "code/verdict_line.h"

namespace ohmfolio {

namespace {

constexpr double inches_per_foot = 12;

std::string_view column(Opposite opposite) {
    switch (opposite) {
    case Opposite::nothing:
        return "nothing";
    case Opposite::grounded:
        return "grounded";
    case Opposite::live:
        return "live";
    }
    return {};
}

/// Depth by the first row of the table that reaches to the voltage.
Term<Feet> needed_depth(const Desk& desk, const WorkingSpaceInput& input) {
    const TableRow row = code_tables()
                             .file("working_space")
                             .row_reaching(desk.book.edition(), input.to_ground.value);
    Heading heading = line_for(desk, "space_depth", "d_space", "Depth of working space",
                               desk.book.cite_table("working_space"));
    heading.source = desk.book.table_name("working_space") + ", " + shown(input.to_ground) +
                     " to ground, condition " +
                     std::to_string(static_cast<int>(input.opposite) + 1);
    return desk.sheet.state(heading, Feet{row.number(column(input.opposite))});
}

Term<Feet> larger_of(const Desk& desk, const std::string& line, const std::string& symbol,
                     const std::string& title, std::string_view rule, const Term<Feet>& own) {
    return desk.sheet.define(line_for(desk, line, symbol, title, desk.book.cite(rule)),
                             larger(own, constant(Feet{desk.book.number(rule)})));
}

std::optional<RuleVerdict> free_check(const Desk& desk, const VerdictLine& line,
                                      const std::string& symbol, const std::optional<Feet>& free,
                                      const Term<Feet>& needed) {
    if (!free)
        return std::nullopt;
    return check_by(desk, line, given(symbol, *free, "free, as drawn"), "≥", needed);
}

std::optional<RuleVerdict> door_check(const Desk& desk, const WorkingSpaceInput& input) {
    if (!input.door || !input.depth)
        return std::nullopt;
    return check_by(desk, {"space_doors", "Doors open 90 degrees", "space.doors"},
                    given("d_free", *input.depth, "free, as drawn"), "≥",
                    given("w_door", *input.door, "width of the door"));
}

} // namespace

Volts highest_to_ground(const CodeBook& book) {
    Volts highest{};
    const TableRow table = code_tables().file("working_space").in_force(book.edition(), "rows");
    for (const TableRow& row : table.rows("rows"))
        highest = std::max(highest, Volts{row.number("through")});
    return highest;
}

WorkingSpaceTerms need_working_space(const Desk& desk, const WorkingSpaceInput& input) {
    auto depth = needed_depth(desk, input);
    auto width = larger_of(desk, "space_width", "w_space", "Width of working space", "space.width",
                           given("w", input.equipment_width, "width of the equipment"));
    auto height =
        larger_of(desk, "space_height", "h_space", "Height of working space", "space.height",
                  given("h_top", input.equipment_top, "top of the equipment"));
    return {std::move(depth), std::move(width), std::move(height)};
}

RuleVerdicts judge_free_space(const Desk& desk, const WorkingSpaceTerms& needed,
                              const WorkingSpaceInput& input) {
    return those_given({free_check(desk, {"free_depth", "Free depth", "space.depth"}, "d_free",
                                   input.depth, needed.depth),
                        free_check(desk, {"free_width", "Free width", "space.width"}, "w_free",
                                   input.width, needed.width),
                        free_check(desk, {"free_height", "Free height", "space.height"}, "h_free",
                                   input.height, needed.height),
                        door_check(desk, input)});
}

WorkingSpaceResult judge_working_space(const Desk& desk, const WorkingSpaceInput& input) {
    const WorkingSpaceTerms needed = need_working_space(desk, input);
    return {needed.values(), judge_free_space(desk, needed, input)};
}

Feet allowed_projection(const CodeBook& book) { return Feet{book.number("space.other")}; }

RuleVerdict check_projection(const Desk& desk, const std::string& other, Feet beyond) {
    return check_by(
        desk,
        {as_line("beyond " + other), "Reach of " + other + " beyond the front", "space.other"},
        given("d_beyond", beyond, "reach beyond the front of the equipment"), "≤",
        constant(allowed_projection(desk.book)));
}

RuleVerdict check_clear(const Desk& desk, const std::string& other, bool inside) {
    return judge_by(
        desk, {as_line("clear " + other), "Working space clear of " + other, "space.clear"},
        other + (inside ? " stands in the working space" : " stands clear of it"), !inside);
}

Citation reach_section(const CodeBook& book, HandleKind kind) {
    return book.cite(kind == HandleKind::switch_handle ? "reach.switch" : "reach.breaker");
}

Feet highest_grip(const CodeBook& book) { return Feet{book.number("reach") / inches_per_foot}; }

RuleVerdict check_reach(const Desk& desk, HandleKind kind, Feet height) {
    const bool is_switch = kind == HandleKind::switch_handle;
    return check_by(
        desk,
        {"reach",
         is_switch ? "Height of the switch handle" : "Height of the highest breaker handle",
         is_switch ? "reach.switch" : "reach.breaker"},
        given("h_handle", height, "grip in its highest position"), "≤",
        constant(highest_grip(desk.book)));
}

} // namespace ohmfolio
