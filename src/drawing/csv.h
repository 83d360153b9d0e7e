/// Tables as comma-separated values (RFC 4180), for spreadsheets and for machines.
///
/// UTF-8 without a mark of byte order; every line ends with CR LF; a field is put in quotes where
/// it holds a comma, a quote or a line break. Words stand as written, not in the case of drawings
/// (titles and names of a job are kept in capitals by the model itself); a dash for "nothing"
/// becomes an empty field. Where the rows of a table stand under headings, the first column holds
/// the heading. A field that a spreadsheet would take for a formula (it begins with = + - @ or a
/// tab, and is no number) gets an apostrophe before it.
#pragma once

#include <string>

#include "drawing/table.h"

namespace ohmfolio {

std::string to_csv(const Table& table);

} // namespace ohmfolio
