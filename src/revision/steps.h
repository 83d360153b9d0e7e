/// Inside the revision room: which steps of the calculations say the same in both issues, however
/// sheets print them.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "study/study.h"

namespace ohmfolio::revision {

class Steps {
  public:
    /// None is known.
    Steps() = default;
    Steps(const Study& older, const Study& newer);

    /// True when `subject` ("circuit:C5") has steps in the row that begins with `words`, and each
    /// says what it said.
    bool stayed(const std::string& subject, std::string_view words) const;

  private:
    struct Step {
        std::string title; ///< as printed, without blanks
        bool stayed;
    };
    std::map<std::string, std::vector<Step>> of_subject_;
};

} // namespace ohmfolio::revision
