/// rules: the reference page of the code book. What it must hold is asked of the book and of public
/// pages; how it is set is asked of the page alone.
#include <set>

#include "app/rules_page.h"
#include "base/text.h"
#include "catch.h"
#include "code/code_book.h"
#include "packet.h"

using namespace ohmfolio;
using namespace ohmfolio::test;

namespace {

std::string page(const Command& options) {
    Command command{"rules"};
    command.insert(command.end(), options.begin(), options.end());
    const Outcome outcome = run_ohmfolio(command);
    CAPTURE(command, outcome.err);
    REQUIRE(outcome.exit_code == 0);
    CHECK(outcome.err.empty());
    return outcome.out;
}

/// Every way to ask for the page.
std::vector<Command> all_options() {
    std::vector<Command> result;
    for (const char* format : {"text", "markdown"}) {
        result.push_back({"--format", format});
        for (const char* edition : {"NEC 2017", "NEC 2020", "NEC 2023"}) {
            result.push_back({"--code", edition, "--format", format});
        }
    }
    return result;
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::size_t start = 0;
    while (start < text.size()) {
        const std::size_t end = std::min(text.find('\n', start), text.size());
        lines.push_back(text.substr(start, end - start));
        start = end + 1;
    }
    return lines;
}

std::size_t count_of(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
        ++count;
    }
    return count;
}

/// Lines whose first word is `word`: where a text begins to speak of a rule.
std::vector<std::string> lines_that_begin(const std::string& text, const std::string& word) {
    std::vector<std::string> found;
    for (const std::string& line : lines_of(text)) {
        if (line.substr(0, line.find(' ')) == word)
            found.push_back(line);
    }
    return found;
}

/// Cells of a row; a bar behind a backslash is part of its cell.
std::vector<std::string> cells_of(const std::string& row) {
    std::vector<std::string> cells;
    std::string cell;
    for (std::size_t i = 1; i < row.size(); ++i) {
        if (row[i] == '\\' && i + 1 < row.size()) {
            cell += row[++i];
        } else if (row[i] == '|') {
            cells.push_back(cell.substr(1, cell.size() - 2)); // the blanks around it
            cell.clear();
        } else {
            cell += row[i];
        }
    }
    return cells;
}

std::set<std::string> in_a_set(const std::vector<std::string>& all) {
    return {all.begin(), all.end()};
}

} // namespace

TEST_CASE("every rule of the book is on the page once") {
    const CodeBook book(Edition::nec2023);
    for (const Command& options : all_options()) {
        const bool markdown = options.back() == "markdown";
        const std::string text = page(options);
        for (const Rule& rule : book.rules()) {
            CAPTURE(options, rule.id);
            const std::size_t times = markdown ? count_of(text, "`" + rule.id + "`")
                                               : lines_that_begin(text, rule.id).size();
            CHECK(times == 1);
            CHECK(flattened(text).find(flattened(rule.chapter)) != std::string::npos);
        }
    }
}

TEST_CASE("paragraphs of all editions stand side by side") {
    // electricallicenserenewal.com sectionID=972, forums.mikeholt.com 180560, notes on the 2025
    // California Electrical Code; electricallicenserenewal.com sectionID=970, 1567; public pages on
    // article 706, older items from memory, hence the daggers.
    const std::map<std::string, std::vector<std::string>> known{
        {"bus.sum", {"705.12(B)(2)(3)(a)", "705.12(B)(3)(1)", "705.12(B)(1)"}},
        {"feeder.source", {"705.12(B)(2)(1)", "705.12(B)(1)", "705.12(A)(1)"}},
        {"storage.current", {"706.20(A) †", "706.30(A) †", "706.30(A) †"}}};
    const std::string text = page({}), markdown = page({"--format", "markdown"});
    for (const auto& [rule, paragraphs] : known) {
        CAPTURE(rule);
        const auto lines = lines_that_begin(text, rule);
        REQUIRE(lines.size() == 1);
        CHECK(flattened(lines.front()) == flattened(rule + " " + join(paragraphs, " ")));
        CHECK(count_of(markdown, "| " + join(paragraphs, " | ") + " |") >= 1);
    }
}

