// Each edition by its own paragraphs. Numbers from the public pages named in the chapters.
#include <algorithm>
#include <set>

#include "catch.h"
#include "code/code_book.h"
#include "code/embedded_tables.h"
#include "code/tables.h"

using namespace ohmfolio;

namespace {

void check_cite(const char* rule, const char* in_2017, const char* in_2020, const char* in_2023) {
    INFO(rule);
    CHECK(text(CodeBook(Edition::nec2017).cite(rule)) == std::string("NEC 2017 ") + in_2017);
    CHECK(text(CodeBook(Edition::nec2020).cite(rule)) == std::string("NEC 2020 ") + in_2020);
    CHECK(text(CodeBook(Edition::nec2023).cite(rule)) == std::string("NEC 2023 ") + in_2023);
}

void check_table(const char* table, const char* in_2017, const char* in_2020, const char* in_2023) {
    INFO(table);
    CHECK(CodeBook(Edition::nec2017).table_name(table) == in_2017);
    CHECK(CodeBook(Edition::nec2020).table_name(table) == in_2020);
    CHECK(CodeBook(Edition::nec2023).table_name(table) == in_2023);
}

} // namespace

TEST_CASE("paragraphs moved between editions") {
    // forums.mikeholt.com 180560 (2017), Santa Ana record 540506 (2020), California notes (2023).
    check_cite("bus.sum", "705.12(B)(2)(3)(a)", "705.12(B)(3)(1)", "705.12(B)(1)");
    check_cite("bus.120", "705.12(B)(2)(3)(b)", "705.12(B)(3)(2)", "705.12(B)(2)");
    check_cite("bus.breakers", "705.12(B)(2)(3)(c)", "705.12(B)(3)(3)", "705.12(B)(3)");
    check_cite("bus.center", "705.12(B)(2)(3)(d)", "705.12(B)(3)(4)", "705.12(B)(4)");
    check_cite("feeder.source", "705.12(B)(2)(1)", "705.12(B)(1)", "705.12(A)(1)");
    // electricallicenserenewal.com sectionID=970, 1567, 1568, 972; forums.mikeholt.com 2572102.
    check_cite("feeder.beyond", "705.12(B)(2)(1)(a)", "705.12(B)(1)(a)", "705.12(A)(2)(a)");
    check_cite("feeder.beyond.device", "705.12(B)(2)(1)(b)", "705.12(B)(1)(b)", "705.12(A)(2)(b)");
    check_cite("supply.sum", "705.12(A)", "705.11(A)", "705.11(B)");
    check_cite("device.backfeed", "705.12(B)(4)", "705.12(D)", "705.30(D)");
    check_cite("device.fastening", "705.12(B)(5)", "705.12(E)", "705.30(E)");
    check_cite("neutral.sensing", "705.95(B)", "705.28(C)(2)", "705.28(C)(2)");
    check_cite("microgrid.connection", "705.160", "705.60", "705.60");
    check_cite("microgrid.reconnection", "705.165", "705.65", "705.65");
    check_cite("island.capacity", "710.15(A)", "705.80", "705.80");
    check_cite("source.output.current", "705.60(A)", "705.28(A)", "705.28(A)");
    check_cite("source.conductor.continuous", "705.60(B)", "705.28(B)", "705.28(B)");
    check_cite("storage.current", "706.20(A)", "706.30(A)", "706.30(A)");
    check_cite("conductor.dwelling_service", "310.15(B)(7)", "310.12", "310.12");
    check_cite("pv.conductor.continuous", "690.8(B)(1)", "690.8(B)(1)", "690.8(B)(1)");
    // The same notes; a public index of the 2017 edition; codebookcity.com article 690 (2020).
    check_cite("pv.voltage.limit", "690.7", "690.7", "690.7(2)");
    check_cite("pv.source.current.engineered", "690.8(A)(1)(2)", "690.8(A)(1)(a)(2)",
               "690.8(A)(1)(a)(2)");
    check_cite("pv.overcurrent.omitted", "690.9(A) Exception", "690.9(A)(1)", "690.9(A)(1)");
    check_cite("pv.disconnect.count", "690.13(D)", "690.13(C)", "690.13(C)");
    check_cite("pv.wiring.building", "690.31(G)", "690.31(D)", "690.31(D)");
    check_cite("pv.wiring.separation", "690.31(B)", "690.31(B)(1)", "690.31(B)(1)");
    check_cite("pv.wiring.identification", "690.31(B)(1)", "690.31(B)(2)", "690.31(B)(2)");
    check_cite("pv.shutdown.equipment", "690.12(D)", "690.12(D)", "690.4(B)");
    check_cite("pv.ground.fault", "690.41(B)", "690.41(B)", "690.41(B)");
}

