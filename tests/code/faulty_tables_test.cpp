// The tables of the program with one fault put in: each is told when an edition is read, before a
// number of it can pass for a value of the law.
#include <stdexcept>

#include "catch.h"
#include "code/embedded_tables.h"
#include "code/rule_tables.h"
#include "code/tables.h"
#include "code/working_space_rules.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

/// All files of the program, with `was` in the file `name` replaced where it first stands.
std::vector<std::pair<std::string, std::string>>
texts_with(std::string_view name, std::string_view was, std::string_view now) {
    std::vector<std::pair<std::string, std::string>> texts;
    for (const EmbeddedTable& table : embedded_tables()) {
        std::string text(table.text);
        if (table.name == name) {
            const auto at = text.find(was);
            if (at == std::string::npos)
                throw std::logic_error("the test looks for what no longer is in the table");
            text.replace(at, was.size(), now);
        }
        texts.emplace_back(table.name, std::move(text));
    }
    return texts;
}

CodeBook::Tables tables_with(std::string_view name, std::string_view was, std::string_view now,
                             Edition edition = Edition::nec2023) {
    const auto texts = texts_with(name, was, now);
    std::vector<TableFiles::Text> views;
    for (const auto& [file, text] : texts)
        views.push_back({file, text});
    return CodeBook::Tables(TableFiles(views), edition);
}

std::string fault(std::string_view name, std::string_view was, std::string_view now) {
    try {
        tables_with(name, was, now);
    } catch (const std::logic_error& error) {
        return error.what();
    }
    return "no fault";
}

bool tells(const std::string& fault, const char* what) {
    INFO(fault);
    return fault.find(what) != std::string::npos;
}

} // namespace

TEST_CASE("a size, a raceway or an area that nobody knows is told with its file") {
    CHECK(tells(fault("ampacity", "size = \"12\"", "size = \"13\""), "13 is not a conductor size"));
    CHECK(tells(fault("ampacity", "size = \"12\"", "size = \"13\""), "code/tables/ampacity.toml:"));
    CHECK(tells(fault("raceways", "kind = \"emt\"", "kind = \"imt\""),
                "imt is not a kind of raceway"));
    CHECK(
        tells(fault("raceways", "trade = \"1/2\"", "trade = \"5/8\""), "5/8 is not a trade size"));
    CHECK(tells(fault("grounding_electrode", "cu_through = \"1100\"", "cu_through = \"11OO\""),
                "11OO is neither a conductor size nor an area in kcmil"));
    CHECK(tells(fault("grounding_electrode", "cu_through = \"1100\"", "cu_through = \"-1100\""),
                "-1100 is neither"));
}

TEST_CASE("a table that lacks its rows is told") {
    CHECK(tells(fault("ambient", "rows =", "bands ="), "no edition up to 2023 has rows"));
    CHECK(
        tells(fault("standard_ratings", "fuses =", "others ="), "no edition up to 2023 has fuses"));
}

TEST_CASE("a number or a size is listed once, and a rule leads to one number") {
    // 1.25 of 705.12 and 1.20 of the busbar stand under ids of their own.
    CHECK(tells(fault("chapter_connection", "[[factor]]\nid = \"tap.short.length\"",
                      "[[factor]]\nid = \"bus.120\""),
                "the number bus.120 is listed twice"));
    CHECK(tells(fault("chapter_grounding", "id = \"ground.direct_current.most\"",
                      "id = \"ground.direct_current.least\""),
                "the size ground.direct_current.least is listed twice"));
    CHECK(tells(fault("chapter_connection", "[[factor]]\nid = \"bus.120\"",
                      "[[factor]]\nid = \"bus.other\""),
                "there is no number bus.120"));
}

TEST_CASE("a rule that names one number while another bears its own name is told") {
    const std::string rule = "[[rule]]\nid = \"bus.sum\"\n";
    CHECK(tells(fault("chapter_connection", rule, rule + "number = \"bus.120\"\n"), "no fault"));
    const std::string named = "[[rule]]\nid = \"bus.120\"\n";
    CHECK(tells(fault("chapter_connection", rule, named + "number = \"tap.short.length\"\n"),
                "the rule and another number are both named bus.120"));
}

TEST_CASE("a small conductor may be limited in aluminum alone") {
    // As the 2023 edition limits 14 AWG copper-clad aluminum to 10 A, 240.4(D)(3).
    const auto tables = tables_with("small_conductors", "size = \"14\", cu = 15, cu_cite",
                                    "size = \"14\", al = 10, al_cite", Edition::nec2017);
    const auto& limit = tables.small_conductors.at(wire("14")).limit;
    CHECK_FALSE(limit.copper);
    CHECK(limit.aluminum == Amps{10});
}

TEST_CASE("the end of a row is an area where its size has no properties") {
    // 1250 kcmil is a size that Table 8 leaves out here: its name is its area.
    const auto tables =
        tables_with("grounding_electrode", "cu_through = \"1100\"", "cu_through = \"1250\"");
    const auto& rows = tables.grounding_electrode;
    REQUIRE(rows.size() == 7);
    CHECK(rows[5].through.copper == CircularMils{1250000});
    // Nor is an area a size that has every digit.
    CHECK(tables_with("grounding_electrode", "cu_through = \"1100\"", "cu_through = \"1234567890\"")
              .grounding_electrode[5]
              .through.copper == CircularMils{1234567890000});
}

TEST_CASE("insulation without an area for a size has none") {
    const auto tables = tables_with("conductor_dimensions", "use_2 =", "rhw_2 =");
    CHECK(tables.conductor_areas.size() + 1 ==
          tables_with("conductor_dimensions", "use_2 =", "use_2 =").conductor_areas.size());
}

TEST_CASE("bands: the last one has no end") {
    const std::vector<CodeBook::Tables::Band> closed = {{3.0, 1.0}, {6.0, 0.8}};
    CHECK(banded(closed, 3) == 1.0);
    CHECK(banded(closed, 6) == 0.8);
    CHECK_THROWS_AS(banded(closed, 7), std::logic_error);
    const std::vector<CodeBook::Tables::Band> open = {{3.0, 1.0}, {std::nullopt, 0.8}};
    CHECK(banded(open, 700) == 0.8);
}

TEST_CASE("a transformer below the first row, or of an unknown side, is a fault of the caller") {
    const CodeBook book(Edition::nec2023);
    // Table 450.3(B), primary only protection: less than 2 A, 300 %; 2 A to 9 A, 167 %.
    CHECK(transformer_share(book, TransformerSide::primary_alone, Amps{0}).share == 3.0);
    CHECK(transformer_share(book, TransformerSide::primary_alone, Amps{2}).share == 1.67);
    CHECK_THROWS_AS(transformer_share(book, TransformerSide::primary_alone, Amps{-1}),
                    std::logic_error);
    CHECK_THROWS_AS(transformer_share(book, static_cast<TransformerSide>(9), Amps{10}),
                    std::logic_error);
}

TEST_CASE("a size beyond the constants of its column has none, also before another column") {
    for (const Material material : {Material::copper, Material::aluminum})
        for (const RacewayKind kind : {RacewayKind::emt, RacewayKind::pvc40}) {
            CHECK(fault_constant(wire("1000"), material, kind));
            CHECK_FALSE(fault_constant(wire("1250"), material, kind));
        }
}
