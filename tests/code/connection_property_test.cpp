// What must hold for connections, grounding and bonding whatever the numbers.
#include <algorithm>

#include "catch.h"
#include "sequence.h"
#include "try_out.h"

using namespace ohmfolio;

namespace {

constexpr int tries = 300;
constexpr double ratings[] = {60, 100, 125, 150, 175, 200, 225, 400, 600};

Term<Amps> more(const Term<Amps>& term, double by) {
    return amps(term.value.value + by, term.symbols.c_str());
}

BusInput any_bus(Sequence& sequence) {
    BusInput input{.bus = amps(ratings[sequence.whole(1, 8)], "I_bus"),
                   .main = amps(ratings[sequence.whole(0, 8)], "I_main"),
                   .sources_125 = amps(sequence.tenths(1, 120), "I_src"),
                   .opposite_end = sequence.coin(),
                   .centre_fed = sequence.whole(0, 3) == 0,
                   .dwelling = sequence.whole(0, 3) > 0};
    input.single_load = sequence.whole(0, 9) == 0;
    for (int i = sequence.whole(0, 5); i > 0; --i)
        input.breakers.push_back(amps(5 * sequence.whole(3, 20), "I_b"));
    if (sequence.whole(0, 4) == 0)
        input.power_control =
            PowerControlOnBus{.sources = amps(sequence.tenths(5, 60), "I_setting"),
                              .bus = amps(ratings[sequence.whole(0, 8)], "I_most"),
                              .listed = true};
    if (sequence.whole(0, 4) == 0)
        input.feed_through = FeedThrough{.ampacity = amps(ratings[sequence.whole(0, 8)], "I_z"),
                                         .load_device = amps(ratings[sequence.whole(0, 8)], "I_d")};
    return input;
}

std::vector<BusOption> options(const BusInput& input, Edition edition) {
    TestDesk desk(edition);
    return try_bus_rules(desk, input);
}

/// No rule that failed before passes after: `after` is the harder case.
void check_never_easier(const BusInput& before, const BusInput& after, Edition edition) {
    const auto first = options(before, edition);
    const auto then = options(after, edition);
    REQUIRE(first.size() == then.size());
    for (std::size_t i = 0; i < first.size(); ++i) {
        INFO(first[i].rule_id << ": " << first[i].reason << " / " << then[i].reason);
        CHECK((first[i].passes || !then[i].passes));
    }
}

} // namespace

TEST_CASE("larger busbar never harder; more sources, larger main, more breakers never easier") {
    Sequence sequence;
    int passed = 0;
    for (int i = 0; i < tries; ++i) {
        const Edition edition = sequence.edition();
        const BusInput input = any_bus(sequence);
        passed += any_passes(options(input, edition)) ? 1 : 0;
        BusInput other = input;
        other.bus = more(input.bus, -sequence.tenths(0, 50));
        check_never_easier(input, other, edition);
        other = input;
        other.sources_125 = more(input.sources_125, sequence.tenths(0, 50));
        check_never_easier(input, other, edition);
        other = input;
        other.main = more(input.main, sequence.tenths(0, 50));
        check_never_easier(input, other, edition);
        if (!input.breakers.empty()) {
            other = input;
            other.breakers.push_back(amps(20, "I_b"));
            check_never_easier(input, other, edition);
        }
        if (input.power_control) {
            other = input;
            other.power_control->sources = more(*input.power_control->sources, 10);
            other.power_control->bus = more(*input.power_control->bus, 10);
            check_never_easier(input, other, edition);
        }
    }
    CHECK(passed > tries / 5);
    CHECK(passed < tries);
}

namespace {

bool passes(const BusInput& input, const std::string& rule_id, Edition edition) {
    for (const BusOption& option : options(input, edition))
        if (option.rule_id == rule_id)
            return option.applies && option.passes;
    return false;
}

BusInput plain_bus(Sequence& sequence) {
    BusInput input = any_bus(sequence);
    input.feed_through.reset();
    input.power_control.reset();
    if (input.breakers.empty())
        input.breakers.push_back(amps(20, "I_b"));
    return input;
}

} // namespace

TEST_CASE("the largest main passes by its own rule and the next larger does not") {
    Sequence sequence;
    int found = 0;
    for (int i = 0; i < tries; ++i) {
        const Edition edition = sequence.edition();
        const CodeBook book(edition);
        BusInput input = plain_bus(sequence);
        TestDesk desk(edition);
        for (const BusLimit& limit : largest_main(desk, input)) {
            if (!limit.value)
                continue;
            ++found;
            INFO(limit.rule_id << " " << limit.value->figures);
            const double main = limit.value->value.value;
            CHECK(book.is_standard_rating(Amps{main}));
            input.main = amps(main, "I_main");
            CHECK(passes(input, limit.rule_id, edition));
            const auto next = book.standard_rating_up(Amps{main + 0.5});
            input.main = given("I_main", *next);
            CHECK((*next > input.bus.value || !passes(input, limit.rule_id, edition)));
        }
    }
    CHECK(found > tries);
}

