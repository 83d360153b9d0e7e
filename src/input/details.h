/// What a job says of each kind of equipment, beyond what all kinds have in common. A kind whose
/// details need no words of their own has no reader here.
#pragma once

#include "input/declared.h"

namespace ohmfolio {

struct Reading {
    const Form& description; ///< the whole, for what [modules] says of all branches
    Shelf shelf;
    Findings& findings;
};
using DetailReader = Detail (*)(const Form&, Reading&);

Detail read_branch(const Form&, Reading&);
Detail read_string(const Form&, Reading&);
Detail read_disconnect(const Form&, Reading&);
Detail read_mid(const Form&, Reading&);
Detail read_battery(const Form&, Reading&);
Detail read_panel(const Form&, Reading&);
Detail read_generator(const Form&, Reading&);
Detail read_supply_connection(const Form&, Reading&);
template <class Kind> Detail read_plain(const Form&, Reading&) { return Kind{}; }

} // namespace ohmfolio
