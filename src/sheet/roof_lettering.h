/// Lettering of the roof plan: written where there is room, with a leader where that is not beside
/// what it names.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "sheet/open_room.h"
#include "sheet/pages.h"

namespace ohmfolio::sheets {

inline constexpr Length clear_of_lettering = points(4);
inline constexpr Length leader_dot = inches(0.02); ///< radius, where a leader ends on an area

enum class LeaderEnd { bare, dot };

class RoofLettering {
  public:
    /// Writes into `frame` and takes from `room`; lettering may be `far` and farther away.
    RoofLettering(Frame& frame, OpenRoom& room, const Job& job, Length far);

    Size size_of(const std::vector<std::string>& lines) const;
    void write_lines(const Box& box, const std::vector<std::string>& lines,
                     const std::string& shows);

    /// Where there is room near `to`; a leader across modules is better than no place.
    std::optional<Box> place_beside(Size size, Point to,
                                    const std::function<bool(const Box&)>& is_allowed) const;
    /// From the lettering in `from` to what it names.
    void draw_leader(const Box& from, Point to, const std::string& shows, LeaderEnd ends);

    /// Lettering that stands where there is room, with a leader to what it names.
    void write_with_leader(Point to, const std::vector<std::string>& lines,
                           const std::string& shows, LeaderEnd ends = LeaderEnd::bare);
    /// Right beside `box` where that is free, else with a leader.
    void write_beside(const Box& box, const std::string& words, const std::string& shows);
    void tell_no_place(const std::string& words) const;

  private:
    Frame& frame_;
    OpenRoom& room_;
    const Job& job_;
    Length far_;
    TextStyle style_;
};

} // namespace ohmfolio::sheets
