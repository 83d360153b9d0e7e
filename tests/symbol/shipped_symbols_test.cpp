#include "catch.h"

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "symbol/symbol.h"

using namespace ohmfolio;

namespace {

const std::filesystem::path folder = std::filesystem::path(OHMFOLIO_SOURCE) / "symbols";

SymbolSet shipped() {
    SourceFiles sources;
    Findings findings;
    auto set = SymbolSet::load(folder, sources, findings);
    std::string messages;
    for (const auto& finding : findings)
        messages += print(finding, sources, false) + "\n";
    INFO(messages);
    REQUIRE(findings.empty());
    return set;
}

double distance(Point a, Point b) {
    return std::hypot(static_cast<double>((a.x - b.x).nm), static_cast<double>((a.y - b.y).nm)) /
           1e6;
}

/// Distance in mm from `p` to the straight stretch from `a` to `b`.
double distance(Point p, Point a, Point b) {
    const double length = distance(a, b);
    if (length == 0.0)
        return distance(p, a);
    const auto mm = [](Length l) { return static_cast<double>(l.nm) / 1e6; };
    const double along = (mm(p.x - a.x) * mm(b.x - a.x) + mm(p.y - a.y) * mm(b.y - a.y)) / length;
    const double t = std::clamp(along / length, 0.0, 1.0);
    return distance(p, {a.x + scaled(b.x - a.x, t), a.y + scaled(b.y - a.y, t)});
}

/// How far `p` is from the outlines; of curves their ends count.
double distance_to_ink(Point p, const Frame& art) {
    double nearest = 1e9;
    for (const Mark& mark : art.marks) {
        const auto* path = std::get_if<Path>(&mark.item);
        if (!path)
            continue;
        Point from;
        Point start;
        for (const Segment& segment : path->segments) {
            const bool closes = segment.kind == Segment::Kind::close;
            const Point to = closes ? start : segment.to;
            if (segment.kind == Segment::Kind::move)
                start = to;
            else if (segment.kind == Segment::Kind::curve)
                nearest = std::min(nearest, distance(p, to));
            else
                nearest = std::min(nearest, distance(p, from, to));
            from = to;
        }
    }
    return nearest;
}

bool on_grid(Length length) { return length.nm % 500'000 == 0; }

} // namespace

TEST_CASE("every shipped symbol loads without findings") {
    const auto set = shipped();
    std::size_t files = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        files += entry.path().extension() == ".svg" ? 1U : 0U;
    CHECK(set.all().size() == files);
    CHECK(files >= 23);
}

TEST_CASE("shipped symbols have distinct titles in capitals, for the legend") {
    std::vector<std::string> titles;
    const auto set = shipped();
    for (const auto& [name, symbol] : set.all())
        titles.push_back(symbol.title);
    std::sort(titles.begin(), titles.end());
    CHECK(std::adjacent_find(titles.begin(), titles.end()) == titles.end());
    for (const auto& title : titles)
        CHECK(
            std::none_of(title.begin(), title.end(), [](char c) { return c >= 'a' && c <= 'z'; }));
}

TEST_CASE("the art of shipped symbols stays in its box and reaches every port") {
    const auto set = shipped();
    for (const auto& [name, symbol] : set.all()) {
        CAPTURE(name);
        const Box box{{}, {symbol.size.width, symbol.size.height}};
        for (const Mark& mark : symbol.art.marks)
            if (const auto* path = std::get_if<Path>(&mark.item))
                CHECK(box.contains(bounds(*path)));
        for (const SymbolPort& port : symbol.ports) {
            CAPTURE(port.name);
            if (!symbol.is_mark)
                CHECK(distance_to_ink(port.at, symbol.art) < 0.001);
        }
    }
}

TEST_CASE("ports of shipped symbols lie on the drafting grid of 0.5 mm") {
    // A splice is a dot of its own size, met at its edge.
    const auto set = shipped();
    for (const auto& [name, symbol] : set.all())
        for (const SymbolPort& port : symbol.ports) {
            CAPTURE(name, port.name);
            CHECK((name == "splice" || (on_grid(port.at.x) && on_grid(port.at.y))));
        }
}

TEST_CASE("two-terminal symbols have their terminals at one height, so that runs stay straight") {
    const auto set = shipped();
    for (const auto& [name, symbol] : set.all()) {
        CAPTURE(name);
        for (const SymbolPort& left : symbol.ports)
            for (const SymbolPort& right : symbol.ports)
                if (left.side == Side::left && right.side == Side::right)
                    CHECK(left.at.y == right.at.y);
    }
}
