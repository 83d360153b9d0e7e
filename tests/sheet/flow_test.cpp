#include "catch.h"

#include "sheet/flow.h"

using namespace ohmfolio;
using namespace ohmfolio::sheets;

namespace {

Frame piece(double height, const std::string& name = "x") {
    Frame frame;
    frame.size = {inches(1), inches(height)};
    frame.add(Anchor{{}, name}, Role::none);
    return frame;
}

Group group(const std::string& name, int entries, double height = 1) {
    Group made;
    made.heading = piece(0.5, name);
    made.continued = piece(0.5, name + " continued");
    for (int i = 0; i < entries; ++i)
        made.entries.push_back(piece(height, name + std::to_string(i)));
    return made;
}

std::vector<std::string> names(const Frame& frame) {
    std::vector<std::string> list;
    for (const Mark& mark : frame.marks)
        list.push_back(std::get<Anchor>(mark.item).name);
    return list;
}

FlowRoom room(int columns, double height) {
    FlowRoom made;
    made.columns = columns;
    made.width = inches(1);
    made.gap = inches(0.25);
    made.height = inches(height);
    made.group_gap = inches(0.5);
    made.widest_group_gap = inches(0.5);
    return made;
}

} // namespace

TEST_CASE("a heading never stands without an entry") {
    // 0.5 + 2 × 1 + 0.5 + 0.5 = 3.5 leaves half an inch of a 4 in column: too little for an entry
    // under the second heading.
    const auto pages = flow({group("A", 2), group("B", 1)}, room(2, 3.9));
    REQUIRE(pages.size() == 1);
    CHECK(names(pages[0]) == std::vector<std::string>{"A", "A0", "A1", "B", "B0"});
    Length left{};
    for (const Mark& mark : pages[0].marks)
        if (std::get<Anchor>(mark.item).name == "B")
            left = std::get<Anchor>(mark.item).at.x;
    CHECK(left == inches(1.25));
}

TEST_CASE("a group that goes on repeats its heading") {
    const auto pages = flow({group("A", 5)}, room(1, 3));
    REQUIRE(pages.size() == 3);
    CHECK(names(pages[0]) == std::vector<std::string>{"A", "A0", "A1"});
    CHECK(names(pages[1]) == std::vector<std::string>{"A continued", "A2", "A3"});
    CHECK(names(pages[2]) == std::vector<std::string>{"A continued", "A4"});
}

TEST_CASE("columns of the last page come out about equal") {
    const auto pages = flow({group("A", 6)}, room(3, 20));
    REQUIRE(pages.size() == 1);
    // Two entries and a heading in each column.
    CHECK(pages[0].size.height.in_inches() == Approx(2.5).margin(0.05));
}

TEST_CASE("a group to be kept whole moves to the next column") {
    Group whole = group("B", 2);
    whole.whole = true;
    const auto pages = flow({group("A", 1), whole}, room(2, 3.6));
    REQUIRE(pages.size() == 1);
    for (const Mark& mark : pages[0].marks)
        if (std::get<Anchor>(mark.item).name.front() == 'B')
            CHECK(std::get<Anchor>(mark.item).at.x == inches(1.25));
}

TEST_CASE("an entry taller than a column still goes in, and filling ends") {
    const auto pages = flow({group("A", 2, 9)}, room(1, 3));
    CHECK(pages.size() == 2);
}

TEST_CASE("room that is left spreads evenly between blocks, within bounds") {
    FlowColumn column;
    column.segments = {piece(1, "a"), piece(1, "b"), piece(1, "c")};
    const auto tops = [&](double height) {
        std::vector<double> list;
        const Frame frame = stacked(column, inches(1), inches(height), inches(0.2), inches(0.5));
        for (const Mark& mark : frame.marks)
            list.push_back(std::get<Anchor>(mark.item).at.y.in_inches());
        return list;
    };
    CHECK(tops(3.6)[2] == Approx(2.6)); // gaps of 0.3 in
    CHECK(tops(9.0)[2] == Approx(3.0)); // no wider than 0.5 in
    CHECK(tops(3.0)[2] == Approx(2.4)); // no narrower than 0.2 in
}
