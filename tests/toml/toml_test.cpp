// The expected places are counted by hand in the texts below.
#include "toml/toml.h"

#include "catch.h"

using namespace ohmfolio;
using namespace ohmfolio::toml_text;

namespace {

struct Parsed {
    SourceFiles sources;
    Findings findings;
    std::optional<Node> root;
};

Parsed parsed(std::string text) {
    Parsed result;
    const int file = result.sources.add("job.toml", std::move(text));
    result.root = parse(file, result.sources, result.findings);
    return result;
}

std::vector<std::string> keys(const Node& node) {
    std::vector<std::string> result;
    for (const Entry& entry : node.as<Table>()->entries) {
        result.push_back(entry.key);
    }
    return result;
}

} // namespace

TEST_CASE("keys keep the order of the text") {
    const auto p = parsed("zebra = 1\napple = 2\n[mango]\nq = 1\nb = 2\n[banana.x]\n[banana.a]\n");
    REQUIRE(p.root);
    CHECK(keys(*p.root) == std::vector<std::string>{"zebra", "apple", "mango", "banana"});
    CHECK(keys(*p.root->as<Table>()->find("mango")->value) == std::vector<std::string>{"q", "b"});
    CHECK(keys(*p.root->as<Table>()->find("banana")->value) == std::vector<std::string>{"x", "a"});
}

TEST_CASE("an inline table keeps the order of the text") {
    const auto p = parsed("run = { length = 1, above = 2, kind = 3 }");
    REQUIRE(p.root);
    CHECK(keys(*p.root->as<Table>()->find("run")->value) ==
          std::vector<std::string>{"length", "above", "kind"});
}

TEST_CASE("spans of keys and values count characters, not bytes") {
    const auto p = parsed("a = 1\n\"dé\" = { x = \"°C\", y = true }\n");
    REQUIRE(p.root);
    const Entry* entry = p.root->as<Table>()->find("dé");
    REQUIRE(entry);
    CHECK(entry->key_span.begin == Position{2, 1});
    CHECK(entry->key_span.end == Position{2, 5});
    CHECK(entry->value->span.begin == Position{2, 8});
    const Entry* y = entry->value->as<Table>()->find("y");
    REQUIRE(y);
    CHECK(y->key_span.begin == Position{2, 20});
    CHECK(y->value->span.begin == Position{2, 24});
    CHECK(y->value->span.end == Position{2, 28});
}

TEST_CASE("each kind of value is read") {
    const auto p = parsed("b = true\ni = 7\nd = 1.5\ns = \"x\"\nl = [1, 2]\nday = 2026-03-02\n"
                          "time = 07:05:09\nmoment = 2026-03-02T07:05:09\n");
    REQUIRE(p.root);
    const Table& table = *p.root->as<Table>();
    CHECK(*table.find("b")->value->as<bool>());
    CHECK(*table.find("i")->value->as<std::int64_t>() == 7);
    CHECK(table.find("i")->value->number() == 7.0);
    CHECK(table.find("d")->value->number() == 1.5);
    CHECK(*table.find("s")->value->as<std::string>() == "x");
    CHECK_FALSE(table.find("s")->value->number());
    CHECK(table.find("l")->value->as<Array>()->items.size() == 2);
    CHECK(*table.find("day")->value->as<std::string>() == "2026-03-02");
    CHECK(*table.find("time")->value->as<std::string>() == "07:05:09");
    CHECK(*table.find("moment")->value->as<std::string>() == "2026-03-02T07:05:09");
    CHECK(table.find("l")->value->kind() == "a list");
    CHECK(table.find("s")->value->kind() == "text in quotes");
    CHECK(table.find("absent") == nullptr);
}

TEST_CASE("faults of syntax become findings with a place") {
    const auto place = GENERATE(table<std::string, int>({
        {"a = 1\na = 2\n", 2},
        {"a = [1, 2\n", 1},
        {"x = 1\ny = \"open\n", 2},
        {"x = 1\ny = \xFF\n", 2},
        {"[?", 1},
        {"a = 1 b = 2", 1},
    }));
    const auto p = parsed(std::get<0>(place));
    CHECK_FALSE(p.root);
    REQUIRE(p.findings.size() == 1);
    CHECK(p.findings[0].rule == "toml.syntax");
    CHECK(p.findings[0].severity == Severity::error);
    CHECK_FALSE(p.findings[0].message.empty());
    INFO(std::get<0>(place) << ": " << p.findings[0].message);
    CHECK(p.findings[0].span.begin.line == std::get<1>(place));
    CHECK(p.findings[0].span.begin.column > 0);
}

TEST_CASE("an empty file and a lone byte order mark are an empty table") {
    for (const std::string text : {"", "\xEF\xBB\xBF", "\n", "# nothing\n"}) {
        const auto p = parsed(text);
        REQUIRE(p.root);
        CHECK(p.root->as<Table>()->entries.empty());
        CHECK(p.findings.empty());
    }
}

TEST_CASE("a byte order mark before text does not shift columns") {
    const auto p = parsed("\xEF\xBB\xBF"
                          "a = 1\n");
    REQUIRE(p.root);
    CHECK(p.root->as<Table>()->find("a")->value->span.begin == Position{1, 5});
}

TEST_CASE("hostile nesting is a fault, not a crash") {
    std::string brackets(100'000, '[');
    CHECK_FALSE(parsed("a = " + brackets).root);
    std::string dots = "a";
    for (int i = 0; i < 200'000; ++i) {
        dots += ".a";
    }
    const auto p = parsed(dots + " = 1\n");
    CHECK_FALSE(p.root);
    REQUIRE(p.findings.size() == 1);
    CHECK(p.findings[0].message == "a key with too many dots");
}

TEST_CASE("rows of dots in comments and sentences are not keys") {
    std::string sentence;
    for (int i = 0; i < 100; ++i) {
        sentence += "Go on. ";
    }
    CHECK(parsed("# " + std::string(500, '.') + "\ntext = \"" + sentence + "\"\n").root);
}
