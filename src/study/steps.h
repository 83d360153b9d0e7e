/// The steps of a study, each in a file named after its subject. make_study() in study.cpp lists
/// them in order; a new rule is a new line there, or a function called by one of these.
#pragma once

#include "study/work.h"

namespace ohmfolio::workings {

// climate_and_match.cpp
void state_climate(Work&);
void match_modules(Work&);
// strings.cpp
void check_strings(Work&);
void check_inverters(Work&);
// currents.cpp
void derive_currents(Work&);
// branches.cpp
void limit_branches(Work&);
// breakers.cpp
void rate_breakers(Work&);
// feeders.cpp
void derive_feeder_loads(Work&);
// combiners.cpp
void check_combiners(Work&);
// storage.cpp
void check_storage(Work&);
// dc_storage.cpp
void check_dc_storage(Work&);
// interconnect_devices.cpp
void check_interconnect_devices(Work&);
// fitted_breakers.cpp
void check_fitted_breakers(Work&);
// panels.cpp
void check_panels(Work&);
// circuits.cpp
void size_conductors(Work&);
// equipment_grounds.cpp
void size_equipment_grounds(Work&);
// runs.cpp
void size_raceways(Work&);
// voltage.cpp
void derive_voltage_changes(Work&);
// connection.cpp
void check_points_of_connection(Work&);
// ratings.cpp
void check_disconnects(Work&);
void check_meters(Work&);
// supply_side.cpp
void check_supply_connections(Work&);
// power_control.cpp
void check_power_controls(Work&);
// fault_currents.cpp
void check_interrupting_ratings(Work&);
// disconnecting_means.cpp
void check_shutdown_initiator(Work&);
void check_storage_disconnects(Work&);
// grounding.cpp
void size_grounding_electrode_conductor(Work&);
// loads.cpp
void calculate_loads(Work&);
// standby.cpp
void check_standby(Work&);
// generators.cpp
void check_generators(Work&);
// storage_siting.cpp
void check_storage_siting(Work&);
// roof_access.cpp
void check_roof_access(Work&);
// working_space.cpp
void check_working_spaces(Work&);
// accessories.cpp
void check_accessories(Work&);
// clipping.cpp
void estimate_clipping(Work&);
// phases.cpp
void check_phase_balance(Work&);
// ground_fault.cpp
void check_service_ground_fault(Work&);
// existing.cpp
void spare_existing_wiring(Work&);
// totals.cpp
void add_totals(Work&);
// groups.cpp
void collect_steps(Work&);
void group_calculations(Work&);

} // namespace ohmfolio::workings
