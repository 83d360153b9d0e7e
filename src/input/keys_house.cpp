/// The keys of house.toml. What it may state for every job is a choice of the keys of a
/// description; no such key is demanded of the house.
#include "input/keys.h"

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

constexpr Key default_project_keys[] = {
    {.name = "jurisdiction",
     .meaning = "Authority having jurisdiction",
     .example = "\"Vance County Building Department\""},
    {.name = "utility", .meaning = "Serving utility", .example = "\"Tolliver Bend Light & Water\""},
    {.name = "occupancy",
     .meaning = "Occupancy of the building",
     .example = "\"One-family dwelling, R-3\""},
    {.name = "drawn_by", .meaning = "Who draws the sets", .example = "\"J. Marsh\""},
    {.name = "checked_by", .meaning = "Who checks the sets", .example = "\"P. Quill\""},
    {.name = "adoption",
     .meaning = "How the electrical code came into force here, with local amendments",
     .example = "\"as adopted by Vance County Code, chapter 15.04\""},
    {.name = "other_codes",
     .many = true,
     .meaning = "Other codes in force, as adopted locally",
     .example = "[\"2021 International Residential Code\"]"},
};
constexpr Shape default_project = {"project", default_project_keys, {}};

constexpr Key default_site_keys[] = {
    {.name = "coldest",
     .kind = Kind::temperature,
     .meaning = "Extreme annual mean minimum, for the open-circuit voltage",
     .example = "\"-9 C\""},
    {.name = "hottest",
     .kind = Kind::temperature,
     .meaning = "2 % design dry bulb, for conductors",
     .example = "\"37 C\""},
    {.name = "climate_source",
     .meaning = "Where the temperatures come from",
     .example = "\"ASHRAE\""},
    {.name = "wind", .meaning = "Design wind", .example = "\"110 mph, exposure C\""},
    {.name = "snow", .meaning = "Ground snow load", .example = "\"25 psf\""},
    {.name = "seismic", .meaning = "Seismic design category", .example = "\"C\""},
    {.name = "latitude",
     .kind = Kind::angle,
     .meaning = "North positive; for the estimate of clipped energy",
     .example = "\"38.5 deg\""},
};
constexpr Shape default_site = {"site", default_site_keys, {}};

constexpr Key default_keys[] = {
    {.name = "code",
     .kind = Kind::edition,
     .meaning = "Edition of the National Electrical Code in force",
     .example = "\"NEC 2023\""},
    {.name = "sheet",
     .meaning = "Format of the sheets: a file of layouts/ that states a paper",
     .example = "\"ansi-d\""},
    {.name = "project",
     .kind = Kind::table,
     .meaning = "What most jobs have in common",
     .example = "",
     .shape = &default_project},
    {.name = "site",
     .kind = Kind::table,
     .meaning = "The climate of most jobs",
     .example = "",
     .shape = &default_site},
};
constexpr Shape defaults = {"defaults", default_keys, {}};

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

constexpr Key table(std::string_view name, std::string_view meaning, const Shape& shape) {
    return {.name = name, .kind = Kind::table, .meaning = meaning, .example = "", .shape = &shape};
}

constexpr Key house_keys[] = {
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
    table("defaults", "What holds for a job that does not state it", defaults),
};
constexpr Shape house = {"house", house_keys, {}};

} // namespace

const Shape& house_shape() { return house; }

} // namespace ohmfolio
