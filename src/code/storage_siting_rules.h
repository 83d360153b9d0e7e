/// Where storage may stand (IRC R327, R328 and R330; NFPA 855 chapter 15; IFC 1206 and 1207), by
/// the code and year that the jurisdiction adopted. Facts are in tables/storage_siting.toml.
///
/// At dwellings the units are tallied by location. Whether the limit is of each location or of the
/// whole dwelling is read in different ways where the text does not say; the sheet shows the tally.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

enum class SitingPlace {
    utility_space, ///< closet, basement, storage or utility space
    attached_garage,
    detached_structure, ///< garage or accessory structure
    exterior_wall,
    outdoors_on_ground,
    habitable_space, ///< never
    sleeping_room    ///< never, nor a closet that opens into it
};
std::string_view name(SitingPlace place); ///< "utility space"

struct StorageUnit {
    std::string name; ///< "B1"
    WattHours energy{};
    SitingPlace place{};
    std::string location =
        {}; ///< "west garage"; units of one place and location are tallied together
    std::optional<Feet> to_next = {};    ///< clear distance to the nearest other unit
    std::optional<Feet> to_opening = {}; ///< to the nearest door or window that enters the dwelling
    bool vehicle_path = false;
    bool impact_protected = false;
    std::optional<bool> detection =
        {};                         ///< smoke or heat, where it stands indoors; empty: not asked
    std::optional<bool> lined = {}; ///< walls and ceiling of a utility space; empty: not asked
};

/// How the limit of a location is read.
enum class TallyReading { each_location, whole_dwelling };

struct SitingInput {
    std::string code; ///< "IRC 2021", "NFPA 855-2023"; see `siting_codes`
    std::vector<StorageUnit> units = {};
    TallyReading reading = TallyReading::each_location;
    std::optional<Feet> tested_spacing = {}; ///< that a large-scale fire test (UL 9540A) allows
};
struct LocationTally {
    SitingPlace place;
    std::string location;
    int units = 0;
    WattHours energy{};
    std::optional<WattHours> limit = {}; ///< nothing: the code has none
    bool passes = true;
};
struct SitingResult {
    std::vector<LocationTally> locations; ///< in the order of the units
    WattHours total{};
    RuleVerdicts verdicts;                    ///< of each location and of each unit
    std::vector<std::string> not_stated = {}; ///< distances that would decide, in words
    bool passes = true;
    std::string tally; ///< how the code's text counts: "each location", "unclear", "none"
};
/// An unknown code, or one for other buildings, is a fault of the caller: throws.
SitingResult judge_siting(const Desk&, const SitingInput&);

/// Other buildings by the fire code: the whole of a fire area, groups, distances outdoors.
struct FireAreaInput {
    std::string code; ///< "IFC 2021"
    WattHours total{};
    WattHours largest_group{};
    std::optional<Feet> between_groups = {};
    bool outdoors = false;
    std::optional<Feet> to_exposure = {}; ///< lot line, public way, building, opening, exit
};
RuleVerdicts judge_fire_area(const Desk&, const FireAreaInput&);

/// The codes that the table knows, of `kind` "dwelling" or "fire".
std::vector<std::string> siting_codes(std::string_view kind);

} // namespace ohmfolio