TEST_CASE("rules come and go with the editions") {
    const auto exists = [](const char* rule) {
        std::string editions;
        for (const Edition edition : all_editions)
            editions += CodeBook(edition).rule(rule).exists ? '+' : '-';
        return editions;
    };
    CHECK(exists("pv.input.current") == "-++");
    CHECK(exists("pv.arcfault.exempt") == "-++");
    CHECK(exists("pv.shutdown.exempt.open") == "--+");
    CHECK(exists("pv.shutdown.exempt.outside") == "--+");
    CHECK(exists("pv.shutdown.no_exposed") == "++-");
    CHECK(exists("pv.disconnect.door") == "-++");
    CHECK(exists("pv.wiring.building.listed") == "-++");
    CHECK(exists("bus.feed_through") == "-++");
    CHECK(exists("bus.feed_through.either_end") == "--+");
    CHECK(exists("bus.engineered") == "+++");
    CHECK(exists("bus.engineered.any") == "-++");
    CHECK(exists("bus.single_load") == "++-");
    CHECK(exists("bus.power_control") == "-++");
    CHECK(exists("feeder.tap") == "++-");
    CHECK(exists("feeder.tap.devices") == "--+");
    CHECK(exists("supply.conductor") == "-++");
    CHECK(exists("supply.distance") == "++-");
    CHECK(exists("supply.distance.limiters") == "+--");
    CHECK(exists("supply.distance.engineered") == "-+-");
    CHECK(exists("supply.device") == "--+");
    CHECK(exists("ground.equipment.increase.unfactored") == "+--");
    CHECK(exists("ground.equipment.increase.qualified") == "-++");
    CHECK(CodeBook(Edition::nec2023).cite("pv.shutdown.no_exposed").section.empty());
}

TEST_CASE("thresholds by edition") {
    const auto number = [](Edition edition, const char* id) {
        return CodeBook(edition).number(id);
    };
    for (const char* id : {"pv.wiring.building.voltage", "pv.ground.fault.voltage"}) {
        CHECK(number(Edition::nec2017, id) == 0);
        CHECK(number(Edition::nec2020, id) == 30);
        CHECK(number(Edition::nec2023, id) == 30);
    }
    for (const char* id : {"pv.wiring.building.current", "pv.ground.fault.current"}) {
        CHECK(number(Edition::nec2017, id) == 0);
        CHECK(number(Edition::nec2020, id) == 8);
        CHECK(number(Edition::nec2023, id) == 8);
    }
    for (const Edition edition : all_editions) {
        CHECK(number(edition, "pv.arcfault") == 80);
        CHECK(number(edition, "pv.shutdown.outside") == 30);
        CHECK(number(edition, "pv.shutdown.inside") == 80);
        CHECK(number(edition, "pv.shutdown.time") == 30);
        CHECK(number(edition, "pv.overcurrent") == 1.25);
    }
}

TEST_CASE("paragraphs of article 310 moved with the 2020 edition") {
    // forums.mikeholt.com 147342, 140184, 145882 (2017 text), 2562113 and 2537978 (2020 text).
    check_cite("conductor.parallel", "310.10(H)", "310.10(G)", "310.10(G)");
    check_cite("conductor.count.unbalance", "310.15(B)(5)(a)", "310.15(E)(1)", "310.15(E)(1)");
    check_cite("conductor.count.two_lines", "310.15(B)(5)(b)", "310.15(E)(2)", "310.15(E)(2)");
    check_cite("conductor.count.harmonics", "310.15(B)(5)(c)", "310.15(E)(3)", "310.15(E)(3)");
    check_cite("conductor.bundling.nipple", "310.15(B)(3)(a)(2)", "310.15(C)(1)(b)",
               "310.15(C)(1)(b)");
    check_cite("conductor.dwelling_feeder", "310.15(B)(7)(2)", "310.12(B)", "310.12(B)");
    check_cite("conductor.dwelling_feeder.most", "310.15(B)(7)(3)", "310.12(C)", "310.12(C)");
    // Those of article 240 and 450 stayed.
    check_cite("tap.25_ft", "240.21(B)(2)", "240.21(B)(2)", "240.21(B)(2)");
    check_cite("tap.secondary.25_ft", "240.21(C)(6)", "240.21(C)(6)", "240.21(C)(6)");
    check_cite("transformer.protection", "450.3(B)", "450.3(B)", "450.3(B)");
}

