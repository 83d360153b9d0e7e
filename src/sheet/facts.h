/// Named facts of a job, for the slots of title blocks, notes and placards: "{pv_current} A" in a
/// data file becomes "39.76 A" on paper.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "base/finding.h"
#include "model/system.h"
#include "study/study.h"

namespace ohmfolio::sheets {

struct Place; // places.h

/// Fact by name; a fact that the job does not have is empty.
using Facts = std::map<std::string, std::string, std::less<>>;

Facts facts_of(const System& system, const Study& study);

/// What one piece of equipment of a place (places.h) says otherwise than the job: of what it
/// disconnects, of the strings that it takes.
Facts facts_at(const System& system, const Study& study, const Place& place, int equipment);

/// "120/240 V", "120/208 V, 3 phase, 4 wire": what a bus of so many lines is supplied with.
std::string supply_words(const Site& site, int lines);

/// `text` with its slots filled. Nothing when it has slots and the job has a fact for none of them:
/// such a line is left out. A slot that no fact is called by is a finding and stays empty.
std::optional<std::string> filled(std::string_view text, const Facts& facts, Findings& findings);

} // namespace ohmfolio::sheets
