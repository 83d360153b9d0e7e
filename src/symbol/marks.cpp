#include "symbol/marks.h"

#include <array>

#include <fmt/format.h>

#include "drawing/strokes.h"
#include "symbol/number_reader.h"
#include "symbol/outline.h"

namespace ohmfolio {

namespace {

struct Pen {
    std::string_view name;
    Length width;
};
const std::array<Pen, 3> pens = {{{"thin", thin_pen}, {"medium", medium_pen}, {"wide", wide_pen}}};

/// Cities refuse lettering under 10 point type with capitals of 0.10 in. The capitals of the house
/// lettering are 0.711 em high, so that 3.6 mm is the first size on the drafting grid to pass.
constexpr Length smallest_lettering = millimetres(3.6);

void take(const Element& element, const char* attribute, std::string& value) {
    if (element.has(attribute))
        value = element.text(attribute);
}

Length pen_width(const Element& element, const Paint& paint) {
    for (const Pen& pen : pens) {
        if (pen.name != paint.pen)
            continue;
        const auto shown = whole_number(paint.width);
        if (!paint.width.empty() && (!shown || millimetres(*shown) != pen.width)) {
            element.fault(
                "symbol.pen", element.has("class") ? "class" : "stroke-width",
                fmt::format("stroke-width \"{}\" is not the width of class \"{}\"", paint.width,
                            paint.pen),
                fmt::format("stroke-width {:g}", static_cast<double>(pen.width.nm) / 1e6));
        }
        return pen.width;
    }
    element.fault("symbol.pen", "class",
                  paint.pen.empty() ? "a stroked outline needs a class"
                                    : fmt::format("class \"{}\" is not a pen", paint.pen),
                  "class thin, medium or wide");
    return medium_pen;
}

/// Black and white alone, since a packet is copied in black and white.
Color color(std::string_view name) { return name == "white" ? white : black; }

void check_color(const Element& element, const char* attribute) {
    if (element.has(attribute))
        element.one_of(attribute, {"none", "black", "white"});
}

Path finished(const Element& element, const Paint& outer, std::vector<Segment> segments) {
    const Paint paint = painted(element, outer);
    Path path;
    path.segments = std::move(segments);
    path.stroked = paint.stroke != "none";
    path.filled = paint.fill != "none";
    path.fill = color(paint.fill);
    if (path.stroked)
        path.stroke = {pen_width(element, paint), LineType::solid, color(paint.stroke)};
    if (!path.stroked && !path.filled) {
        element.fault("symbol.invisible", "fill", fmt::format("<{}> draws nothing", element.name()),
                      "a stroke or a fill");
    }
    return path;
}

std::vector<Segment> joined(const std::vector<Place>& points, bool closed) {
    std::vector<Segment> segments;
    segments.reserve(points.size() + 1);
    for (const Place& point : points) {
        segments.push_back({segments.empty() ? Segment::Kind::move : Segment::Kind::line,
                            paper_point(point),
                            {},
                            {}});
    }
    if (closed)
        segments.push_back({Segment::Kind::close, {}, {}, {}});
    return segments;
}

std::vector<Segment> line(const Element& element) {
    element.allow_only({"x1", "y1", "x2", "y2", "class", "stroke", "stroke-width"});
    return joined({{element.length("x1"), element.length("y1")},
                   {element.length("x2"), element.length("y2")}},
                  false);
}

std::vector<Segment> poly(const Element& element, bool closed) {
    element.allow_only({"points", "class", "stroke", "fill", "stroke-width"});
    const auto points = point_list(element.text("points"));
    if (!points || points->size() < 2) {
        element.fault("symbol.value", "points", "points have to be pairs of numbers",
                      "two or more pairs \"x,y\" in millimetres");
        return {};
    }
    return joined(*points, closed);
}

std::vector<Segment> rect(const Element& element) {
    element.allow_only({"x", "y", "width", "height", "class", "stroke", "fill", "stroke-width"});
    const Place low{element.length("x", 0.0), element.length("y", 0.0)};
    const Place high{low.x + element.positive("width"), low.y + element.positive("height")};
    return joined({low, {high.x, low.y}, high, {low.x, high.y}}, true);
}

std::vector<Segment> round(const Element& element) {
    element.allow_only({"cx", "cy", "r", "class", "stroke", "fill", "stroke-width"});
    return circle_segments({element.length("cx", 0.0), element.length("cy", 0.0)},
                           element.positive("r"));
}

std::vector<Segment> path(const Element& element) {
    element.allow_only({"d", "class", "stroke", "fill", "stroke-width"});
    const auto read = path_segments(element.text("d"));
    if (const auto* fault = std::get_if<PathFault>(&read)) {
        element.fault_at("symbol.path", "d", fault->offset, fault->message,
                         "M L H V C Z A with numbers of millimetres");
        return {};
    }
    return std::get<std::vector<Segment>>(read);
}

/// Ink beyond the box would run into what the diagram places beside it.
void check_within(const Element& element, const Path& path, const Size& size) {
    if (size == Size{})
        return; // the faulty viewBox has its own message
    // Rounding of curves to nanometres is no fault of the drafter.
    const Box box = Box{{}, {size.width, size.height}}.grown(millimetres(0.001));
    for (const Outline& outline : outlines_of(path, 0)) {
        if (box.contains(outline.bounds()))
            continue;
        element.fault("symbol.outside", "",
                      fmt::format("<{}> reaches beyond the viewBox", element.name()),
                      "every point within it, or a larger viewBox");
        return;
    }
}

/// A port lies on the edge that it faces; a mark may have one anywhere in its box.
void check_port_place(const Element& element, const SymbolPort& port, const Symbol& symbol) {
    const Size size = symbol.size;
    if (size == Size{})
        return; // the faulty viewBox has its own message
    if (!Box{{}, {size.width, size.height}}.contains(port.at)) {
        const bool beside = port.at.x < Length{} || port.at.x > size.width;
        element.fault("symbol.port_outside", beside ? "cx" : "cy",
                      fmt::format("port \"{}\" is outside the viewBox", port.name));
        return;
    }
    const bool on_edge = (port.side == Side::left && port.at.x == Length{}) ||
                         (port.side == Side::right && port.at.x == size.width) ||
                         (port.side == Side::top && port.at.y == Length{}) ||
                         (port.side == Side::bottom && port.at.y == size.height);
    if (!on_edge && !symbol.is_mark) {
        element.fault(
            "symbol.port_side", "data-side",
            fmt::format("port \"{}\" does not lie on that edge of the viewBox", port.name));
    }
}

} // namespace

Paint painted(const Element& element, const Paint& outer) {
    Paint paint = outer;
    check_color(element, "stroke");
    check_color(element, "fill");
    take(element, "stroke", paint.stroke);
    take(element, "fill", paint.fill);
    take(element, "class", paint.pen);
    take(element, "stroke-width", paint.width);
    return paint;
}

bool read_outline(const Element& element, const Paint& outer, Frame& art) {
    std::vector<Segment> segments;
    Paint paint = outer;
    if (element.name() == "line") {
        segments = line(element);
        paint.fill = "none"; // a line has no inside
    } else if (element.name() == "polyline" || element.name() == "polygon") {
        segments = poly(element, element.name() == "polygon");
    } else if (element.name() == "rect") {
        segments = rect(element);
    } else if (element.name() == "circle") {
        segments = round(element);
    } else if (element.name() == "path") {
        segments = path(element);
    } else {
        return false;
    }
    Path path = finished(element, paint, std::move(segments));
    check_within(element, path, art.size);
    art.add(std::move(path), Role::symbol);
    return true;
}

void read_lettering(const Element& element, const Paint& outer, Symbol& symbol) {
    element.allow_only(
        {"x", "y", "font-size", "font-weight", "text-anchor", "fill", "stroke", "data-slot"});
    const Paint paint = painted(element, outer);
    if (paint.stroke != "none" || paint.fill != "black") {
        element.fault("symbol.lettering", paint.stroke != "none" ? "stroke" : "fill",
                      "lettering is filled black and has no stroke",
                      "stroke=\"none\" fill=\"black\"");
    }
    const Point at = paper_point({element.length("x"), element.length("y")});
    TextStyle style{millimetres(element.positive("font-size")), false};
    if (style.size < smallest_lettering) {
        element.fault("symbol.lettering", "font-size",
                      "lettering under 3.6 mm is refused by cities", "font-size 3.6 or more");
    }
    if (element.has("font-weight"))
        style.bold = element.one_of("font-weight", {"normal", "bold"}) == 1;
    Align align = Align::left;
    if (element.has("text-anchor")) {
        align = static_cast<Align>(
            element.one_of("text-anchor", {"start", "middle", "end"}).value_or(0));
    }
    const std::string letters = element.node().child_value();
    if (element.has("data-slot")) {
        symbol.slots.push_back({std::string(element.text("data-slot")), at, style, align, letters});
    } else if (letters.empty()) {
        element.fault("symbol.lettering", "x", "<text> is empty", "letters, or data-slot");
    } else {
        symbol.art.add(Text{at, letters, style, align, black, false}, Role::lettering);
    }
}

void read_port(const Element& element, const Paint& outer, Symbol& symbol) {
    element.allow_only({"cx", "cy", "r", "data-port", "data-side", "fill", "stroke"});
    const Paint paint = painted(element, outer);
    if (paint.stroke != "none" || paint.fill != "none") {
        element.fault("symbol.port", paint.stroke != "none" ? "stroke" : "fill",
                      "a port has to be invisible in a viewer", "stroke=\"none\" fill=\"none\"");
    }
    SymbolPort port;
    port.span = element.span();
    port.name = element.text("data-port");
    port.at = paper_point({element.length("cx"), element.length("cy")});
    if (port.name.empty()) {
        element.fault("symbol.port_name", "data-port", "a port needs a name");
    } else if (symbol.port(port.name)) {
        element.fault("symbol.port_name", "data-port",
                      fmt::format("port \"{}\" is named twice", port.name));
    }
    if (const auto side = element.one_of("data-side", {"left", "right", "top", "bottom"})) {
        port.side = static_cast<Side>(*side);
        check_port_place(element, port, symbol);
    }
    symbol.ports.push_back(std::move(port));
}

} // namespace ohmfolio
