/// What is to be appended to the set: the cut sheets of records in use, and what the job lists.
#pragma once

#include "base/finding.h"
#include "base/source.h"
#include "input/form.h"
#include "model/system.h"

namespace ohmfolio {

/// Fills System::appendix, each document once, and reads the bytes of the files into `sources`.
/// A name that leaves the folder of the file it stands in, a file that cannot be read and an
/// unknown piece of equipment are findings. Without `sources` the files are left unread.
void read_appendix(const Form& description, System& system, SourceFiles* sources,
                   Findings& findings);

} // namespace ohmfolio