TEST_CASE("a number of a later edition is not known before") {
    CHECK_THROWS(CodeBook(Edition::nec2017).number("supply.distance.engineered"));
    CHECK(CodeBook(Edition::nec2020).number("supply.distance.engineered") == 66);
    CHECK(CodeBook(Edition::nec2017).number("supply.distance.other") == 10);
    CHECK(CodeBook(Edition::nec2020).number("supply.distance.other") == 16.5);
}

TEST_CASE("conductor sizes that stand alone") {
    const WireSize six = *parse_wire_size("6");
    CHECK_FALSE(CodeBook(Edition::nec2017).conductor_size("supply.conductor", Material::copper));
    CHECK(CodeBook(Edition::nec2020).conductor_size("supply.conductor", Material::copper) == six);
    CHECK(CodeBook(Edition::nec2023).conductor_size("supply.conductor", Material::aluminum) ==
          *parse_wire_size("4"));
    CHECK_FALSE(
        CodeBook(Edition::nec2023).conductor_size("ground.electrode.ring", Material::aluminum));
    CHECK_THROWS_AS(CodeBook(Edition::nec2023).conductor_size("ring", Material::copper),
                    std::logic_error);
}

TEST_CASE("tables were renamed between editions") {
    check_table("ampacity", "Table 310.15(B)(16)", "Table 310.16", "Table 310.16");
    check_table("ambient", "Table 310.15(B)(2)(a)", "Table 310.15(B)(1)", "Table 310.15(B)(1)(1)");
    check_table("bundling", "Table 310.15(B)(3)(a)", "Table 310.15(C)(1)", "Table 310.15(C)(1)");
    check_table("equipment_ground", "Table 250.122", "Table 250.122", "Table 250.122");
    check_table("bonding_jumper", "Table 250.102(C)(1)", "Table 250.102(C)(1)",
                "Table 250.102(C)(1)");
    check_table("rooftop", "310.15(B)(3)(c)", "310.15(B)(2)", "310.15(B)(2)");
}

TEST_CASE("small conductors moved with the copper-clad row of 2023") {
    const WireSize size = *parse_wire_size("10");
    CHECK(text(CodeBook(Edition::nec2017).cite_small_conductor(size, Material::copper)) ==
          "NEC 2017 240.4(D)(7)");
    const Citation moved = CodeBook(Edition::nec2023).cite_small_conductor(size, Material::copper);
    CHECK(text(moved) == "NEC 2023 240.4(D)(8)");
    CHECK(moved.unverified);
}

TEST_CASE("what one page or memory alone says is marked") {
    const CodeBook book(Edition::nec2023);
    CHECK(book.cite("source.conductor.continuous").unverified);
    CHECK(book.cite("conductor.rooftop").unverified);
    CHECK_FALSE(CodeBook(Edition::nec2020).cite("conductor.rooftop").unverified);
    CHECK_FALSE(book.cite("bus.120").unverified);
    CHECK(book.cite_table("ambient").unverified);
}

TEST_CASE("practice has no edition") {
    CHECK(text(CodeBook(Edition::nec2023).cite("module.ratio")) == "common practice");
    CHECK(text(CodeBook(Edition::nec2017).cite("equipment.limit")) == "equipment nameplate");
}

TEST_CASE("numbers by their own name and by the rule that uses them") {
    for (const Edition edition : all_editions) {
        const CodeBook book(edition);
        CHECK(book.number("source.continuous") == 1.25);
        CHECK(book.number("source.conductor.continuous") == 1.25);
        CHECK(book.number("bus.120") == 1.20);
        CHECK(book.number("conductor.dwelling_service") == 0.83);
        CHECK(book.number("overcurrent.next_size_limit") == 800);
    }
}

