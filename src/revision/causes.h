/// Inside the revision room: why a figure of the newer issue is not what it was.
#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "code/derivation.h"
#include "revision/stated_changes.h"
#include "revision/table_changes.h"
#include "revision/tag_names.h"
#include "study/study.h"

namespace ohmfolio::revision {

/// Goes from a result down the derivations it rests on, as far as these have changed: what has
/// changed there without anything below it having changed is the cause. A value read from a table
/// is no cause, but the size that it is read for.
class Causes {
  public:
    /// `system` is the newer one. All has to outlive this.
    Causes(const Study& older, const Study& newer, const System& system, const TagNames& names,
           const std::vector<StatedChange>& stated);

    /// Causes of what a cell of a row about `subject` ("circuit:C3") says now, each once: "length
    /// 85 ft to 140 ft". None where no calculation about it came to both of the cell's values.
    std::vector<std::string> of(std::string_view subject, const CellChange& cell) const;

  private:
    using Lines = std::vector<const Derivation*>;

    bool changed(const Derivation& line) const;
    const Derivation* older(const Derivation& line) const;
    Lines changed_under(std::string_view subject) const;
    Lines changed_below(const Lines& lines) const;
    bool came_to(const Derivation& line, const CellChange& cell) const;

    struct Search {
        std::set<std::string> sizes; ///< that are being explained
        std::set<std::string> seen;
        std::vector<std::string> causes;
    };
    void descend(const Derivation& line, Search& search, bool is_the_result) const;
    void tell(const Derivation& line, Search& search, bool is_the_result) const;
    void tell_size(const Derivation& line, Search& search) const;
    void tell_sizes_read_for(const Derivation& line, Search& search) const;
    const StatedChange* stated_size(const Derivation& size) const;

    const Study& newer_;
    const System& system_;
    const std::vector<StatedChange>& stated_;
    std::map<std::string, const Derivation*, std::less<>> older_; ///< by their newer ids
};

} // namespace ohmfolio::revision
