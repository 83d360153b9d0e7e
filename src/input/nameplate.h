/// Does a nameplate agree with itself? A slip in a catalogue would spoil every job that uses it.
#pragma once

#include "base/finding.h"
#include "input/form.h"
#include "model/catalogue.h"

namespace ohmfolio {

/// `form` is the table that the record was read from, and has no faults.
void check_nameplate(const Record& record, const Form& form, Findings& findings);

} // namespace ohmfolio
