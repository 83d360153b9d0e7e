/// Lettering on a view to scale: finds a place for each name where nothing else stands, inside what
/// it names, beside it with a leader, or anywhere in a region. What finds none is written as a
/// number in a circle, and its words are listed below the view; what finds no place even so is told
/// to the caller, so that nothing is left out in silence.
#pragma once

#include <string>
#include <vector>

#include "drawing/frame.h"
#include "drawing/measure.h"

namespace ohmfolio::sheets {

class ViewLettering {
  public:
    /// Writes into `frame`, inside `view` only.
    ViewLettering(Frame& frame, const Box& view, const TextStyle& style, const TextMeasure& measure)
        : frame_(frame), view_(view), style_(style), measure_(measure) {}

    /// An outline or lettering: neither words nor leaders go there.
    void take(const Box& area) { taken_.push_back(area); }
    /// A line, as a box without width or height: leaders may cross it, words may not.
    void take_line(const Box& line) { lines_.push_back(line); }

    /// Of an outline that was drawn: its words stand in it, in several lines or reading upward
    /// where it is narrow, else over, under or beside it with a leader.
    void name_outline(const Box& outline, const std::string& words, const std::string& shows);
    /// Of an area that is not taken as a whole: along its top, else farther down, else over it; in
    /// several lines where it is narrow.
    void name_area(const Box& area, const std::string& words, const std::string& shows);
    /// Of a level line: over it, else under it, as far left as there is room.
    void name_line(const Point& from, const Point& to, const std::string& words,
                   const std::string& shows);

    bool has_keys() const { return !keyed_.empty(); }
    /// The numbers in the view with their words, in lines no wider than `width`.
    Frame keys(Length width) const;
    /// Words without a place, and without one for their number.
    const std::vector<std::string>& unplaced() const { return unplaced_; }

  private:
    bool in_outline(const Box& outline, const Frame& label);
    bool next_to_outline(const Box& outline, const Frame& label, const std::string& shows);
    bool beside_outline(const Box& outline, const Frame& label, const std::string& shows);
    bool beside_at(const Box& outline, const Frame& label, Length low_x, int line, bool over,
                   const std::string& shows);
    bool at_side(const Box& outline, const Frame& label, const std::string& shows);
    bool in_area(const Box& area, const Frame& label);
    bool along(Length from, Length to, Length top, const Frame& label);
    bool put(const Frame& label, Point low);
    Frame label_of(const std::vector<std::string>& lines, const std::string& shows) const;
    Frame turned_label(const std::string& words, const std::string& shows) const;
    Frame number_for(const std::string& words, const std::string& shows);
    bool is_free(const Box& words) const;
    /// Tries `place` with the words, else with their number.
    template <class Place>
    void write(const std::vector<Frame>& ways, const std::string& words, const std::string& shows,
               Place place);

    Frame& frame_;
    Box view_;
    TextStyle style_;
    const TextMeasure& measure_;
    std::vector<Box> taken_, lines_;
    std::vector<std::string> keyed_, unplaced_;
};

} // namespace ohmfolio::sheets
