// Every table of the code book against a copy from outside. The sources of each copy stand at the
// head of the file in tests/data.
#include "catch.h"
#include "code/code_book.h"
#include "csv.h"

using namespace ohmfolio;

namespace {

WireSize size_of(const CsvRow& row, const std::string& column = "size") {
    const auto size = parse_wire_size(row.at(column));
    REQUIRE(size);
    return *size;
}

/// The books of all editions; the copies hold for each of them.
std::vector<CodeBook> books() {
    std::vector<CodeBook> result;
    for (const Edition edition : all_editions)
        result.emplace_back(edition);
    return result;
}

template <class Q> std::optional<double> plain(const std::optional<Q>& quantity) {
    return quantity ? std::optional(quantity->value) : std::nullopt;
}

void check_value(std::optional<double> ours, std::optional<double> published) {
    REQUIRE(ours.has_value() == published.has_value());
    if (ours)
        CHECK(*ours == Approx(*published).epsilon(1e-12));
}

} // namespace

TEST_CASE("ampacities agree with the published table") {
    const auto rows = read_csv("ampacity_310_16.csv");
    REQUIRE(rows.size() == 24);
    for (const CodeBook& book : books())
        for (const CsvRow& row : rows)
            for (const int column : {60, 75, 90}) {
                const std::string name = std::to_string(column);
                INFO(row.at("size") << " at " << column);
                check_value(plain(book.ampacity(size_of(row), Material::copper, column)),
                            csv_number(row, "cu" + name));
                check_value(plain(book.ampacity(size_of(row), Material::aluminum, column)),
                            csv_number(row, "al" + name));
            }
}

TEST_CASE("ampacities in free air agree with the published table") {
    const auto rows = read_csv("ampacity_310_17.csv");
    REQUIRE(rows.size() == 18);
    for (const CodeBook& book : books())
        for (const CsvRow& row : rows)
            for (const int column : {60, 75, 90}) {
                INFO(row.at("size") << " at " << column);
                check_value(plain(book.ampacity_free_air(size_of(row), Material::copper, column)),
                            csv_number(row, "cu" + std::to_string(column)));
            }
}

TEST_CASE("ambient factors agree with the published table at both ends of each band") {
    const auto rows = read_csv("ambient_310_15_b1.csv");
    REQUIRE(rows.size() == 16);
    for (const CodeBook& book : books())
        for (const CsvRow& row : rows)
            for (const int column : {60, 75, 90}) {
                const auto published = csv_number(row, "f" + std::to_string(column));
                const double high = *csv_number(row, "hi_c");
                INFO("up to " << high << " C, column " << column);
                check_value(book.ambient_factor(Celsius{high}, column), published);
                const double low = csv_number(row, "lo_c").value_or(-20);
                check_value(book.ambient_factor(Celsius{low}, column), published);
                // Between two bands the hotter one holds.
                if (row.at("lo_c") != "")
                    check_value(book.ambient_factor(Celsius{low - 0.5}, column), published);
            }
    CHECK_FALSE(CodeBook(Edition::nec2023).ambient_factor(Celsius{85.1}, 90));
}

TEST_CASE("bundling factors agree with the published table") {
    const auto rows = read_csv("bundling_310_15_c1.csv");
    REQUIRE(rows.size() == 7);
    for (const CodeBook& book : books())
        for (const CsvRow& row : rows) {
            const int low = static_cast<int>(*csv_number(row, "n_min"));
            const int high = static_cast<int>(csv_number(row, "n_max").value_or(low + 100));
            CHECK(book.bundling_factor(low) == Approx(*csv_number(row, "factor")));
            CHECK(book.bundling_factor(high) == Approx(*csv_number(row, "factor")));
        }
}

