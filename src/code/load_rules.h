/// Calculated loads and the service that carries them (Article 220, 230.79).
///
/// Loads are volt-amperes; watts on a nameplate count as volt-amperes. A method ends in a
/// `LoadResult`. This header has what all methods share, the load by record (220.87) and loads
/// under management (220.70, 750.30).
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "code/desk.h"

namespace ohmfolio {

/// A load as it stands on a nameplate: "S_water.heater", 4.5 kVA.
Term<Watts> nameplate_load(std::string_view name, Watts);

struct ServiceInput {
    Volts voltage{240};                    ///< between lines
    bool three_phase = false;              ///< the load is balanced over three phases
    bool one_family = true;                ///< service of a one-family dwelling: 100 A at least
    std::optional<Term<Amps>> rating = {}; ///< of the service or feeder; nothing: not stated
};

struct LoadResult {
    bool applies = true; ///< false: the method may not be used, and only `reason` is filled
    Term<Watts> load;
    Term<Amps> amps;                       ///< whole amperes, 220.5(B)
    Term<Amps> least;                      ///< the service is rated for this at least
    std::optional<Amps> standard_rating{}; ///< smallest standard rating that reaches it
    bool passes = true;                    ///< of the stated rating
    std::string reason;
};

/// How the load of an existing service was recorded (220.87).
struct MeteredInput {
    Term<Watts> peak;     ///< highest demand, averaged over 15 minutes
    bool one_year = true; ///< the record spans a year; false: `days` of the highest-loaded phase
    int days = 0;
    bool season_adjusted =
        false; ///< building in use, heating or cooling and seasonal loads counted
    bool variable_source = false; ///< solar or wind feeds the service
    bool peak_shaving = false;    ///< of any form, storage included
    Term<Watts> added;            ///< loads to be added
};
/// 125 % of the highest demand and what is added, against the service. A short record must be of 30
/// days and is barred beside solar, wind and peak shaving.
LoadResult load_by_record(const Desk&, const MeteredInput&, const ServiceInput&);

/// Loads that an energy management system keeps from exceeding a current together.
struct ManagedInput {
    std::vector<Term<Watts>> loads;
    Term<Amps> setting;
    Volts voltage{240};
    bool vehicles_only = false; ///< all of them charge vehicles: 625.42, in every edition
};
struct ManagedLoad {
    bool applies = true; ///< false: the edition has no such rule, `load` is the sum
    Term<Watts> load;    ///< what counts in the load calculation
    Term<Amps> required; ///< 125 % of it as a current: it is continuous
    std::string reason;
};
/// The lesser of the sum and the setting. A setting never makes a load larger.
ManagedLoad managed_load(const Desk&, const ManagedInput&);

/// One line of a service whose lines are loaded unequally: the amperes of its loads and 25 % of its
/// largest motor. `line` is "A", "B" or "N"; there is at least one load.
Term<Amps> line_load(const Desk&, const std::string& line, const std::vector<Term<Amps>>& loads,
                     const Term<Amps>& largest_motor);

} // namespace ohmfolio