TEST_CASE("the largest source passes by its own rule and a little more does not") {
    Sequence sequence;
    int found = 0;
    for (int i = 0; i < tries; ++i) {
        const Edition edition = sequence.edition();
        const BusInput input = plain_bus(sequence);
        TestDesk desk(edition);
        for (const BusLimit& limit : largest_source_on_bus(desk, input)) {
            if (!limit.value)
                continue;
            ++found;
            INFO(limit.rule_id << " " << limit.value->figures);
            const double most = limit.value->value.value;
            BusInput with = input;
            BusInput beyond = input;
            if (limit.rule_id == "bus.breakers") {
                with.breakers.push_back(amps(most, "I_new"));
                beyond.breakers.push_back(
                    given("I_new", *desk.book.standard_rating_up(Amps{most + 0.5})));
            } else {
                with.sources_125 = more(input.sources_125, most);
                beyond.sources_125 = more(input.sources_125, most + 0.01);
            }
            CHECK(passes(with, limit.rule_id, edition));
            CHECK_FALSE(passes(beyond, limit.rule_id, edition));
        }
    }
    CHECK(found > tries / 3);
}

TEST_CASE("the smallest busbar passes by its own rule and a little less does not") {
    Sequence sequence;
    for (int i = 0; i < tries; ++i) {
        const Edition edition = sequence.edition();
        BusInput input = plain_bus(sequence);
        TestDesk desk(edition);
        for (const BusLimit& limit : smallest_bus(desk, input)) {
            if (!limit.applies)
                continue;
            REQUIRE(limit.value);
            input.bus = amps(limit.value->value.value, "I_bus");
            CHECK(passes(input, limit.rule_id, edition));
            input.bus = more(input.bus, -0.01);
            CHECK_FALSE(passes(input, limit.rule_id, edition));
        }
    }
}

TEST_CASE("more source anywhere never helps a panel of the chain") {
    Sequence sequence;
    for (int i = 0; i < tries; ++i) {
        const Edition edition = sequence.edition();
        std::vector<ChainBus> chain;
        for (int panel = 0; panel < 4; ++panel) {
            BusInput bus = plain_bus(sequence);
            bus.centre_fed = false;
            if (sequence.coin())
                bus.sources_125 = amps(0, "I_src");
            const double device = ratings[sequence.whole(0, 8)];
            chain.push_back({.subject = "panel:P" + std::to_string(panel),
                             .bus = bus,
                             .behind = panel == 0 ? -1 : sequence.whole(0, panel - 1)});
            if (panel > 0)
                chain.back().feeder = ChainFeeder{.ampacity = amps(device, "I_z"),
                                                  .device = amps(device, "I_feeder")};
        }
        auto fuller = chain;
        auto& grown = fuller[static_cast<std::size_t>(sequence.whole(0, 3))];
        grown.bus.sources_125 = more(grown.bus.sources_125, sequence.tenths(1, 40));
        TestDesk before(edition), after(edition);
        const auto first = check_bus_chain(before, chain);
        const auto then = check_bus_chain(after, fuller);
        for (std::size_t panel = 0; panel < chain.size(); ++panel) {
            CHECK((first[panel].passes || !then[panel].passes));
            CHECK(first[panel].sources_125.value <= then[panel].sources_125.value);
        }
    }
}

TEST_CASE(
    "feeders: more ampacity never harder, more sources never easier, the smallest just does") {
    Sequence sequence;
    for (int i = 0; i < tries; ++i) {
        const Edition edition = sequence.edition();
        FeederInput input{.ampacity = amps(sequence.tenths(20, 400), "I_z"),
                          .primary = amps(ratings[sequence.whole(0, 8)], "I_primary"),
                          .sources_125 = amps(sequence.tenths(1, 120), "I_src"),
                          .opposite_end = sequence.coin()};
        if (sequence.coin())
            input.device_beyond = amps(ratings[sequence.whole(0, 8)], "I_d");
        const auto passes_with = [&](const FeederInput& one) {
            TestDesk desk(edition);
            return all_pass(check_feeder(desk, one));
        };
        const bool before = passes_with(input);
        auto other = input;
        other.ampacity = more(input.ampacity, sequence.tenths(0, 50));
        CHECK((!before || passes_with(other)));
        other = input;
        other.sources_125 = more(input.sources_125, sequence.tenths(0, 50));
        CHECK((before || !passes_with(other)));
        TestDesk desk(edition);
        const double least = smallest_feeder_ampacity(desk, input).value.value;
        input.ampacity = amps(least, "I_z");
        CHECK(passes_with(input));
        input.ampacity = amps(least - 0.01, "I_z");
        CHECK_FALSE(passes_with(input));
    }
}

