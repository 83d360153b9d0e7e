/// Parts of the program that are loaded when first asked for, so that commands without them start
/// sooner.
#pragma once

#include "binder/binder.h"
#include "render/render.h"
#include "server/server.h"

namespace ohmfolio {

/// They throw std::runtime_error when the module is missing.
const Binder& binder();
const Renderer& renderer();
const ServerModule& server_module();

} // namespace ohmfolio
