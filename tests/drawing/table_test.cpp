#include "drawing/table.h"

#include <algorithm>
#include <stdexcept>

#include "catch.h"

using namespace ohmfolio;

namespace {

// Millimetres, unlike points, are whole nanometres: sums are exact.
const TextStyle ten{millimetres(10)};

TableStyle style() {
    return {ten,
            {millimetres(10), true},
            ten,
            millimetres(3),
            millimetres(2),
            {millimetres(1)},
            {millimetres(0.5)}};
}

Row row(std::vector<std::string> texts, bool heading = false) {
    Row result;
    result.heading = heading;
    for (std::string& text : texts) {
        Cell cell;
        cell.text = std::move(text);
        result.cells.push_back(std::move(cell));
    }
    return result;
}

std::vector<Frame> set(const Table& table, double width, double tallest, bool stretch = false) {
    return set_table(table, style(), millimetres(width), millimetres(tallest), stretch,
                     *fixed_measure());
}

std::vector<Text> texts(const Frame& frame) {
    std::vector<Text> result;
    for (const Mark& mark : frame.marks)
        if (const auto* text = std::get_if<Text>(&mark.item))
            result.push_back(*text);
    return result;
}

std::vector<std::string> words(const Frame& frame) {
    std::vector<std::string> result;
    for (const Text& text : texts(frame))
        result.push_back(text.text);
    return result;
}

/// Every text lies between the uprights and inside the frame, and no two share ink.
void check_order(const Frame& frame) {
    const auto measure = fixed_measure();
    const auto all = texts(frame);
    for (std::size_t i = 0; i < all.size(); ++i) {
        const Box box = text_box(all[i], *measure);
        CAPTURE(all[i].text);
        CHECK(box_at({}, frame.size).contains(box));
        for (std::size_t k = 0; k < i; ++k)
            CHECK_FALSE(box.overlaps(text_box(all[k], *measure)));
        for (const Mark& mark : frame.marks)
            if (const auto* path = std::get_if<Path>(&mark.item);
                path != nullptr && path->segments.size() == 2)
                CHECK_FALSE(box.overlaps(bounds(*path)));
    }
}

using Words = std::vector<std::string>;

} // namespace

TEST_CASE("columns take their natural width when they fit") {
    const Table table{"", {{"A"}, {"B"}}, {row({"abcdef", "x"}), row({"a", "xyz"})}};
    const auto pieces = set(table, 1000, 1000);
    REQUIRE(pieces.size() == 1);
    // 6 and 3 characters of 5 mm, and 3 mm on either side of each.
    CHECK(pieces[0].size.width == millimetres(30 + 15 + 4 * 3));
    // Three rows of 7 mm capitals with 2 mm above and below.
    CHECK(pieces[0].size.height == millimetres(3 * 11));
    CHECK(words(pieces[0]) == Words{"A", "B", "abcdef", "x", "a", "xyz"});
    check_order(pieces[0]);
}

TEST_CASE("room that is left is shared when asked") {
    const Table table{"", {{"A"}, {"B"}}, {row({"abcdef", "x"})}};
    CHECK(set(table, 500, 1000, true)[0].size.width == millimetres(500));
    CHECK(set(table, 500, 1000, false)[0].size.width < millimetres(100));
}

TEST_CASE("the widest text columns wrap first when there is too little room") {
    Table table{"", {{"N", Align::right}, {"T"}, {"U"}}, {}};
    table.rows = {row({"123456", "one two three four five", "ab cd"})};
    // Numbers keep 30, "ab cd" its 25; the long text gets what is left of 130 - 6 * 3.
    const auto pieces = set(table, 130, 1000);
    CHECK(pieces[0].size.width <= millimetres(130));
    CHECK(words(pieces[0]) ==
          Words{"N", "T", "U", "123456", "one two", "three four", "five", "ab cd"});
    check_order(pieces[0]);
}

TEST_CASE("other columns wrap too before the table outgrows its width") {
    Table table{"", {{"N", Align::right}, {"M", Align::centre}}, {}};
    table.rows = {row({"one two three", "four five six"})};
    const auto pieces = set(table, 2 * 25 + 4 * 3, 1000);
    CHECK(pieces[0].size.width <= millimetres(2 * 25 + 4 * 3));
    CHECK(words(pieces[0]) == Words{"N", "M", "one", "two", "three", "four", "five", "six"});
}

