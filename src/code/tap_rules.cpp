// Feeder taps and transformer secondaries: each rule of 240.21(B) and (C) in turn.
#include "code/tap_rules.h"

#include <algorithm>

#include "code/line.h"

namespace ohmfolio {

namespace {

/// One rule on the way: the option it becomes, and where its lines go.
class Attempt {
  public:
    Attempt(const Desk& desk, std::string words, std::string rule_id) : desk_(desk) {
        option_.rule = std::move(words);
        option_.rule_id = std::move(rule_id);
        option_.passes = true;
        before_ = desk.sheet.all().size();
    }

    Attempt& exclude(bool when, const std::string& reason) {
        if (when && option_.applies) {
            option_.applies = false;
            option_.reason = reason;
        }
        return *this;
    }
    bool applies() const { return option_.applies; }

    Heading heading(const std::string& suffix, std::string symbol, std::string title) const {
        std::string name = option_.rule_id + "_" + suffix;
        std::replace(name.begin(), name.end(), '.', '_');
        return line_for(desk_, std::move(name), std::move(symbol), std::move(title),
                        desk_.book.cite(option_.rule_id));
    }
    /// Records `left ≥ right`; the option passes when all of its comparisons do.
    void compare(const std::string& suffix, const std::string& title, const Term<Amps>& left,
                 const Term<Amps>& right) {
        const bool holds = desk_.sheet.check(heading(suffix, "", title), left, "≥", right);
        option_.passes = option_.passes && holds;
        option_.reason +=
            (option_.reason.empty() ? "" : "; ") + desk_.sheet.all().back().comparison;
    }
    void ask(Amps least) { option_.least = std::max(option_.least, least); }
    const Desk& desk() const { return desk_; }

    TapOption finish() {
        option_.passes = option_.passes && option_.applies;
        for (std::size_t line = before_; line < desk_.sheet.all().size(); ++line)
            option_.steps.push_back(desk_.sheet.all()[line].id);
        return std::move(option_);
    }

