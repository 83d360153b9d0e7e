/// Inside the revision room: from a fact that changed to what was worked out from it.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "code/derivation.h"
#include "revision/comparison.h"
#include "revision/things.h"

namespace ohmfolio::revision {

/// Quantities that a comment or its answer names and that the drafter has newly stated: "115 mph".
std::vector<std::string> new_figures_in(const Comment& comment,
                                        const std::vector<StatedChange>& stated);

/// True of words that hold the figure, in whatever case.
bool says(const Piece& piece, const std::string& figure);

class Traces {
  public:
    /// Both have to outlive this.
    Traces(const Issue& older, const Issue& newer);

    /// Pieces that say a changed result of a calculation, or a verdict on one, which rests on a
    /// changed fact about `keys`, or on one of the `figures`.
    std::vector<const Piece*> rest_on(const Keys& keys, const std::vector<std::string>& figures,
                                      const std::vector<Piece>& changed) const;

  private:
    bool changed(const Derivation& line) const;
    bool is_fact(const Derivation& line) const;
    std::vector<std::string> new_numbers(const Derivation& line) const;

    const Study& study_;
    std::string service_; ///< id of the utility: what is known of its service is about it
    std::map<std::string, const Derivation*, std::less<>> older_; ///< by their newer ids
};

} // namespace ohmfolio::revision