TEST_CASE("standard ratings agree with the published list, edition by edition") {
    const auto rows = read_csv("standard_ocpd_240_6.csv");
    for (const CodeBook& book : books()) {
        for (const CsvRow& row : rows) {
            const Amps amps{*csv_number(row, "amps")};
            const std::string& device = row.at("device");
            bool breaker = device.find("breaker") != std::string::npos;
            // 10 A became a breaker rating with the 2023 edition.
            if (device.find("fuse (2017;2020)") != std::string::npos)
                breaker = book.edition() == Edition::nec2023;
            INFO(amps.value << " A in " << name(book.edition()));
            CHECK(book.is_standard_rating(amps) == breaker);
        }
        for (const CsvRow& row : rows)
            CHECK(book.is_standard_rating(Amps{*csv_number(row, "amps")}, DeviceKind::fuse));
        CHECK(book.standard_rating_up(Amps{0.5}, DeviceKind::fuse) == Amps{1});
        CHECK(book.standard_rating_up(Amps{10.01}, DeviceKind::fuse) == Amps{15});
        CHECK(book.standard_rating_up(Amps{600.5}, DeviceKind::fuse) == Amps{601});
        CHECK_FALSE(book.is_standard_rating(Amps{12}, DeviceKind::fuse));
        CHECK_FALSE(book.standard_rating_up(Amps{6000.5}));
        CHECK(book.standard_rating_up(Amps{15.01}) == Amps{20});
    }
}

TEST_CASE("equipment grounding conductors agree with the published table") {
    const auto rows = read_csv("egc_250_122.csv");
    REQUIRE(rows.size() == 19);
    for (const CodeBook& book : books()) {
        double previous = 0;
        for (const CsvRow& row : rows) {
            const double through = *csv_number(row, "ocpd_max_a");
            for (const double amps : {through, previous + 0.5}) {
                INFO(amps << " A");
                CHECK(book.equipment_ground(Amps{amps}, Material::copper) == size_of(row, "cu"));
                CHECK(book.equipment_ground(Amps{amps}, Material::aluminum) == size_of(row, "al"));
            }
            previous = through;
        }
        CHECK_FALSE(book.equipment_ground(Amps{6001}, Material::copper));
    }
}

TEST_CASE("grounding electrode conductors agree with the published table") {
    // Rows whose ends no single conductor has are tried with the largest conductor below the end.
    const auto rows = read_csv("gec_250_66.csv");
    const auto through = [](const CsvRow& row, const std::string& column) {
        const std::string& text = row.at(column);
        const auto size = parse_wire_size(text);
        return size.value_or(*parse_wire_size("1000"));
    };
    for (const CodeBook& book : books())
        for (std::size_t i = 0; i + 1 < rows.size(); ++i) {
            for (const auto& [column, material] :
                 {std::pair{"cu_service_through", Material::copper},
                  std::pair{"al_service_through", Material::aluminum}}) {
                const WireSize service = through(rows[i], column);
                INFO(name(service) << " " << name(material));
                CHECK(book.grounding_electrode(service, material, Material::copper) ==
                      size_of(rows[i], "gec_cu"));
                CHECK(book.grounding_electrode(service, material, Material::aluminum) ==
                      size_of(rows[i], "gec_al"));
            }
        }
    // The row above belongs to the next size.
    const CodeBook book(Edition::nec2023);
    CHECK(book.grounding_electrode(*parse_wire_size("1"), Material::copper, Material::copper) ==
          parse_wire_size("6"));
    CHECK(book.grounding_electrode(*parse_wire_size("4/0"), Material::copper, Material::copper) ==
          parse_wire_size("2"));
}

