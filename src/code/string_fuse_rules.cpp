// Overcurrent devices of strings: 690.9, and the fuses that can be had.
#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "code/overcurrent_rules.h"
#include "code/rounding.h"
#include "code/string_fuse_rules.h"
#include "code/verdict_line.h"

namespace ohmfolio {

namespace {

constexpr double whole_number_error = 1e-9;

const char* const rule_omitted = "pv.overcurrent.omitted";

/// What the other strings and the inverter can feed into one string.
Term<Amps> state_backfeed(const Desk& desk, const StringFuseInput& input) {
    const Heading line = line_for(desk, "backfeed", "I_back", "Current that others can feed in",
                                  desk.book.cite(rule_omitted));
    const auto count = told(desk, "strings_in_parallel", "N_p", "Strings that meet at the input",
                            "as stated", Ratio{static_cast<double>(input.parallel)});
    const auto strings = input.others.value_or((count - factor(1)) * input.string_current);
    if (!input.backfeed)
        return desk.sheet.define(line, strings);
    const auto inverter = desk.sheet.state(line_for(desk, "inverter_backfeed", "I_backfeed",
                                                    "Current that the inverter feeds back",
                                                    {{}, "equipment nameplate"}),
                                           *input.backfeed);
    return desk.sheet.define(line, strings + inverter);
}

Term<Amps> state_module_fuse(const Desk& desk, Amps rating) {
    Heading line = line_for(desk, "module_fuse", "I_module", "Largest device of the module's label",
                            desk.book.cite("pv.overcurrent.module"));
    line.source = "module nameplate";
    return desk.sheet.state_once(line, rating);
}

/// Why a device is needed; empty when none is. The words stand in one line with the numbers.
std::string why_needed(const StringFuseInput& input, Amps backfeed) {
    if (backfeed.value <= 0)
        return {};
    if (!input.module_fuse)
        return shown(backfeed) + " can flow back, and the module's label states no device";
    if (!at_most(backfeed, *input.module_fuse)) {
        return shown(backfeed) + " can flow back, above the " + shown(*input.module_fuse) +
               " of the module's label";
    }
    if (input.conductor_ampacity && !at_most(backfeed, *input.conductor_ampacity)) {
        return shown(backfeed) + " can flow back, above the ampacity of " +
               shown(*input.conductor_ampacity);
    }
    return {};
}

std::string why_not_needed(const StringFuseInput& input, Amps backfeed) {
    if (backfeed.value <= 0)
        return "nothing can feed back into a single string";
    return shown(backfeed) + " that can flow back is within the " + shown(*input.module_fuse) +
           " of the module's label" + (input.conductor_ampacity ? " and the conductors" : "");
}

/// Smallest rating not below what is required, among those offered or standard for fuses.
std::optional<Amps> smallest_rating(const Desk& desk, const StringFuseInput& input, Amps required) {
    if (input.offered.empty())
        return desk.book.standard_rating_up(required, DeviceKind::fuse);
    return smallest_offered(input.offered, required);
}

std::string list_offered(const StringFuseInput& input) {
    std::vector<std::string> ratings;
    for (const Amps rating : input.offered)
        ratings.push_back(shown(rating));
    return "PV fuses of " + input.offered_by + ": " + join(ratings, ", ");
}

Heading rating_line(const Desk& desk, const StringFuseInput& input) {
    Heading line =
        line_for(desk, "rating", "I_" + desk.subject.substr(desk.subject.find(':') + 1),
                 "Rating of the string's device", desk.book.cite("overcurrent.standard"));
    if (!input.offered.empty())
        line.source = list_offered(input);
    return line;
}

/// The rating in the description, or the smallest that carries the string.
std::optional<Term<Amps>> find_rating(const Desk& desk, const StringFuseInput& input,
                                      const Term<Amps>& required) {
    Heading line = rating_line(desk, input);
    if (input.stated) {
        line.source = "as stated in the description";
        return desk.sheet.state(line, *input.stated);
    }
    const auto rating = smallest_rating(desk, input, required.value);
    if (!rating)
        return std::nullopt;
    return desk.sheet.define(
        line,
        smallest_not_below(input.offered.empty() ? "next standard fuse" : "smallest fuse offered",
                           required, *rating));
}

/// Fuses of other than standard ratings are permitted (240.6(A)); those not offered do not fit.
void judge_obtainable(const Desk& desk, const StringFuseInput& input, Amps rating,
                      RuleVerdicts& verdicts) {
    if (!input.offered.empty()) {
        const bool offered = std::ranges::any_of(
            input.offered, [&](Amps one) { return about_equal(one.value, rating.value); });
        verdicts.push_back(judge_by(
            desk, {"rating_offered", "Device is one that the combiner takes", "equipment.limit"},
            shown(rating) + (offered ? " is" : " is not") + " among the " + list_offered(input),
            offered));
        return;
    }
    const bool standard = desk.book.is_standard_rating(rating, DeviceKind::fuse);
    verdicts.push_back(
        judge_by(desk, {"rating_standard", "Device has a standard rating", "overcurrent.standard"},
                 shown(rating) + (standard ? " is a standard rating of fuses"
                                           : " is no standard rating, which fuses "
                                             "are permitted to have"),
                 true));
}

void judge_construction(const Desk& desk, const StringFuseInput& input, RuleVerdicts& verdicts) {
    static constexpr const char* poles[] = {"devices in one polarity, the same throughout",
                                            "devices in one polarity here, the other there",
                                            "devices in both polarities"};
    verdicts.push_back(
        judge_by(desk, {"rating_polarity", "Polarity of the devices", "pv.overcurrent.polarity"},
                 poles[static_cast<std::size_t>(input.poles)], input.poles != FusedPoles::mixed));
    verdicts.push_back(
        judge_by(desk, {"rating_listed", "Device listed for PV", "pv.overcurrent.listed"},
                 input.listed_for_pv ? "listed for PV" : "not listed for PV", input.listed_for_pv));
}

/// Finds the rating and holds it against the string and the module.
void size_device(const Desk& desk, const StringFuseInput& input, StringFuseResult& result) {
    const auto required =
        required_rating(desk, input.string_current,
                        input.assembly_at_full_rating ? "pv.conductor.assembly" : "pv.overcurrent");
    result.rating = find_rating(desk, input, required);
    if (!result.rating) {
        result.conflict = true;
        result.verdicts.push_back(
            judge_by(desk, {"rating", "Rating of the string's device", "pv.overcurrent"},
                     "no fuse offered carries " + shown(required.value) + "; " +
                         (input.offered.empty() ? "standard fuses" : list_offered(input)),
                     false));
        return;
    }
    result.verdicts.push_back(
        check_by(desk, {"rating_sufficient", "Device carries what is required", "pv.overcurrent"},
                 *result.rating, "≥", required));
    judge_obtainable(desk, input, result.rating->value, result.verdicts);
    if (input.module_fuse) {
        result.verdicts.push_back(check_by(
            desk, {"rating_module", "Device within the module's label", "pv.overcurrent.module"},
            *result.rating, "≤", state_module_fuse(desk, *input.module_fuse)));
        result.conflict = !input.stated && !result.verdicts.back().passes;
    }
    judge_construction(desk, input, result.verdicts);
    result.fuses = input.parallel * (input.poles == FusedPoles::both ? 2 : 1);
}

} // namespace

StringFuseResult size_string_fuse(const Desk& desk, const StringFuseInput& input) {
    StringFuseResult result;
    result.backfeed = state_backfeed(desk, input);
    const Amps backfeed = result.backfeed.value;
    const std::string why = why_needed(input, backfeed);
    result.needed = !why.empty();
    result.reason = result.needed ? why : why_not_needed(input, backfeed);
    std::vector<std::string> from = result.backfeed.from;
    if (input.module_fuse)
        from.push_back(state_module_fuse(desk, *input.module_fuse).from.front());
    desk.sheet.choose(line_for(desk, "device_needed", {}, "Whether strings need a device",
                               desk.book.cite(rule_omitted)),
                      (result.needed ? "needed: " : "not needed: ") + result.reason, from);
    if (result.needed || input.stated)
        size_device(desk, input, result);
    return result;
}

int most_strings_without_fuses(const StringFuseInput& input) {
    const double current = input.string_current.value.value;
    if (!input.module_fuse || current <= 0)
        return input.backfeed && input.backfeed->value > 0 ? 0 : 1;
    double room = input.module_fuse->value;
    if (input.conductor_ampacity)
        room = std::min(room, input.conductor_ampacity->value);
    if (input.backfeed)
        room -= input.backfeed->value;
    if (room < 0)
        return 0;
    return 1 + static_cast<int>(std::floor(room / current + whole_number_error));
}

} // namespace ohmfolio
