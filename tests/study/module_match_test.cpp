// Modules against microinverters.
#include "catch.h"

#include <algorithm>

#include "study/module_match.h"

using namespace ohmfolio;
using namespace ohmfolio::workings;

namespace {

const CodeBook book(Edition::nec2023);

/// Nameplates invented for these tests.
PairInput pair() {
    return {.module = {.power = Watts{400},
                       .voc = Volts{40},
                       .vmp = Volts{34},
                       .isc = Amps{12},
                       .imp = Amps{11.8},
                       .voc_per_celsius = -0.0025,
                       .vmp_per_celsius = -0.0030,
                       .series_fuse = Amps{25}},
            .microinverter = {.output = Watts{349},
                              .output_voltage = Volts{240},
                              .output_current = Amps{1.45},
                              .input_limit = Volts{60},
                              .tracking_low = Volts{25},
                              .tracking_high = Volts{50},
                              .ratio_limit = 1.2,
                              .branch_breaker_limit = Amps{20},
                              .trunk_size = {},
                              .trunk_ampacity = Amps{20},
                              .drop_spacing_portrait = {},
                              .drop_spacing_landscape = {}},
            .coldest = Celsius{-15},
            .hot_cell = Celsius{75},
            .ratio_limit = 1.2};
}

bool passes(const PairInput& input, std::string_view rule) {
    Worksheet sheet;
    const auto verdicts = judge_pair({sheet, book, "pair:a+b"}, input);
    return std::ranges::find(verdicts, rule, &PairVerdict::rule)->passes;
}

} // namespace

TEST_CASE("the largest module is 1.2 times the continuous output") {
    // Common practice of the trade, no standard: outputs and the largest modules that go with them.
    struct Line {
        double output, largest;
    };
    for (const Line line : {Line{290, 348}, Line{325, 390}, Line{349, 418.8}, Line{380, 456}}) {
        Worksheet sheet;
        const auto largest = largest_module({sheet, book, "pair:a+b"}, Watts{line.output}, 1.2);
        CHECK(largest.value.value == Approx(line.largest));
        CHECK(sheet.find("a+b.largest_module")->cite.section == "common practice");
    }
}

TEST_CASE("voltages of a pair, worked by hand") {
    Worksheet sheet;
    const auto verdicts = judge_pair({sheet, book, "pair:a+b"}, pair());
    // 690.7(A)(1): 40 V × (1 + (−0.0025 × (−15 − 25))) = 40 × 1.1 = 44 V
    CHECK(sheet.find("a+b.cold_open_circuit_voltage")->value == Approx(44.0));
    // 34 V × (1 + (−0.0030 × (−40))) = 34 × 1.12 = 38.08 V
    CHECK(sheet.find("a+b.cold_power_point")->value == Approx(38.08));
    // 34 V × (1 + (−0.0030 × (75 − 25))) = 34 × 0.85 = 28.9 V
    CHECK(sheet.find("a+b.hot_power_point")->value == Approx(28.9));
    for (const PairVerdict& verdict : verdicts) {
        INFO(verdict.rule);
        CHECK(verdict.passes);
    }
}

TEST_CASE("each limit of a pair is met exactly and missed by the smallest step") {
    PairInput input = pair();
    SECTION("input limit: 44 V") {
        input.microinverter.input_limit = Volts{44};
        CHECK(passes(input, "module.input.voltage"));
        input.microinverter.input_limit = Volts{43.99};
        CHECK_FALSE(passes(input, "module.input.voltage"));
    }
    SECTION("top of the window: 38.08 V") {
        input.microinverter.tracking_high = Volts{38.08};
        CHECK(passes(input, "module.window.cold"));
        input.microinverter.tracking_high = Volts{38.07};
        CHECK_FALSE(passes(input, "module.window.cold"));
    }
    SECTION("bottom of the window: 28.9 V") {
        input.microinverter.tracking_low = Volts{28.9};
        CHECK(passes(input, "module.window.hot"));
        input.microinverter.tracking_low = Volts{28.91};
        CHECK_FALSE(passes(input, "module.window.hot"));
    }
    SECTION("ratio: 418.8 W for 349 VA") {
        input.module.power = Watts{418.8};
        CHECK(passes(input, "module.ratio"));
        input.module.power = Watts{419};
        CHECK_FALSE(passes(input, "module.ratio"));
    }
}

TEST_CASE("a replacement module of another rating is judged alone, by window") {
    // The old 250 W module and a 415 W replacement may sit side by side on the same branch: only
    // the replacement's own voltages count.
    PairInput replacement = pair();
    replacement.module.power = Watts{415};
    replacement.module.voc = Volts{38};
    CHECK(passes(replacement, "module.input.voltage"));
    CHECK(passes(replacement, "module.window.cold"));
    CHECK(passes(replacement, "module.window.hot"));
    // A 60-cell module of 1990s voltage would fall out of the window when hot:
    // 24 V × 0.85 = 20.4 V < 25 V.
    replacement.module.vmp = Volts{24};
    CHECK_FALSE(passes(replacement, "module.window.hot"));
}
