/// How long storage carries what is backed up, and what PV carries without it. Energy balance, not
/// law: every line says so. Loads are given by their average, since energy is what runs out;
/// whether the output of the sources starts and carries the largest load is another question
/// (710.15(A)).
///
/// The shares that are left out of account are numbers of the book ("backup.depth" ...); what the
/// equipment or the owner states goes before them.
#pragma once

#include <optional>

#include "code/desk.h"

namespace ohmfolio {

/// Average of the backed-up loads, as stated.
Term<Watts> stated_average_load(const Desk&, Watts average);
/// The same from what is connected and the share of it that runs, taken over the time.
Term<Watts> average_load_by_share(const Desk&, Watts connected, Ratio share);

struct BackupInput {
    WattHours usable;                ///< of all storage units
    Term<Watts> average;             ///< of the backed-up loads; above zero, else std::logic_error
    std::optional<Ratio> depth = {}; ///< share of `usable` that is counted on; none: the book's
    std::optional<Ratio> efficiency = {}; ///< from storage to loads; none: the book's
    std::optional<Hours> wanted = {};     ///< how long it should last; none: nobody has said
};
struct BackupDuration {
    Term<WattHours> energy; ///< that reaches the loads
    Term<Hours> duration;
    bool as_long_as_wanted = true;
};
/// From full storage, without sun.
BackupDuration backup_duration(const Desk&, const BackupInput&);

struct NoonInput {
    Watts output;                           ///< continuous AC output of the PV that forms the grid
    std::optional<Ratio> share = {};        ///< of it at noon; none: the book's
    std::optional<Watts> largest_load = {}; ///< largest single load; none: not described
};
struct NoonPower {
    Term<Watts> at_noon; ///< no more than this can run, all loads together
    bool carries_largest = true;
};
/// PV that forms a grid of its own in daylight, without storage.
NoonPower noon_power(const Desk&, const NoonInput&);

} // namespace ohmfolio
