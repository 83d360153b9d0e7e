// Published worked examples, as data: cases/*.toml. Each case names a procedure below, what is
// given, what the publication answers, and where it stands. `expect` must be reproduced to the
// digits published; `refused` is a published answer that is wrong, with `why`, and must not be.
#include <algorithm>
#include <charconv>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <functional>
#include <map>
#include <sstream>

#include "base/text.h"
#include "catch.h"
#include "code/rules.h"
#include "toml/toml.h"

using namespace ohmfolio;

namespace {

/// The keys of a case's `given`.
class Given {
  public:
    explicit Given(const toml_text::Table& table) : table_(table) {}
    bool has(std::string_view key) const { return table_.find(key) != nullptr; }
    double number(std::string_view key) const {
        REQUIRE(has(key));
        const auto value = table_.find(key)->value->number();
        REQUIRE(value);
        return *value;
    }
    double number_or(std::string_view key, double otherwise) const {
        return has(key) ? number(key) : otherwise;
    }
    int count_or(std::string_view key, int otherwise) const {
        return static_cast<int>(number_or(key, otherwise));
    }
    std::string text(std::string_view key) const {
        REQUIRE(has(key));
        const auto* value = table_.find(key)->value->as<std::string>();
        REQUIRE(value);
        return *value;
    }
    bool flag(std::string_view key) const {
        const bool* value = has(key) ? table_.find(key)->value->as<bool>() : nullptr;
        return value != nullptr && *value;
    }
    std::vector<double> numbers(std::string_view key) const {
        std::vector<double> result;
        if (has(key))
            for (const toml_text::Node& item :
                 table_.find(key)->value->as<toml_text::Array>()->items)
                result.push_back(*item.number());
        return result;
    }
    WireSize wire(std::string_view key) const {
        const auto size = parse_wire_size(text(key));
        REQUIRE(size);
        return *size;
    }

