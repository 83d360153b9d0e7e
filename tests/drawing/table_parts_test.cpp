#include "drawing/table_parts.h"

#include <algorithm>

#include "catch.h"

using namespace ohmfolio;

namespace {

// Each character is 5 mm wide by the measure of tests, each cell has 3 mm beside it left and right.
const TableStyle style{{millimetres(10)}, {millimetres(10)}, {millimetres(10)}, millimetres(3),
                       millimetres(2),    {millimetres(1)},  {millimetres(0.5)}};

Cell cell(std::string text, std::string anchor = {}) {
    Cell result;
    result.text = std::move(text);
    result.anchor = std::move(anchor);
    return result;
}

/// A tag and five columns of four characters each: 16 mm, then 26 mm each.
Table table() {
    Table table;
    table.title = "RUNS";
    table.columns.push_back({"T", Align::left, {}});
    Row row;
    row.cells.push_back(cell("C1", "schedule:C1"));
    for (const char* text : {"aaaa", "bbbb", "cccc", "dddd", "eeee"}) {
        table.columns.push_back({"H", Align::left, {}});
        row.cells.push_back(cell(text));
    }
    table.rows.push_back(row);
    Row group;
    group.heading = true;
    group.cells.push_back(cell("All"));
    table.rows.push_back(group);
    return table;
}

std::vector<Table> cut(double width) {
    return parted(table(), style, millimetres(width), *fixed_measure());
}

} // namespace

TEST_CASE("a table that fits stays whole, under its title") {
    // 16 + 5 x 26 = 146 mm.
    const auto whole = cut(146);
    REQUIRE(whole.size() == 1);
    CHECK(whole[0].title == "RUNS");
    CHECK(whole[0].columns.size() == 6);
}

TEST_CASE("a wider one is cut into the fewest parts, evenly, each with the tags") {
    const auto parts = cut(145);
    REQUIRE(parts.size() == 2);
    CHECK(parts[0].title == "RUNS, PART 1 OF 2");
    // Three and two columns rather than four and one.
    CHECK(parts[0].columns.size() == 4);
    CHECK(parts[1].columns.size() == 3);
    for (const Table& part : parts) {
        CHECK(part.rows[0].cells[0].text == "C1");
        CHECK(part.rows[0].cells.size() == part.columns.size());
        CHECK(part.rows[1].heading);
        CHECK(part.rows[1].cells.size() == 1);
    }
    CHECK(parts[1].rows[0].cells[1].text == "dddd");
    // What leads to a row leads to its first part.
    CHECK(parts[0].rows[0].cells[0].anchor == "schedule:C1");
    CHECK(parts[1].rows[0].cells[0].anchor.empty());
}

TEST_CASE("a sheet too narrow for two columns gets one beside the tags, and never none") {
    CHECK(cut(42).size() == 5);
    CHECK(cut(1).size() == 5);
}
