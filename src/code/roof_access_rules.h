/// Access to roofs with modules for the fire service (IRC R324.6, R329.6 since 2024; IFC 1204,
/// 1205), by the code and year that the jurisdiction adopted. Facts are in tables/roof_access.toml.
///
/// Areas are measured in plan, lengths on the roof. The share that modules cover decides how far
/// they stay away from the ridge; pathways lead from the lowest edge to the ridge.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

struct RoofPlaneInput {
    std::string name;           ///< "SOUTH ROOF"
    double rise = 0;            ///< for a run of 12
    SquareFeet area{}, array{}; ///< in plan; `array` zero: it has no modules
    std::optional<Feet> to_ridge =
        {};                           ///< from its nearest module; nothing: no modules, or no ridge
    std::optional<Feet> pathway = {}; ///< free of modules from lowest edge to ridge
    std::vector<std::string> obstructed_by = {}; ///< raceways and equipment in it: "R1"
    std::vector<std::string> adjacent = {};      ///< names of the planes that adjoin it
    bool from_street = false;                    ///< reached from the street or the driveway
};

struct RoofAccessInput {
    std::string code; ///< "IRC 2021"; see `roof_access_codes`
    bool sprinklers = false;
    std::vector<RoofPlaneInput> planes = {};
};

/// A plane with modules that is steep enough.
struct PlaneAccess {
    std::string name;
    RuleVerdicts verdicts;  ///< ridge, pathway
    std::string pathway_on; ///< the plane that gives its pathway; empty: none does
};

struct RoofAccessResult {
    std::vector<PlaneAccess> planes;
    RuleVerdicts roof; ///< how many pathways there are, one from the street, what lies in them
    std::vector<std::string> pathways = {}; ///< names of the planes whose pathways count
    bool exempt = false;                    ///< no plane with modules is steep enough
    double coverage = 0;                    ///< of the roof in plan
    Feet ridge{};                           ///< setback that holds
};

/// Lines: roof_area, array_area, coverage, ridge_setback, pathway_needed, pathways, street,
/// obstructions, and of each plane NAME, its blanks underscores: NAME_ridge, NAME_pathway, or
/// NAME_slope where it is exempt. An unknown code is a fault of the caller: throws.
RoofAccessResult judge_roof_access(const Desk&, const RoofAccessInput&);

/// How wide a pathway is.
Feet roof_pathway_width(const std::string& code);

/// The roof of another building than a dwelling.
struct RoofPerimeterInput {
    std::string code;     ///< one of `roof_perimeter_codes`
    Feet shorter_axis{};  ///< of the roof
    Feet to_edge{};       ///< from the nearest module
    Feet longest_array{}; ///< arrays less than `roof_arrays_parted` from one another are one
};
/// Lines: perimeter, array.
RuleVerdicts judge_roof_perimeter(const Desk&, const RoofPerimeterInput&);
Feet roof_arrays_parted(const std::string& code);

/// The codes that the table knows for dwellings, and for other buildings.
std::vector<std::string> roof_access_codes();
std::vector<std::string> roof_perimeter_codes();

} // namespace ohmfolio
