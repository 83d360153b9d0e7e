#include "study/study.h"

#include <algorithm>
#include <array>
#include <stdexcept>

#include "study/calculation.h"
#include "study/steps.h"
#include "study/waivers.h"

namespace ohmfolio {

namespace workings {

namespace {

/// The calculation, in order. Each step sees what those before it have written.
constexpr std::array steps = {
    state_climate,
    match_modules,
    derive_currents,
    check_strings,
    limit_branches,
    rate_breakers,
    check_inverters,
    check_combiners,
    check_storage,
    check_dc_storage,
    check_interconnect_devices,
    check_fitted_breakers,
    check_panels,
    check_service_devices,
    derive_feeder_loads,
    size_conductors,
    warn_of_unknown_heights,
    size_equipment_grounds,
    size_raceways,
    derive_voltage_changes,
    check_points_of_connection,
    check_supply_connections,
    check_power_controls,
    check_phase_balance,
    check_service_ground_fault,
    check_surge_protection,
    check_disconnects,
    check_meters,
    check_interrupting_ratings,
    check_shutdown_initiator,
    check_storage_disconnects,
    size_grounding_electrode_conductor,
    calculate_loads,
    advise_on_uncalculated_loads,
    check_standby,
    check_generators,
    check_storage_siting,
    check_roof_access,
    check_working_spaces,
    check_accessories,
};

/// What follows from it for the reader.
constexpr std::array closing_steps = {
    estimate_clipping, warn_of_unstated_sizes, spare_existing_wiring,
    add_totals,        collect_steps,          group_calculations,
};

} // namespace

Study find_violations(const System& system, const CodeBook& book) {
    Study study;
    Work work(system, book, study);
    std::ranges::for_each(steps, [&](auto step) { step(work); });
    return study;
}

Study calculate(const System& system, const CodeBook& book) {
    Study study;
    Work work(system, book, study);
    std::ranges::for_each(steps, [&](auto step) { step(work); });
    std::ranges::for_each(closing_steps, [&](auto step) { step(work); });
    return study;
}

} // namespace workings

Study make_study(const System& system, const CodeBook& book) {
    Study study = workings::calculate(system, book);
    workings::apply_waivers(system, study);
    workings::find_remedies(system, book, study);
    return study;
}

const Derivation& Study::derivation(const std::string& id) const {
    const Derivation* found = worksheet.find(id);
    if (found == nullptr)
        throw std::logic_error("no derivation " + id);
    return *found;
}

} // namespace ohmfolio