TEST_CASE("one edition alone shows its own paragraphs") {
    const std::string text = page({"--code", "NEC 2020"});
    CHECK(lines_of(text).front() == "Rules of the code book: NEC 2020");
    for (const std::string& heading : lines_that_begin(text, "rule")) {
        CHECK(flattened(heading) == "RULE NEC 2020");
    }
    CHECK(flattened(lines_that_begin(text, "bus.sum").at(0)) == "BUS.SUM 705.12(B)(3)(1)");
    CHECK(page({"--code", "2020"}) == text);
}

TEST_CASE("what is not verified bears a dagger, and nothing else does") {
    for (const Edition edition : all_editions) {
        const CodeBook book(edition);
        std::size_t unverified = 1; // where the dagger is explained
        for (const Rule& rule : book.rules()) {
            unverified += rule.cite.unverified ? 1 : 0;
        }
        for (const BookTable& table : book.tables()) {
            unverified += table.cite.unverified ? 1 : 0;
        }
        for (const char* format : {"text", "markdown"}) {
            CAPTURE(name(edition), format);
            CHECK(count_of(page({"--code", name(edition), "--format", format}), "†") == unverified);
        }
    }
}

TEST_CASE("a rule that an edition lacks bears a dash there") {
    RulesPage made{.notes = {}, .editions = {"A", "B"}, .chapters = {}, .tables = {}};
    made.chapters.push_back({"Chapter", {{"one", "checks", "x ≤ y", {"-", "1.1"}, "", "s"}}, {}});
    CHECK(as_markdown(made).find("| - | 1.1 |") != std::string::npos);
    CHECK(flattened(lines_that_begin(as_text(made), "one").at(0)) == "ONE - 1.1");
    std::size_t missing = 0;
    for (const Edition edition : all_editions) {
        const CodeBook book(edition);
        for (const Rule& rule : book.rules()) {
            missing += rule.exists ? 0 : 1;
        }
    }
    CHECK(count_of(run_ohmfolio({"rules", "--format", "markdown"}).out, " | -") >= missing);
}

TEST_CASE("a number that came with one edition and left with the next") {
    // 705.11(C) of 2020 alone: 20 m, 66 ft, mayfield.energy.
    std::vector<std::string> values;
    for (const std::string& line : lines_of(page({"--format", "markdown"}))) {
        const auto cells = line.starts_with("|") ? cells_of(line) : std::vector<std::string>{};
        if (!cells.empty() && cells.front() == "farthest, in ft, under engineering supervision")
            values.assign(cells.begin() + 1, cells.begin() + 4);
    }
    CHECK(values == std::vector<std::string>{"-", "66", "-"});
    CHECK(page({"--code", "NEC 2017"}).find("farthest, in ft, under") == std::string::npos);
}

TEST_CASE("an id that is longer than its column is not broken") {
    const std::string id = "a.rule.whose.id.is.longer.than.thirty.characters";
    RulesPage made{.notes = {}, .editions = {"A", "B"}, .chapters = {}, .tables = {}};
    made.chapters.push_back({"Chapter", {{id, "checks", "x", {"1.1", "2.2"}, "", "s"}}, {}});
    CHECK(flattened(as_text(made)).find(flattened(id + " 1.1 2.2")) != std::string::npos);
    CHECK(lines_that_begin(as_text(made), id).size() == 1);
}

TEST_CASE("numbers and tables are on the page with their sources") {
    const CodeBook book(Edition::nec2023);
    const std::string text = flattened(page({}));
    // A long meaning shares its lines with the values beside it: it is looked for in Markdown.
    std::set<std::string> cells;
    for (const std::string& line : lines_of(page({"--format", "markdown"}))) {
        if (line.starts_with("|"))
            cells.merge(in_a_set(cells_of(line)));
    }
    for (const BookNumber& number : book.numbers()) {
        CAPTURE(number.id);
        CHECK(cells.contains(number.meaning));
        CHECK(text.find(flattened(number.source)) != std::string::npos);
    }
    CHECK(book.tables().size() >= 14);
    for (const BookTable& table : book.tables()) {
        CAPTURE(table.title);
        CHECK(text.find(flattened("source: " + table.source)) != std::string::npos);
        CHECK(text.find(flattened("confidence: " + table.confidence)) != std::string::npos);
        CHECK(text.find(flattened(table.cite.section)) != std::string::npos);
    }
    CHECK(flattened(lines_that_begin(page({}), "Ampacities").at(0))
              .find("TABLE 310.15(B)(16) TABLE 310.16 TABLE 310.16") != std::string::npos);
}

