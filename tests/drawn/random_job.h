/// Systems made at random: from a number the text of a job, always the same one. The equipment
/// hangs together as input/ asks; what the code says of it is left to chance, so that most can be
/// drawn only as a draft.
#pragma once

#include <string>

namespace ohmfolio::drawn {

/// A small house or a large roof, by `number`: from a handful of pieces to some hundred. Names the
/// catalogues of random_catalogue(), "catalogue.toml" and "larger.toml".
std::string random_job(unsigned number);

/// The equipment that such jobs choose from: the demonstration's catalogue and larger pieces.
std::string random_catalogue();

} // namespace ohmfolio::drawn
