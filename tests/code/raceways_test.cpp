// Raceways: Annex C, cables, stated diameters, nipples, advice on jamming. Published cases in
// cases/raceways.toml; the rest worked from the tables in tests/data.
#include <cmath>

#include "case_runner.h"
#include "catch.h"
#include "csv.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

const double pi = std::acos(-1.0);

RacewayResult sized(const RacewayInput& input) {
    TestDesk desk;
    return size_raceway(desk, input);
}

TradeSize trade(const char* text) { return parse_trade_size(text).value(); }

RacewayInput in_emt(std::vector<FillConductor> conductors, Feet length = Feet{10}) {
    return {.kind = RacewayKind::emt, .conductors = std::move(conductors), .length = length};
}

Answers fill(Desk desk, const Given& g) {
    RacewayInput input{.kind = *parse_raceway_kind(g.text("raceway"))};
    input.length = Feet{g.number_or("inches", 0) / 12};
    const bool xhhw = g.text_or("insulation", "") == "XHHW-2";
    const auto sizes = g.texts("sizes");
    const auto counts = g.numbers("counts");
    REQUIRE(sizes.size() == counts.size());
    for (std::size_t i = 0; i < sizes.size(); ++i)
        input.conductors.push_back({static_cast<int>(counts[i]), *parse_wire_size(sizes[i]),
                                    xhhw ? Insulation::xhhw_2 : Insulation::thwn_2});
    if (g.has("stated"))
        input.stated = parse_trade_size(g.text("stated"));
    const auto result = size_raceway(desk, input);
    return {{"conductors", result.conductors.value},
            {"allowed", result.allowed.value},
            {"trade_size", std::string(name(result.size))},
            {"most", double(*most_conductors(desk.book, input.kind, result.size,
                                             input.conductors.front()))},
            {"passes", yes_or_no(result.passes)}};
}

const Procedures procedures = {{"fill", fill}};

} // namespace

TEST_CASE("published worked examples of raceways") {
    CHECK(run_cases("raceways", procedures) >= 4);
    CHECK(run_cases("raceways_audit", procedures) >= 5);
}

TEST_CASE("numbers of conductors alike agree with Annex C") {
    // An independent copy of the tables that Annex C was made from: an area that is off by a few
    // percent would change some of these numbers.
    const std::map<std::string, RacewayKind> kinds = {
        {"EMT", RacewayKind::emt}, {"PVC40", RacewayKind::pvc40}, {"PVC80", RacewayKind::pvc80},
        {"RMC", RacewayKind::rmc}, {"FMC", RacewayKind::fmc},     {"LFMC", RacewayKind::lfmc}};
    int compared = 0;
    for (const Edition edition : all_editions)
        for (const CsvRow& row : read_csv("annex_c_thhn.csv"))
            for (const char* size : {"14", "12", "10", "8", "6", "4", "3", "2", "1"}) {
                const auto published = csv_number(row, size);
                if (!published)
                    continue;
                INFO(row.at("kind") << " " << row.at("trade") << ", " << size << " AWG");
                CHECK(most_conductors(CodeBook(edition), kinds.at(row.at("kind")),
                                      trade(row.at("trade").c_str()),
                                      {.count = 1, .size = wire(size)}) == *published);
                ++compared;
            }
    CHECK(compared >= 3 * 260);
}

TEST_CASE("areas of the largest conductors agree with the published table") {
    for (const Edition edition : all_editions)
        for (const CsvRow& row : read_csv("ch9_table5_large.csv"))
            for (const auto& [insulation, column] :
                 {std::pair{Insulation::thwn_2, "thhn"}, std::pair{Insulation::xhhw_2, "xhhw"},
                  std::pair{Insulation::use_2, "rhw2_nocov"}}) {
                const auto area =
                    CodeBook(edition).conductor_area(wire(row.at("size").c_str()), insulation);
                const double diameter = *csv_number(row, std::string(column) + "_dia");
                INFO(row.at("size") << " " << column);
                REQUIRE(area);
                CHECK(area->value == Approx(*csv_number(row, std::string(column) + "_area")));
                CHECK(area->value == Approx(pi / 4 * diameter * diameter).epsilon(0.002));
            }
}

