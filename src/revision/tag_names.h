/// Inside the revision room: tags are counted in the order of the drawing, so that a new branch
/// renames the circuits after it. What an older tag is called in the newer issue.
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "model/system.h"

namespace ohmfolio::revision {

class TagNames {
  public:
    TagNames(const System& older, const System& newer);

    /// Of circuits, raceways and breakers: by the equipment they belong to. Nothing that is in the
    /// older issue alone has a newer name; what is in neither keeps its own.
    std::string newer(std::string_view tag) const;
    /// "circuit:C5" and "C5.required_ampacity" likewise.
    std::string newer_subject(std::string_view subject) const;
    std::string newer_id(std::string_view id) const;
    /// Only those that differ, "C5" to "C6".
    const std::map<std::string, std::string, std::less<>>& renamed() const { return renamed_; }

  private:
    void match(const std::map<std::string, std::string>& older,
               const std::map<std::string, std::string>& newer);

    std::map<std::string, std::string, std::less<>> names_; ///< of what is in the older issue
    std::map<std::string, std::string, std::less<>> renamed_;
};

} // namespace ohmfolio::revision
