// The parcel seen from above: buildings, roof planes, modules on them, where equipment stands.
#include "input/common_keys.h"

namespace ohmfolio {
namespace {

constexpr std::array<std::string_view, 2> orientation_words = {"portrait", "landscape"};
constexpr std::array<std::string_view, 4> way_words = {"on roof", "on wall", "in attic", "buried"};

constexpr Key distance(std::string_view name, std::string_view meaning, std::string_view example) {
    return {.name = name, .kind = Kind::distance, .meaning = meaning, .example = example};
}
constexpr Key point(std::string_view name, std::string_view meaning) {
    return {
        .name = name, .kind = Kind::plan_point, .meaning = meaning, .example = "\"12 ft, 30 ft\""};
}
constexpr Key points(std::string_view name, std::string_view meaning) {
    return {.name = name,
            .kind = Kind::plan_point,
            .many = true,
            .meaning = meaning,
            .example = R"(["0 ft, 0 ft", "44 ft, 0 ft", "44 ft, 28 ft", "0 ft, 28 ft"])"};
}
constexpr Key needed(Key key) {
    key.required = true;
    return key;
}

constexpr Key along_key =
    distance("left", "From the left end of the plane, seen from below, along its eave", "\"4 ft\"");
constexpr Key up_key = distance("up", "From its lowest edge up the slope", "\"3 ft\"");

constexpr Key field_keys[] = {
    {.name = "rows",
     .required = true,
     .many = true,
     .meaning = "Rows of modules from the ridge down, each from left to right: how many of which "
                "branch or string, and gaps as wide as modules",
     .example = R"(["8 PV-1", "1 gap, 7 PV-2"])"},
    {.name = "orientation",
     .kind = Kind::choice,
     .meaning = "How the modules lie; none: as their branch says, else portrait",
     .example = "\"portrait\"",
     .words = orientation_words},
    needed(along_key),
    needed(up_key),
    {.name = "gap",
     .kind = Kind::distance,
     .fallback = "\"0.75 in\"",
     .meaning = "Between modules",
     .example = "\"0.75 in\""},
};
constexpr Shape field = {"array", field_keys, {}};

constexpr Key roof_object_keys[] = {
    needed(along_key),
    needed(up_key),
    needed(distance("width", "Along the eave", "\"2 ft\"")),
    needed(distance("height", "Up the slope", "\"4 ft\"")),
};
constexpr Shape roof_object = {"object on a roof", roof_object_keys, {}};

constexpr Key roof_place_keys[] = {needed(along_key), needed(up_key)};
constexpr Shape roof_place = {"place on a roof", roof_place_keys, {}};

constexpr Key roof_keys[] = {
    {.name = "tilt",
     .kind = Kind::angle,
     .required = true,
     .meaning = "From level",
     .example = "\"23 deg\""},
    {.name = "azimuth",
     .kind = Kind::angle,
     .required = true,
     .meaning = "From north, clockwise; south is 180 deg",
     .example = "\"180 deg\""},
    points("corners", "Its corners in plan, in order; none: it is on no plan"),
    {.name = "from_street",
     .kind = Kind::flag,
     .fallback = "false",
     .meaning = "A ladder reaches its eave from the street or the driveway",
     .example = "true"},
    {.name = "array",
     .kind = Kind::table_list,
     .meaning = "Modules as they lie on it",
     .example = R"([{ rows = ["8 PV-1", "8 PV-2"], left = "4 ft", up = "2 ft" }])",
     .shape = &field},
    {.name = "object",
     .kind = Kind::tables_by_id,
     .meaning = "Vents, chimneys, skylights, by what they are called",
     .example = R"({ "Vent" = { left = "9 ft", up = "12 ft", width = "6 in", height = "6 in" } })",
     .shape = &roof_object},
    {.name = "equipment",
     .kind = Kind::tables_by_id,
     .meaning = "Equipment on it, by id",
     .example = "{ JB-1 = { left = \"3 ft\", up = \"8 ft\" } }",
     .shape = &roof_place},
};

constexpr Key area_keys[] = {needed(points("corners", "Its corners, in order"))};
constexpr Shape area = {"area of a plan", area_keys, {}};

constexpr Key street_keys[] = {
    needed(point("from", "One end of its edge")),
    needed(point("to", "The other end")),
};
constexpr Shape street = {"street", street_keys, {}};

constexpr Key place_keys[] = {needed(point("at", "Where it stands"))};
constexpr Shape place = {"place on a plan", place_keys, {}};

constexpr Key route_keys[] = {
    {.name = "via",
     .kind = Kind::plan_point,
     .many = true,
     .meaning = "Where it turns, between the equipment at its ends",
     .example = R"(["3 ft, 12 ft"])"},
    {.name = "way",
     .kind = Kind::choice,
     .required = true,
     .meaning = "Where it runs",
     .example = "\"on roof\"",
     .words = way_words},
    distance("depth", "Cover, where it is buried", "\"18 in\""),
};
constexpr Shape route = {"route", route_keys, {}};

constexpr Key site_plan_keys[] = {
    {.name = "north",
     .kind = Kind::angle,
     .fallback = "\"0 deg\"",
     .meaning = "Where north is, clockwise from the top of the sheet",
     .example = "\"15 deg\""},
    points("parcel", "Corners of the parcel, in order"),
    {.name = "building",
     .kind = Kind::tables_by_id,
     .meaning = "Buildings by their names: the outer walls",
     .example = "",
     .shape = &area},
    {.name = "area",
     .kind = Kind::tables_by_id,
     .meaning = "Driveways, patios and the like, by their names",
     .example = "",
     .shape = &area},
    {.name = "street",
     .kind = Kind::tables_by_id,
     .meaning = "Streets by their names: the edge toward the parcel",
     .example = "",
     .shape = &street},
    {.name = "equipment",
     .kind = Kind::tables_by_id,
     .meaning = "Equipment that is on no wall and no roof, by id",
     .example = "{ BLP = { at = \"12 ft, 30 ft\" } }",
     .shape = &place},
    {.name = "route",
     .kind = Kind::tables_by_id,
     .meaning = "Ways of raceways, by the id of the equipment that they start from",
     .example = R"({ JB-1 = { via = ["3 ft, 12 ft"], way = "on roof" } })",
     .shape = &route},
    {.name = "sprinklers",
     .kind = Kind::flag,
     .fallback = "false",
     .meaning = "The dwelling has automatic sprinklers throughout",
     .example = "true"},
};

} // namespace

const Shape roof_shape = {"roof", roof_keys, {}};
const Shape site_plan_shape = {"plan", site_plan_keys, {}};

} // namespace ohmfolio