TEST_CASE("inside diameters belong to the inside areas") {
    const CodeBook book(Edition::nec2023);
    for (const RacewayKind kind :
         {RacewayKind::emt, RacewayKind::pvc40, RacewayKind::pvc80, RacewayKind::rmc,
          RacewayKind::fmc, RacewayKind::lfmc, RacewayKind::lfnc})
        for (const TradeSize size : book.listed_trade_sizes(kind)) {
            const double diameter = *book.raceway_diameter(kind, size);
            INFO(name(kind) << " " << name(size));
            CHECK(book.raceway_area(kind, size)->value ==
                  Approx(pi / 4 * diameter * diameter).margin(0.0011).epsilon(0));
        }
    CHECK_FALSE(book.raceway_diameter(RacewayKind::cable, trade("1")));
}

TEST_CASE("conductors alike: one more from 0.8 on, and no more") {
    // EMT 1/2, two 6 AWG: 31 % of 0.304 = 0.0942 in², 1.86 conductors: 2. PVC 40: 0.0884, 1.74: 1.
    auto input = in_emt({{2, wire("6")}});
    CHECK(sized(input).size == trade("1/2"));
    input.kind = RacewayKind::pvc40;
    CHECK(sized(input).size == trade("3/4"));
    // A ground of another size, and the areas alone decide: 3 of 0.0507 + 0.0211 = 0.1732 of
    // 0.2132.
    input = in_emt({{2, wire("6")}, {1, wire("10")}});
    CHECK(sized(input).size == trade("3/4"));
    TestDesk desk(Edition::nec2017);
    size_raceway(desk, in_emt({{2, wire("6")}}));
    CHECK(desk.line("fill_check").comparison == "2 ≤ 2");
    CHECK(text(desk.line("fill_check").cite) == "NEC 2017 Ch. 9 Table 1 Note 7");
}

TEST_CASE("equipment grounds take room, insulated or bare, and are counted") {
    // Two 2 AWG (31 % of 0.864 = 0.268: trade 1); with a ground there are three: 40 %.
    CHECK(sized(in_emt({{2, wire("2")}})).size == trade("1"));
    TestDesk desk;
    const auto result =
        size_raceway(desk, in_emt({{2, wire("2")}, {1, wire("8"), Insulation::bare}}));
    CHECK(result.size == trade("1")); // 0.2486 of 0.3456
    CHECK(desk.line("fill_limit").source == "Ch. 9 Table 1, 3 conductors");
    CHECK(result.conductors.value == Approx(2 * 0.1158 + 0.017));
}

TEST_CASE("a cable of several conductors counts as one, by its outer diameter") {
    // One cable, 53 % of 0.533 = 0.2825 in²; it may be larger by a fifth (note 7): 0.67 in has
    // 0.3526 in², 0.801 of it fits; 0.671 in has 0.3536 in², 0.799.
    const FillConductor cable{
        .count = 1, .outer_diameter = 0.67, .called = "trunk cable", .cable = true};
    CHECK(sized(in_emt({cable})).size == trade("3/4"));
    auto other = cable;
    other.outer_diameter = 0.671;
    CHECK(sized(in_emt({other})).size == trade("1"));
    other.count = 2; // 0.7072 in²: 31 % of 2.036 is 0.631, 1.78 of them; of 3.356 it is 1.040
    CHECK(sized(in_emt({other})).size == trade("2"));
    TestDesk desk;
    size_raceway(desk, in_emt({cable}));
    CHECK(desk.line("area_1").source == "trunk cable, outer diameter 0.67 in: π ÷ 4 × d²");
    CHECK(text(desk.line("area_1").cite) == "NEC 2023 Ch. 9 Table 1 Note 9");
    // Without its diameter a cable is not guessed at.
    auto unknown = cable;
    unknown.outer_diameter = 0;
    CHECK_FALSE(sized(in_emt({unknown})).found);
}

