/// Terms that several steps share: what a nameplate or the drafter states, and what an earlier step
/// has found out about a bus.
#pragma once

#include "study/paragraphs.h"
#include "study/work.h"

namespace ohmfolio::workings {

/// Continuous output current of a microinverter or a battery unit, from its nameplate.
Term<Amps> output_current(Work&, const Record&);
/// Microinverters of a branch, as stated.
Term<Ratio> modules_on(Work&, const Equipment&, const BranchArray&);
/// The breaker's rating as the drafter stated it.
Term<Amps> stated_rating(Work&, const Breaker&);
/// The breaker's rating as rated, under its own tag: told apart from others where several meet.
/// Nothing where no rating fits.
std::optional<Term<Amps>> rating_of(const Work&, int breaker);
/// Rating of the busbar of a combiner, an interconnect device or a panel.
std::optional<Term<Amps>> bus_rating(Work&, const Equipment&);
/// Largest breaker of the backup output of an inverter.
Term<Amps> backup_breaker_limit(Work&, const Record& inverter);
/// The overcurrent device between the bus of `equipment` and the utility: its main breaker, else
/// the breaker that protects the circuit it feeds, else the rating of the service.
Term<Amps> main_of(Work&, int equipment);
/// The device ahead of what `equipment` feeds without a breaker of its own: its main; of a transfer
/// switch the larger of those of its two sides, since power comes through either.
Term<Amps> device_ahead(Work&, int equipment);
/// What the conductors of a sized circuit carry in use: the lesser of its two ampacities.
Term<Amps> conductor_ampacity(const Work&, int circuit);
/// Rating of the service, as the drafter stated it.
Term<Amps> service_rating(Work&);
/// Output currents of all sources that arrive at the bus of `equipment`, added up.
std::optional<Term<Amps>> sources_on(Work&, int equipment);
/// The same times 125 %.
std::optional<Term<Amps>> sources_on_125(Work&, int equipment);

} // namespace ohmfolio::workings
