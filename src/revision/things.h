/// Inside the revision room: what marks and rows show that are about one of the drafter's names.
#pragma once

#include <set>
#include <string>
#include <string_view>

#include "model/system.h"

namespace ohmfolio::revision {

/// Keys of marks and rows: "C3" of "circuit:C3".
using Keys = std::set<std::string, std::less<>>;

/// A piece of equipment stands for its circuits, raceways and breakers as well.
Keys keys_of(const System& system, const std::string& id);

/// "circuit:C3" is about C3, "load:BLP/Kitchen" about BLP.
bool about(const Keys& keys, std::string_view shows);

} // namespace ohmfolio::revision