TEST_CASE("bonding jumpers agree with the published table at the end of each row and past it") {
    const auto rows = read_csv("ssbj_250_102_c1.csv");
    REQUIRE(rows.size() == 7);
    const auto area = [](const CodeBook& book, const std::string& text) {
        const auto size = parse_wire_size(text);
        const auto listed = size ? book.circular_mils(*size) : std::nullopt;
        return listed.value_or(CircularMils{1000 * std::stod(text)});
    };
    for (const CodeBook& book : books())
        for (std::size_t i = 0; i + 1 < rows.size(); ++i)
            for (const auto& [column, material] :
                 {std::pair{"cu_phase_through", Material::copper},
                  std::pair{"al_phase_through", Material::aluminum}}) {
                const CircularMils end = area(book, rows[i].at(column));
                const CircularMils past{end.value + 1};
                INFO(rows[i].at(column) << " " << name(material));
                CHECK(book.bonding_jumper(end, material, Material::copper) ==
                      size_of(rows[i], "jumper_cu"));
                CHECK(book.bonding_jumper(end, material, Material::aluminum) ==
                      size_of(rows[i], "jumper_al"));
                const auto next = i + 2 < rows.size()
                                      ? std::optional(size_of(rows[i + 1], "jumper_cu"))
                                      : std::nullopt;
                CHECK(book.bonding_jumper(past, material, Material::copper) == next);
            }
}

TEST_CASE("standard ratings downward") {
    for (const CodeBook& book : books()) {
        CHECK(book.standard_rating_down(Amps{180}) == Amps{175});
        CHECK(book.standard_rating_down(Amps{175}) == Amps{175});
        CHECK(book.standard_rating_down(Amps{174.9}) == Amps{150});
        CHECK(book.standard_rating_down(Amps{9000}) == Amps{6000});
        CHECK_FALSE(book.standard_rating_down(Amps{9.9}));
    }
    CHECK_FALSE(CodeBook(Edition::nec2020).standard_rating_down(Amps{14}));
    CHECK(CodeBook(Edition::nec2023).standard_rating_down(Amps{14}) == Amps{10});
}

TEST_CASE("voltage correction factors agree with the published table") {
    const auto rows = read_csv("pv_690_7_a.csv");
    REQUIRE(rows.size() == 13);
    for (const CodeBook& book : books()) {
        for (const CsvRow& row : rows) {
            const auto published = csv_number(row, "factor");
            check_value(book.voltage_table_factor(Celsius{*csv_number(row, "lo_c")}), published);
            check_value(book.voltage_table_factor(Celsius{*csv_number(row, "hi_c")}), published);
            // Between two bands the colder one holds.
            check_value(book.voltage_table_factor(Celsius{*csv_number(row, "hi_c") + 0.5}),
                        published);
        }
        CHECK(book.voltage_table_factor(Celsius{25}) == 1.0);
        CHECK_FALSE(book.voltage_table_factor(Celsius{-40.5}));
    }
}

TEST_CASE("areas of insulated conductors agree with the published table") {
    const auto rows = read_csv("ch9_table5.csv");
    REQUIRE(rows.size() == 18);
    for (const CodeBook& book : books())
        for (const CsvRow& row : rows) {
            const WireSize size = size_of(row);
            INFO(name(size));
            check_value(plain(book.conductor_area(size, Insulation::thwn_2)),
                        csv_number(row, "thhn_area"));
            check_value(plain(book.conductor_area(size, Insulation::xhhw_2)),
                        csv_number(row, "xhhw_area"));
            check_value(plain(book.conductor_area(size, Insulation::use_2)),
                        csv_number(row, "rhw2_nocov_area"));
            // The bare area comes from Table 8; this copy rounds it to three places.
            CHECK(book.conductor_area(size, Insulation::bare)->value ==
                  Approx(*csv_number(row, "bare_stranded_area")).margin(0.0006));
            CHECK_FALSE(book.conductor_area(size, Insulation::pv_wire));
            CHECK_FALSE(book.conductor_area(size, Insulation::trunk_cable));
        }
}

