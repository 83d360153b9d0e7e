/// Names of single circuits and devices as a row names them that is about many.
#pragma once

#include <set>
#include <string>

#include "sheet/calculation_matrix.h"

namespace ohmfolio::sheets {

/// Replaces `from` where it stands as a whole name.
std::string with_name(std::string text, const std::string& from, std::string_view to);

/// "I_C5" of circuit C5 and "I_C9" of circuit C9 are the same name in a row: I_C.
class RowNames {
  public:
    RowNames(const MatrixSource& source, const System& system);
    std::string in_formula(std::string text) const;
    std::string in_title(std::string text) const;

  private:
    std::set<std::string> own_, breakers_;
};

} // namespace ohmfolio::sheets
