/// What an interconnect device or a transfer switch carries while the grid is away, as the steps
/// about backup see it. Each part of the question has a file: islands.cpp, standby.cpp (capacity),
/// motor_starts.cpp, island_neutral.cpp, backup_time.cpp.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "study/loads.h"

namespace ohmfolio::workings {

/// All that is cut off from the utility together.
struct Island {
    int head; ///< the interconnect device or transfer switch
    const Equipment& device;
    std::vector<int> batteries, generators; ///< by index into System::equipment
    std::vector<int> forming;               ///< branches and inverters that hold a grid by the sun
    std::vector<PanelLoad> loads;           ///< backed up

    std::string subject() const { return "backup:" + device.id; }
};
/// Those that something feeds, in the order of the text.
std::vector<Island> islands(const System&);

/// Continuous output of the storage together; nothing where there is none.
std::optional<Term<Watts>> storage_output(Work&, const Island&);
/// The same of the generators.
std::optional<Term<Watts>> generator_output(Work&, const Island&);
/// The same of PV that holds a grid by itself, in full sun.
std::optional<Term<Watts>> solar_output(Work&, const Island&);
/// Nothing holds the island but PV: it is there while the sun shines.
bool by_sun_alone(const Island&);
/// Storage and generator are never on together: each holds the island alone.
bool is_interlocked(const System&, const Island&);
/// The kinds of product among the equipment, each once.
std::vector<int> records_of(const System&, const std::vector<int>& equipment);

std::string called(const PanelLoad&); ///< "RANGE on MDP"
/// Without those that a load controller may cut off.
std::vector<PanelLoad> kept_loads(std::vector<PanelLoad>);

struct SingleLoad {
    PanelLoad load;
    Watts power;
};
/// The largest load by nameplate; with `shed` among those that may be cut off too.
std::optional<SingleLoad> largest_load(const Island&, bool shed);

/// Whether what starts a motor does: the largest locked-rotor current that stays connected, and
/// what it would be were nothing shed. `source` feeds it, `units` of them together.
void check_motor_start(Work&, const Island&, const std::string& subject, const Record& source,
                       Amps surge, int units);
/// The same by the storage of the island.
void check_storage_start(Work&, const Island&);

/// Whether loads from line to neutral have one while the grid is away.
void check_island_neutral(Work&, const Island&);

/// How long full storage carries the average load.
void derive_duration(Work&, const Island&);
/// What PV alone carries at noon, where its inverters hold a grid by themselves.
void derive_noon_power(Work&, const Island&);

} // namespace ohmfolio::workings
