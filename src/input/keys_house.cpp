/// The keys of house.toml. What it may state for every job is a choice of the keys of a
/// description; no such key is demanded of the house.
#include <initializer_list>
#include <iterator>
#include <vector>

#include "input/key_tables.h"

namespace ohmfolio {
namespace {

constexpr Key company_keys[] = {
    {.name = "name",
     .required = true,
     .meaning = "Designer or contractor, of a job that names none",
     .example = "\"Larkmoor Solar Works\""},
    {.name = "address",
     .many = true,
     .meaning = "Address, a text for each line",
     .example = "[\"8 Kiln Yard\", \"Tolliver Bend\"]"},
    {.name = "phone", .meaning = "Telephone number", .example = "\"555-0142\""},
    {.name = "web", .meaning = "Address on the web", .example = "\"larkmoor.example\""},
    {.name = "licence",
     .meaning = "License of the contractor, printed as given",
     .example = "\"C-10 004417\""},
};
constexpr Shape company = {"company", company_keys, {}};

/// Keys of a description that a house may state for all jobs; none is demanded of it.
std::vector<Key> chosen(const Shape& description, std::initializer_list<std::string_view> names) {
    std::vector<Key> keys;
    for (const std::string_view name : names) {
        keys.push_back(*description.find(name));
        keys.back().required = false;
        keys.back().fallback = {};
    }
    return keys;
}

constexpr Key table(std::string_view name, std::string_view meaning, const Shape& shape) {
    return {.name = name, .kind = Kind::table, .meaning = meaning, .example = "", .shape = &shape};
}

const Shape& default_project() {
    static const std::vector<Key> keys =
        chosen(project_shape, {"jurisdiction", "utility", "occupancy", "drawn_by", "checked_by",
                               "adoption", "other_codes"});
    static const Shape shape = {"project", keys, {}};
    return shape;
}

const Shape& default_site() {
    static const std::vector<Key> keys =
        chosen(site_shape,
               {"coldest", "hottest", "climate_source", "wind", "snow", "seismic", "latitude"});
    static const Shape shape = {"site", keys, {}};
    return shape;
}

const Shape& defaults() {
    static const std::vector<Key> keys = [] {
        std::vector<Key> all = chosen(description_shape(), {"code", "sheet"});
        all.push_back(table("project", "What most jobs have in common", default_project()));
        all.push_back(table("site", "The climate of most jobs", default_site()));
        return all;
    }();
    static const Shape shape = {"defaults", keys, {}};
    return shape;
}

constexpr Key note_keys[] = {
    {.name = "id",
     .meaning = "Id of a note of the program, in whose place this one stands",
     .example = "\"terminals\""},
    {.name = "text",
     .meaning = "Words, with facts in braces; none: the note of that id is left out",
     .example = "\"Call the office before opening the meter socket.\""},
    {.name = "caution",
     .kind = Kind::flag,
     .fallback = "false",
     .meaning = "Stands among the safety cautions",
     .example = "true"},
    {.name = "needs",
     .many = true,
     .meaning = "Conditions that all have to hold",
     .example = "[\"existing_equipment\"]"},
    {.name = "unless",
     .many = true,
     .meaning = "Conditions of which none may hold",
     .example = "[\"supply_side\"]"},
    {.name = "editions",
     .kind = Kind::edition,
     .many = true,
     .meaning = "Editions it is for; none: all",
     .example = "[\"NEC 2023\"]"},
};
constexpr Shape note = {"note", note_keys, {}};

constexpr Key sheet_keys[] = {
    {.name = "content",
     .required = true,
     .meaning = "What fills the sheets",
     .example = "\"schedules\""},
    {.name = "first",
     .meaning = "Number of the first: discipline, digit of the type, place in the series",
     .example = "\"E-701\""},
    {.name = "title", .meaning = "Title of the sheets", .example = "\"Schedules\""},
};
constexpr Shape sheet = {"numbering", sheet_keys, {}};

constexpr Key size(std::string_view name, std::string_view meaning) {
    return {.name = name, .kind = Kind::paper, .meaning = meaning, .example = "\"11 pt\""};
}
constexpr Key lettering_keys[] = {
    size("body", "Lettering of tables, notes and callouts"),
    size("strong", "The same, bold; none: as body"),
    size("heading", "Headings of blocks and tables"),
    size("title", "Title of the sheet"),
    size("banner", "Name of the project on the general sheet"),
    size("sheet_number", "Number in the corner of the sheet"),
    size("draft", "Mark of a draft"),
    size("zone", "Marks along the border"),
};
constexpr Shape lettering = {"lettering", lettering_keys, {}};

constexpr Key pen(std::string_view name, std::string_view meaning) {
    return {.name = name, .kind = Kind::paper, .meaning = meaning, .example = "\"0.35 mm\""};
}
constexpr Key pen_keys[] = {
    pen("outer", "Line around the border"), pen("border", "Border"),
    pen("zone", "Ticks between zones"),     pen("title_block", "Outlines of the title block"),
    pen("title_rule", "Rules within it"),   pen("table_frame", "Frames of tables"),
    pen("table_rule", "Rules of tables"),   pen("heading", "Line under a heading"),
};
constexpr Shape pens = {"pens", pen_keys, {}};

constexpr Key own_keys[] = {
    table("company", "The office in the title block", company),
    {.name = "logo",
     .meaning = "Logo, an SVG in the manner of symbols/ or a PNG, in the folder of the house file",
     .example = "\"logo.svg\""},
    {.name = "catalogue",
     .many = true,
     .meaning = "Catalogue files, and folders of them, in the folder of the house file",
     .example = "[\"catalogue.toml\", \"catalogues\"]"},
    {.name = "layouts",
     .meaning = "Folder whose sheet formats and callouts come before the program's",
     .example = "\"layouts\""},
    {.name = "symbols",
     .meaning = "Folder whose symbols take the place of the program's",
     .example = "\"symbols\""},
    table("lettering", "Sizes of lettering, in place of those of the format", lettering),
    table("pens", "Widths of lines, in place of those of the format", pens),
    {.name = "note",
     .kind = Kind::table_list,
     .meaning = "General notes of the office",
     .example = "",
     .shape = &note},
    {.name = "numbering",
     .kind = Kind::table_list,
     .meaning = "Order, numbers and titles of the sheets; what is not named follows",
     .example = "",
     .shape = &sheet},
};

} // namespace

const Shape& house_shape() {
    static const std::vector<Key> keys = [] {
        std::vector<Key> all(std::begin(own_keys), std::end(own_keys));
        all.push_back(table("defaults", "What holds for a job that does not state it", defaults()));
        return all;
    }();
    static const Shape shape = {"house", keys, {}};
    return shape;
}

} // namespace ohmfolio
