/// Catalogue files become records, and nameplates that contradict themselves are reported.
#pragma once

#include <string_view>

#include "base/finding.h"
#include "input/form.h"
#include "model/catalogue.h"

namespace ohmfolio {

/// Adds the records of one catalogue file. Keys must be unique over all kinds and files.
void read_records(const Form& form, Catalogue& catalogue, Findings& findings);

/// The table of the catalogue that a record comes from: "junction_box".
std::string_view record_kind(const Record& record);

} // namespace ohmfolio
