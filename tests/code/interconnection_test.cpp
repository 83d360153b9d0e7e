// The published worked examples of cases/interconnection.toml, and what they call.
#include "case_runner.h"
#include "catch.h"

using namespace ohmfolio;

namespace {

Term<Amps> amps_of(const Given& given_values, const char* key, const char* symbol) {
    return given(symbol, Amps{given_values.number(key)});
}

std::optional<Term<Amps>> amps_if_any(const Given& given_values, const char* key,
                                      const char* symbol) {
    if (!given_values.has(key))
        return std::nullopt;
    return amps_of(given_values, key, symbol);
}

std::string comparison(const Desk& desk, const std::string& name) {
    const Derivation* line = desk.sheet.find("X." + name);
    return line == nullptr ? "no line" : line->comparison;
}

Answers feeder(Desk desk, const Given& given_values) {
    const FeederInput input{.ampacity = amps_of(given_values, "ampacity", "I_z"),
                            .primary = amps_of(given_values, "primary", "I_primary"),
                            .sources_125 = amps_of(given_values, "sources_125", "I_src"),
                            .opposite_end = given_values.flag("opposite_end"),
                            .device_beyond = amps_if_any(given_values, "device_beyond", "I_d")};
    const auto checked = check_feeder(desk, input);
    return {{"needed", smallest_feeder_ampacity(desk, input).value.value},
            {"beyond", comparison(desk, "feeder_beyond")},
            {"passes", yes_or_no(all_pass(checked))}};
}

Answers tap(Desk desk, const Given& given_values) {
    FeederTapInput input{.ampacity = amps_of(given_values, "ampacity", "I_tap"),
                         .length = Feet{given_values.number("length")},
                         .feeder_device = amps_of(given_values, "feeder", "I_feeder"),
                         .sources_125 = given("I_src", Amps{given_values.number_or("sources", 0)}),
                         .end_device = amps_if_any(given_values, "end", "I_end"),
                         .load = amps_if_any(given_values, "load", "I_load")};
    for (const double device : given_values.numbers("source_devices"))
        input.source_devices.push_back(given("I_d", Amps{device}));
    const auto checked = check_feeder_tap(desk, input);
    return {{"least", desk.sheet.find("X.tap_least")->value},
            {"passes", yes_or_no(all_pass(checked))}};
}

std::string reason(const std::vector<BusOption>& options, const std::string& rule_id) {
    for (const BusOption& option : options)
        if (option.rule_id == rule_id)
            return option.reason;
    return "no such rule";
}

Answers chain(Desk desk, const Given& given_values) {
    const auto nothing = given("I_0", Amps{0});
    const auto results = check_bus_chain(
        desk,
        {{.subject = "panel:MP",
          .bus = {.bus = amps_of(given_values, "bus", "I_bus"),
                  .main = amps_of(given_values, "main", "I_main"),
                  .sources_125 = nothing,
                  .opposite_end = true}},
         {.subject = "panel:SP",
          .bus = {.bus = amps_of(given_values, "sub_bus", "I_bus"),
                  .main = nothing,
                  .sources_125 = amps_of(given_values, "sources_125", "I_src"),
                  .opposite_end = true},
          .behind = 0,
          .feeder = ChainFeeder{.ampacity = amps_of(given_values, "feeder", "I_z"),
                                .device = amps_of(given_values, "feeder", "I_feeder"),
                                .main_beyond = amps_if_any(given_values, "sub_main", "I_main")}}});
    return {{"main_panel", reason(results[0].options, "bus.120")},
            {"sub", reason(results[1].options, "bus.120")},
            {"upstream", results[0].sources_125.value.value}};
}

Answers of_limits(const std::vector<BusLimit>& limits) {
    Answers answers;
    for (const BusLimit& limit : limits) {
        if (limit.value)
            answers[limit.rule_id] = limit.value->value.value;
        else
            answers[limit.rule_id] = "none";
    }
    return answers;
}

Answers largest_source(Desk desk, const Given& given_values) {
    return of_limits(largest_source_on_bus(desk, {.bus = amps_of(given_values, "bus", "I_bus"),
                                                  .main = amps_of(given_values, "main", "I_main"),
                                                  .sources_125 = given("I_src", Amps{0}),
                                                  .opposite_end = true}));
}

Answers main_of(Desk desk, const Given& given_values) {
    return of_limits(largest_main(desk, {.bus = amps_of(given_values, "bus", "I_bus"),
                                         .main = given("I_main", Amps{0}),
                                         .sources_125 = amps_of(given_values, "sources_125", "I_s"),
                                         .opposite_end = true}));
}

Answers through_lugs(Desk desk, const Given& given_values) {
    const auto options =
        try_bus_rules(desk, {.bus = amps_of(given_values, "bus", "I_bus"),
                             .main = amps_of(given_values, "main", "I_main"),
                             .sources_125 = amps_of(given_values, "sources_125", "I_src"),
                             .feed_through = FeedThrough{
                                 .ampacity = amps_of(given_values, "ampacity", "I_z"),
                                 .supply_device = amps_if_any(given_values, "supply_device", "I_1"),
                                 .load_device = amps_if_any(given_values, "load_device", "I_2")}});
    Answers answers{{"any", yes_or_no(any_passes(options))}};
    for (const BusOption& option : options)
        answers[option.rule_id] = option.reason;
    return answers;
}

Answers supply_side(Desk desk, const Given& given_values) {
    const auto sources = amps_of(given_values, "sources", "I_src");
    SupplySideInput input{.service = amps_of(given_values, "service", "I_service"),
                          .sources = sources,
                          .connected = sources,
                          .conductor = *parse_wire_size("3/0"),
                          .ampacity = given("I_z", Amps{200}),
                          .device = amps_of(given_values, "device", "I_d"),
                          .dwelling =
                              !given_values.has("dwelling") || given_values.flag("dwelling"),
                          .place = {.length = Feet{given_values.number_or("length", 5)},
                                    .limiters = given_values.flag("limiters")}};
    for (const double amps : given_values.numbers("devices")) {
        const auto device = given("I_d", Amps{amps});
        input.devices = input.devices ? *input.devices + device : device;
    }
    const auto checked = check_supply_side(desk, input);
    return {{"sum", comparison(desk, "supply_sum")},
            {"devices", comparison(desk, "supply_sum_devices")},
            {"place", comparison(desk, "supply_distance")},
            {"passes", yes_or_no(all_pass(checked))}};
}

Answers supply_conductor(Desk desk, const Given& given_values) {
    const auto least = smallest_supply_conductor(
        desk.book,
        given_values.text("material") == "copper" ? Material::copper : Material::aluminum);
    return {{"least", least ? name(*least) : std::string("none")}};
}

const Procedures procedures = {
    {"feeder", feeder},
    {"tap", tap},
    {"chain", chain},
    {"largest_source", largest_source},
    {"largest_main", main_of},
    {"feed_through", through_lugs},
    {"supply_side", supply_side},
    {"supply_conductor", supply_conductor},
};

} // namespace

TEST_CASE("published examples of connections") {
    CHECK(run_cases("interconnection", procedures) >= 20);
    CHECK(run_cases("interconnection_audit", procedures) >= 4);
}