TEST_CASE("PV wire by its stated diameter") {
    // Four of 0.25 in: 4 x 0.04909 = 0.1963 in², of 0.2132 in trade 3/4.
    const FillConductor wires{
        .count = 4, .size = wire("10"), .insulation = Insulation::pv_wire, .outer_diameter = 0.25};
    TestDesk desk;
    const auto result = size_raceway(desk, in_emt({wires}));
    CHECK(result.size == trade("3/4"));
    CHECK(result.conductors.value == Approx(4 * pi / 4 * 0.0625));
    CHECK(desk.line("area_1").source == "PV WIRE, outer diameter 0.25 in: π ÷ 4 × d²");
    CHECK(text(desk.line("area_1").cite) == "NEC 2023 Ch. 9 Table 1 Note 5");
}

TEST_CASE("every kind of raceway has its own area at the same trade size") {
    // Three 3/0 and a 6 AWG bare ground: 0.8307 in². 40 % areas from ch9_table4.csv.
    const auto size = [](RacewayKind kind) {
        return sized({.kind = kind,
                      .conductors = {{3, wire("3/0")}, {1, wire("6"), Insulation::bare}}})
            .size;
    };
    CHECK(size(RacewayKind::emt) == trade("2"));   // 0.814, 1.342
    CHECK(size(RacewayKind::pvc40) == trade("2")); // 0.794, 1.316
    CHECK(size(RacewayKind::pvc80) == trade("2")); // 0.684, 1.150
    CHECK(size(RacewayKind::rmc) == trade("2"));   // 0.829, 1.363
    CHECK(size(RacewayKind::fmc) == trade("2"));   // 0.743, 1.307
    CHECK(size(RacewayKind::lfmc) == trade("2"));  // 0.792, 1.298
    CHECK(size(RacewayKind::lfnc) == trade("2"));
}

TEST_CASE("three conductors alike may jam between 2.8 and 3.2 diameters") {
    // 3/0 THWN-2 0.584 in: EMT 1-1/2 1.610 / 0.584 = 2.76; EMT 2 2.067 / 0.584 = 3.54. 250 kcmil
    // 0.711: 2.067 / 0.711 = 2.91.
    CHECK_FALSE(sized(in_emt({{3, wire("3/0")}})).may_jam);
    auto input = in_emt({{3, wire("250")}});
    CHECK(sized(input).size == trade("2"));
    CHECK(sized(input).may_jam);
    CHECK(sized(input).passes); // advice, not a rule
    input.conductors.push_back({1, wire("4"), Insulation::bare});
    CHECK(sized(input).may_jam); // a thinner ground changes nothing
    input.conductors = {{4, wire("250")}};
    CHECK_FALSE(sized(input).may_jam);
    TestDesk desk;
    size_raceway(desk, in_emt({{3, wire("250")}}));
    CHECK(desk.line("jam_ratio").value == Approx(2.067 / 0.711).epsilon(0.001));
}

TEST_CASE("the smallest raceway is known also when another one is stated") {
    auto input = in_emt({{3, wire("6")}});
    input.stated = trade("2");
    CHECK(sized(input).size == trade("2"));
    CHECK(sized(input).smallest_that_complies == trade("3/4"));
}

TEST_CASE("conductors of one size and two diameters are not alike") {
    // 4 x 0.300 in: 0.2827 in² of 0.304 x 0.40 = 0.1216 in² in 1/2 EMT. All that matters here:
    // Annex C counts conductors alike, and these are judged by their areas, pi / 4 x d².
    const FillConductor thin{2, wire("10"), Insulation::pv_wire, 0.2};
    FillConductor thick = thin;
    thick.outer_diameter = 0.24;
    const auto result = sized(in_emt({thin, thick}));
    CHECK(result.conductors.value == Approx(2 * pi / 4 * (0.2 * 0.2 + 0.24 * 0.24)));
    CHECK(result.size == trade("3/4")); // 0.1533 in² of 0.304 x 0.4 and of 0.533 x 0.4 = 0.2132
}

