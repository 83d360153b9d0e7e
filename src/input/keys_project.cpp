#include "input/key_tables.h"

#include <array>

namespace ohmfolio {
namespace {

using Words = std::array<std::string_view, 1>;
constexpr Words module_records = {"module"};
constexpr Words microinverter_records = {"microinverter"};

constexpr Key revision_keys[] = {
    {.name = "mark",
     .required = true,
     .meaning = "Letter or number in the delta",
     .example = "\"0\""},
    {.name = "date",
     .kind = Kind::date,
     .required = true,
     .meaning = "Date of the issue",
     .example = "\"2026-03-02\""},
    {.name = "by", .required = true, .meaning = "Initials", .example = "\"JM\""},
    {.name = "description",
     .required = true,
     .meaning = "What the issue is for",
     .example = "\"Issued for permit\""},
};
constexpr Shape revision = {"revision", revision_keys, {}};

constexpr Key project_keys[] = {
    {.name = "name",
     .required = true,
     .meaning = "Name of the project, as in the title block",
     .example = "\"Ashgrove residence\""},
    {.name = "owner", .meaning = "Owner of the property", .example = "\"A. Ashgrove\""},
    {.name = "address",
     .required = true,
     .meaning = "Address of the site",
     .example = "\"27 Sorrel Lane, Tolliver Bend\""},
    {.name = "parcel", .meaning = "Parcel number", .example = "\"041-227-09\""},
    {.name = "jurisdiction",
     .required = true,
     .meaning = "Authority having jurisdiction",
     .example = "\"Vance County Building Department\""},
    {.name = "utility",
     .required = true,
     .meaning = "Serving utility",
     .example = "\"Tolliver Bend Light & Water\""},
    {.name = "occupancy",
     .meaning = "Occupancy of the building",
     .example = "\"One-family dwelling, R-3\""},
    {.name = "scope",
     .required = true,
     .meaning = "Scope of the work",
     .example = "\"Roof-mounted PV with storage\""},
    {.name = "date",
     .kind = Kind::date,
     .required = true,
     .meaning = "Date of the set",
     .example = "\"2026-03-02\""},
    {.name = "number", .meaning = "Job number", .example = "\"26-014\""},
    {.name = "designer",
     .meaning = "Designer or contractor",
     .example = "\"Larkmoor Solar Works\""},
    {.name = "designer_address",
     .meaning = "Address of the designer",
     .example = "\"8 Kiln Yard, Tolliver Bend\""},
    {.name = "licence", .meaning = "License of the contractor", .example = "\"C-10 004417\""},
    {.name = "drawn_by", .meaning = "Who drew the set", .example = "\"J. Marsh\""},
    {.name = "checked_by", .meaning = "Who checked the set", .example = "\"P. Quill\""},
    {.name = "other_codes",
     .many = true,
     .meaning = "Other codes in force, as adopted locally",
     .example = "[\"2021 International Residential Code\"]"},
    {.name = "revision",
     .kind = Kind::table_list,
     .meaning = "Rows of the revision block, oldest first",
     .example = "[{ mark = \"0\", date = \"2026-03-02\", by = \"JM\", description = \"Issued\" }]",
     .shape = &revision},
};
constexpr Key transformer_keys[] = {
    {.name = "power",
     .kind = Kind::power,
     .required = true,
     .meaning = "Rating of the utility's transformer",
     .example = "\"50 kVA\""},
    {.name = "impedance",
     .kind = Kind::percent,
     .required = true,
     .meaning = "Its impedance",
     .example = "\"1.8 %\""},
    {.name = "length",
     .kind = Kind::length,
     .required = true,
     .meaning = "The utility's conductors, one way, to the service",
     .example = "\"70 ft\""},
    {.name = "size",
     .kind = Kind::wire_size,
     .required = true,
     .meaning = "Size of those conductors",
     .example = "\"4/0 AWG\""},
    {.name = "sets",
     .kind = Kind::count,
     .fallback = "1",
     .meaning = "Sets of those conductors in parallel",
     .example = "4"},
    {.name = "material",
     .kind = Kind::material,
     .fallback = "\"aluminum\"",
     .meaning = "Metal of those conductors",
     .example = "\"aluminum\""},
};
constexpr Shape transformer = {"transformer", transformer_keys, {}};

constexpr Key site_keys[] = {
    {.name = "coldest",
     .kind = Kind::temperature,
     .required = true,
     .meaning = "Extreme annual mean minimum, for the open-circuit voltage",
     .example = "\"-9 C\""},
    {.name = "hottest",
     .kind = Kind::temperature,
     .required = true,
     .meaning = "2 % design dry bulb, for conductors",
     .example = "\"37 C\""},
    {.name = "climate_source",
     .meaning = "Where the temperatures come from",
     .example = "\"ASHRAE\""},
    {.name = "service",
     .kind = Kind::service,
     .required = true,
     .meaning = "Voltage, phases and rating of the service",
     .example = "\"120/240 V, 200 A\""},
    {.name = "fault_current",
     .kind = Kind::current,
     .meaning = "Fault current available at the service, as the utility states it",
     .example = "\"9.2 kA\""},
    {.name = "transformer",
     .kind = Kind::table,
     .meaning = "The utility's transformer, where the fault current is not stated",
     .example =
         "{ power = \"50 kVA\", impedance = \"1.8 %\", length = \"70 ft\", size = \"4/0 AWG\" }",
     .shape = &transformer},
    {.name = "unbalance_limit",
     .kind = Kind::current,
     .meaning = "Most that single-phase sources may load one line of three more than another, as "
                "the utility states it",
     .example = "\"20 A\""},
    {.name = "latitude",
     .kind = Kind::angle,
     .meaning = "North positive; for the estimate of clipped energy",
     .example = "\"38.5 deg\""},
};
constexpr Key modules_keys[] = {
    {.name = "module",
     .kind = Kind::record,
     .meaning = "Module of every branch that names none",
     .example = "\"solvane-405\"",
     .words = module_records},
    {.name = "microinverter",
     .kind = Kind::record,
     .meaning = "Microinverter of every branch that names none",
     .example = "\"wickhollow-340\"",
     .words = microinverter_records},
};
constexpr Key limits_keys[] = {
    {.name = "dc_ac_ratio",
     .kind = Kind::number,
     .meaning = "Largest DC/AC ratio before advice; none: the microinverter's own",
     .example = "1.25"},
    {.name = "voltage_change",
     .kind = Kind::percent,
     .fallback = "\"2 %\"",
     .meaning = "Largest voltage change between the PV and the point of connection",
     .example = "\"2 %\""},
};
constexpr Key waiver_keys[] = {
    {.name = "rule",
     .required = true,
     .meaning = "Id of the rule that is waived",
     .example = "\"module.ratio\""},
    {.name = "subject",
     .required = true,
     .meaning = "What the finding is about",
     .example = "\"equipment:PV-1\""},
    {.name = "reason",
     .required = true,
     .meaning = "Why, as printed on the sheet",
     .example = "\"Clipping accepted by the owner\""},
    {.name = "by",
     .required = true,
     .meaning = "Who ruled so: the authority having jurisdiction, the engineer of record",
     .example = "\"Vance County, plan review\""},
};

} // namespace

const Shape project_shape = {"project", project_keys, {}};
const Shape site_shape = {"site", site_keys, {}};
const Shape modules_shape = {"modules", modules_keys, {}};
const Shape limits_shape = {"limits", limits_keys, {}};
const Shape waiver_shape = {"waiver", waiver_keys, {}};

} // namespace ohmfolio