TEST_CASE("areas of raceways agree with the published table") {
    const std::map<std::string, RacewayKind> kinds = {
        {"EMT", RacewayKind::emt}, {"PVC40", RacewayKind::pvc40}, {"PVC80", RacewayKind::pvc80},
        {"RMC", RacewayKind::rmc}, {"FMC", RacewayKind::fmc},     {"LFMC", RacewayKind::lfmc}};
    const auto rows = read_csv("ch9_table4.csv");
    REQUIRE(rows.size() == 60);
    for (const CodeBook& book : books())
        for (const CsvRow& row : rows) {
            const TradeSize trade = *parse_trade_size(row.at("trade"));
            const auto area = book.raceway_area(kinds.at(row.at("type")), trade);
            INFO(row.at("type") << " " << row.at("trade"));
            check_value(plain(area), csv_number(row, "area_in2"));
            for (const auto& [count, column] :
                 {std::pair{1, "fill53_in2"}, std::pair{2, "fill31_in2"},
                  std::pair{3, "fill40_in2"}})
                CHECK(book.fill_limit(count, false) * area->value ==
                      Approx(*csv_number(row, column)).margin(0.0011));
            CHECK(book.fill_limit(3, true) * area->value ==
                  Approx(*csv_number(row, "fill60_in2")).margin(0.0011));
        }
}

TEST_CASE("conductor properties agree with the published table") {
    const auto rows = read_csv("ch9_table8.csv");
    int compared = 0;
    for (const CodeBook& book : books())
        for (const CsvRow& row : rows) {
            if (row.at("strands") == "1")
                continue;
            const WireSize size = size_of(row);
            INFO(name(size));
            check_value(plain(book.circular_mils(size)), csv_number(row, "cmil"));
            CHECK(book.dc_resistance(size, Material::copper)->value * 1000 ==
                  Approx(*csv_number(row, "r_cu_uncoated_ohm_kft")));
            CHECK(book.dc_resistance(size, Material::aluminum)->value * 1000 ==
                  Approx(*csv_number(row, "r_al_ohm_kft")));
            check_value(plain(book.conductor_area(size, Insulation::bare)),
                        csv_number(row, "overall_area_in2"));
            ++compared;
        }
    CHECK(compared == 26 * 3);
}

TEST_CASE("impedances agree with the published table") {
    const auto rows = read_csv("ch9_table9.csv");
    REQUIRE(rows.size() == 21);
    const auto per_thousand = [](const std::optional<CodeBook::Impedance>& impedance) {
        return impedance ? std::optional(impedance->resistance.value * 1000) : std::nullopt;
    };
    for (const CodeBook& book : books())
        for (const CsvRow& row : rows) {
            const WireSize size = size_of(row);
            INFO(name(size));
            const auto steel = book.ac_impedance(size, Material::copper, RacewayKind::emt);
            const auto plastic = book.ac_impedance(size, Material::copper, RacewayKind::pvc40);
            check_value(per_thousand(steel), csv_number(row, "r_cu_steel"));
            check_value(per_thousand(plastic), csv_number(row, "r_cu_pvc"));
            check_value(per_thousand(book.ac_impedance(size, Material::aluminum, RacewayKind::rmc)),
                        csv_number(row, "r_al_steel"));
            check_value(
                per_thousand(book.ac_impedance(size, Material::aluminum, RacewayKind::pvc80)),
                csv_number(row, "r_al_pvc"));
            CHECK(steel->reactance.value * 1000 == Approx(*csv_number(row, "xl_steel")));
            CHECK(plastic->reactance.value * 1000 == Approx(*csv_number(row, "xl_nonmag")));
        }
}

TEST_CASE("small conductors are limited as published") {
    // iaeimagazine.org 2020 September/October (10 AWG); expertce.com on the 2023 edition.
    for (const CodeBook& book : books()) {
        const auto limit = [&](const char* size, Material material) {
            return plain(book.small_conductor_limit(*parse_wire_size(size), material));
        };
        CHECK(limit("14", Material::copper) == 15);
        CHECK(limit("12", Material::copper) == 20);
        CHECK(limit("10", Material::copper) == 30);
        CHECK(limit("12", Material::aluminum) == 15);
        CHECK(limit("10", Material::aluminum) == 25);
        CHECK_FALSE(limit("8", Material::copper));
        CHECK_FALSE(limit("14", Material::aluminum));
    }
}

