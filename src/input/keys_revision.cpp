#include "input/key_tables.h"

namespace ohmfolio {
namespace {

constexpr Key revision_keys[] = {
    {.name = "number",
     .required = true,
     .meaning = "Number or letter in the delta",
     .example = "\"1\""},
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

constexpr Key comment_keys[] = {
    {.name = "number",
     .required = true,
     .meaning = "Number of the comment, as the authority counts",
     .example = "\"4\""},
    {.name = "text",
     .required = true,
     .meaning = "The comment as it was received",
     .example = "\"Provide the rating of the main breaker.\""},
    {.name = "sheet",
     .meaning = "Sheet of the earlier set that the comment names",
     .example = "\"E-601\""},
    {.name = "zone", .meaning = "Zone of that sheet", .example = "\"B4\""},
    {.name = "reviewer",
     .meaning = "Who wrote the comment",
     .example = "\"Electrical plan review\""},
    {.name = "response",
     .meaning = "The answer, in a sentence",
     .example = "\"The main breaker is now 175 A.\""},
    {.name = "concerns",
     .many = true,
     .meaning = "Tags, ids or sheets that were changed for it",
     .example = "[\"MSP\", \"C3\"]"},
    {.name = "see",
     .many = true,
     .meaning = "Tags, ids or sheets that show the answer without a change",
     .example = "[\"E-602\"]"},
    {.name = "revision",
     .meaning = "Number of the revision that answers it; none: the latest",
     .example = "\"1\""},
};

} // namespace

const Shape revision_shape = {"revision", revision_keys, {}};
const Shape comment_shape = {"comment", comment_keys, {}};

} // namespace ohmfolio