  private:
    const toml_text::Table& table_;
};

/// What a procedure found: numbers to compare in the digits published, or words.
using Answer = std::variant<double, std::string>;
using Answers = std::map<std::string, Answer>;

std::string yes_or_no(bool value) { return value ? "yes" : "no"; }

Answers cold_voltage(Desk desk, const Given& given_values) {
    ColdVoltageInput input{.voc = Volts{given_values.number("voc")},
                           .per_celsius = {},
                           .coldest = Celsius{given_values.number("coldest")}};
    if (given_values.has("per_celsius"))
        input.per_celsius = given_values.number("per_celsius");
    const auto volts = cold_open_circuit_voltage(desk, input);
    const int most = most_in_series(desk, volts, Volts{given_values.number("limit")});
    return {{"voltage", volts.value.value}, {"most_in_series", double(most)}};
}

Answers fewest(Desk desk, const Given& given_values) {
    const auto hot = given("V_mp.hot", Volts{given_values.number("hot_voltage")});
    return {{"fewest_in_series",
             double(fewest_in_series(desk, hot, Volts{given_values.number("floor")}))}};
}

Answers table_factor(Desk desk, const Given& given_values) {
    return {{"factor", *desk.book.voltage_table_factor(Celsius{given_values.number("coldest")})}};
}

Answers source_circuit(Desk desk, const Given& given_values) {
    const auto current = source_circuit_current(desk, Amps{given_values.number("isc")},
                                                given_values.count_or("parallel", 1));
    const auto required = required_rating(desk, current, "pv.overcurrent");
    const auto rating = overcurrent_rating(desk, required);
    return {{"required", required.value.value}, {"device", rating->value.value}};
}

Answers continuous_current(Desk desk, const Given& given_values) {
    const auto currents = given_values.numbers("currents");
    Term<Amps> sum = given("I_1", Amps{currents.front()});
    for (std::size_t i = 1; i < currents.size(); ++i)
        sum = sum + given("I", Amps{currents[i]});
    const auto required = required_rating(desk, sum, given_values.text("rule"));
    return {{"sum", sum.value.value},
            {"required", required.value.value},
            {"device", overcurrent_rating(desk, required)->value.value}};
}

Answers conductor(Desk desk, const Given& given_values) {
    const auto continuous = given("I_cont", Amps{given_values.number("continuous")});
    const auto required = required_rating(desk, continuous, "source.conductor.continuous");
    const Amps device = given_values.has("device") ? Amps{given_values.number("device")}
                                                   : *desk.book.standard_rating_up(required.value);
    const auto result =
        size_conductor(desk, {.continuous = continuous,
                              .required = required,
                              .overcurrent = given("I_ocpd", device),
                              .terminals = Celsius{given_values.number_or("terminals", 75)},
                              .ambient = Celsius{given_values.number_or("ambient", 30)},
                              .current_carrying = given_values.count_or("current_carrying", 2),
                              .stated = given_values.wire("stated")});
    return {
        {"required", required.value.value},        {"device", device.value},
        {"ambient_factor", result.ambient_factor}, {"corrected", result.ampacity_corrected.value},
        {"passes", yes_or_no(result.passes)},      {"faults", join(result.fault_rules, ", ")}};
}

Answers bus(Desk desk, const Given& given_values) {
    BusInput input{.bus = given("I_bus", Amps{given_values.number("bus")}),
                   .main = given("I_main", Amps{given_values.number("main")}),
                   .sources_125 = given("I_src", Amps{given_values.number("sources_125")}),
                   .breakers = {},
                   .opposite_end = given_values.flag("opposite_end"),
                   .centre_fed = given_values.flag("centre_fed")};
    for (const double amps : given_values.numbers("breakers"))
        input.breakers.push_back(given("I_b", Amps{amps}));
    Answers answers;
    for (const BusOption& option : try_bus_rules(desk, input))
        answers[option.rule_id] = option.applies ? option.reason : "does not apply";
    return answers;
}

Answers fill(Desk desk, const Given& given_values) {
    RacewayInput input{.kind = RacewayKind::emt};
    for (const char* size : {"12", "10", "8", "6"})
        if (const int count = given_values.count_or(size, 0))
            input.conductors.push_back({count, *parse_wire_size(size), Insulation::thwn_2});
    if (given_values.has("stated"))
        input.stated = parse_trade_size(given_values.text("stated"));
    const auto result = size_raceway(desk, input);
    return {{"conductors", result.conductors.value},
            {"allowed", result.allowed.value},
            {"inside", result.inside.value},
            {"trade_size", std::string(name(result.size))}};
}

Answers equipment_ground(Desk desk, const Given& given_values) {
    const auto result = size_equipment_ground(
        desk, {.overcurrent = given("I_ocpd", Amps{given_values.number("device")}),
               .phase_needed = given_values.wire("phase_needed"),
               .phase_installed = given_values.wire("phase_installed")});
    const Derivation* area = desk.sheet.find("X.equipment_ground_area");
    return {{"size", name(result.size)}, {"area", area == nullptr ? 0 : area->value}};
}

Answers grounding_electrode(Desk desk, const Given& given_values) {
    const auto result =
        size_grounding_electrode(desk, {.service = given_values.wire("service"), .electrodes = {}});
    return {{"size", name(result.size)}};
}

/// Which size first keeps a two-wire direct-current run within a share of the voltage.
Answers smallest_for_voltage(Desk desk, const Given& given_values) {
    Answers answers;
    for (const char* size : {"14", "12", "10", "8"}) {
        Worksheet aside;
        const auto change =
            voltage_change({aside, desk.book, desk.subject},
                           {.current = given("I", Amps{given_values.number("current")}),
                            .one_way = Feet{given_values.number("one_way")},
                            .size = *parse_wire_size(size),
                            .nominal = Volts{given_values.number("nominal")},
                            .dc = true});
        if (change.fraction <= given_values.number("share") && !answers.contains("size"))
            answers["size"] = std::string(size) + " AWG";
        answers["volts_" + std::string(size)] = change.volts.value;
    }
    return answers;
}

using Procedure = Answers (*)(Desk, const Given&);

const std::map<std::string, Procedure> procedures = {
    {"cold_voltage", cold_voltage},
    {"fewest_in_series", fewest},
    {"voltage_table_factor", table_factor},
    {"source_circuit", source_circuit},
    {"continuous_current", continuous_current},
    {"conductor", conductor},
    {"bus", bus},
    {"raceway_fill", fill},
    {"equipment_ground", equipment_ground},
    {"grounding_electrode", grounding_electrode},
    {"smallest_for_voltage", smallest_for_voltage},
};

/// "44.4" agrees with 44.37: a difference of up to half of the last digit published.
bool agrees(const Answer& ours, const std::string& published) {
    if (const auto* text = std::get_if<std::string>(&ours))
        return *text == published;
    double value = 0;
    const char* end = published.data() + published.size();
    const auto parsed = std::from_chars(published.data(), end, value);
    REQUIRE(parsed.ptr == end);
    const auto point = published.find('.');
    const auto decimals = point == std::string::npos ? 0 : published.size() - point - 1;
    const double half = 0.5 * std::pow(10.0, -static_cast<double>(decimals));
    return std::abs(std::get<double>(ours) - value) <= half * (1 + 1e-9);
}

std::string print(const Answer& answer) {
    if (const auto* text = std::get_if<std::string>(&answer))
        return *text;
    return trimmed(std::get<double>(answer), 6);
}

const toml_text::Table& table_at(const toml_text::Table& parent, std::string_view key) {
    REQUIRE(parent.find(key));
    const auto* table = parent.find(key)->value->as<toml_text::Table>();
    REQUIRE(table);
    return *table;
}

void compare(const Answers& ours, const toml_text::Table& published, bool should_agree) {
    for (const toml_text::Entry& entry : published.entries) {
        const auto* text = entry.value->as<std::string>();
        REQUIRE(text);
        REQUIRE(ours.contains(entry.key));
        INFO(entry.key << ": published " << *text << ", ours " << print(ours.at(entry.key)));
        CHECK(agrees(ours.at(entry.key), *text) == should_agree);
    }
}

void run_case(const toml_text::Table& one) {
    const Given head(one);
    INFO(head.text("name"));
    REQUIRE_FALSE(head.text("source").empty());
    REQUIRE(procedures.contains(head.text("procedure")));
    const auto edition = parse_edition(head.text("edition"));
    REQUIRE(edition);
    const CodeBook book(*edition);
    Worksheet sheet;
    const Given given_values(table_at(one, "given"));
    const Answers ours =
        procedures.at(head.text("procedure"))({sheet, book, "case:X"}, given_values);
    compare(ours, table_at(one, "expect"), true);
    if (head.has("refused")) {
        REQUIRE_FALSE(head.text("why").empty());
        compare(ours, table_at(one, "refused"), false);
    }
}

std::vector<std::string> case_files() {
    std::vector<std::string> files;
    for (const auto& entry :
         std::filesystem::directory_iterator(std::string(OHMFOLIO_SOURCE) + "/tests/code/cases"))
        if (entry.path().extension() == ".toml")
            files.push_back(entry.path().string());
    std::sort(files.begin(), files.end());
    return files;
}

} // namespace

TEST_CASE("published worked examples") {
    int cases = 0;
    for (const std::string& path : case_files()) {
        std::ifstream stream(path);
        std::stringstream text;
        text << stream.rdbuf();
        SourceFiles sources;
        Findings findings;
        const auto tree = toml_text::parse(sources.add(path, text.str()), sources, findings);
        INFO(path);
        REQUIRE(tree);
        const auto* entry = tree->as<toml_text::Table>()->find("case");
        REQUIRE(entry);
        for (const toml_text::Node& one : entry->value->as<toml_text::Array>()->items) {
            run_case(*one.as<toml_text::Table>());
            ++cases;
        }
    }
    CHECK(cases >= 24);
}
