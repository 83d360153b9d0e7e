/// The job in rows of label and value: what the general sheet tells first.
#pragma once

#include <string>
#include <vector>

#include "model/system.h"
#include "sheet/facts.h"
#include "study/study.h"

namespace ohmfolio::sheets {

struct Fact {
    std::string label, value;
};

std::vector<Fact> project_rows(const System& system);
std::vector<Fact> system_rows(const System& system, const Study& study, const Facts& facts);
std::vector<Fact> site_rows(const Facts& facts);

} // namespace ohmfolio::sheets
