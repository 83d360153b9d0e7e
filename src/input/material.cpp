#include "input/material.h"

namespace ohmfolio {

MaterialStatement read_material(const Form& form) {
    MaterialStatement material;
    if (const auto waste = form.get<Fraction>("waste")) {
        material.waste = {waste->value.value, waste->span};
    }
    material.electrode_conductor = form.get<Feet>("electrode_conductor");
    material.spare_drops = form.value<int>("spare_drops");
    if (const Form* spares = form.form("spares")) {
        for (const Key* key : spares->shape->keys()) {
            if (const auto count = spares->get<int>(key->name)) {
                material.spares.emplace(key->name, count->value);
            }
        }
    }
    return material;
}

} // namespace ohmfolio
