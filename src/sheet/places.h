/// Where on a job something stands: the named lists of equipment that placards are fixed to, and
/// the directory of sources.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "model/system.h"
#include "study/study.h"

namespace ohmfolio::sheets {

enum class Source { neither, photovoltaic, storage, mixed };

/// A list of equipment that a placard may go on, by the name used in texts/placards.toml.
struct Place {
    std::string_view name;
    std::string_view meaning;
    std::vector<int> (*list)(const System&, const Study&);
    Source source = Source::neither; ///< that the equipment disconnects, where it is one alone
};
const std::vector<Place>& places();
const Place* find_place(std::string_view name);

std::vector<int> service_equipment(const System& system);
/// The disconnecting means of the photovoltaic system: the disconnect that all inverters lie
/// behind, or where there is none the equipment that holds the breaker.
std::vector<int> pv_disconnects(const System& system);
std::vector<int> storage_disconnects(const System& system);
/// The service disconnects of sources that join ahead of the main.
std::vector<int> source_service_disconnects(const System& system);
/// What disconnects each generator: the switch it feeds, else the device it holds.
std::vector<int> generator_disconnects(const System& system);
std::vector<int> generators(const System& system);
/// Inverters whose strings run to them as direct current.
std::vector<int> string_inverters(const System& system);
/// What is, or holds, a power control system, and the panels and devices whose bus it guards.
std::vector<int> power_control_places(const System& system);
std::vector<int> rapid_shutdown_switches(const System& system);
std::vector<int> batteries(const System& system);

/// What a disconnecting means cuts off of one source.
struct CutOff {
    std::vector<int> units;    ///< modules' branches and strings, or units of storage
    std::vector<int> circuits; ///< that bring their power to it
};
CutOff cut_off_by(const System& system, Source source, int disconnect);

/// One row of the directory of power sources.
struct SourceRow {
    std::string source, disconnect, location;
    std::vector<int> at = {};    ///< the equipment that disconnects it
    std::vector<int> units = {}; ///< of the source; none of utility and generators
};
inline constexpr std::string_view generator_source = "Standby generator";
std::vector<SourceRow> source_directory(const System& system);
/// Whether PV or storage lies at or beyond `equipment`, away from the utility.
bool brings_power(const System& system, int equipment);
/// Breakers, by index, through which power sources reach the bus of `panel`.
std::vector<int> source_breakers(const System& system, int panel);
/// Whether a generator runs beside the other sources, not in their place behind a transfer switch.
bool generator_runs_beside(const System& system);

/// "SW-1" or "SW-1, SW-2".
std::string ids(const System& system, const std::vector<int>& equipment);
/// The locations without repetition: "WEST WALL, AT METER; GARAGE".
std::string locations(const System& system, const std::vector<int>& equipment);

} // namespace ohmfolio::sheets
