/// What an interconnect device or a transfer switch carries while the grid is away, as the steps
/// about backup see it.
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
    std::vector<int> forming_branches;      ///< of microinverters that hold a grid by themselves
    std::vector<PanelLoad> loads;           ///< backed up

    std::string subject() const { return "backup:" + device.id; }
};
/// Those that something feeds, in the order of the text.
std::vector<Island> islands(const System&);

/// Continuous output of the storage together; nothing where there is none.
std::optional<Term<Watts>> storage_output(Work&, const Island&);
/// The same of the generators.
std::optional<Term<Watts>> generator_output(Work&, const Island&);

/// Whether what starts a motor does: the largest locked-rotor current that stays connected, and
/// what it would be were nothing shed. `source` feeds it, `count` of them together.
void check_motor_start(Work&, const Island&, const std::string& subject, const Record& source,
                       Amps surge, int count);

} // namespace ohmfolio::workings
