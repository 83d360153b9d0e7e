/// The binder, loaded when first asked for: commands that touch no PDF start without it.
#pragma once

#include "binder/binder.h"

namespace ohmfolio {

/// Throws std::runtime_error when the module is missing.
const Binder& binder();

} // namespace ohmfolio
