/// Names of single circuits and devices as a row names them that is about many.
#pragma once

#include <set>
#include <string>
#include <string_view>

#include "sheet/calculation_matrix.h"

namespace ohmfolio::sheets {

/// Replaces `from` where it stands as a whole name.
std::string with_name(std::string text, const std::string& from, std::string_view to);

/// "I_C5" of circuit C5 and "I_C9" of circuit C9 are the same name in a row: I_C.
class RowNames {
  public:
    /// `breakers` are the tags of all breakers, and must outlive this.
    RowNames(const MatrixSource& source, const std::set<std::string>& breakers);
    std::string in_formula(std::string text) const;
    std::string in_title(std::string text) const;

  private:
    std::set<std::string> breakers_in(std::string_view text) const;

    std::set<std::string> own_;
    const std::set<std::string>* breakers_;
};

} // namespace ohmfolio::sheets
