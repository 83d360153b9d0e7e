/// The rows of the revision block, and the comments of a plan check with their answers.
#pragma once

#include "base/finding.h"
#include "input/form.h"
#include "model/system.h"

namespace ohmfolio {

/// Rows stand oldest first and each has a number of its own. A comment without an answer is a
/// violation ("comment.response"): a set that leaves one out is sent back.
void read_revisions(const Form& description, System& system, Findings& findings);

} // namespace ohmfolio
