/// What a job says of the material list.
#pragma once

#include "input/form.h"
#include "model/material.h"

namespace ohmfolio {

MaterialStatement read_material(const Form& form);

} // namespace ohmfolio
