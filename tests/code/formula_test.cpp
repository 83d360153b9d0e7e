// The tables against the physics that they were made from, independent of any copy.
#include <cmath>

#include "catch.h"
#include "code/code_book.h"
#include "csv.h"

using namespace ohmfolio;

namespace {

const double pi = std::acos(-1.0);

double rounded(double value, int decimals) {
    const double scale = std::pow(10.0, decimals);
    return std::round(value * scale) / scale;
}

} // namespace

TEST_CASE("ambient factors follow from the temperature rise of the insulation") {
    // Equation of 310.15(B): sqrt((Tc - Ta) / (Tc - 30)), two decimals, at the top of each band.
    const CodeBook book(Edition::nec2023);
    int compared = 0;
    for (const int column : {60, 75, 90})
        for (int ambient = 10; ambient <= 85; ambient += 5) {
            const auto factor = book.ambient_factor(Celsius{double(ambient)}, column);
            INFO(ambient << " C, column " << column);
            const double ratio = double(column - ambient) / (column - 30);
            REQUIRE(factor.has_value() == (ratio > 0));
            if (!factor)
                continue;
            CHECK(*factor == Approx(rounded(std::sqrt(ratio), 2)));
            ++compared;
        }
    CHECK(compared == 10 + 13 + 16);
}

TEST_CASE("gauge sizes follow the gauge formula") {
    // American wire gauge, ASTM B258: diameter (mils) = 5 x 92^((36 - n) / 39).
    const CodeBook book(Edition::nec2020);
    const std::pair<const char*, int> gauges[] = {{"18", 18},  {"16", 16},  {"14", 14}, {"12", 12},
                                                  {"10", 10},  {"8", 8},    {"6", 6},   {"4", 4},
                                                  {"3", 3},    {"2", 2},    {"1", 1},   {"1/0", 0},
                                                  {"2/0", -1}, {"3/0", -2}, {"4/0", -3}};
    for (const auto& [text, number] : gauges) {
        const double diameter = 5 * std::pow(92.0, (36.0 - number) / 39);
        INFO(text << " AWG");
        CHECK(book.circular_mils(*parse_wire_size(text))->value ==
              Approx(diameter * diameter).epsilon(0.003));
    }
}

TEST_CASE("direct-current resistance follows from area and resistivity") {
    // At 75 C: copper 10.371 ohm-cmil/ft at 20 C (IACS) corrected to 75 C is 12.61, aluminum
    // of 61 percent conductivity 20.77; stranding adds two percent.
    const CodeBook book(Edition::nec2017);
    for (int step = 0; step < 26; ++step) {
        const WireSize size{step};
        const double cmil = book.circular_mils(size)->value;
        INFO(name(size));
        CHECK(book.dc_resistance(size, Material::copper)->value ==
              Approx(12.61 * 1.02 / cmil).epsilon(0.013));
        CHECK(book.dc_resistance(size, Material::aluminum)->value ==
              Approx(20.77 * 1.02 / cmil).epsilon(0.013));
    }
}

TEST_CASE("copper resistance at 75 C follows from that at 20 C") {
    // Ch. 9 Table 8, note 2: R2 = R1 (1 + a (T2 - 75)), a = 0.00323 for copper. At 20 C that gives
    // 10.37 ohm-cmil/ft, the International Annealed Copper Standard.
    const CodeBook book(Edition::nec2023);
    const WireSize size = *parse_wire_size("250");
    const double at_75 = book.dc_resistance(size, Material::copper)->value / 1.02;
    const double at_20 = at_75 * (1 + 0.00323 * (20 - 75));
    CHECK(at_20 * book.circular_mils(size)->value == Approx(10.37).epsilon(0.005));
}

TEST_CASE("raceway areas follow from the inside diameter") {
    const CodeBook book(Edition::nec2023);
    const std::map<std::string, RacewayKind> kinds = {
        {"EMT", RacewayKind::emt}, {"PVC40", RacewayKind::pvc40}, {"PVC80", RacewayKind::pvc80},
        {"RMC", RacewayKind::rmc}, {"FMC", RacewayKind::fmc},     {"LFMC", RacewayKind::lfmc}};
    for (const CsvRow& row : read_csv("ch9_table4.csv")) {
        const double diameter = *csv_number(row, "id_in");
        const TradeSize trade = *parse_trade_size(row.at("trade"));
        INFO(row.at("type") << " " << row.at("trade"));
        CHECK(book.raceway_area(kinds.at(row.at("type")), trade)->value ==
              Approx(pi / 4 * diameter * diameter).margin(0.0011));
    }
}

