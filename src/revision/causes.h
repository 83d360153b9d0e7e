/// Inside the revision room: why a figure of the newer issue is not what it was.
#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "code/derivation.h"
#include "revision/tag_names.h"
#include "study/study.h"

namespace ohmfolio::revision {

/// Goes from a result down the derivations it rests on, as far as these have changed: what has
/// changed there without anything below it having changed is the cause.
class Causes {
  public:
    Causes(const Study& older, const Study& newer, const TagNames& names);

    /// Causes of what changed about `subject` ("circuit:C3"): of the lines whose result is `result`
    /// where there are such, else of all its lines. "length 85 ft to 140 ft", each once.
    std::vector<std::string> of(std::string_view subject, std::string_view result) const;

  private:
    bool changed(const Derivation& line) const;
    const Derivation* older(const Derivation& line) const;
    void descend(const Derivation& line, std::set<std::string>& seen,
                 std::vector<std::string>& causes) const;
    void tell(const Derivation& line, std::vector<std::string>& causes) const;

    const Study& newer_;
    std::map<std::string, const Derivation*, std::less<>> older_; ///< by their newer ids
};

} // namespace ohmfolio::revision
