/// Changes to the description that may mend a finding, each tried by remedies.cpp before it is
/// offered. A proposal that does not know the finding's subject gives none.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "code/code_book.h"
#include "model/system.h"
#include "study/study.h"

namespace ohmfolio::workings {

inline constexpr std::size_t most_remedies = 4;

struct Candidate {
    std::string change; ///< "7 modules on PV-2"
    System system;      ///< the description, so changed
};

struct Situation {
    const System& system;
    const CodeBook& book;
    const Study& study;
    const Finding& finding;

    std::string key() const { return finding.subject.substr(finding.subject.find(':') + 1); }
    int equipment() const { return system.find(key()); }
    template <class T> int tagged(const std::vector<T>& all) const {
        const auto found = std::ranges::find(all, key(), &T::tag);
        return found == all.end() ? -1 : static_cast<int>(found - all.begin());
    }
};

using Candidates = std::vector<Candidate>;

// changes_to_sizes.cpp
Candidates larger_branch_breaker(const Situation&);
Candidates larger_breaker(const Situation&);
Candidates breaker_left_out(const Situation&);
Candidates smallest_conductor(const Situation&);
Candidates larger_conductors(const Situation&);
Candidates ground_left_out(const Situation&);
Candidates larger_raceway(const Situation&);
Candidates protection_left_out(const Situation&);
Candidates smaller_feeder(const Situation&);

// changes_to_equipment.cpp
Candidates fewer_modules(const Situation&);
Candidates smaller_main(const Situation&);
Candidates other_end(const Situation&);
Candidates other_end_and_smaller_main(const Situation&);
Candidates one_load_less(const Situation&);
Candidates marked_for_shutdown(const Situation&);
Candidates marked_for_storage(const Situation&);
Candidates other_product(const Situation&);
Candidates other_module(const Situation&);
Candidates other_microinverter(const Situation&);

// changes_to_sources.cpp
Candidates power_controlled(const Situation&);
Candidates other_string_length(const Situation&);
Candidates fused_strings(const Situation&);
Candidates fewer_strings(const Situation&);

} // namespace ohmfolio::workings
