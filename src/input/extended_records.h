/// Records that take what they do not state from another: `extends = "wickhollow-b10"`.
#pragma once

#include <vector>

#include "base/finding.h"
#include "toml/toml.h"

namespace ohmfolio {

/// The trees of catalogue files, with every record laid over the one of its kind that it extends,
/// in whichever of the files that is. One that is not there or that leads back to itself is a
/// finding, and the record that names it is left out, which spares a finding for each of its keys;
/// where `complete` is false a file could not be read, and what is missing is not complained of.
std::vector<toml_text::Node> extended_records(const std::vector<toml_text::Node>& catalogues,
                                              bool complete, Findings& findings);

} // namespace ohmfolio