TEST_CASE("a raceway without conductors, or of a size that is not made, holds nothing") {
    CHECK_FALSE(sized(in_emt({})).passes);
    RacewayInput input{.kind = RacewayKind::lfnc,
                       .conductors = {{3, wire("10")}},
                       .stated = trade("4")}; // liquidtight nonmetallic ends at 2
    TestDesk desk;
    const auto result = size_raceway(desk, input);
    CHECK_FALSE(result.passes);
    CHECK_FALSE(result.may_jam);
    input.stated = trade("2");
    CHECK(sized(input).passes);
}

TEST_CASE("how many conductors fit is not known without a raceway or an area") {
    const CodeBook book(Edition::nec2023);
    const FillConductor ten{1, wire("10")};
    CHECK(most_conductors(book, RacewayKind::emt, trade("1/2"), ten) == 5); // Annex C, Table C.1
    CHECK_FALSE(most_conductors(book, RacewayKind::free_air, trade("1/2"), ten));
    const FillConductor pv{1, wire("10"), Insulation::pv_wire}; // no table lists PV wire
    CHECK_FALSE(most_conductors(book, RacewayKind::emt, trade("1/2"), pv));
}

TEST_CASE("conductors alike: a decimal of 0.8 exactly is one more") {
    // 40 % of 0.304 in² in EMT 1/2 for 5.8 conductors of π ÷ 4 × d²; and for a thousandth less.
    const auto fit = [](double number) {
        const double diameter = std::sqrt(0.4 * 0.304 / number * 4 / pi);
        return most_conductors(CodeBook(Edition::nec2023), RacewayKind::emt, trade("1/2"),
                               {.count = 1, .outer_diameter = diameter});
    };
    CHECK(fit(5.8) == 6);
    CHECK(fit(5.799) == 5);
}

TEST_CASE("conductors that just fill what may be filled fit by their areas") {
    // One cable of 53 % of the 0.533 in² of EMT 3/4.
    const FillConductor cable{
        .count = 1, .outer_diameter = std::sqrt(0.53 * 0.533 * 4 / pi), .cable = true};
    TestDesk desk;
    CHECK(size_raceway(desk, in_emt({cable})).size == trade("3/4"));
    CHECK(desk.line("fill_check").formula == "A_wires ≤ A_max");
}

TEST_CASE("three conductors alike may jam at 2.8 and at 3.2 diameters exactly") {
    // EMT 1-1/2: 1.610 in inside; 1.610 ÷ 2.8 = 0.575, 1.610 ÷ 3.2 = 0.503125.
    const auto may_jam = [](double diameter) {
        auto input = in_emt({{.count = 3, .size = wire("1"), .outer_diameter = diameter}});
        input.stated = trade("1-1/2");
        return sized(input).may_jam;
    };
    CHECK(may_jam(0.575));
    CHECK_FALSE(may_jam(0.576));
    CHECK(may_jam(0.503125));
    CHECK_FALSE(may_jam(0.503));
}

TEST_CASE("a ground as thick as the three is a fourth that keeps them from wedging") {
    auto input = in_emt({{3, wire("250")}, {1, wire("250")}});
    input.stated = trade("2");
    CHECK_FALSE(sized(input).may_jam);
    input.conductors[1].size = wire("4/0");
    CHECK(sized(input).may_jam);
}

TEST_CASE("a raceway rests on the check of its fill, where it is made") {
    auto input = in_emt({{3, wire("6")}});
    TestDesk sought, stated, missing;
    size_raceway(sought, input);
    CHECK(sought.line("trade_size").governs == "fill governs");
    CHECK(sought.line("trade_size").from == std::vector<std::string>{"X.fill_check"});
    input.stated = trade("2");
    size_raceway(stated, input);
    CHECK(stated.line("trade_size").governs == "stated; 3/4 in would do");
    input = {.kind = RacewayKind::lfnc, .conductors = {{3, wire("10")}}, .stated = trade("4")};
    size_raceway(missing, input); // liquidtight nonmetallic ends at 2
    CHECK(missing.line("trade_size").from.empty());
}
