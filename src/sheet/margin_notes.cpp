#include "sheet/margin_notes.h"

#include <algorithm>
#include <cstdlib>

#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

class Margins {
  public:
    Margins(const Frame& drawing, const MarginStyle& style, const TextMeasure& measure)
        : drawing_(drawing), style_(style), measure_(measure) {}

    Annotated annotate(std::vector<MarginNote> notes) {
        std::ranges::stable_sort(notes, {}, [](const MarginNote& n) { return n.anchor.x.nm; });
        const auto middle = std::ranges::partition_point(
            notes, [&](const MarginNote& note) { return note.anchor.x * 2 < drawing_.size.width; });
        Side left{{notes.begin(), middle}, true}, right{{middle, notes.end()}, false};
        even_out(left.notes, right.notes, true);
        even_out(right.notes, left.notes, false);
        const Length left_width = width_of(left.notes), right_width = width_of(right.notes);
        left.edge = left_width;
        origin_.x = left.notes.empty() ? Length{} : left_width + style_.gap;
        right.edge = origin_.x + drawing_.size.width + style_.gap;
        put_in_order(left, right);
        Annotated result;
        result.origin = origin_;
        result.frame.add(drawing_, result.origin);
        result.frame.size = {right.notes.empty() ? origin_.x + drawing_.size.width
                                                 : right.edge + right_width,
                             height_};
        place(result, left);
        place(result, right);
        return result;
    }

  private:
    using Column = std::vector<MarginNote>;
    struct Side {
        Column notes;
        bool left;
        Length edge = {}; ///< of the lettering, where it faces the drawing
    };

    static bool follows_under_one_heading(const Column& column, std::size_t i) {
        return i > 0 && !column[i].heading.text.empty() &&
               column[i - 1].heading.text == column[i].heading.text;
    }
    static bool is_headed(const Column& column, std::size_t i) {
        return !column[i].heading.text.empty() && !follows_under_one_heading(column, i);
    }
    /// With its heading.
    Length height_of(const Column& column, std::size_t i) const {
        const auto lines = column[i].lines.size() + (is_headed(column, i) ? 1 : 0);
        return lettering_height(static_cast<int>(lines), style_.body, measure_);
    }
    Length gap_above(const Column& column, std::size_t i) const {
        if (i == 0)
            return {};
        return follows_under_one_heading(column, i)
                   ? line_pitch(style_.body) - measure_.cap_height(style_.body)
                   : style_.apart;
    }
    Length height_of(const Column& column) const {
        Length height{};
        for (std::size_t i = 0; i < column.size(); ++i)
            height += gap_above(column, i) + height_of(column, i);
        return height;
    }
    static Column by_height(Column column) {
        std::ranges::stable_sort(column, {}, [](const MarginNote& n) { return n.anchor.y.nm; });
        return column;
    }
    const TextStyle& style_of(const NoteLine& line) const {
        return line.bold ? style_.bold : style_.body;
    }
    Length width_of(const Column& column) const {
        Length width{};
        const auto take = [&](const NoteLine& line) {
            width = std::max(width, measure_.width(line.text, style_of(line)));
        };
        for (const MarginNote& note : column) {
            take(note.heading);
            std::ranges::for_each(note.lines, take);
        }
        return width;
    }

    /// What is too much for one side goes to the other, the notes nearest to it first.
    void even_out(Column& full, Column& other, bool from_end) const {
        while (full.size() > 1 && height_of(by_height(full)) > style_.height &&
               height_of(by_height(other)) < style_.height) {
            const auto moved = from_end ? std::prev(full.end()) : full.begin();
            other.push_back(*moved);
            full.erase(moved);
        }
    }

    /// Notes that change places may part what stood under one heading: then once more, with room
    /// for a further one.
    void put_in_order(Side& left, Side& right) {
        left.notes = by_height(left.notes);
        right.notes = by_height(right.notes);
        constexpr int rounds = 3;
        for (int round = 0; round < rounds; ++round) {
            height_ = std::max(
                {height_, drawing_.size.height, height_of(left.notes), height_of(right.notes)});
            origin_.y = (height_ - drawing_.size.height) / 2;
            part_leaders(left);
            part_leaders(right);
        }
    }

