/// The words beside each piece of equipment: templates of the drafting style filled with facts of
/// the system and results of the study.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "diagram/diagram.h"

namespace ohmfolio::diagram {

using Fields = std::map<std::string, std::string>;

/// Every field that a callout of this equipment may use: id, title, location, maker, model,
/// enclosure, status, count, roof, bus, main, rating, poles, energy ...
Fields fields_of(const System& system, const Study& study, const Equipment& equipment);
/// "branch", "junction_box" ...: the key of the callout for this equipment.
std::string kind_of(const Equipment& equipment);
/// The template's lines with fields filled in, in drafting case. Lines whose fields are all empty
/// are dropped.
std::vector<std::string> filled(const std::vector<std::string>& lines, const Fields& fields);
/// "Q3 20 A 2P": what stands over a breaker.
std::string breaker_label(const System& system, const Study& study, int breaker);

} // namespace ohmfolio::diagram
