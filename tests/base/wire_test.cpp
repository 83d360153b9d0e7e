#include "base/wire.h"

#include "base/edition.h"
#include "catch.h"

using namespace ohmfolio;

TEST_CASE("wire sizes are read as the trade writes them") {
    for (const char* text : {"8 AWG", "8", "#8", "#8 AWG"}) {
        CAPTURE(text);
        REQUIRE(parse_wire_size(text));
        CHECK(name(*parse_wire_size(text)) == "8 AWG");
        CHECK(key(*parse_wire_size(text)) == "8");
    }
    CHECK(name(*parse_wire_size("250")) == "250 kcmil");
    CHECK(name(*parse_wire_size("250 kcmil")) == "250 kcmil");
    CHECK(name(*parse_wire_size("4/0 AWG")) == "4/0 AWG");
}

TEST_CASE("what is no wire size is refused") {
    for (const char* text : {"", "7", "8AWG", "8 awg", "AWG", "250 AWG", "#250", "8 kcmil", "8 mm2",
                             " 8", "5/0", "8 AWG CU"}) {
        CAPTURE(text);
        CHECK_FALSE(parse_wire_size(text));
    }
}

// ASTM B258: gauge numbers fall as the conductor grows.
TEST_CASE("wire sizes are ordered by conductor area") {
    CHECK(*parse_wire_size("14") < *parse_wire_size("12"));
    CHECK(*parse_wire_size("1") < *parse_wire_size("1/0"));
    CHECK(*parse_wire_size("4/0") < *parse_wire_size("250"));
}

TEST_CASE("every size, material, insulation and raceway reads back from its name") {
    for (int step = 0; step < static_cast<int>(wire_size_names.size()); ++step)
        CHECK(parse_wire_size(name(WireSize{step})) == WireSize{step});
    for (int step = 0; step < static_cast<int>(trade_size_names.size()); ++step)
        CHECK(parse_trade_size(name(TradeSize{step})) == TradeSize{step});
    for (const auto material : {Material::copper, Material::aluminum})
        CHECK(parse_material(name(material)) == material);
    for (const auto insulation : {Insulation::thwn_2, Insulation::xhhw_2, Insulation::use_2,
                                  Insulation::pv_wire, Insulation::trunk_cable, Insulation::bare})
        CHECK(parse_insulation(name(insulation)) == insulation);
    for (const auto kind : {RacewayKind::emt, RacewayKind::pvc40, RacewayKind::pvc80,
                            RacewayKind::rmc, RacewayKind::fmc, RacewayKind::lfmc,
                            RacewayKind::lfnc, RacewayKind::free_air, RacewayKind::cable})
        CHECK(parse_raceway_kind(name(kind)) == kind);
}

TEST_CASE("spelling of materials and raceways is forgiving, meaning is not") {
    CHECK(parse_material("copper") == Material::copper);
    CHECK(parse_insulation("thwn-2") == Insulation::thwn_2);
    CHECK(parse_insulation("THWN") == std::nullopt);
    CHECK(parse_raceway_kind("Sch 40 PVC") == RacewayKind::pvc40);
    CHECK(parse_raceway_kind("PVC") == std::nullopt);
    CHECK(parse_trade_size("3/4\"") == parse_trade_size("3/4"));
    CHECK(parse_trade_size("7/8") == std::nullopt);
}

TEST_CASE("editions") {
    CHECK(parse_edition("NEC 2023") == Edition::nec2023);
    CHECK(parse_edition("2017") == Edition::nec2017);
    CHECK(parse_edition("NEC 2014") == std::nullopt);
    CHECK(parse_edition("") == std::nullopt);
    for (const Edition edition : all_editions)
        CHECK(parse_edition(name(edition)) == edition);
}