    /// Anchors at one height may lie behind one another: neighbors change places until no two
    /// leaders cross.
    void part_leaders(Side& side) const {
        std::vector<Length> tops = tops_of(side.notes);
        for (std::size_t round = 0; round < side.notes.size(); ++round) {
            for (std::size_t i = 0; i + 1 < side.notes.size(); ++i) {
                const auto leader = [&](std::size_t n) {
                    return Leader{bend(side, level_of(side.notes, n, tops[n])),
                                  origin_ + side.notes[n].anchor};
                };
                if (!cross(leader(i), leader(i + 1)))
                    continue;
                std::swap(side.notes[i], side.notes[i + 1]);
                tops = tops_of(side.notes);
            }
        }
    }

    void place(Annotated& result, const Side& side) const {
        const Column& column = side.notes;
        const std::vector<Length> tops = tops_of(column);
        for (std::size_t i = 0; i < column.size(); ++i) {
            if (is_headed(column, i))
                write(result, column[i].heading, side, tops[i]);
            Length y = level_of(column, i, tops[i]);
            point(result, column[i], side, y);
            for (const NoteLine& line : column[i].lines) {
                write(result, line, side, y);
                y += line_pitch(style_.body);
            }
        }
    }

    void write(Annotated& result, const NoteLine& line, const Side& side, Length y) const {
        write_line(result.frame, {side.edge, y}, line.text,
                   {style_of(line), side.left ? Align::right : Align::left, black, line.shows},
                   measure_);
    }

    /// Top of its first line, from which its leader leaves: below its heading.
    Length level_of(const Column& column, std::size_t i, Length top) const {
        return is_headed(column, i) ? top + line_pitch(style_.body) : top;
    }

    /// Each near the height of its anchor, none over another, all within the height.
    std::vector<Length> tops_of(const Column& column) const {
        std::vector<Length> tops;
        Length free{};
        for (std::size_t i = 0; i < column.size(); ++i) {
            const Length wanted = origin_.y + column[i].anchor.y - height_of(column, i) / 2;
            tops.push_back(std::max(free + gap_above(column, i), wanted));
            free = tops.back() + height_of(column, i);
        }
        Length below = height_;
        for (std::size_t i = column.size(); i-- > 0;) {
            const Length lowest = below - height_of(column, i);
            tops[i] = std::max(std::min(tops[i], lowest), Length{});
            below = tops[i] - gap_above(column, i);
        }
        return tops;
    }

    struct Leader {
        Point from, to;
    };
    static bool cross(const Leader& a, const Leader& b) {
        const auto side = [](const Leader& line, Point p) {
            return static_cast<double>((line.to.x - line.from.x).nm) *
                       static_cast<double>((p.y - line.from.y).nm) -
                   static_cast<double>((line.to.y - line.from.y).nm) *
                       static_cast<double>((p.x - line.from.x).nm);
        };
        return side(a, b.from) * side(a, b.to) < 0 && side(b, a.from) * side(b, a.to) < 0;
    }

    /// Where a leader leaves the level of the first line.
    Point bend(const Side& side, Length top) const {
        return {side.edge + (side.left ? 1 : -1) * points(12),
                top + measure_.cap_height(style_.body) / 2};
    }

    /// A short level stretch beside the first line, then straight to the anchor.
    void point(Annotated& result, const MarginNote& note, const Side& side, Length top) const {
        const Point corner = bend(side, top);
        const Point start{side.edge + (side.left ? 1 : -1) * points(4), corner.y};
        const Point to = edge_of_mark(corner, origin_ + note.anchor, note.mark);
        const std::string shows = note.lines.empty() ? std::string{} : note.lines.front().shows;
        result.frame.add(polyline({start, corner, to}, {fine_pen}), Role::leader, shows);
        if (note.mark.nm == 0)
            result.frame.add(disc(to, inches(0.018), black), Role::leader, shows);
    }

    /// Where the way from `from` to the middle of a square reaches it.
    static Point edge_of_mark(Point from, Point middle, Length half) {
        const Point way = from - middle;
        const auto longer = std::max(std::abs(way.x.nm), std::abs(way.y.nm));
        if (longer <= half.nm)
            return middle;
        const double share = static_cast<double>(half.nm) / static_cast<double>(longer);
        return {middle.x + scaled(way.x, share), middle.y + scaled(way.y, share)};
    }

    const Frame& drawing_;
    const MarginStyle& style_;
    const TextMeasure& measure_;
    Length height_{}; ///< of the result
    Point origin_;    ///< of the drawing in it
};

} // namespace

Annotated with_margin_notes(const Frame& drawing, const std::vector<MarginNote>& notes,
                            const MarginStyle& style, const TextMeasure& measure) {
    return Margins(drawing, style, measure).annotate(notes);
}

} // namespace ohmfolio::sheets