TEST_CASE("what the book does not know is a fault of ours") {
    const CodeBook book(Edition::nec2023);
    CHECK_THROWS_AS(book.cite("bus.sun"), std::logic_error);
    CHECK_THROWS_AS(book.number("bus.sun"), std::logic_error);
    CHECK_THROWS_AS(book.number("bus.sum"), std::logic_error); // a rule without a number
    CHECK_THROWS_AS(book.table_name("amperage"), std::logic_error);
}

TEST_CASE("every rule is whole in every edition, and the order is that of the file") {
    for (const Edition edition : all_editions) {
        const CodeBook book(edition);
        std::set<std::string> ids;
        for (const Rule& rule : book.rules()) {
            INFO(rule.id << " in " << name(edition));
            CHECK(ids.insert(rule.id).second);
            CHECK_FALSE(rule.checks.empty());
            CHECK_FALSE(rule.formula.empty());
            CHECK_FALSE(rule.source.empty());
            CHECK(rule.exists == !rule.cite.section.empty());
        }
        CHECK(book.rules().front().id == "pv.voltage");
        const auto place = [&](std::string_view id) {
            return std::find_if(book.rules().begin(), book.rules().end(),
                                [&](const Rule& rule) { return rule.id == id; });
        };
        CHECK(place("conductor.small") < place("ground.equipment"));
        CHECK(place("bus.sum") < place("bus.center"));
    }
}

TEST_CASE("rules and numbers stand in chapters, each chapter in one piece") {
    const CodeBook book(Edition::nec2023);
    std::vector<std::string> chapters;
    for (const Rule& rule : book.rules()) {
        INFO(rule.id);
        CHECK_FALSE(rule.chapter.empty());
        if (chapters.empty() || chapters.back() != rule.chapter)
            chapters.push_back(rule.chapter);
    }
    CHECK(std::set<std::string>(chapters.begin(), chapters.end()).size() == chapters.size());
    CHECK(chapters.front() == "Modules and direct-current circuits");
    CHECK(book.rule("bus.120").chapter == "Connection to the service");
    for (const BookNumber& number : book.numbers()) {
        INFO(number.id);
        CHECK(book.number(number.id) == number.value);
        CHECK_FALSE(number.meaning.empty());
        CHECK_FALSE(number.source.empty());
        CHECK_FALSE(number.chapter.empty());
    }
}

TEST_CASE("every chapter that is in the program is read") {
    const CodeBook book(Edition::nec2023);
    int chapters = 0;
    for (const EmbeddedTable& table : embedded_tables()) {
        if (!table.name.starts_with("chapter_"))
            continue;
        ++chapters;
        for (const TableRow& row : code_tables().file(table.name).rows_if_any("rule")) {
            INFO(table.name << ": " << row.text("id"));
            CHECK_NOTHROW(book.rule(row.text("id")));
        }
    }
    CHECK(chapters > 0);
}

TEST_CASE("the tables of the book, with paragraph and source in each edition") {
    for (const Edition edition : all_editions) {
        const auto tables = CodeBook(edition).tables();
        CHECK(tables.size() >= 14);
        for (const BookTable& table : tables) {
            INFO(table.title << " in " << name(edition));
            // What no electrical code gives has a section in words, and no edition.
            CHECK((table.cite.edition == name(edition) || table.cite.edition.empty()));
            CHECK_FALSE(table.cite.section.empty());
            CHECK_FALSE(table.source.empty());
            CHECK_FALSE(table.confidence.empty());
        }
        CHECK(std::is_sorted(tables.begin(), tables.end(),
                             [](const auto& a, const auto& b) { return a.title < b.title; }));
    }
}

TEST_CASE("several breakers as the service disconnect") {
    // 230.71(A) of 2017: electricallicenserenewal.com sectionID=844; since 2020 each in a part of
    // its own.
    const CodeBook before(Edition::nec2017);
    CHECK(before.rule("service.device.several").exists);
    CHECK(before.number("service.device.several") == 6);
    CHECK_FALSE(CodeBook(Edition::nec2020).rule("service.device.several").exists);
}
