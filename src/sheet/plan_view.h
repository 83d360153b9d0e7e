/// What plans have in common: from feet on the parcel to lengths on paper, the north arrow, the
/// scale bar.
#pragma once

#include <vector>

#include "model/site_plan.h"
#include "sheet/pages.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

/// The part of the parcel that a plan shows, at a scale.
class PlanView {
  public:
    /// Shows all of `points`.
    PlanView(const std::vector<PlanPoint>& points, const DrawingScale& scale);

    Point at(PlanPoint point) const;
    std::vector<Point> at(const Corners& corners) const;
    Length on_paper(Feet length) const { return scale_.on_paper(length); }
    Size size() const;
    const DrawingScale& scale() const { return scale_; }

  private:
    DrawingScale scale_;
    PlanPoint low_, high_; ///< lower left and upper right
};

/// The bounds of points; there must be one.
Box box_of(const std::vector<Point>& points);
/// One line of lettering in a box of its size, turned to read upward when it is `upright`.
void write_line_in(Frame& frame, const Box& box, std::string_view words, bool upright,
                   const Look& look, const TextMeasure& measure);
/// Makes the frame as large as all of its marks and `at_least`, and moves them to its corner.
/// Returns by how much they were moved.
Point bring_to_corner(Frame& frame, Size at_least, const TextMeasure& measure);

/// The corners joined, the last with the first.
Path closed(std::vector<Point> corners, Stroke stroke);
/// The stretch of a closed area's inside where slanting lines run, `apart` from one another.
std::vector<Path> hatching(const std::vector<Point>& corners, Length apart, Stroke stroke);

/// An arrow in a circle, with its N in `lettering`; `north` is clockwise from the top of the sheet.
Frame north_arrow(double north, const TextStyle& lettering, const TextMeasure& measure);

/// A bar of stretches as long as they are in the building, since a print may have been scaled.
/// Stretches are the longest of the usual ones with which the bar is no longer than `longest`.
Frame scale_bar(const DrawingScale& scale, Length longest, const Job& job);

/// Number, title, scale, and beside them the scale bar.
Frame plan_title(std::string_view number, std::string_view title, const DrawingScale& scale,
                 const Job& job);

/// How the sheet is read, below what stands on it.
void add_remark(Frame& frame, std::string_view remark, const Job& job);

/// Puts the north arrow into an empty corner of the plan; at its right where it has none.
void add_north_arrow(Frame& plan, double north, const Job& job);

} // namespace ohmfolio::sheets
