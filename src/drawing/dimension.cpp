#include "drawing/dimension.h"

#include <cmath>
#include <cstddef>
#include <numeric>

#include <fmt/format.h>

namespace ohmfolio {

namespace {

constexpr int sixteenths_per_inch = 16;
constexpr int inches_per_foot = 12;
constexpr double millimetres_per_foot = 304.8;
/// Room that a figure needs on each side within its stretch.
constexpr Length side_room = points(4);

/// A stretch of the dimension line, or the place of a figure on it.
struct Stretch {
    Length from, to;
    Length middle() const { return (from + to) / 2; }
    Length length() const { return to - from; }
};

/// A figure that stands away from the line, and the stretch that it measures.
struct SetAside {
    Stretch stretch;
    Stretch figure;
    std::string text;
};

/// Moves figures of one row apart, so that each is clear of the next and their order stays: those
/// that would meet share the room around their common middle.
void spread(std::vector<SetAside>& row) {
    struct Cluster {
        std::size_t first, end;
        Length from, length;
    };
    std::vector<Cluster> clusters;
    for (std::size_t i = 0; i < row.size(); ++i) {
        clusters.push_back({i, i + 1, row[i].figure.from, row[i].figure.length()});
        while (clusters.size() > 1) {
            Cluster& before = clusters[clusters.size() - 2];
            const Cluster last = clusters.back();
            if (before.from + before.length <= last.from)
                break;
            before.end = last.end;
            before.length += last.length;
            const Length middle =
                (row[before.first].stretch.middle() + row[last.end - 1].stretch.middle()) / 2;
            before.from = middle - before.length / 2;
            clusters.pop_back();
        }
    }
    for (const Cluster& cluster : clusters) {
        Length from = cluster.from;
        for (std::size_t i = cluster.first; i < cluster.end; ++i) {
            const Length length = row[i].figure.length();
            row[i].figure = {from, from + length};
            from += length;
        }
    }
}

class DimensionDrawer {
  public:
    DimensionDrawer(Frame& frame, const DimensionString& string, const DimensionStyle& style,
                    const TextMeasure& measure)
        : frame_(frame), string_(string), style_(style), measure_(measure) {}

    Length draw() {
        const auto& stops = string_.stops;
        line({stops.front().along, string_.line}, {stops.back().along, string_.line}, style_.line);
        for (const DimensionStop& stop : stops) {
            extension(stop);
            tick(stop.along);
        }
        for (std::size_t i = 0; i + 1 < stops.size() && i < string_.figures.size(); ++i)
            figure({stops[i].along, stops[i + 1].along}, string_.figures[i]);
        return set_aside();
    }

  private:
    /// A place by how far it is along the dimension line and across it.
    Point at(Length along, Length across) const {
        return string_.vertical ? Point{across, along} : Point{along, across};
    }

    void line(Point from, Point to, const Stroke& stroke) {
        frame_.add(polyline({at(from.x, from.y), at(to.x, to.y)}, stroke), Role::rule,
                   string_.shows);
    }

    /// +1 when the string stands below or right of the object.
    int outward() const { return string_.line >= string_.stops.front().object ? 1 : -1; }

    void extension(const DimensionStop& stop) {
        const int out = outward();
        const Length from = stop.object + out * style_.gap;
        const Length to = string_.line + out * style_.overshoot;
        if (out * (to - from) > Length{})
            line({stop.along, from}, {stop.along, to}, style_.line);
    }

    /// The slash rises to the right as one reads the figures.
    void tick(Length along) {
        const Length half = style_.tick_size / 2;
        const Point low =
            at(along - half, string_.vertical ? string_.line - half : string_.line + half);
        const Point high =
            at(along + half, string_.vertical ? string_.line + half : string_.line - half);
        frame_.add(polyline({low, high}, style_.tick), Role::rule, string_.shows);
    }

    void write(Length middle, Length baseline, const std::string& text) {
        const Length half = measure_.width(text, style_.lettering) / 2;
        if (string_.vertical) {
            frame_.add(
                Text{{baseline, middle + half}, text, style_.lettering, Align::left, black, true},
                Role::lettering, string_.shows);
        } else {
            frame_.add(Text{{middle - half, baseline}, text, style_.lettering}, Role::lettering,
                       string_.shows);
        }
    }

    void figure(const Stretch& stretch, const std::string& text) {
        if (text.empty())
            return;
        const Length width = measure_.width(text, style_.lettering);
        if (width + 2 * side_room <= stretch.length()) {
            write(stretch.middle(), string_.line - style_.lettering_gap, text);
            return;
        }
        const Stretch place{stretch.middle() - width / 2 - side_room,
                            stretch.middle() + width / 2 + side_room};
        aside_.push_back({stretch, place, text});
    }

    /// Figures away from the line, each with its leader; returns how far they reach.
    Length set_aside() {
        const int out = outward();
        const Length overshoot = string_.line + out * style_.overshoot;
        if (aside_.empty())
            return overshoot;
        spread(aside_);
        const Length capitals = measure_.cap_height(style_.lettering);
        const Length near = overshoot + out * 2 * style_.lettering_gap;
        // Letters grow upward, or to the left: away from the line on one side, toward it on the
        // other.
        const Length baseline =
            out > 0 ? near + capitals : near - measure_.descent(style_.lettering);
        for (const SetAside& one : aside_) {
            write(one.figure.middle(), baseline, one.text);
            line({one.stretch.middle(), string_.line},
                 {one.figure.middle(), near - out * style_.lettering_gap / 2}, style_.line);
        }
        return near + out * (capitals + measure_.descent(style_.lettering));
    }

    Frame& frame_;
    const DimensionString& string_;
    const DimensionStyle& style_;
    const TextMeasure& measure_;
    std::vector<SetAside> aside_;
};

} // namespace

Length draw_dimensions(Frame& frame, const DimensionString& string, const DimensionStyle& style,
                       const TextMeasure& measure) {
    if (string.stops.size() < 2)
        return string.line;
    return DimensionDrawer(frame, string, style, measure).draw();
}

Length dimension_pitch(const DimensionStyle& style, const TextMeasure& measure) {
    return measure.cap_height(style.lettering) + 2 * style.lettering_gap + style.overshoot +
           style.gap;
}

std::string feet_and_inches(Feet length, Nearest nearest) {
    const long step = nearest == Nearest::inch ? sixteenths_per_inch : 1;
    const long all = std::lround(length.value * inches_per_foot * sixteenths_per_inch /
                                 static_cast<double>(step)) *
                     step;
    const long whole = all / sixteenths_per_inch;
    const long part = all % sixteenths_per_inch;
    std::string text =
        fmt::format("{}", whole >= inches_per_foot ? whole % inches_per_foot : whole);
    if (part != 0) {
        const long common = std::gcd(part, static_cast<long>(sixteenths_per_inch));
        text = (text == "0" && whole == 0 ? std::string{} : text + " ") +
               fmt::format("{}/{}", part / common, sixteenths_per_inch / common);
    }
    if (whole >= inches_per_foot)
        return fmt::format("{}'-{}\"", whole / inches_per_foot, text);
    return text + "\"";
}

std::string whole_millimetres(Feet length) {
    return fmt::format("{}", std::lround(length.value * millimetres_per_foot));
}

} // namespace ohmfolio
