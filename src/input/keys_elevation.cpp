// Walls and what hangs on them.
#include "input/common_keys.h"

namespace ohmfolio {
namespace {

constexpr std::array<std::string_view, 3> opposite_words = {"nothing", "grounded", "live"};
constexpr std::array<std::string_view, 2> opens_words = {"elsewhere", "dwelling"};
constexpr std::array<std::string_view, 2> datum_words = {"grade", "floor"};

constexpr Key length_of(std::string_view name, std::string_view meaning, std::string_view example) {
    return {.name = name, .kind = Kind::distance, .meaning = meaning, .example = example};
}
constexpr Key needed(Key key) {
    key.required = true;
    return key;
}

constexpr Key placement_keys[] = {
    length_of("left", "From the left end of the wall to its left edge", "\"2 ft\""),
    {.name = "right_of",
     .kind = Kind::equipment,
     .meaning = "Equipment of the same wall, stated before, that it stands right of",
     .example = "\"UM-1\""},
    length_of("gap", "Clear distance from that; none: they touch", "\"6 in\""),
    length_of("bottom", "Height of its lower edge above grade or floor", "\"3 ft\""),
    length_of("center", "Height of its middle above grade or floor", "\"5 ft\""),
    length_of("top", "Height of its upper edge above grade or floor", "\"66 in\""),
    length_of("handle", "Height of the grip of its highest handle in its highest position",
              "\"60 in\""),
};
constexpr Shape placement = {"placement", placement_keys, {}};

constexpr Key object_keys[] = {
    needed(length_of("left", "From the left end of the wall to its left edge", "\"12 ft\"")),
    length_of("bottom", "Height of its lower edge; none: on the ground", "\"3 ft\""),
    needed(length_of("width", "Its width", "\"3 ft\"")),
    needed(length_of("height", "Its height", "\"80 in\"")),
    length_of("depth", "How far it stands out from the wall; none: flush", "\"6 in\""),
    {.name = "opens",
     .kind = Kind::choice,
     .fallback = "\"elsewhere\"",
     .meaning = "What a door or a window enters: storage keeps its distance from openings of the "
                "dwelling",
     .example = "\"dwelling\"",
     .words = opens_words},
};
constexpr Shape object = {"object on a wall", object_keys, {}};

constexpr Key wall_keys[] = {
    needed(length_of("length", "Length of what is drawn of it", "\"24 ft\"")),
    needed(length_of("height", "Height of what is drawn of it", "\"9 ft\"")),
    {.name = "from",
     .kind = Kind::plan_point,
     .meaning = "Its left end on the site plan, as seen by who faces it",
     .example = "\"0 ft, 28 ft\""},
    {.name = "to",
     .kind = Kind::plan_point,
     .meaning = "Its right end on the site plan",
     .example = "\"0 ft, 5 ft\""},
    length_of("free_depth", "Free in front of it, to what is opposite", "\"8 ft\""),
    {.name = "opposite",
     .kind = Kind::choice,
     .fallback = "\"nothing\"",
     .meaning = "What is across the working space: neither live nor grounded parts, grounded "
                "parts (concrete, brick, tile), other live parts",
     .example = "\"grounded\"",
     .words = opposite_words},
    {.name = "stands_on",
     .kind = Kind::choice,
     .fallback = "\"grade\"",
     .meaning = "What heights run from",
     .example = "\"floor\"",
     .words = datum_words},
    length_of("ceiling", "Height of the ceiling; none: open to the sky, or not stated", "\"8 ft\""),
    {.name = "equipment",
     .kind = Kind::tables_by_id,
     .required = true,
     .meaning = "What hangs on it, by id",
     .example = "{ UM-1 = { left = \"2 ft\", top = \"66 in\" } }",
     .shape = &placement},
    {.name = "object",
     .kind = Kind::tables_by_id,
     .meaning = "Doors, windows, a gas meter and the like, by what they are called",
     .example = "{ Door = { left = \"12 ft\", width = \"3 ft\", height = \"80 in\" } }",
     .shape = &object},
};

} // namespace

const Shape wall_shape = {"wall", wall_keys, {}};

} // namespace ohmfolio
