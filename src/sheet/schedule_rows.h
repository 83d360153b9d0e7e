/// Inside the schedules: what their rows and columns are made with.
#pragma once

#include <string>
#include <string_view>

#include "drawing/table.h"
#include "model/system.h"
#include "study/study.h"

namespace ohmfolio::sheets {

/// Collects the cells of a row that all show the same thing.
class RowMaker {
  public:
    explicit RowMaker(std::string shows) : shows_(std::move(shows)) {}
    /// An empty text becomes `none`.
    RowMaker& add(std::string_view text);
    RowMaker& tag(std::string_view text, std::string anchor = {}, std::string link = {});
    /// A tag that counts rows.
    RowMaker& count(int number, std::string_view letter);
    /// The number of a sheet, which leads there.
    RowMaker& sheet(const std::string& number);
    Row row() { return std::move(row_); }

  private:
    std::string shows_;
    Row row_;
};

Column text_column(std::string_view heading, double widest_inches = 0);
/// Numbers stand in the middle, clear of the words of the next column.
Column number_column(std::string_view heading);

/// "MSP (E)": the customary mark of a drawing that adds to what exists.
std::string id_with_status(const Equipment& e);

/// Whole amperes as they are, others to two places: "200", "89.70". Nothing for zero.
std::string schedule_amps(Amps amps);
/// "10" for 10 kA; nothing where it is not known.
std::string schedule_kiloamps(Amps amps);

} // namespace ohmfolio::sheets
