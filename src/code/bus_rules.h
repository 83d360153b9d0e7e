/// Sources on a busbar: each rule by which 705.12 lets them connect on the load side.
#pragma once

#include <string>
#include <vector>

#include "code/desk.h"

namespace ohmfolio {

struct BusInput {
    Term<Amps> bus;         ///< rating of the busbar
    Term<Amps> main;        ///< overcurrent device that protects the bus from the utility
    Term<Amps> sources_125; ///< 125 % of the output currents of all sources on it
    std::vector<Term<Amps>> breakers = {}; ///< all load and source breakers, main excluded
    bool opposite_end = false;             ///< false: not stated
    bool centre_fed = false;
    bool dwelling = true;
    bool loads_described = true; ///< false: `breakers` may lack those of the loads
};
struct BusOption {
    std::string rule;    ///< "Sum of main and sources"
    std::string rule_id; ///< "bus.sum"
    Citation cite;
    bool applies = true;
    bool passes = false;
    std::string reason;
    std::vector<std::string> steps = {};
};
/// Every load-side rule for busbars, tried in the order of the edition.
std::vector<BusOption> try_bus_rules(const Desk&, const BusInput&);

} // namespace ohmfolio
