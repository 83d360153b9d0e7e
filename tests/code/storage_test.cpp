// The published examples of storage; see case_runner.h.
#include "case_runner.h"
#include "catch.h"

using namespace ohmfolio;

namespace {

SitingPlace place(const std::string& words) {
    for (int i = 0; i <= static_cast<int>(SitingPlace::sleeping_room); ++i)
        if (name(static_cast<SitingPlace>(i)) == words)
            return static_cast<SitingPlace>(i);
    throw std::logic_error("no place " + words);
}

Answers siting(Desk desk, const Given& given_values) {
    SitingInput input{.code = given_values.text("code")};
    if (given_values.text_or("reading", "") == "whole dwelling")
        input.reading = TallyReading::whole_dwelling;
    const auto places = given_values.texts("places");
    const auto energies = given_values.numbers("kilowatthours");
    const auto locations = given_values.texts("locations");
    for (std::size_t i = 0; i < places.size(); ++i)
        input.units.push_back({.name = "B" + std::to_string(i + 1),
                               .energy = WattHours{1000 * energies[i]},
                               .place = place(places[i]),
                               .location = i < locations.size() ? locations[i] : ""});
    const SitingResult result = judge_siting(desk, input);
    bool energy = true;
    for (const RuleVerdict& check : result.verdicts)
        if (check.rule == "storage.siting.energy")
            energy = energy && check.passes;
    return {{"total", result.total.value / 1000},
            {"energy", yes_or_no(energy)},
            {"tally", result.tally}};
}

Answers fire_area(Desk desk, const Given& given_values) {
    FireAreaInput input{.code = given_values.text("code"),
                        .total = WattHours{1000 * given_values.number_or("total", 0)},
                        .outdoors = given_values.has("exposure")};
    if (input.outdoors)
        input.to_exposure = Feet{given_values.number("exposure")};
    Answers answers;
    for (const RuleVerdict& check : judge_fire_area(desk, input))
        answers[check.rule.substr(check.rule.rfind('.') + 1)] = check.statement;
    return answers;
}

const Procedures procedures = {{"siting", siting}, {"fire_area", fire_area}};

} // namespace

TEST_CASE("published examples of storage") { CHECK(run_cases("storage", procedures) >= 6); }
