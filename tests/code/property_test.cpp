// What must hold whatever the numbers: tried on a fixed sequence of many inputs.
#include <algorithm>

#include "catch.h"
#include "sequence.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

ConductorInput any_conductor(Sequence& sequence, const CodeBook& book) {
    const double continuous = sequence.tenths(1, 300);
    const Amps required{1.25 * continuous};
    return {.continuous = amps(continuous, "I_cont"),
            .required = given("I_req", required),
            .overcurrent = given("I_ocpd", *book.standard_rating_up(required)),
            .material = sequence.whole(0, 3) == 0 ? Material::aluminum : Material::copper,
            .terminals = Celsius{sequence.whole(0, 1) == 0 ? 60.0 : 75.0},
            .ambient = Celsius{double(sequence.whole(-10, 60))},
            .on_roof = sequence.whole(0, 4) == 0,
            .current_carrying = sequence.whole(2, 24)};
}

std::optional<WireSize> smallest(Edition edition, const ConductorInput& input) {
    TestDesk desk(edition);
    return size_conductor(desk, input).smallest_that_complies;
}

constexpr int tries = 300;

} // namespace

TEST_CASE("more current never makes a smaller conductor") {
    Sequence sequence;
    int compared = 0;
    for (int i = 0; i < tries; ++i) {
        const Edition edition = sequence.edition();
        const CodeBook book(edition);
        ConductorInput input = any_conductor(sequence, book);
        const auto before = smallest(edition, input);
        const double more = input.continuous.value.value + sequence.tenths(0, 40);
        input.continuous = amps(more, "I_cont");
        input.required = amps(1.25 * more, "I_req");
        input.overcurrent = given("I_ocpd", *book.standard_rating_up(input.required.value));
        const auto after = smallest(edition, input);
        INFO(more << " A");
        REQUIRE((before || !after)); // what was too much stays too much
        if (before && after) {
            CHECK(*after >= *before);
            ++compared;
        }
    }
    CHECK(compared > tries / 2);
}

TEST_CASE("hotter never makes a larger ampacity or a smaller conductor") {
    Sequence sequence;
    for (int i = 0; i < tries; ++i) {
        const Edition edition = sequence.edition();
        const CodeBook book(edition);
        ConductorInput input = any_conductor(sequence, book);
        const auto cool = smallest(edition, input);
        input.stated = wire("1/0");
        TestDesk before(edition), after(edition);
        const auto at_cool = size_conductor(before, input).ampacity_corrected;
        input.ambient = input.ambient + CelsiusDelta{double(sequence.whole(0, 20))};
        const auto at_hot = size_conductor(after, input).ampacity_corrected;
        CHECK(at_hot <= at_cool);
        input.stated.reset();
        const auto hot = smallest(edition, input);
        CHECK((!hot || (cool && *hot >= *cool)));
    }
}

TEST_CASE("more conductors together never make a larger ampacity") {
    const CodeBook book(Edition::nec2023);
    for (int count = 1; count < 60; ++count)
        CHECK(book.bundling_factor(count + 1) <= book.bundling_factor(count));
}

TEST_CASE("a size that was chosen passes as a stated one, and the next smaller does not") {
    Sequence sequence;
    int chosen = 0;
    for (int i = 0; i < tries; ++i) {
        const Edition edition = sequence.edition();
        const CodeBook book(edition);
        ConductorInput input = any_conductor(sequence, book);
        TestDesk desk(edition), again(edition), smaller(edition);
        const auto result = size_conductor(desk, input);
        if (!result.found)
            continue;
        ++chosen;
        CHECK(result.passes);
        CHECK(result.faults.empty());
        input.stated = result.size;
        CHECK(size_conductor(again, input).passes);
        for (const Derivation& line : desk.sheet.all())
            CHECK(line.verdict != Verdict::fail);
        if (result.size > input.smallest) {
            const auto sizes = book.listed_sizes(input.material);
            const auto place = std::find(sizes.begin(), sizes.end(), result.size);
            input.stated = *(place - 1);
            CHECK_FALSE(size_conductor(smaller, input).passes);
        }
    }
    CHECK(chosen > tries / 2);
}

TEST_CASE("longer never makes less voltage change, thicker never more") {
    Sequence sequence;
    for (int i = 0; i < tries; ++i) {
        const CodeBook book(sequence.edition());
        const auto sizes = book.listed_sizes(Material::copper);
        const auto place = static_cast<std::size_t>(sequence.whole(0, 15));
        VoltageChangeInput input{.current = amps(sequence.tenths(1, 200)),
                                 .one_way = Feet{sequence.tenths(1, 300)},
                                 .size = sizes[place],
                                 .raceway = sequence.whole(0, 1) == 0 ? RacewayKind::emt
                                                                      : RacewayKind::pvc40,
                                 .dc = sequence.whole(0, 1) == 0};
        const auto change = [&] {
            TestDesk desk;
            return voltage_change(desk, input).volts;
        };
        const Volts before = change();
        CHECK(before.value > 0);
        input.one_way = input.one_way + Feet{sequence.tenths(0, 50)};
        const Volts longer = change();
        CHECK(longer >= before);
        input.size = sizes[place + 1];
        CHECK(change() <= longer);
    }
}

TEST_CASE("a raceway that was chosen holds its conductors, and more never need a smaller one") {
    Sequence sequence;
    const RacewayKind kinds[] = {RacewayKind::emt, RacewayKind::pvc40, RacewayKind::pvc80,
                                 RacewayKind::rmc, RacewayKind::fmc,   RacewayKind::lfmc};
    for (int i = 0; i < tries; ++i) {
        const CodeBook book(Edition::nec2023);
        const auto sizes = book.listed_sizes(Material::copper);
        RacewayInput input{.kind = kinds[sequence.whole(0, 5)],
                           .conductors = {{sequence.whole(1, 6),
                                           sizes[static_cast<std::size_t>(sequence.whole(0, 10))]},
                                          {1, wire("10"), Insulation::bare}},
                           .length = Feet{sequence.tenths(1, 60)}};
        TestDesk desk, more;
        const auto result = size_raceway(desk, input);
        REQUIRE(result.found);
        CHECK(result.passes);
        CHECK(result.conductors <= result.allowed);
        input.conductors.front().count += 3;
        const auto larger = size_raceway(more, input);
        CHECK(larger.size >= result.size);
    }
}

TEST_CASE("a larger device never makes a smaller equipment ground") {
    const CodeBook book(Edition::nec2023);
    for (const Material material : {Material::copper, Material::aluminum})
        for (int rating = 1; rating < 6000; rating += 7) {
            const auto one = book.equipment_ground(Amps{double(rating)}, material);
            const auto next = book.equipment_ground(Amps{double(rating + 7)}, material);
            REQUIRE(one);
            if (next)
                CHECK(*next >= *one);
        }
}
