/// One tree over another: how formats join their base, and jobs what the house states for all.
#pragma once

#include "toml/toml.h"

namespace ohmfolio::toml_text {

/// Tables key by key; anything else of `over` takes the place of what `under` has. Every value
/// keeps the place where it was written.
Node laid_over(const Node& under, const Node& over);

} // namespace ohmfolio::toml_text
