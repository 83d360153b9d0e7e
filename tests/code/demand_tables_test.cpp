// Tables of demand and of motors against copies from outside. The sources of each copy stand at the
// head of the file in tests/data.
#include "code/demand_tables.h"

#include "catch.h"
#include "csv.h"

using namespace ohmfolio;

namespace {

int count_of(const CsvRow& row, const std::string& column, int otherwise) {
    return static_cast<int>(csv_number(row, column).value_or(otherwise));
}

} // namespace

TEST_CASE("demand of cooking appliances agrees with the published table, whatever their number") {
    const auto rows = read_csv("range_220_55.csv");
    REQUIRE(rows.size() == 30);
    for (const Edition edition : all_editions) {
        const CodeBook book(edition);
        for (const CsvRow& row : rows) {
            const int from = count_of(row, "from", 0);
            for (int count = from; count <= count_of(row, "through", from + 40); ++count) {
                INFO(count << " appliances");
                const CookingRow found = cooking_row(book, count);
                CHECK(found.share_a * 100 == Approx(*csv_number(row, "a")));
                CHECK(found.share_b * 100 == Approx(*csv_number(row, "b")));
                const double each = csv_number(row, "each").value_or(0);
                CHECK(found.column_c.value ==
                      Approx(1000 * (*csv_number(row, "c") + each * count)));
            }
        }
    }
}

TEST_CASE("demand of clothes dryers agrees with the published table, whatever their number") {
    const auto rows = read_csv("dryer_220_54.csv");
    REQUIRE(rows.size() == 11);
    for (const Edition edition : all_editions) {
        const CodeBook book(edition);
        for (const CsvRow& row : rows) {
            const int from = count_of(row, "from", 0);
            for (int count = from; count <= count_of(row, "through", from + 40); ++count) {
                INFO(count << " dryers");
                const double less = csv_number(row, "less").value_or(0);
                const double beyond = csv_number(row, "beyond").value_or(0);
                CHECK(dryer_share(book, count) * 100 ==
                      Approx(*csv_number(row, "percent") - less * (count - beyond)));
            }
        }
    }
}

TEST_CASE("code letters of motors agree with the published table") {
    const auto rows = read_csv("code_letters_430_7_b.csv");
    REQUIRE(rows.size() == 19);
    for (const Edition edition : all_editions) {
        const CodeBook book(edition);
        for (std::size_t i = 0; i < rows.size(); ++i) {
            INFO("letter " << rows[i].at("letter"));
            const auto found = locked_rotor_per_horsepower(book, rows[i].at("letter"));
            const auto through = csv_number(rows[i], "through");
            REQUIRE(found.has_value() == through.has_value());
            if (!found)
                continue;
            CHECK(found->value == Approx(1000 * *through));
            // Where a range ends, the next one begins, a hundredth above.
            CHECK(found->value + 10 == Approx(1000 * *csv_number(rows[i + 1], "from")));
        }
    }
}

TEST_CASE("lighting demand changes at 3000 and at 120 000 VA") {
    // Table 220.42 (from 2023 on 220.45): first 3000 at 100 %, 3001 to 120 000 at 35 %, rest at 25
    // %; scribd.com 531352683 (worksheet), source code of two public load calculators.
    for (const Edition edition : all_editions) {
        const auto bands = lighting_bands(CodeBook(edition));
        REQUIRE(bands.size() == 3);
        CHECK(bands[0].through == Watts{3000});
        CHECK(bands[1].through == Watts{120000});
        CHECK_FALSE(bands[2].through);
        CHECK(bands[0].share == Approx(1));
        CHECK(bands[1].share == Approx(0.35));
        CHECK(bands[2].share == Approx(0.25));
    }
}