TEST_CASE("a column keeps its own limit, and headings wrap") {
    Table table{"", {{"LOAD CURRENT AMPERES"}, {"B", Align::left, millimetres(40)}}, {}};
    table.rows = {row({"1", "one two three"})};
    const auto pieces = set(table, 1000, 1000);
    CHECK(words(pieces[0]) == Words{"LOAD", "CURRENT", "AMPERES", "B", "1", "one two", "three"});
    CHECK(pieces[0].size.width == millimetres(35 + 40 + 4 * 3));
    check_order(pieces[0]);
}

TEST_CASE("cells follow their column's alignment") {
    Table table{"", {{"A"}, {"B", Align::centre}, {"C", Align::right}}, {row({"xxxx", "y", "z"})}};
    table.columns[1].heading = "BBBB";
    table.columns[2].heading = "CCCC";
    const auto all = texts(set(table, 1000, 1000)[0]);
    CHECK(all[3].at.x == millimetres(3));
    CHECK(all[4].at.x == millimetres(26 + 13));
    CHECK(all[4].align == Align::centre);
    CHECK(all[5].at.x == millimetres(3 * 26 - 3));
    CHECK(all[5].align == Align::right);
}

TEST_CASE("a long table continues with its heading, and no group heading is left behind") {
    Table table{"LOADS OF ALL PANELS", {{"A"}}, {}};
    // Rows are 11 mm; title and heading take 22 of the 60, 34 once continued.
    table.rows = {row({"one"}), row({"two"}), row({"GROUP"}, true), row({"three"})};
    const auto pieces = set(table, 1000, 60);
    REQUIRE(pieces.size() == 2);
    CHECK(words(pieces[0]) == Words{"LOADS OF ALL PANELS", "A", "one", "two"});
    // The title alone decides the width, 19 characters; there "(CONTINUED)" takes its own line.
    CHECK(pieces[0].size.width == millimetres(19 * 5 + 2 * 3));
    CHECK(words(pieces[1])[0] == "LOADS OF ALL PANELS");
    CHECK(words(pieces[1])[1] == "(CONTINUED)");
    CHECK(words(pieces[1]).back() == "three");
    CHECK(std::ranges::count(words(pieces[1]), "GROUP") == 1);
    for (const Frame& piece : pieces) {
        CHECK(piece.size.height <= millimetres(60));
        CHECK(piece.size.width == pieces[0].size.width);
    }
}

TEST_CASE("a group that goes on has its heading again") {
    Table table{"", {{"A"}}, {}};
    table.rows = {row({"WIRE AND CABLE OF ALL KINDS"}, true),
                  row({"one"}),
                  row({"two"}),
                  row({"three"}),
                  row({"RACEWAY"}, true),
                  row({"four"}),
                  row({"five"})};
    table.rows[0].cells[0].anchor = "material:wire";
    // Rows are 11 mm, of which 50 mm hold four, the heading of the column among them.
    const auto pieces = set(table, 1000, 50);
    REQUIRE(pieces.size() == 3);
    CHECK(words(pieces[0]) == Words{"A", "WIRE AND CABLE OF ALL KINDS", "one", "two"});
    // 27 characters decide the width; there "(CONTINUED)" takes its own line, which is 10 mm more
    // and leaves room for one row. RACEWAY alone would be left behind.
    CHECK(words(pieces[1]) == Words{"A", "WIRE AND CABLE OF ALL KINDS", "(CONTINUED)", "three"});
    CHECK(words(pieces[2]) == Words{"A", "RACEWAY", "four", "five"}); // begins here
    int anchors = 0;
    for (const Frame& piece : pieces) {
        CHECK(piece.size.height <= millimetres(50));
        check_order(piece);
        anchors += static_cast<int>(std::ranges::count_if(piece.marks, [](const Mark& mark) {
            return std::holds_alternative<Anchor>(mark.item);
        }));
    }
    CHECK(anchors == 1); // names of anchors are unique
}

