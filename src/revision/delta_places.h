/// Inside the revision room: room for the deltas beside their clouds.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "drawing/box_grid.h"
#include "drawing/measure.h"
#include "drawing/sheet.h"

namespace ohmfolio::revision {

struct DeltaPlace {
    Box box;
    /// From the delta to its cloud where it stands away from it; else both ends are one.
    Point leader_from, leader_to;
};

struct DeltasOfSheet {
    std::vector<DeltaPlace> places;
    std::vector<std::size_t> without; ///< indices of the clouds that no delta marks
};

/// Finds places for the deltas of a sheet. A reader takes a delta in a table for one of the row in
/// which it stands: it stands in the rows of its cloud or outside of the table.
class DeltaPlaces {
  public:
    /// `clouds` are the boxes with the bulges of their arcs.
    DeltaPlaces(const Sheet& sheet, std::vector<Box> clouds, const TextMeasure& measure);

    /// Touching its cloud where there is room. Without, one delta marks all clouds of a row of a
    /// table or of a line of a paragraph: that of a neighbour, or one at the end of it. Else the
    /// nearest free room, with a leader. Over a rule of a table or a wire only where there is none
    /// else.
    DeltasOfSheet place_all(Size delta);

  private:
    /// Where a delta of this cloud may stand.
    struct Room {
        std::size_t cloud;
        std::optional<Box> rows; ///< of a table, that the cloud stands in
        std::optional<Box> line; ///< that the cloud stands in, from end to end: rows, or lettering
        Box within;
    };
    Room room_of(std::size_t cloud) const;
    bool stands_in_rows_of(const Room& room, const Box& delta) const;
    /// How much of the drawing a delta there would cover; nothing where it must not stand.
    std::optional<int> covers(const Box& delta, const Room& room) const;
    std::optional<DeltaPlace> best_of(const std::vector<Box>& places, const Room& room,
                                      bool with_leader) const;
    std::vector<Box> places_in_rows(const Room& room, Size delta, Length inset) const;
    std::optional<DeltaPlace> touching(const Room& room, Size delta) const;
    std::optional<DeltaPlace> at_end_of_line(const Room& room, Size delta) const;
    std::optional<DeltaPlace> anywhere_in_row(const Room& room, Size delta) const;
    std::optional<DeltaPlace> with_leader(const Room& room, Size delta) const;
    bool marked_by_a_neighbour(const Room& room, const std::vector<DeltaPlace>& places,
                               Length width) const;
    bool leader_is_free(Point from, Point to) const;
    void take(const DeltaPlace& place);
    void take(const Box& box);
    void take_leader(Point from, Point to);

    std::vector<Box> clouds_, rows_, paragraphs_, lettering_, lines_;
    std::vector<Box> taken_; ///< by clouds, which come first, and deltas
    BoxGrid lettering_grid_, lines_grid_, taken_grid_;
    Box drawing_; ///< up to the heavy lines around it
    Box border_;
};

} // namespace ohmfolio::revision