TEST_CASE("text fits a hundred columns") {
    for (const Command& options : all_options()) {
        if (options.back() == "markdown")
            continue;
        for (const std::string& line : lines_of(page(options))) {
            CAPTURE(line);
            CHECK(character_count(line) <= 100);
            CHECK((line.empty() || line.back() != ' '));
        }
    }
}

TEST_CASE("every Markdown table has a head, and rows of as many cells") {
    for (const Command& options : all_options()) {
        if (options.back() != "markdown")
            continue;
        std::size_t columns = 0, row = 0, tables = 0;
        for (const std::string& line : lines_of(page(options))) {
            CAPTURE(options, line);
            if (line.empty() || line.front() != '|') {
                CHECK((row == 0 || row > 2)); // a table has at least one row beneath its head
                row = 0;
                CHECK(line.find('|') == std::string::npos);
                continue;
            }
            ++row;
            const auto cells = cells_of(line);
            if (row == 1) {
                columns = cells.size();
                ++tables;
            }
            CHECK(cells.size() == columns);
            CHECK(line.back() == '|');
            if (row == 2) {
                CHECK(in_a_set(cells) == std::set<std::string>{"---"});
            }
        }
        CHECK(tables > 10);
    }
}

TEST_CASE("what would be markup is written as itself") {
    RulesPage made{.notes = {"a_b_c"}, .editions = {"A"}, .chapters = {}, .tables = {}};
    made.chapters.push_back(
        {"Chapter", {{"one", "this | that *and* <b>", "|x| ≤ y_z", {"1.1"}, "", "[s]"}}, {}});
    const std::string text = as_markdown(made);
    CHECK(text.find(R"(| `one` | this \| that \*and\* \<b\> | `\|x\| ≤ y_z` | 1.1 |  | \[s\] |)") !=
          std::string::npos);
    CHECK(text.find(R"(- a\_b\_c)") != std::string::npos);
    CHECK(cells_of(R"(| a \| b | c |)") == std::vector<std::string>{"a | b", "c"});
}

TEST_CASE("the page is the same each time, wherever it is asked for") {
    const TemporaryFolder folder;
    for (const Command& options : all_options()) {
        Command command{"rules"};
        command.insert(command.end(), options.begin(), options.end());
        const Outcome elsewhere =
            run_ohmfolio(command, {.environment = {{"LC_ALL", "de_DE.UTF-8"}, {"TZ", "Asia/Tokyo"}},
                                   .folder = folder.path(),
                                   .output_at_terminal = has_terminals()});
        std::string text = elsewhere.out;
        std::erase(text, '\r'); // which a terminal adds
        CHECK(text == page(options));
    }
    CHECK(names_in(folder.path()).empty());
}

TEST_CASE("an edition or a format that is not known") {
    for (const Command& arguments :
         {Command{"rules", "--code", "NEC 2014"}, Command{"rules", "--code", ""},
          Command{"rules", "--format", "html"}, Command{"rules", "extra"},
          Command{"rules", "--code"}}) {
        const Outcome outcome = run_ohmfolio(arguments);
        CAPTURE(arguments, outcome.err);
        CHECK(outcome.exit_code == 2);
        CHECK(outcome.out.empty());
        CHECK_FALSE(outcome.err.empty());
    }
    const std::string said = run_ohmfolio({"rules", "--code", "NEC 2014"}).err;
    CHECK(said.find("\"NEC 2014\"") != std::string::npos);
    CHECK(said.find("NEC 2017, NEC 2020, NEC 2023") != std::string::npos);
    const std::string help = run_ohmfolio({"rules", "--help"}).out;
    CHECK(help.find("--code") != std::string::npos);
    CHECK(help.find("--format") != std::string::npos);
}