TEST_CASE("what stands under a table has rows of it above") {
    Table table{"", {{"A"}}, {}};
    for (const char* name : {"one", "two", "three", "four", "five"})
        table.rows.push_back(row({name}));
    const auto with_foot = [&](double tallest, double foot) {
        std::vector<Words> pieces;
        for (const Frame& piece : set_table(table, style(), millimetres(1000), millimetres(tallest),
                                            false, *fixed_measure(), millimetres(foot))) {
            pieces.push_back(words(piece));
            CHECK(piece.size.height <= millimetres(tallest));
        }
        return pieces;
    };
    // The heading and five rows of 11 mm are 66 mm.
    CHECK(with_foot(80, 14).size() == 1);
    CHECK(with_foot(79.9, 14) ==
          std::vector<Words>{{"A", "one", "two"}, {"A", "three", "four", "five"}});
    // On 50 mm stand three rows, then two; those and the heading are 33 mm, too much for 20 below.
    CHECK(with_foot(50, 14).back() == Words{"A", "four", "five"});
    CHECK(with_foot(50, 20).back() == Words{"A", "five"});
}

TEST_CASE("a row taller than all room still appears, once") {
    Table table{"", {{"A", Align::left, millimetres(20)}}, {}};
    table.rows = {row({"a b c d e f g h i j k l m n o p"}), row({"GROUP"}, true), row({"z"})};
    std::vector<std::string> all;
    for (const Frame& piece : set(table, 1000, 30))
        for (const std::string& word : words(piece))
            if (word != "A")
                all.push_back(word);
    CHECK(all == Words{"a b c", "d e f", "g h i", "j k l", "m n o", "p", "GROUP", "z"});
}

TEST_CASE("a group heading spans the table on shaded ground") {
    Table table{"", {{"A"}, {"B"}}, {}};
    table.rows = {row({"one", "two"}), row({"A GROUP THAT IS LONG"}, true), row({"three", "x"})};
    const Frame frame = set(table, 1000, 1000)[0];
    CHECK(frame.size.width == millimetres(20 * 5 + 2 * 3)); // as the group heading needs
    int shaded = 0;
    for (const Mark& mark : frame.marks) {
        if (mark.role != Role::ground)
            continue;
        CHECK(bounds(std::get<Path>(mark.item)).width() == frame.size.width);
        ++shaded;
    }
    CHECK(shaded == 2); // the heading of the columns and the group's
    check_order(frame); // no upright runs through the group heading
}

TEST_CASE("what a cell shows, links to and anchors is kept") {
    Table table{"", {{"A"}, {"B"}}, {row({"x", "one two"})}};
    Cell& cell = table.rows[0].cells[1];
    cell.shows = "circuit:C3";
    cell.link = "diagram:C3";
    cell.anchor = "schedule:C3";
    cell.bold = true;
    const Frame frame = set(table, 1000, 1000)[0];
    int found = 0;
    for (const Mark& mark : frame.marks) {
        if (mark.shows != "circuit:C3")
            continue;
        ++found;
        if (const auto* link = std::get_if<Link>(&mark.item)) {
            CHECK(link->target == "diagram:C3");
            CHECK(link->area ==
                  Box{{millimetres(11), millimetres(11)}, {millimetres(11 + 41), millimetres(22)}});
        } else if (const auto* anchor = std::get_if<Anchor>(&mark.item)) {
            CHECK(anchor->name == "schedule:C3");
            CHECK(anchor->at == Point{millimetres(11), millimetres(11)});
        } else {
            CHECK(std::get<Text>(mark.item).style.bold);
        }
    }
    CHECK(found == 3);
}

TEST_CASE("odd tables") {
    CHECK(set({"T", {}, {}}, 100, 100).empty());
    CHECK(words(set({"T", {{"A"}}, {}}, 100, 100)[0]) == Words{"T", "A"});
    CHECK(words(set({"", {{""}}, {row({"a"})}}, 100, 100)[0]) == Words{"a"});
    CHECK(words(set({"", {{"A"}, {"B"}}, {row({"a"}), row({}, true)}}, 100, 100)[0]) ==
          Words{"A", "B", "a"});
    CHECK_THROWS_AS(set({"", {{"A"}}, {row({"a", "b"})}}, 100, 100), std::logic_error);
}
