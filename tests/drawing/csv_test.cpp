// Tables as CSV, after RFC 4180.
#include "catch.h"

#include "drawing/csv.h"

using namespace ohmfolio;

namespace {

Table table_of(const std::vector<std::vector<std::string>>& rows) {
    Table table;
    for (std::size_t i = 0; i < rows.front().size(); ++i)
        table.columns.push_back({"H" + std::to_string(i + 1), Align::left, {}});
    for (const auto& texts : rows) {
        Row row;
        for (const std::string& text : texts)
            row.cells.push_back({.text = text, .shows = {}, .link = {}, .anchor = {}});
        table.rows.push_back(std::move(row));
    }
    return table;
}

/// The second line, without its end.
std::string line_of(const std::vector<std::string>& texts) {
    const std::string csv = to_csv(table_of({texts}));
    const auto first = csv.find("\r\n") + 2;
    REQUIRE(csv.ends_with("\r\n"));
    return csv.substr(first, csv.size() - first - 2);
}

} // namespace

TEST_CASE("fields are quoted where they must be, by RFC 4180") {
    CHECK(line_of({"a", "b c"}) == "a,b c");
    CHECK(line_of({"a,b", "c"}) == "\"a,b\",c");
    CHECK(line_of({"1/2\" EMT"}) == "\"1/2\"\" EMT\"");
    CHECK(line_of({"", "x", ""}) == ",x,");
    CHECK(line_of({"\u2014", "37 \u00b0C"}) == ",37 \u00b0C");
}

TEST_CASE("what a spreadsheet would run as a formula is not one") {
    CHECK(line_of({"=1+1"}) == "'=1+1");
    CHECK(line_of({"@SUM(A1)", "+cmd"}) == "'@SUM(A1),'+cmd");
    CHECK(line_of({"-2+3"}) == "'-2+3");
    CHECK(line_of({"-9", "+4.5", "-0.26"}) == "-9,+4.5,-0.26"); // numbers stay numbers
    CHECK(line_of({"=\"a\",b"}) == "\"'=\"\"a\"\",b\"");
}

TEST_CASE("words stand as written, headings in one line, groups in a column of their own") {
    Table table = table_of({{"WIRE"}, {"BOX"}});
    table.columns[0].heading = "NAME\nOF IT";
    table.columns[0].words = "Name\nof it";
    table.rows[0].cells[0].words = "wire";
    CHECK(to_csv(table) == "Name of it\r\nwire\r\nBOX\r\n");
    Row heading;
    heading.heading = true;
    heading.cells.push_back({.text = "B", .shows = {}, .link = {}, .anchor = {}});
    table.rows.insert(table.rows.begin() + 1, heading);
    CHECK(to_csv(table) == "Group,Name of it\r\n,wire\r\nB,BOX\r\n");
}
