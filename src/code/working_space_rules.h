/// Working space in front of equipment (110.26) and the reach to its handles (404.8, 240.24). What
/// is needed and what is free are lengths in the building; a drawing of the wall gives them.
#pragma once

#include <optional>
#include <string>

#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

/// What is opposite the equipment, across the working space: conditions 1 to 3 of the table.
enum class Opposite {
    nothing,  ///< neither live nor grounded parts
    grounded, ///< grounded parts; concrete, brick and tile walls count
    live,     ///< other exposed live parts
};

struct WorkingSpaceInput {
    Volts to_ground{};
    Opposite opposite = Opposite::nothing;
    Feet equipment_width{};
    Feet equipment_top{};            ///< above floor or grade
    std::optional<Feet> door = {};   ///< width of a hinged door of the equipment
    std::optional<Feet> depth = {};  ///< free in front of the equipment
    std::optional<Feet> width = {};  ///< free
    std::optional<Feet> height = {}; ///< free above floor or grade
};

/// The space that is to be kept free; what a drawing shows.
struct WorkingSpace {
    Feet depth{}, width{}, height{};
};

struct WorkingSpaceResult {
    WorkingSpace needed;
    RuleVerdicts verdicts; ///< of what is free, where that is given
};

/// The same as terms, so that what is free can be found where the space stands.
struct WorkingSpaceTerms {
    Term<Feet> depth, width, height;
    WorkingSpace values() const { return {depth.value, width.value, height.value}; }
};

/// The highest voltage to ground that the table of depths reaches to.
Volts highest_to_ground(const CodeBook&);
/// A voltage to ground beyond the table is a fault of the caller: throws.
WorkingSpaceTerms need_working_space(const Desk&, const WorkingSpaceInput&);
/// What is free against what is needed; nothing is said of what is not given.
RuleVerdicts judge_free_space(const Desk&, const WorkingSpaceTerms& needed,
                              const WorkingSpaceInput&);
/// Both in one.
WorkingSpaceResult judge_working_space(const Desk&, const WorkingSpaceInput&);

/// How far other electrical equipment may reach beyond the front of the equipment.
Feet allowed_projection(const CodeBook&);
/// Other electrical equipment above or below, which reaches `beyond` the front of the equipment.
RuleVerdict check_projection(const Desk&, const std::string& other, Feet beyond);
/// Another object that stands in the working space, or that stands clear of it.
RuleVerdict check_clear(const Desk&, const std::string& other, bool inside);

enum class HandleKind { switch_handle, breaker_handle };
Citation reach_section(const CodeBook&, HandleKind);
/// Of a grip above floor or grade; the same for both kinds of handle.
Feet highest_grip(const CodeBook&);
/// The grip of the handle in its highest position, above floor or grade.
RuleVerdict check_reach(const Desk&, HandleKind, Feet height);

} // namespace ohmfolio