TEST_CASE("a longer tap is never easier, a thicker one never harder") {
    Sequence sequence;
    for (int i = 0; i < tries; ++i) {
        const Edition edition = sequence.edition();
        FeederTapInput input{.ampacity = amps(sequence.tenths(10, 200), "I_tap"),
                             .length = Feet{sequence.tenths(1, 40)},
                             .feeder_device = amps(ratings[sequence.whole(0, 8)], "I_feeder"),
                             .sources_125 = amps(sequence.tenths(0, 60), "I_src"),
                             .source_devices = {amps(60, "I_d")},
                             .end_device = amps(5 * sequence.whole(3, 30), "I_end"),
                             .leaves_enclosure = sequence.coin()};
        const auto passes_with = [&](const FeederTapInput& one) {
            TestDesk desk(edition);
            return all_pass(check_feeder_tap(desk, one));
        };
        const bool before = passes_with(input);
        auto longer = input;
        longer.length = Feet{input.length.value + sequence.tenths(0, 20)};
        CHECK((before || !passes_with(longer)));
        auto thicker = input;
        thicker.ampacity = more(input.ampacity, sequence.tenths(0, 50));
        CHECK((!before || passes_with(thicker)));
    }
}

TEST_CASE("on the supply side farther and more are never easier") {
    Sequence sequence;
    for (int i = 0; i < tries; ++i) {
        const Edition edition = sequence.edition();
        SupplySideInput input{
            .route = SupplyRoute::ahead_of_disconnect,
            .service = amps(ratings[sequence.whole(0, 8)], "I_service"),
            .sources = amps(sequence.tenths(5, 250), "I_src"),
            .connected = amps(sequence.tenths(5, 60), "I_c"),
            .conductor = wire("4"),
            .ampacity = amps(85, "I_z"),
            .device = amps(60, "I_d"),
            .dwelling = sequence.coin(),
            .place = {.length = Feet{sequence.tenths(1, 30)}, .with_disconnect = true},
            .service_rated = true,
            .opens_all = true,
            .bonded_as_service = true};
        const auto passes_with = [&](const SupplySideInput& one) {
            TestDesk desk(edition);
            return all_pass(check_supply_side(desk, one));
        };
        const bool before = passes_with(input);
        auto other = input;
        other.place.length = Feet{input.place.length.value + sequence.tenths(0, 20)};
        CHECK((before || !passes_with(other)));
        other = input;
        other.sources = more(input.sources, sequence.tenths(0, 50));
        CHECK((before || !passes_with(other)));
        other = input;
        other.service = more(input.service, sequence.tenths(0, 50));
        CHECK((!before || passes_with(other)));
    }
}

TEST_CASE("larger or more supply conductors never make a smaller jumper or electrode conductor") {
    for (const Material phase : {Material::copper, Material::aluminum})
        for (const Material of : {Material::copper, Material::aluminum}) {
            const CodeBook book(Edition::nec2023);
            const auto sizes = book.listed_sizes(phase);
            for (int sets = 1; sets <= 4; ++sets)
                for (std::size_t i = 0; i + 1 < sizes.size(); ++i) {
                    const auto jumper = [&](WireSize size, int count) {
                        TestDesk desk;
                        return size_bonding_jumper(desk, {.phase = size,
                                                          .phase_material = phase,
                                                          .parallel_sets = count,
                                                          .material = of});
                    };
                    const auto electrode = [&](WireSize size, int count) {
                        TestDesk desk;
                        return size_grounding_electrode(desk, {.service = size,
                                                               .service_material = phase,
                                                               .material = of,
                                                               .parallel_sets = count})
                            .size;
                    };
                    INFO(sets << " x " << name(sizes[i]));
                    const auto one = jumper(sizes[i], sets);
                    if (!one.passes)
                        continue; // no aluminum size has the ampacity of the copper ones
                    const auto larger = jumper(sizes[i + 1], sets);
                    CHECK((!larger.passes || larger.size >= one.size));
                    const auto another = jumper(sizes[i], sets + 1);
                    CHECK((!another.passes || another.size >= one.size));
                    CHECK(electrode(sizes[i + 1], sets) >= electrode(sizes[i], sets));
                    CHECK(electrode(sizes[i], sets + 1) >= electrode(sizes[i], sets));
                    // Both tables are one up to their common end.
                    const double kcmil = sets * book.circular_mils(sizes[i])->value / 1000;
                    if (kcmil <= (phase == Material::copper ? 1100 : 1750))
                        CHECK(electrode(sizes[i], sets) == one.size);
                }
        }
}

TEST_CASE("a shared equipment ground is enough for each of its circuits") {
    Sequence sequence;
    for (int i = 0; i < tries; ++i) {
        const CodeBook book(Edition::nec2023);
        const auto sizes = book.listed_sizes(Material::copper);
        std::vector<EquipmentGroundInput> circuits;
        for (int n = sequence.whole(1, 5); n > 0; --n) {
            const auto place = static_cast<std::size_t>(sequence.whole(1, 12));
            circuits.push_back(
                {.overcurrent = amps(5 * sequence.whole(3, 40), "I_ocpd"),
                 .phase_needed = sizes[place],
                 .phase_installed = sizes[place + std::size_t(sequence.whole(0, 3))]});
        }
        TestDesk desk;
        const auto shared = size_shared_equipment_ground(desk, circuits);
        for (EquipmentGroundInput& circuit : circuits) {
            circuit.stated = shared.size;
            TestDesk one;
            CHECK(size_equipment_ground(one, circuit).passes);
        }
    }
}