  private:
    const Desk& desk_;
    TapOption option_;
    std::size_t before_ = 0;
};

Feet length_limit(const Desk& desk, std::string_view id) { return Feet{desk.book.number(id)}; }

const char* const no_length = "the length is not stated";

std::string longer(Feet length, Feet limit) { return shown(length) + " is over " + shown(limit); }

/// The conductors against what is asked of them, line by line.
void compare_with_share(Attempt& attempt, const Term<Amps>& ampacity, const std::string& title,
                        const Term<Amps>& share) {
    const auto least =
        attempt.desk().sheet.define(attempt.heading("share", "I_least", title), share);
    attempt.ask(least.value);
    attempt.compare("share_kept", "Conductors carry that share", ampacity, least);
}

void compare_with_end(Attempt& attempt, const Term<Amps>& ampacity, const TapEnd& end) {
    const std::pair<const std::optional<Term<Amps>>*, std::pair<const char*, const char*>> asked[] =
        {{&end.load, {"load", "Conductors carry the load"}},
         {&end.device, {"device", "Device at the end is within the ampacity"}},
         {&end.equipment, {"equipment", "Rating of the equipment is within the ampacity"}}};
    for (const auto& [term, words] : asked) {
        if (!*term)
            continue;
        attempt.ask((*term)->value);
        attempt.compare(words.first, words.second, ampacity, **term);
    }
}

/// What the rules beyond 10 ft ask of the end: one device that limits the load to the ampacity.
void exclude_by_end(Attempt& attempt, const TapEnd& end) {
    attempt.exclude(!end.single_device, "the conductors do not end in a single device")
        .exclude(!end.device, "the device at the end is not stated")
        .exclude(!end.protected_from_damage, "the conductors are not protected from damage");
}

TapOption ten_feet(const Desk& desk, const std::string& rule_id, const Term<Amps>& ahead,
                   const Term<Amps>& ampacity, Feet length, const TapEnd& end) {
    Attempt attempt(desk, "Not over 10 ft", rule_id);
    const Feet limit = length_limit(desk, "tap.10_ft.length");
    attempt.exclude(length <= Feet{}, no_length)
        .exclude(length > limit, longer(length, limit))
        .exclude(!end.device && !end.equipment,
                 "neither a device nor equipment at the end is stated")
        .exclude(end.leaves_enclosure && !end.protected_from_damage,
                 "the conductors are not in a raceway");
    if (!attempt.applies())
        return attempt.finish();
    if (end.leaves_enclosure) {
        compare_with_share(attempt, ampacity, "One tenth of the device ahead",
                           factor(desk.book.number("tap.tenth")) * ahead);
    }
    compare_with_end(attempt, ampacity, end);
    return attempt.finish();
}

TapOption twenty_five_feet(const Desk& desk, const std::string& rule_id, const Term<Amps>& ahead,
                           const Term<Amps>& ampacity, Feet length, const TapEnd& end) {
    Attempt attempt(desk, "Not over 25 ft", rule_id);
    const Feet limit = length_limit(desk, "tap.25_ft.length");
    attempt.exclude(length <= Feet{}, no_length).exclude(length > limit, longer(length, limit));
    exclude_by_end(attempt, end);
    if (!attempt.applies())
        return attempt.finish();
    compare_with_share(attempt, ampacity, "One third of the device ahead",
                       ahead / factor(desk.book.number("tap.third")));
    compare_with_end(attempt, ampacity, end);
    return attempt.finish();
}

TapOption outdoors(const Desk& desk, const std::string& rule_id, const Term<Amps>& ampacity,
                   const TapEnd& end) {
    Attempt attempt(desk, "Outdoors, any length", rule_id);
    attempt.exclude(!end.outdoors, "the conductors are not outdoors up to their end");
    exclude_by_end(attempt, end);
    attempt.exclude(!end.disconnect_at_entrance,
                    "no disconnect outside or nearest the point of entrance is stated");
    if (attempt.applies())
        compare_with_end(attempt, ampacity, end);
    return attempt.finish();
}

/// The first rule that passes; else the one that asks for the least.
TapResult decide(std::vector<TapOption> options) {
    TapResult result;
    result.options = std::move(options);
    const TapOption* chosen = nullptr;
    for (const TapOption& option : result.options) {
        if (!option.applies || (chosen != nullptr && chosen->passes))
            continue;
        if (chosen == nullptr || option.passes || option.least < chosen->least)
            chosen = &option;
    }
    if (chosen != nullptr) {
        result.passes = chosen->passes;
        result.rule_id = chosen->rule_id;
        result.least = chosen->least;
    }
    return result;
}

Term<Ratio> state_voltage_ratio(const Desk& desk, Volts primary, Volts secondary) {
    return desk.sheet.define(line_for(desk, "voltage_ratio", "r_V", "Primary to secondary voltage",
                                      desk.book.cite("tap.secondary")),
                             given("V_p", primary) / given("V_s", secondary));
}

/// 240.4(F): only where current in the primary tells of every current in the secondary.
TapOption by_primary_device(const Desk& desk, const SecondaryInput& input,
                            const Term<Amps>& ahead) {
    Attempt attempt(desk, "Protected by the primary device", "tap.secondary.by_primary");
    attempt
        .exclude(!input.simple_winding,
                 "the secondary is neither two-wire single phase nor three-wire delta of a delta")
        .exclude(!input.primary_protected, "the primary device is not within 450.3(B)");
    if (attempt.applies())
        compare_with_share(attempt, input.ampacity, "Primary device as seen from the secondary",
                           ahead);
    return attempt.finish();
}

} // namespace

TapResult check_tap(const Desk& desk, const TapInput& input) {
    return decide(
        {ten_feet(desk, "tap.10_ft", input.feeder, input.ampacity, input.length, input.end),
         twenty_five_feet(desk, "tap.25_ft", input.feeder, input.ampacity, input.length, input.end),
         outdoors(desk, "tap.outdoors", input.ampacity, input.end)});
}

TapResult check_secondary(const Desk& desk, const SecondaryInput& input) {
    const auto ahead = desk.sheet.define(
        line_for(desk, "secondary_ahead", "I_ahead", "Primary device as seen from the secondary",
                 desk.book.cite("tap.secondary")),
        input.primary_device * state_voltage_ratio(desk, input.primary, input.secondary));
    return decide(
        {by_primary_device(desk, input, ahead),
         ten_feet(desk, "tap.secondary.10_ft", ahead, input.ampacity, input.length, input.end),
         outdoors(desk, "tap.secondary.outdoors", input.ampacity, input.end),
         twenty_five_feet(desk, "tap.secondary.25_ft", ahead, input.ampacity, input.length,
                          input.end)});
}

TapResult check_transformer_tap(const Desk& desk, const TransformerTapInput& input) {
    Attempt attempt(desk, "Tap of a transformer, not over 25 ft", "tap.transformer");
    const Feet limit = length_limit(desk, "tap.25_ft.length");
    attempt.exclude(input.length <= Feet{}, no_length)
        .exclude(input.length > limit, longer(input.length, limit));
    exclude_by_end(attempt, input.end);
    if (!attempt.applies())
        return decide({attempt.finish()});
    const auto ratio = state_voltage_ratio(desk, input.primary, input.secondary);
    const auto third = input.feeder / factor(desk.book.number("tap.third"));
    const auto least = desk.sheet.define(
        attempt.heading("primary_least", "I_p.least", "One third of the device ahead"), third);
    attempt.compare("primary", "Primary conductors carry that share", input.primary_ampacity,
                    least);
    compare_with_share(attempt, input.secondary_ampacity,
                       "One third of the device ahead, seen from the secondary", least * ratio);
    compare_with_end(attempt, input.secondary_ampacity, input.end);
    return decide({attempt.finish()});
}

} // namespace ohmfolio
