/// A roof of any number of microinverters, for measuring how the work grows.
#pragma once

#include <string>

namespace ohmfolio::drawn {

/// The text of a job over random_catalogue(): branches of up to 12, up to 12 branches in a
/// combiner, up to 6 combiners in a panel, the panels in a main panel.
std::string roof_job(int inverters);

} // namespace ohmfolio::drawn
