// Where deltas stand in tables. That a delta is read with the row it stands in is common practice,
// no source.
#include <algorithm>

#include "catch.h"
#include "drawing/table.h"
#include "revision/clouds.h"
#include "revision/table_rows.h"

using namespace ohmfolio;

namespace {

const TextStyle body{points(10)};
const Length margin = points(11), depth = points(100);

/// A table over the whole width of a sheet, rows of one line, with the border close around it.
Sheet sheet_of(const std::vector<std::vector<std::string>>& rows, const TextMeasure& measure) {
    Table table;
    table.columns.resize(rows.front().size());
    for (const auto& words : rows) {
        Row row;
        for (const std::string& word : words) {
            Cell cell;
            cell.text = word;
            row.cells.push_back(cell);
        }
        table.rows.push_back(row);
    }
    const TableStyle style{body, body, body, points(3), points(4), {thin_pen}, {fine_pen}};
    const Frame frame = set_table(table, style, inches(20), inches(9), false, measure).front();
    Sheet sheet;
    sheet.drawing_area = {{margin * 2, margin * 2},
                          {margin * 2 + frame.size.width, margin * 2 + frame.size.height + depth}};
    const Box edge = sheet.drawing_area.grown(margin);
    sheet.border = edge.grown(margin);
    sheet.zones.outer = sheet.border;
    sheet.frame.add(frame, sheet.drawing_area.low);
    sheet.frame.add(rectangle(edge, {wide_pen}), Role::rule);
    return sheet;
}

struct Clouded {
    std::vector<Box> rows, clouds, deltas;
    Box edge;
    Findings findings;
};

/// The sheet after all lettering that is `news` was said to have changed.
Clouded clouded(const std::vector<std::vector<std::string>>& rows, const std::string& news) {
    const auto measure = fixed_measure();
    Packet packet;
    packet.sheets.push_back(sheet_of(rows, *measure));
    revision::ChangedMarks changed;
    for (const Mark& mark : packet.sheets[0].frame.marks) {
        const auto* text = std::get_if<Text>(&mark.item);
        if (text != nullptr && text->text == news) {
            revision::Piece piece;
            piece.ink = {letters_box(*text, *measure)};
            changed.added.push_back(piece);
        }
    }
    Clouded result;
    result.rows = revision::table_rows(packet.sheets[0].frame, *measure);
    for (const auto& cloud :
         revision::add_clouds(packet, changed, {"1", body}, *measure, result.findings)) {
        result.clouds.push_back(cloud.box);
    }
    for (const Mark& mark : packet.sheets[0].frame.marks) {
        const auto* path = std::get_if<Path>(&mark.item);
        if (path != nullptr && path->filled && mark.role == Role::revision) {
            result.deltas.push_back(bounds(*path));
        }
    }
    result.edge = packet.sheets[0].drawing_area.grown(margin);
    return result;
}

const Box& row_of(const Clouded& sheet, const Box& box) {
    const auto row = std::ranges::find_if(
        sheet.rows, [&](const Box& each) { return each.contains(box.centre()); });
    REQUIRE(row != sheet.rows.end());
    return *row;
}

} // namespace

TEST_CASE("rows of a table reach from rule to rule and over its whole width") {
    const auto measure = fixed_measure();
    const Sheet sheet = sheet_of({{"A", "1"}, {"B", "2"}, {"C", "3"}}, *measure);
    const auto rows = revision::table_rows(sheet.frame, *measure);
    REQUIRE(rows.size() == 3);
    for (const Box& row : rows) {
        CHECK(row.low.x == sheet.drawing_area.low.x);
        CHECK(row.high.x == sheet.drawing_area.high.x);
    }
    CHECK(rows[0].high.y == rows[1].low.y);
    CHECK(rows[1].high.y == rows[2].low.y);
}

TEST_CASE("a delta touches its cloud in its own row where there is room") {
    const Clouded sheet =
        clouded({{"A", "WIDER CELL", "10"}, {"B", "NEW", "10"}, {"C", "40", "10"}}, "NEW");
    REQUIRE(sheet.clouds.size() == 1);
    REQUIRE(sheet.deltas.size() == 1);
    CHECK(row_of(sheet, sheet.deltas[0]) == row_of(sheet, sheet.clouds[0]));
    CHECK(sheet.deltas[0].grown(points(4)).overlaps(sheet.clouds[0]));
}

TEST_CASE("a row without room has its delta at its end, inside the border") {
    const Clouded sheet = clouded({{"A", "10.65", "AAAA", "AAAAAAAAAAAAA"},
                                   {"B", "NEW11", "BBBB", "BBBBBB"},
                                   {"C", "40.01", "CCCC", "CCCCCCCCCCCCC"},
                                   {"D", "40.01", "CCCC", "CCCCCCCCCCCCC"}},
                                  "NEW11");
    REQUIRE(sheet.deltas.size() == 1);
    const Box& row = row_of(sheet, sheet.clouds.at(0));
    CHECK(row.contains(Point{row.low.x, sheet.deltas[0].centre().y}));
    CHECK(sheet.edge.contains(sheet.deltas[0]));
    CHECK(sheet.deltas[0].high.x > row.high.x - points(30));
    CHECK(sheet.findings.empty());
}

TEST_CASE("one delta serves clouds of a row that have no room of their own") {
    const Clouded sheet = clouded({{"A", "1", "AAAAAAAAAAAAAAA", "1", "WIDER"},
                                   {"B", "NEW", "BBBBBBBBBBBBBBB", "NEW", "B"},
                                   {"C", "1", "CCCCCCCCCCCCCCC", "1", "C"}},
                                  "NEW");
    CHECK(sheet.clouds.size() == 2);
    for (const Box& delta : sheet.deltas) {
        CHECK(row_of(sheet, sheet.clouds[0]).contains(delta.centre()));
    }
    CHECK_FALSE(sheet.deltas.empty());
    CHECK(sheet.findings.empty());
}
