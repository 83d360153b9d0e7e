#include "symbol/outline.h"

#include <fmt/format.h>

#include "symbol/number_reader.h"

namespace ohmfolio {

namespace {

/// Reads step by step; what cannot be read leaves a fault and ends the reading.
class PathReader {
  public:
    explicit PathReader(std::string_view data) : reader_(data) {}

    std::variant<std::vector<Segment>, PathFault> read();

  private:
    bool command(char letter);
    bool step(char kind);
    bool curve();
    bool arc();
    bool pair(Place& place);
    bool coordinate(double& value, double base);
    void line_to(Place to);
    void close();
    bool fail(std::string message);

    NumberReader reader_;
    std::vector<Segment> segments_;
    Place here_;
    Place start_;
    bool relative_ = false;
    std::optional<PathFault> fault_;
};

bool PathReader::fail(std::string message) {
    fault_ = {reader_.offset(), std::move(message)};
    return false;
}

bool PathReader::coordinate(double& value, double base) {
    const auto number = reader_.number();
    if (!number)
        return fail("a number is missing or not a length below 1000 mm");
    value = *number + (relative_ ? base : 0.0);
    return true;
}

bool PathReader::pair(Place& place) {
    return coordinate(place.x, here_.x) && coordinate(place.y, here_.y);
}

void PathReader::line_to(Place to) {
    here_ = to;
    segments_.push_back({Segment::Kind::line, paper_point(to), {}, {}});
}

void PathReader::close() {
    here_ = start_;
    segments_.push_back({Segment::Kind::close, {}, {}, {}});
}

bool PathReader::curve() {
    Place control1;
    Place control2;
    Place to;
    if (!pair(control1) || !pair(control2) || !pair(to))
        return false;
    here_ = to;
    segments_.push_back(
        {Segment::Kind::curve, paper_point(to), paper_point(control1), paper_point(control2)});
    return true;
}

bool PathReader::arc() {
    Arc arc;
    arc.from = here_;
    const auto radius_x = reader_.number();
    const auto radius_y = reader_.number();
    const auto turned = reader_.number();
    const auto large = reader_.flag();
    const auto clockwise = reader_.flag();
    if (!radius_x || !radius_y || !turned || !large || !clockwise)
        return fail("an arc needs rx ry angle, two flags 0 or 1, and its end");
    arc.radius_x = *radius_x;
    arc.radius_y = *radius_y;
    arc.turned_degrees = *turned;
    arc.large = *large;
    arc.clockwise = *clockwise;
    if (!pair(arc.to))
        return false;
    here_ = arc.to;
    for (const Segment& segment : arc_segments(arc))
        segments_.push_back(segment);
    return true;
}

bool PathReader::step(char kind) {
    Place to = here_;
    switch (kind) {
    case 'M':
        if (!pair(to))
            return false;
        here_ = start_ = to;
        segments_.push_back({Segment::Kind::move, paper_point(to), {}, {}});
        return true;
    case 'L':
        if (!pair(to))
            return false;
        break;
    case 'H':
        if (!coordinate(to.x, here_.x))
            return false;
        break;
    case 'V':
        if (!coordinate(to.y, here_.y))
            return false;
        break;
    case 'C':
        return curve();
    case 'A':
        return arc();
    default:
        return fail(fmt::format("path command \"{}\" is not known", kind));
    }
    line_to(to);
    return true;
}

/// One command with all its repetitions; further pairs after a move are lines (SVG 1.1, 8.3.2).
bool PathReader::command(char letter) {
    relative_ = letter >= 'a';
    char kind = relative_ ? static_cast<char>(letter - 'a' + 'A') : letter;
    if (segments_.empty() && kind != 'M')
        return fail("path data begins with M");
    if (kind == 'Z') {
        close();
        return true;
    }
    do {
        if (!step(kind))
            return false;
        kind = kind == 'M' ? 'L' : kind;
    } while (NumberReader(reader_).number());
    return true;
}

std::variant<std::vector<Segment>, PathFault> PathReader::read() {
    while (!fault_ && !reader_.at_end()) {
        const auto letter = reader_.letter();
        if (!letter) {
            fail("a path command is missing");
        } else {
            command(*letter);
        }
    }
    if (!fault_ && segments_.size() < 2)
        fail("the path draws nothing");
    if (fault_)
        return *fault_;
    return segments_;
}

} // namespace

std::variant<std::vector<Segment>, PathFault> path_segments(std::string_view data) {
    return PathReader(data).read();
}

std::optional<std::vector<Place>> point_list(std::string_view text) {
    NumberReader reader(text);
    std::vector<Place> points;
    while (!reader.at_end()) {
        const auto x = reader.number();
        const auto y = reader.number();
        if (!x || !y)
            return std::nullopt;
        points.push_back({*x, *y});
    }
    return points;
}

} // namespace ohmfolio
