/// The display list: the drawing itself. A `Frame` is a list of marks; a mark is one of a handful
/// of items together with what it shows and which part it plays. Everything that comes after layout
/// (PDF, SVG, lint, links, zones, netlist read-back, revision clouds) works on this list alone.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "drawing/geometry.h"

namespace ohmfolio {

struct Color {
    std::uint8_t red = 0, green = 0, blue = 0;
    friend constexpr auto operator<=>(Color, Color) = default;
};
inline constexpr Color black{0, 0, 0};
inline constexpr Color white{255, 255, 255};

enum class LineType { solid, dashed, short_dashed, dash_dot, phantom, dotted };

struct Stroke {
    Length width;
    LineType type = LineType::solid;
    Color color = black;
    friend constexpr auto operator<=>(const Stroke&, const Stroke&) = default;
};

/// The line weights of the house, after the pens of the US National CAD Standard: text and leaders
/// 1, wires and symbols near 2, buses and borders near 4.
inline constexpr Length fine_pen = millimetres(0.18);
inline constexpr Length thin_pen = millimetres(0.25);
inline constexpr Length medium_pen = millimetres(0.35);
inline constexpr Length wide_pen = millimetres(0.70);
inline constexpr Length bus_pen = millimetres(1.00);

/// One step of an outline.
struct Segment {
    enum class Kind { move, line, curve, close } kind = Kind::move;
    Point to;                 ///< unused by close
    Point control1, control2; ///< cubic Bezier handles, used by curve only
};

/// An outline, stroked, filled or both.
struct Path {
    std::vector<Segment> segments;
    bool stroked = true;
    Stroke stroke;
    bool filled = false;
    Color fill = black;
};

enum class Align { left, centre, right };

/// How a line of lettering looks. `size` is the em in which fonts are measured ("10 point type").
struct TextStyle {
    Length size;
    bool bold = false;
    friend constexpr auto operator<=>(const TextStyle&, const TextStyle&) = default;
};

/// One line of lettering; `at` is on the baseline, at the left end, centre or right end.
struct Text {
    Point at;
    std::string text;
    TextStyle style;
    Align align = Align::left;
    Color color = black;
    bool turned = false; ///< reads upward: turned 90 degrees counter-clockwise about `at`
};

/// A raster picture, drawn over all of `at`; whoever makes one keeps its proportions.
struct Picture {
    Box at;
    std::shared_ptr<const std::string> png; ///< a whole PNG file that can be read
};

/// A clickable area that leads to the anchor named `target`.
struct Link {
    Box area;
    std::string target;
};

/// A place that links lead to. Names are unique in a packet.
struct Anchor {
    Point at;
    std::string name;
};

/// An electrical terminal: where a wire may end. Draws nothing. `name` is "equipment:mid/pv".
struct Port {
    Point at;
    std::string name;
};
/// The name of a port that stands for several terminals, drawn once for all that are alike.
std::string port_of_all(const std::vector<std::string>& names);
/// The terminals that a port stands for.
std::vector<std::string> terminals_of(const std::string& port_name);

/// Room for a page of a foreign PDF. It stands in the bound PDF only; elsewhere a frame with
/// `caption` takes its place.
struct Insert {
    Box area;
    int document = -1;   ///< among those appended
    int page = 1;        ///< of that document
    bool turned = false; ///< a quarter turn counter-clockwise
    std::string caption; ///< "PAGE 2 OF datasheets/wb-10.pdf"
};

/// Where a part of the text begins or ends, for whoever has a page read aloud or copies from it.
/// Parts nest as brackets do; each ends on the page where it began.
struct Part {
    enum class Kind {
        section,
        heading,
        paragraph,
        table,
        row,
        heading_cell,
        cell
    } kind = Kind::paragraph;
    bool begins = true;
};

/// Where a view to scale begins or ends. What stands between is in its place on purpose, where
/// elsewhere a place is but room on paper. Draws nothing.
struct View {
    Point zero; ///< of its coordinates
    std::string name;
    bool begins = true;
};

using Item = std::variant<Path, Text, Link, Anchor, Port, Picture, Insert, Part, View>;

/// The part a mark plays. Lint and netlist read-back go by it.
enum class Role {
    symbol,    ///< the body of a graphic symbol
    overlay,   ///< a mark that lies around a wire on purpose: the ring of a current transformer
    wire,      ///< a power conductor; ends on ports, joins other wires at their ends
    control,   ///< communications or control wiring
    enclosure, ///< a box around contents; wires may cross it
    lettering, ///< any text
    leader,    ///< a line from lettering to what it names; may not cross wires' lettering
    rule,      ///< lines of tables, borders and title blocks
    ground,    ///< filled areas under other marks: table shading, placard panels
    revision,  ///< clouds and deltas around what was changed
    junction,  ///< the dot that tells a connection from a crossing
    none       ///< links, anchors, ports
};

struct Mark {
    Item item;
    Role role = Role::none;
    std::string shows; ///< "circuit:C3", "equipment:mid", "placard:7"; empty for furniture
};

struct Frame {
    Size size;
    std::vector<Mark> marks;

    void add(Item item, Role role, std::string shows = {}) {
        marks.push_back({std::move(item), role, std::move(shows)});
    }
    void begin(Part::Kind part) { add(Part{part, true}, Role::none); }
    void end(Part::Kind part) { add(Part{part, false}, Role::none); }
    /// Adds all marks of `other`, moved by `by`.
    void add(const Frame& other, Point by);
};

/// Makers of common outlines.
Path polyline(const std::vector<Point>& points, Stroke stroke);
Path rectangle(const Box& box, Stroke stroke);
Path filled_rectangle(const Box& box, Color fill);
Path circle(Point centre, Length radius, Stroke stroke);
Path disc(Point centre, Length radius, Color fill);
Path moved(Path path, Point by);
Item moved(Item item, Point by);
/// Bounding box of an outline (handles of curves included, pen width not).
Box bounds(const Path& path);

} // namespace ohmfolio
