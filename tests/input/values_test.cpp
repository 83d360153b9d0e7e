// Single values. Conversions are checked against definitions: the foot is 0.3048 m, the inch 25.4
// mm (international yard and pound agreement, 1959); F = 9/5 C + 32.
#include <fmt/format.h>

#include "catch.h"
#include "input/keys.h"
#include "input/units.h"
#include "input/values.h"

using namespace ohmfolio;
using toml_text::Node;

namespace {

Key key_of(Kind kind) {
    Key key;
    key.name = "key";
    key.kind = kind;
    key.example = "\"...\"";
    return key;
}

Understood read(Kind kind, std::string text) {
    return understand(key_of(kind), Node{std::move(text), {}});
}

template <class Q> double number(Kind kind, std::string text) {
    const Understood understood = read(kind, text);
    INFO(text << ": " << understood.message);
    REQUIRE(understood.value);
    return std::get<Q>(*understood.value).value;
}

} // namespace

TEST_CASE("quantities are read in the units of the trade") {
    CHECK(number<Feet>(Kind::length, "85 ft") == 85);
    CHECK(number<Feet>(Kind::length, "26 m") == Approx(26 / 0.3048));
    CHECK(number<Feet>(Kind::length, "30 in") == Approx(2.5));
    CHECK(number<Feet>(Kind::length, "304.8 mm") == Approx(1));
    CHECK(number<Feet>(Kind::length, "30.48 cm") == Approx(1));
    CHECK(number<Feet>(Kind::distance, "7/8 in") == Approx(7.0 / 96));
    CHECK(number<Feet>(Kind::distance, "1-1/2 in") == Approx(0.125));
    CHECK(number<Feet>(Kind::distance, "1 1/2 in") == Approx(0.125));
    CHECK(number<Feet>(Kind::distance, "0 in") == 0);
    CHECK(number<Watts>(Kind::power, "405 W") == 405);
    CHECK(number<Watts>(Kind::power, "3.84 kVA") == Approx(3840));
    CHECK(number<WattHours>(Kind::energy, "10.08 kWh") == Approx(10080));
    CHECK(number<Amps>(Kind::current, "9.2 kA") == Approx(9200));
    CHECK(number<Amps>(Kind::current, " 20A ") == 20);
    CHECK(number<Volts>(Kind::voltage, "37.20 V") == Approx(37.2));
    CHECK(number<Celsius>(Kind::temperature, "-9 C") == -9);
    CHECK(number<Celsius>(Kind::temperature, "5 F") == Approx(-15));
    CHECK(number<Celsius>(Kind::temperature, "50 \u00B0F") == Approx(10));
    CHECK(number<Celsius>(Kind::temperature, "\u22129 C") == -9); // as data sheets print it
    CHECK(number<Celsius>(Kind::temperature, "+45 C") == 45);
    CHECK(number<Fraction>(Kind::percent, "2 %") == Approx(0.02));
    CHECK(number<Fraction>(Kind::per_celsius, "-0.26 %/C") == Approx(-0.0026));
    CHECK(number<Fraction>(Kind::per_celsius, "-0.26 %/\u00B0C") == Approx(-0.0026));
}

TEST_CASE("what is not a quantity says why and what would be") {
    struct Slip {
        Kind kind;
        std::string text, rule, message, hint;
    };
    const std::vector<Slip> slips = {
        {Kind::length, "28", "input.unit", "\"28\" has no unit", "write \"28 ft\" if you mean ft"},
        {Kind::length, "28 A", "input.unit", "\"28 A\" is a current, not a length", ""},
        {Kind::current, "20 a", "input.unit", "no such unit as \"a\"", ""},
        {Kind::energy, "10 kwh", "input.unit", "no such unit as \"kwh\"", "\"10 kWh\""},
        {Kind::current, "9,2 kA", "input.unit", "\"9,2 kA\" is not a current", "point"},
        {Kind::current, "inf A", "input.unit", "is not a current", ""},
        {Kind::current, "nan A", "input.unit", "is not a current", ""},
        {Kind::current, "1e999 A", "input.unit", "is not a current", ""},
        {Kind::current, "1e30 A", "input.value", "cannot be right", "its unit"},
        {Kind::current, "-5 A", "input.value", "is not above 0", ""},
        {Kind::distance, "-1 in", "input.value", "is not above 0", ""},
        {Kind::temperature, "400 C", "input.value", "cannot be right", ""},
        {Kind::length, "1/0 ft", "input.unit", "", ""},
        {Kind::text, "two\nlines", "input.value", "line break", "one line"},
        {Kind::date, "2 March", "input.value", "is not a date", "year-month-day"},
        {Kind::date, "2026-13-02", "input.value", "is not a day of the calendar", ""},
        {Kind::date, "2026-04-31", "input.value", "is not a day of the calendar", ""},
        {Kind::date, "2026-02-29", "input.value", "is not a day of the calendar", ""},
        {Kind::load_breaker, "20 A 4P", "input.unit", "", ""},
        {Kind::service, "200 A", "input.value", "is not a voltage and a current", ""},
    };
    for (const Slip& slip : slips) {
        const Understood understood = read(slip.kind, slip.text);
        INFO(slip.text << ": " << understood.message << " / " << understood.hint);
        CHECK_FALSE(understood.value);
        CHECK(understood.rule == slip.rule);
        CHECK(understood.message.find(slip.message) != std::string::npos);
        CHECK(understood.hint.find(slip.hint) != std::string::npos);
        CHECK_FALSE(expected(key_of(slip.kind)).empty());
    }
}

