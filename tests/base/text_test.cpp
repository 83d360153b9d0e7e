#include "base/text.h"

#include <limits>

#include "catch.h"

using namespace ohmfolio;

TEST_CASE("decimal rounds half away from zero as the number is written") {
    CHECK(decimal(0.125, 2) == "0.13");
    CHECK(decimal(-0.125, 2) == "-0.13");
    // 1.005 is stored a little below; a drafter reads what is written.
    CHECK(decimal(1.005, 2) == "1.01");
    CHECK(decimal(2.675, 2) == "2.68");
    CHECK(decimal(0.1 + 0.2, 1) == "0.3");
    CHECK(decimal(99.995, 2) == "100.00");
    CHECK(decimal(0.5, 0) == "1");
    CHECK(decimal(0.49, 0) == "0");
    CHECK(decimal(0.05, 1) == "0.1");
    CHECK(decimal(0.04, 1) == "0.0");
    CHECK(decimal(0.004, 1) == "0.0");
}

TEST_CASE("decimal shows all digits asked for and no others") {
    CHECK(decimal(39.67, 2) == "39.67");
    CHECK(decimal(20, 1) == "20.0");
    CHECK(decimal(20, 0) == "20");
    CHECK(decimal(0.00323, 5) == "0.00323");
    CHECK(decimal(0, 2) == "0.00");
    CHECK(decimal(1234567.0, 0) == "1234567");
    CHECK(decimal(1e15, 0) == "1000000000000000");
    CHECK(decimal(12e17, 1) == "1200000000000000000.0");
}

TEST_CASE("a zero has no sign") {
    CHECK(decimal(-0.001, 2) == "0.00");
    CHECK(decimal(-0.0, 1) == "0.0");
}

TEST_CASE("trimmed drops what says nothing") {
    CHECK(trimmed(20.0, 2) == "20");
    CHECK(trimmed(1.25, 3) == "1.25");
    CHECK(trimmed(39.67, 2) == "39.67");
    CHECK(trimmed(0.0, 2) == "0");
    CHECK(trimmed(100.0, 0) == "100");
    CHECK(trimmed(-0.004, 2) == "0");
}

TEST_CASE("numbers that are none are shown, not hidden") {
    CHECK(decimal(std::numeric_limits<double>::infinity(), 2) == "inf");
    CHECK(decimal(std::numeric_limits<double>::quiet_NaN(), 2) == "nan");
}

TEST_CASE("upper reaches Latin-1 letters and leaves symbols alone") {
    CHECK(upper("pv-1 ac disconnect") == "PV-1 AC DISCONNECT");
    CHECK(upper("Peña café ÷") == "PEÑA CAFÉ ÷");
    CHECK(upper("10 µF ≤ 5 Ω") == "10 µF ≤ 5 Ω");
}

TEST_CASE("nearest finds slips and refuses guesses") {
    const std::vector<std::string> keys = {"module", "modules", "microinverter", "run"};
    CHECK(nearest("moduel", keys) == "module");
    CHECK(nearest("Modules", keys) == "modules");
    CHECK(nearest("micro_inverter", keys) == "microinverter");
    CHECK(nearest("runn", keys) == "run");
    CHECK(nearest("battery", keys).empty());
    CHECK(nearest("x", keys).empty());
    CHECK(nearest("", keys).empty());
    CHECK(nearest("module", {}).empty());
}

TEST_CASE("characters are not bytes") {
    CHECK(character_count("5 Ω ≤ 6 Ω") == 9);
    CHECK(characters("aΩ") == std::vector<std::string_view>{"a", "Ω"});
    CHECK(character_count("\xCE") == 1);
    CHECK(character_count("\xCE\x41") == 2);
}

TEST_CASE("join") {
    CHECK(join({"a", "b", "c"}, ", ") == "a, b, c");
    CHECK(join({}, ", ").empty());
}

TEST_CASE("text is broken into lines at blanks") {
    using Lines = std::vector<std::string>;
    CHECK(wrapped("a wire and a pipe", 6) == Lines{"a wire", "and a", "pipe"});
    CHECK(wrapped("a wire and a pipe", 17) == Lines{"a wire and a pipe"});
    CHECK(wrapped("a wire and a pipe", 16) == Lines{"a wire and a", "pipe"});
    CHECK(wrapped("  two   blanks ", 20) == Lines{"two blanks"});
    CHECK(wrapped("", 5).empty());
    CHECK(wrapped(" ", 5).empty());
    // A character counts once, however many bytes it has.
    CHECK(wrapped("I ≤ Ω × Ω", 5) == Lines{"I ≤ Ω", "× Ω"});
    CHECK(wrapped("a conductor", 4) == Lines{"a", "cond", "ucto", "r"});
}
