#include "sheet/margin_notes.h"

#include <algorithm>

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
        std::vector<MarginNote> left(notes.begin(), middle), right(middle, notes.end());
        even_out(left, right, true);
        even_out(right, left, false);
        const Length left_width = width_of(left), right_width = width_of(right);
        const Length height = std::max({drawing_.size.height, height_of(left), height_of(right)});
        Annotated result;
        result.origin = {left.empty() ? Length{} : left_width + style_.gap,
                         (height - drawing_.size.height) / 2};
        result.frame.add(drawing_, result.origin);
        result.frame.size = {result.origin.x + drawing_.size.width +
                                 (right.empty() ? Length{} : right_width + style_.gap),
                             height};
        place(result, left, true, left_width);
        place(result, right, false, result.frame.size.width - right_width);
        return result;
    }

  private:
    Length height_of(const MarginNote& note) const {
        return lettering_height(static_cast<int>(note.lines.size()), style_.body, measure_);
    }
    Length height_of(const std::vector<MarginNote>& column) const {
        Length height{};
        for (const MarginNote& note : column)
            height += height_of(note) + style_.apart;
        return column.empty() ? height : height - style_.apart;
    }
    Length width_of(const std::vector<MarginNote>& column) const {
        Length width{};
        for (const MarginNote& note : column) {
            for (const NoteLine& line : note.lines)
                width = std::max(width,
                                 measure_.width(line.text, line.bold ? style_.bold : style_.body));
        }
        return width;
    }

    /// What is too much for one side goes to the other, the notes nearest to it first.
    void even_out(std::vector<MarginNote>& full, std::vector<MarginNote>& other, bool from_end) {
        while (full.size() > 1 && height_of(full) > style_.height &&
               height_of(other) < style_.height) {
            const auto moved = from_end ? std::prev(full.end()) : full.begin();
            other.push_back(*moved);
            full.erase(moved);
        }
    }

    /// `edge` is the side of the lettering that faces the drawing.
    void place(Annotated& result, std::vector<MarginNote> column, bool left, Length edge) {
        std::ranges::stable_sort(column, {}, [](const MarginNote& n) { return n.anchor.y.nm; });
        std::vector<Length> tops = tops_of(column, result.origin.y, result.frame.size.height);
        // Anchors at one height may lie behind one another: neighbors change places until no two
        // leaders cross.
        for (std::size_t round = 0; round < column.size(); ++round) {
            for (std::size_t i = 0; i + 1 < column.size(); ++i) {
                const auto leader = [&](std::size_t n) {
                    return Leader{bend(left, edge, tops[n]), result.origin + column[n].anchor};
                };
                if (!cross(leader(i), leader(i + 1)))
                    continue;
                std::swap(column[i], column[i + 1]);
                tops = tops_of(column, result.origin.y, result.frame.size.height);
            }
        }
        for (std::size_t i = 0; i < column.size(); ++i) {
            Length y = tops[i];
            for (const NoteLine& line : column[i].lines) {
                const TextStyle& style = line.bold ? style_.bold : style_.body;
                write_line(result.frame, {edge, y}, line.text,
                           {style, left ? Align::right : Align::left, black, line.shows}, measure_);
                y += line_pitch(style_.body);
            }
            point(result, column[i], left, edge, tops[i]);
        }
    }

    /// Each near the height of its anchor, none over another, all within the height.
    std::vector<Length> tops_of(const std::vector<MarginNote>& column, Length origin,
                                Length height) const {
        std::vector<Length> tops;
        Length free{};
        for (const MarginNote& note : column) {
            const Length wanted = origin + note.anchor.y - height_of(note) / 2;
            tops.push_back(std::max(free, wanted));
            free = tops.back() + height_of(note) + style_.apart;
        }
        Length below = height + style_.apart;
        for (std::size_t i = column.size(); i-- > 0;) {
            const Length lowest = below - style_.apart - height_of(column[i]);
            tops[i] = std::max(std::min(tops[i], lowest), Length{});
            below = tops[i];
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
    Point bend(bool left, Length edge, Length top) const {
        return {edge + (left ? 1 : -1) * points(12), top + measure_.cap_height(style_.body) / 2};
    }

    /// A short level stretch beside the first line, then straight to the anchor.
    void point(Annotated& result, const MarginNote& note, bool left, Length edge, Length top) {
        const int way = left ? 1 : -1;
        const Point corner = bend(left, edge, top);
        const Point start{edge + way * points(4), corner.y};
        const Point to = result.origin + note.anchor;
        const std::string shows = note.lines.empty() ? std::string{} : note.lines.front().shows;
        result.frame.add(polyline({start, corner, to}, {fine_pen}), Role::leader, shows);
        result.frame.add(disc(to, inches(0.018), black), Role::leader, shows);
    }

    const Frame& drawing_;
    const MarginStyle& style_;
    const TextMeasure& measure_;
};

} // namespace

Annotated with_margin_notes(const Frame& drawing, const std::vector<MarginNote>& notes,
                            const MarginStyle& style, const TextMeasure& measure) {
    return Margins(drawing, style, measure).annotate(notes);
}

} // namespace ohmfolio::sheets