TEST_CASE("breakers of loads state their poles") {
    const auto one = std::get<LoadBreaker>(*read(Kind::load_breaker, "20 A").value);
    CHECK(one.rating.value == 20);
    CHECK(one.poles == 1);
    const auto two = std::get<LoadBreaker>(*read(Kind::load_breaker, "50 A 2P").value);
    CHECK(two.rating.value == 50);
    CHECK(two.poles == 2);
}

namespace {

/// Visits every key below a shape, with its path.
template <class Visit> void each_key(const Shape& shape, const std::string& path, Visit visit) {
    for (const Key* key : shape.keys()) {
        const std::string here = path + "." + std::string(key->name);
        visit(*key, here);
        if (key->shape != nullptr) {
            each_key(*key->shape, here, visit);
        }
    }
}

/// One item of an example as written in TOML: the text in quotes, true or false, a number.
Node example_node(std::string_view example) {
    const auto open = example.find('"');
    if (open != std::string_view::npos) {
        return {std::string(example.substr(open + 1, example.find('"', open + 1) - open - 1)), {}};
    }
    if (example == "true" || example == "false") {
        return {example == "true", {}};
    }
    const double number = parse_amount(example).value().number;
    if (example.find('.') == std::string_view::npos) {
        return {static_cast<std::int64_t>(number), {}};
    }
    return {number, {}};
}

bool is_table(Kind kind) {
    return kind == Kind::table || kind == Kind::tables_by_id || kind == Kind::table_list ||
           kind == Kind::values_by_name;
}

} // namespace

TEST_CASE("every key has a meaning, an example that it takes itself, and a sound fallback") {
    int count = 0;
    for (const Shape* shape : {&description_shape(), &catalogue_shape()}) {
        each_key(*shape, "", [&](const Key& key, const std::string& path) {
            INFO(path);
            ++count;
            CHECK_FALSE(key.meaning.empty());
            CHECK(key.meaning.find('\n') == std::string_view::npos);
            CHECK_FALSE((key.required && !key.fallback.empty()));
            CHECK_FALSE(expected(key).empty());
            if (is_table(key.kind)) {
                CHECK((key.kind == Kind::values_by_name || key.shape != nullptr));
                return;
            }
            const Understood understood = understand(key, example_node(key.example));
            INFO(key.example << ": " << understood.message);
            CHECK(understood.value.has_value());
            if (!key.fallback.empty()) {
                CHECK(understand(key, fallback_node(key, {})).value.has_value());
            }
        });
    }
    CHECK(count > 200);
}

TEST_CASE("services of the trade, and what else was written") {
    const auto service = [](std::string text) {
        const Understood understood = read(Kind::service, text);
        INFO(text << ": " << understood.message);
        REQUIRE(understood.value);
        return std::get<ServiceRating>(*understood.value);
    };
    CHECK(service("120/240 V, 200 A").supply == Supply::split_phase);
    CHECK(service("120/240 V, 1 phase, 200 A").supply == Supply::split_phase);
    CHECK(service("120/208 V, 200 A").supply == Supply::lines_of_a_wye);
    CHECK(service("120/208 V, 3 phase, 800 A").supply == Supply::three_phase_wye);
    CHECK(service("120/208 V, 3 phase, 800 A").voltage == Volts{208});
    CHECK(service("277/480 V, 3 phase, 1.2 kA").rating.value == Approx(1200));
    CHECK(service("277/480 V, 3 phase, 1.2 kA").to_neutral == Volts{277});
    const auto refused = [](std::string text, const std::string& message, const std::string& hint) {
        const Understood understood = read(Kind::service, text);
        INFO(text << ": " << understood.message << "; " << understood.hint);
        CHECK_FALSE(understood.value);
        CHECK(understood.message.find(message) != std::string::npos);
        CHECK(understood.hint.find(hint) != std::string::npos);
    };
    refused("208Y/120 V, 3 phase, 800 A", "\"208Y/120 V\" is not the voltage", "\"120/208 V\"?");
    refused("240/120 V, 200 A", "is not the voltage", "\"120/240 V\"?");
    refused("277/480 V, 800 A", "has three phases", "\"277/480 V, 3 phase, 800 A\"");
    refused("120/240 V, 3 phase, 400 A", "is a delta", "services that are known");
    refused("120/208 V, three-phase, 400 A", "is not a number of phases", "\"3 phase\"");
    refused("347/600 V, 3 phase, 400 A", "is not the voltage", "services that are known");
    refused("800 A", "is not a voltage and a current", "");
    CHECK(std::get<LoadBreaker>(*read(Kind::load_breaker, "60 A 3P").value).poles == 3);
}
