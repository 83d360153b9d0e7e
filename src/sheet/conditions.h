/// When a note or a placard is needed: a small table of named questions about the job.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "model/system.h"
#include "study/study.h"

namespace ohmfolio::sheets {

struct Condition {
    std::string_view name; ///< as texts/*.toml use it
    std::string_view meaning;
    bool (*holds)(const System&, const Study&);
};

const std::vector<Condition>& conditions();
const Condition* find_condition(std::string_view name);

/// True when all of `needs` hold and none of `unless`. Names must be known.
bool all_hold(const std::vector<std::string>& needs, const std::vector<std::string>& unless,
              const System& system, const Study& study);

} // namespace ohmfolio::sheets
