// Reading of the code tables: which edition holds, and that a fault in a table is loud.
#include <stdexcept>

#include "catch.h"
#include "code/embedded_tables.h"
#include "code/table_file.h"

using namespace ohmfolio;

namespace {

TableFiles files(std::string_view text) { return TableFiles({{"sample", text}}); }

template <class Call> std::string fault_of(Call call) {
    try {
        call();
    } catch (const std::logic_error& fault) {
        return fault.what();
    }
    return "no fault";
}

} // namespace

TEST_CASE("an edition holds until the next one listed") {
    const auto tables =
        files("[\"2017\"]\ncite = \"old\"\nvalue = 1\n[\"2023\"]\ncite = \"new\"\n");
    const TableRow file = tables.file("sample");
    CHECK(file.as_of(Edition::nec2017)->text("cite") == "old");
    CHECK(file.as_of(Edition::nec2020)->text("cite") == "old");
    CHECK(file.as_of(Edition::nec2023)->text("cite") == "new");
    // A value that did not move is found in the edition that has it.
    CHECK(file.as_of(Edition::nec2023, "value")->number("value") == 1);
}

TEST_CASE("before the first edition listed there is nothing") {
    const auto tables = files("[\"2020\"]\ncite = \"first\"\n");
    CHECK_FALSE(tables.file("sample").as_of(Edition::nec2017));
    CHECK(tables.file("sample").as_of(Edition::nec2020));
}

TEST_CASE("faults name the file, the line and what is wrong") {
    const auto tables = files("number = 1\nword = \"a\"\nlist = [1, 2]\nwords = [\"a\"]\n");
    const TableRow row = tables.file("sample");
    CHECK(fault_of([&] { row.number("absent"); }).find("absent is missing") != std::string::npos);
    CHECK(fault_of([&] { row.number("word"); }).find("word must be a number") != std::string::npos);
    CHECK(fault_of([&] { row.text("number"); }).find("number must be a text") != std::string::npos);
    CHECK(fault_of([&] { row.flag("number"); }).find("true or false") != std::string::npos);
    CHECK(fault_of([&] { row.rows("number"); }).find("must be a list") != std::string::npos);
    CHECK(fault_of([&] { row.rows("list"); }).find("a table was expected") != std::string::npos);
    CHECK(fault_of([&] { row.numbers("words"); }).find("list of numbers") != std::string::npos);
    CHECK(fault_of([&] { row.number("absent"); }).find("code/tables/sample.toml:1") == 0);
}

TEST_CASE("a table that is no TOML, or is not there, is a fault") {
    CHECK(fault_of([] { files("rows = [\n"); }).find("code/tables/sample.toml") !=
          std::string::npos);
    CHECK_THROWS_AS(files("a = 1\n").file("other"), std::logic_error);
}

TEST_CASE("every table in the program names its title or entries, its source, and its confidence") {
    std::vector<TableFiles::Text> texts;
    for (const EmbeddedTable& table : embedded_tables())
        texts.push_back({table.name, table.text});
    CHECK(texts.size() >= 16);
    const TableFiles tables(texts);
    for (const EmbeddedTable& table : embedded_tables()) {
        INFO(table.name);
        const TableRow file = tables.file(table.name);
        if (table.name.starts_with("chapter_")) {
            for (const char* kind : {"rule", "factor", "size"})
                for (const TableRow& row : file.rows_if_any(kind))
                    CHECK_FALSE(row.text("source").empty());
            continue;
        }
        CHECK_FALSE(file.text("title").empty());
        CHECK_FALSE(file.text("source").empty());
        CHECK_FALSE(file.text("confidence").empty());
    }
}

TEST_CASE("what must be in force is, or is a loud fault") {
    const auto tables = files("[\"2020\"]\ncite = \"first\"\n");
    const TableRow file = tables.file("sample");
    CHECK(file.in_force(Edition::nec2023).text("cite") == "first");
    CHECK(fault_of([&] {
              file.in_force(Edition::nec2017);
          }).find("no edition up to 2017 has an entry") != std::string::npos);
    CHECK(fault_of([&] {
              file.in_force(Edition::nec2023, "rows");
          }).find("no edition up to 2023 has rows") != std::string::npos);
}

TEST_CASE("the first row that reaches to a value; without one a fault") {
    const auto closed =
        files("[\"2017\"]\nrows = [{ through = 3, v = 1 }, { through = 6, v = 2 }]\n");
    const auto value = [](const TableFiles& tables, double at) {
        return tables.file("sample").row_reaching(Edition::nec2020, at).number("v");
    };
    CHECK(value(closed, 0) == 1);
    CHECK(value(closed, 3) == 1);
    CHECK(value(closed, 3.1) == 2);
    CHECK(value(closed, 6) == 2);
    CHECK(fault_of([&] { value(closed, 6.1); }).find("no row reaches to 6.1") != std::string::npos);
    const auto open = files("[\"2017\"]\nrows = [{ through = 3, v = 1 }, { v = 2 }]\n");
    CHECK(value(open, 1e9) == 2);
}

TEST_CASE("numbers by edition, and what may stand in their place by mistake") {
    const auto tables = files("[late]\n\"2020\" = 1.2\n[word]\n\"2017\" = \"a\"\n");
    const TableRow file = tables.file("sample");
    const TableRow late = *file.group_if_any("late");
    CHECK(late.number_as_of(Edition::nec2023) == 1.2);
    CHECK_FALSE(late.listed_by(Edition::nec2017));
    CHECK(fault_of([&] {
              late.number_as_of(Edition::nec2017);
          }).find("no edition up to 2017 has a number") != std::string::npos);
    CHECK(fault_of([&] {
              file.group_if_any("word")->number_as_of(Edition::nec2017);
          }).find("must be a number") != std::string::npos);
    // A bare number has no keys: an edition that holds one lacks what is asked for.
    CHECK_FALSE(late.as_of(Edition::nec2023, "rows"));
    CHECK_FALSE(file.group_if_any("absent"));
}

TEST_CASE("a list of numbers is a list") {
    const auto tables = files("one = 1\nlist = [1, 2.5]\n");
    const TableRow row = tables.file("sample");
    CHECK(row.numbers("list") == std::vector<double>{1, 2.5});
    CHECK(fault_of([&] { row.numbers("one"); }).find("one must be a list") != std::string::npos);
}

TEST_CASE("a fault without a place in a file still says what is wrong") {
    const SourceFiles none;
    CHECK(fault_of([&] { TableRow(toml_text::Node{true, {}}, none); }).find("code table") == 0);
}
