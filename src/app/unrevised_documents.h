/// Other people's documents of a resubmittal that speak of the system as it was.
#pragma once

#include "app/drawn_job.h"

namespace ohmfolio {

/// Advice ("appendix.unrevised") on each appended letter that is as it was issued although what its
/// author relied on has changed: of a structural letter modules, wind and snow, of an approval by
/// the utility the modules. Both jobs have been studied; it joins the findings of `newer`.
void tell_of_unrevised_documents(const DrawnJob& older, DrawnJob& newer);

} // namespace ohmfolio