TEST_CASE("the smallest conductors are limited too") {
    // 240.4(D)(1) and (2): tradehub.tools nec-240-4-d-small-conductor.
    for (const CodeBook& book : books()) {
        CHECK(plain(book.small_conductor_limit(*parse_wire_size("18"), Material::copper)) == 7);
        CHECK(plain(book.small_conductor_limit(*parse_wire_size("16"), Material::copper)) == 10);
    }
}

TEST_CASE("rooftop adder as in the editions since 2017") {
    // electricallicenserenewal.com sectionID=277 (2017) and 879 (2020): 7/8 in, 33 C.
    for (const CodeBook& book : books()) {
        CHECK(book.rooftop_height().value == Approx(0.875 / 12));
        CHECK(book.rooftop_adder().value == 33);
    }
}

TEST_CASE("what a table does not list is nothing, never the nearest row") {
    const CodeBook book(Edition::nec2023);
    const WireSize beyond = *parse_wire_size("1250"); // the copies of Tables 8 and 9 end at 1000
    CHECK_FALSE(book.dc_resistance(beyond, Material::copper));
    CHECK_FALSE(book.circular_mils(beyond));
    CHECK_FALSE(book.grounding_electrode(beyond, Material::copper, Material::copper));
    CHECK_FALSE(book.ac_impedance(beyond, Material::copper, RacewayKind::emt));
    const TradeSize four = *parse_trade_size("4");
    CHECK_FALSE(book.raceway_area(RacewayKind::free_air, four));
    CHECK_FALSE(book.raceway_area(RacewayKind::lfnc, four)); // liquidtight nonmetallic ends at 2
    CHECK_FALSE(book.raceway_diameter(RacewayKind::cable, four));
    CHECK_FALSE(book.is_standard_rating(Amps{6001})); // 240.6(A) ends at 6000 A
    // 250.66(B) names copper alone; (A) copper and aluminum.
    CHECK_FALSE(book.electrode_cap("concrete-encased", Material::aluminum));
    CHECK(book.electrode_cap("rod", Material::aluminum)->size == *parse_wire_size("4"));
    CHECK_FALSE(book.electrode_cap("water pipe", Material::copper));
}

TEST_CASE("a conductor that is not small is cited by 240.4(D) as a whole") {
    const CodeBook book(Edition::nec2017);
    const auto cited = [&](const char* size, Material material) {
        return text(book.cite_small_conductor(*parse_wire_size(size), material));
    };
    CHECK(cited("12", Material::copper) == "NEC 2017 240.4(D)(5)");
    CHECK(cited("8", Material::copper) == "NEC 2017 240.4(D)");
    CHECK(cited("14", Material::aluminum) == "NEC 2017 240.4(D)"); // the list has copper there
}

TEST_CASE("the tables of ampacity have columns of 60, 75 and 90 C alone") {
    const CodeBook book(Edition::nec2023);
    const WireSize ten = *parse_wire_size("10");
    CHECK(book.ampacity(ten, Material::copper, 90) == Amps{40});
    CHECK_THROWS_AS(book.ampacity(ten, Material::copper, 80), std::logic_error);
    CHECK_THROWS_AS(book.ambient_factor(Celsius{30}, 105), std::logic_error);
}

TEST_CASE("an edition that nobody knows has no book") {
    CHECK_THROWS_AS(CodeBook(static_cast<Edition>(2014)), std::logic_error);
}

TEST_CASE("figures of practice are those that others use") {
    // Advisory: no law gives them, and they bind nobody. 1.2: the ratio of modules to inverter
    // output that PVWatts begins with, from memory; an installer on the re-wrenches list,
    // 2025-01-27, reckons from it. 2 %: total rise in the wires of inverters by a maker's brief,
    // scribd.com/document/683622571. 3 % of a year's energy is our own choice: nothing outside
    // gives it.
    for (const CodeBook& book : books()) {
        CHECK(book.number("module.ratio") == Approx(1.2));
        CHECK(book.number("voltage.rise") == Approx(0.02));
        CHECK(book.number("inverter.clipping") == Approx(0.03));
    }
}
