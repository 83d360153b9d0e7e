#include <array>

#include "input/key_tables.h"

namespace ohmfolio {
namespace {

/// In the order of DocumentKind.
constexpr std::array<std::string_view, 7> kinds = {
    "cut sheet",  "listing", "structural letter", "utility approval", "manual",
    "photograph", "other"};

constexpr Key appendix_keys[] = {
    {.name = "title",
     .required = true,
     .meaning = "What it is, as in the title block and the sheet index",
     .example = "\"Structural letter\""},
    {.name = "file",
     .required = true,
     .meaning = "A PDF, relative to the description",
     .example = "\"letters/roof.pdf\""},
    {.name = "kind",
     .kind = Kind::choice,
     .fallback = "\"other\"",
     .meaning = "Kind of document",
     .example = "\"structural letter\"",
     .words = kinds},
    {.name = "pages",
     .meaning = "Pages to append, one or a range; none: all",
     .example = "\"1-3\""},
    {.name = "for",
     .many = true,
     .meaning = "Equipment whose row of the schedule leads to it",
     .example = "[\"ES-1\"]"},
};

} // namespace

const Shape appendix_shape = {"appendix", appendix_keys, {}};

} // namespace ohmfolio