TEST_CASE("inside diameters of raceways agree with the metric columns of the table") {
    // Printed to a tenth of a millimetre; the copy has them for the kinds that memory gave, too.
    const CodeBook book(Edition::nec2020);
    const std::map<std::string, RacewayKind> kinds = {
        {"EMT", RacewayKind::emt},  {"PVC40", RacewayKind::pvc40}, {"PVC80", RacewayKind::pvc80},
        {"RMC", RacewayKind::rmc},  {"FMC", RacewayKind::fmc},     {"LFMC", RacewayKind::lfmc},
        {"LFNC", RacewayKind::lfnc}};
    int compared = 0;
    for (const CsvRow& row : read_csv("ch9_table4_metric.csv")) {
        const auto published = csv_number(row, "id_mm");
        if (!published)
            continue;
        INFO(row.at("type") << " " << row.at("trade"));
        const auto inside =
            book.raceway_diameter(kinds.at(row.at("type")), *parse_trade_size(row.at("trade")));
        CHECK(*inside * 25.4 == Approx(*published).margin(0.051).epsilon(0));
        ++compared;
    }
    CHECK(compared == 64);
}

TEST_CASE("ampacities in free air: columns by rise and resistance, in steps of 5 A") {
    // I2 R rises with the temperature above 30 C, R with 234.5 C + T: the 60 and 90 C columns
    // follow from that of 75 C within the step that the table is rounded to.
    const CodeBook book(Edition::nec2023);
    const auto from_75 = [](double column) {
        return std::sqrt((column - 30) / (75 - 30) * (234.5 + 75) / (234.5 + column));
    };
    for (const WireSize size : book.listed_sizes(Material::copper)) {
        const auto at = [&](int column) {
            return book.ampacity_free_air(size, Material::copper, column);
        };
        if (!at(75))
            continue;
        INFO(name(size));
        for (const int column : {60, 75, 90}) {
            CHECK(std::fmod(at(column)->value, 5) == 0);
            CHECK(at(column)->value ==
                  Approx(at(75)->value * from_75(column)).margin(5).epsilon(0));
            // More than in a raceway, where heat leaves less well.
            CHECK(*at(column) > *book.ampacity(size, Material::copper, column));
        }
    }
}

TEST_CASE("liquidtight nonmetallic shares the dimensions of metallic up to trade size 2") {
    // sfasoft.com lists nonmetallic liquidtight with the same diameters to trade size 2.
    const CodeBook book(Edition::nec2023);
    const auto sizes = book.listed_trade_sizes(RacewayKind::lfnc);
    CHECK(sizes.size() == 6);
    for (const TradeSize size : sizes)
        CHECK(book.raceway_area(RacewayKind::lfnc, size) ==
              book.raceway_area(RacewayKind::lfmc, size));
}

TEST_CASE("conductor areas follow from their diameter") {
    const CodeBook book(Edition::nec2023);
    for (const CsvRow& row : read_csv("ch9_table5.csv"))
        for (const auto& [insulation, column] :
             {std::pair{Insulation::thwn_2, "thhn_dia"}, std::pair{Insulation::xhhw_2, "xhhw_dia"},
              std::pair{Insulation::use_2, "rhw2_nocov_dia"}}) {
            const double diameter = *csv_number(row, column);
            INFO(row.at("size") << " " << column);
            CHECK(book.conductor_area(*parse_wire_size(row.at("size")), insulation)->value ==
                  Approx(pi / 4 * diameter * diameter).epsilon(0.006));
        }
}

TEST_CASE("impedance at power factor 0.85 reproduces the printed column") {
    // Ch. 9 Table 9 prints Z at 0.85 to two digits: Z = 0.85 R + 0.527 X within that rounding.
    const CodeBook book(Edition::nec2023);
    for (const CsvRow& row : read_csv("ch9_table9.csv")) {
        const auto found =
            book.ac_impedance(*parse_wire_size(row.at("size")), Material::copper, RacewayKind::emt);
        const double impedance = 0.85 * found->resistance.value + 0.527 * found->reactance.value;
        INFO(row.at("size"));
        CHECK(impedance * 1000 == Approx(*csv_number(row, "z85_cu_steel")).epsilon(0.055));
    }
}
