// Currents, the 125 % of them, and the overcurrent device that follows.
#include <algorithm>

#include "base/text.h"
#include "code/overcurrent_rules.h"
#include "code/rounding.h"

namespace ohmfolio {

namespace {

/// "source.conductor.continuous" names a line "conductor_continuous".
std::string line_name(std::string_view rule_id) {
    std::string result(rule_id.substr(rule_id.find('.') + 1));
    std::replace(result.begin(), result.end(), '.', '_');
    return result;
}

/// "feeder.conductor.continuous" and "feeder.overcurrent" have ".full" beside them.
std::string full_rule(std::string_view rule_id) {
    const std::string_view continuous = ".continuous";
    if (rule_id.ends_with(continuous))
        rule_id.remove_suffix(continuous.size());
    return std::string(rule_id) + ".full";
}

/// How access is restricted; nothing where it is not.
std::string_view in_words(TripAccess access) {
    switch (access) {
    case TripAccess::open:
        break;
    case TripAccess::sealed_cover:
        return "behind a cover that can be sealed";
    case TripAccess::bolted_door:
        return "behind bolted doors";
    case TripAccess::locked_door:
        return "behind doors locked to all but qualified persons";
    case TripAccess::password:
        return "under a password of qualified persons";
    }
    return {};
}

bool is_restricted(const CodeBook& book, TripAccess access) {
    if (access == TripAccess::password)
        return book.rule("overcurrent.adjustable.password").exists;
    return !in_words(access).empty();
}

/// Each device has a symbol of its own, I_Q5, so that several may meet in one formula.
Heading rating_heading(const Desk& desk) {
    return {.subject = desk.subject,
            .name = "rating",
            .symbol = "I_" + desk.subject.substr(desk.subject.find(':') + 1),
            .title = "Rating of the overcurrent device",
            .cite = desk.book.cite("overcurrent.standard")};
}

std::string compatible(const std::vector<Amps>& offered, const std::string& offered_by) {
    std::vector<std::string> ratings;
    for (const Amps rating : offered)
        ratings.push_back(shown(rating));
    return "compatible breakers of " + offered_by + ": " + join(ratings, ", ");
}

/// Nothing offered is large enough: the line that a finding can point to.
void record_none_large_enough(const Desk& desk, const Term<Amps>& required,
                              const std::vector<Amps>& offered, const std::string& offered_by) {
    Heading heading = rating_heading(desk);
    heading.symbol.clear();
    heading.title = "Largest overcurrent device that can be had";
    if (offered.empty()) {
        desk.sheet.judge(heading, shown(required.value) + " is above the largest standard rating",
                         false, required.from);
        return;
    }
    const auto largest = desk.sheet.state({.subject = desk.subject,
                                           .name = "offered",
                                           .symbol = "I_offered",
                                           .title = "Largest compatible breaker",
                                           .cite = {{}, "equipment nameplate"},
                                           .source = compatible(offered, offered_by)},
                                          *std::max_element(offered.begin(), offered.end()));
    desk.sheet.check(heading, largest, "≥", required);
}

} // namespace

std::optional<Amps> smallest_offered(const std::vector<Amps>& offered, Amps required) {
    std::optional<Amps> best;
    for (const Amps rating : offered) {
        if (at_most(required, rating))
            best = std::min(rating, best.value_or(rating));
    }
    return best;
}

Term<Amps> source_circuit_current(const Desk& desk, Amps isc, int parallel) {
    const auto irradiance = factor(desk.book.number("pv.source.current"));
    const auto of_one = desk.sheet.state_once({.subject = desk.subject,
                                               .name = "short_circuit_current",
                                               .symbol = "I_sc",
                                               .title = "Short-circuit current of the module",
                                               .cite = {{}, "equipment nameplate"}},
                                              isc);
    const auto strings = given("N_p", Ratio{static_cast<double>(parallel)});
    return desk.sheet.define({.subject = desk.subject,
                              .name = "source_circuit_current",
                              .symbol = "I_max",
                              .title = "Source circuit current",
                              .cite = desk.book.cite("pv.source.current"),
                              .source = "module nameplate"},
                             parallel == 1 ? irradiance * of_one : irradiance * strings * of_one);
}

Term<Amps> required_rating(const Desk& desk, const Term<Amps>& continuous,
                           std::string_view rule_id) {
    const double share = desk.book.number(rule_id);
    return desk.sheet.define(
        {.subject = desk.subject,
         .name = line_name(rule_id),
         .symbol = "I_req",
         .title = "Required rating, " + trimmed(share * 100, 0) + " % of the continuous current",
         .cite = desk.book.cite(rule_id)},
        factor(share) * continuous);
}

Term<Amps> required_for_load(const Desk& desk, const LoadInput& load, std::string_view rule_id) {
    const std::string rule = load.listed_100 ? full_rule(rule_id) : std::string(rule_id);
    const double share = load.listed_100 ? 1 : desk.book.number(rule_id);
    const auto continuous = load.listed_100 ? load.continuous : factor(share) * load.continuous;
    return desk.sheet.define(
        {.subject = desk.subject,
         .name = line_name(rule_id),
         .symbol = "I_req",
         .title = "Required rating, " + trimmed(share * 100, 0) + " % of the continuous current",
         .cite = desk.book.cite(rule),
         .source = load.listed_100 ? "device and assembly listed for 100 % of their rating" : ""},
        load.noncontinuous ? continuous + *load.noncontinuous : continuous);
}

Term<Amps> adjustable_rating(const Desk& desk, const AdjustableTrip& trip) {
    // A setting that is not stated, or that the trip cannot have, proves nothing.
    const bool restricted = is_restricted(desk.book, trip.access) && trip.setting > Amps{} &&
                            trip.setting <= trip.largest;
    Heading heading = rating_heading(desk);
    heading.cite =
        desk.book.cite(restricted ? "overcurrent.adjustable.restricted" : "overcurrent.adjustable");
    heading.source = restricted ? "setting, adjustment " + std::string(in_words(trip.access))
                                : "largest setting; no setting under restricted access";
    return desk.sheet.state(heading,
                            restricted ? trip.setting : std::max(trip.largest, trip.setting));
}

std::optional<Term<Amps>> overcurrent_rating(const Desk& desk, const Term<Amps>& required,
                                             const std::vector<Amps>& offered,
                                             const std::string& offered_by, DeviceKind kind) {
    const auto rating = offered.empty() ? desk.book.standard_rating_up(required.value, kind)
                                        : smallest_offered(offered, required.value);
    if (!rating) {
        record_none_large_enough(desk, required, offered, offered_by);
        return std::nullopt;
    }
    Heading heading = rating_heading(desk);
    if (offered.empty()) {
        return desk.sheet.define(heading,
                                 smallest_not_below("next standard rating", required, *rating));
    }
    heading.source = compatible(offered, offered_by);
    return desk.sheet.define(heading, smallest_not_below("smallest offered", required, *rating));
}

bool check_overcurrent_rating(const Desk& desk, const Term<Amps>& stated,
                              const Term<Amps>& required, std::string_view rule_id,
                              DeviceKind kind) {
    const bool enough = desk.sheet.check({.subject = desk.subject,
                                          .name = "rating_sufficient",
                                          .title = "Overcurrent device carries what is required",
                                          .cite = desk.book.cite(rule_id)},
                                         stated, "≥", required);
    const bool standard = desk.book.is_standard_rating(stated.value, kind);
    desk.sheet.judge({.subject = desk.subject,
                      .name = "rating_standard",
                      .title = "Overcurrent device has a standard rating",
                      .cite = desk.book.cite_table("standard_ratings")},
                     shown(stated.value) + (standard ? " is" : " is not") + " a standard rating",
                     standard, stated.from);
    return enough && standard;
}

} // namespace ohmfolio
