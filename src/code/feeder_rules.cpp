// Sources on a feeder, and taps of such a feeder.
#include "code/feeder_rules.h"

#include "code/inquiry.h"

namespace ohmfolio {

namespace {

Term<Amps> device_and_sources(const Desk& desk, const FeederInput& input) {
    return desk.sheet.define(line_for(desk, "feeder_total", "I_feeder.total",
                                      "Primary device and 125 % of the sources",
                                      desk.book.cite("feeder.beyond")),
                             input.primary + input.sources_125);
}

/// Beyond the connection: a device of its own, or enough for both sources.
void ask_beyond(const Desk& desk, const FeederInput& input, Inquiry& inquiry) {
    if (input.device_beyond && input.device_beyond->value <= input.ampacity.value) {
        inquiry.compare("feeder.beyond.device", "feeder_beyond",
                        "Device beyond the connection protects the feeder", *input.device_beyond,
                        "≤", input.ampacity);
        return;
    }
    inquiry.compare("feeder.beyond", "feeder_beyond",
                    "Feeder beyond the connection carries primary device and sources",
                    device_and_sources(desk, input), "≤", input.ampacity);
}

/// What the tap's share is taken of: the feeder device and what the edition adds for sources.
Term<Amps> basis_of_tap(const Desk& desk, const FeederTapInput& input, std::string_view rule_id) {
    Term<Amps> sum = input.feeder_device;
    if (desk.book.rule("feeder.tap").exists) {
        sum = sum + input.sources_125;
    } else {
        for (const Term<Amps>& device : input.source_devices)
            sum = sum + device;
    }
    return desk.sheet.define(line_for(desk, "tap_basis", "I_basis",
                                      "Feeder device and what is added for the sources",
                                      desk.book.cite(rule_id)),
                             sum);
}

/// The paragraph that adds the sources for a tap sized by `divisor_rule`; the 2023 edition adds
/// nothing to taps not over 10 ft.
std::string_view adding_rule(const Desk& desk, std::string_view divisor_rule) {
    if (desk.book.rule("feeder.tap").exists)
        return "feeder.tap";
    return divisor_rule == "tap.short" ? divisor_rule : "feeder.tap.devices";
}

void ask_share(const Desk& desk, const FeederTapInput& input, std::string_view divisor_rule,
               Inquiry& inquiry) {
    const std::string_view by = adding_rule(desk, divisor_rule);
    const auto basis = by == divisor_rule ? input.feeder_device : basis_of_tap(desk, input, by);
    const auto least = desk.sheet.define(
        line_for(desk, "tap_least", "I_least", "Least ampacity of the tap", desk.book.cite(by)),
        basis / factor(desk.book.number(divisor_rule)));
    inquiry.compare(by, "tap_share", "Tap carries its share of the feeder", input.ampacity, "≥",
                    least);
}

void ask_load(const FeederTapInput& input, std::string_view rule_id, Inquiry& inquiry) {
    if (input.load)
        inquiry.compare(rule_id, "tap_load", "Tap carries its load", input.ampacity, "≥",
                        *input.load);
}

void ask_end(const FeederTapInput& input, std::string_view rule_id, Inquiry& inquiry) {
    if (input.end_device) {
        inquiry.compare(rule_id, "tap_end", "Tap carries the device at its end", input.ampacity,
                        "≥", *input.end_device);
    } else {
        inquiry.stated(rule_id, "tap_end", "Tap ends in a device",
                       "the device at the end of the tap", false);
    }
}

} // namespace

RuleVerdicts check_feeder(const Desk& desk, const FeederInput& input) {
    Inquiry inquiry(desk);
    inquiry.compare("feeder.source", "feeder_source", "Feeder carries 125 % of the sources",
                    input.ampacity, "≥", input.sources_125);
    if (!input.opposite_end)
        ask_beyond(desk, input, inquiry);
    return inquiry.verdicts();
}

Term<Amps> smallest_feeder_ampacity(const Desk& desk, const FeederInput& input) {
    const auto both = input.primary + input.sources_125;
    const auto needed = [&](const Term<Amps>& ampacity, std::string_view rule_id) {
        return desk.sheet.define(line_for(desk, "feeder_needed", "I_z.least",
                                          "Least ampacity of the feeder", desk.book.cite(rule_id)),
                                 ampacity);
    };
    if (input.opposite_end)
        return needed(input.sources_125, "feeder.source");
    if (input.device_beyond) {
        const auto by_device = larger(*input.device_beyond, input.sources_125);
        if (by_device.value < both.value)
            return needed(by_device, "feeder.beyond.device");
    }
    return needed(both, "feeder.beyond");
}

RuleVerdicts check_feeder_tap(const Desk& desk, const FeederTapInput& input) {
    Inquiry inquiry(desk);
    const Feet short_tap{desk.book.number("tap.short.length")};
    const Feet long_tap{desk.book.number("tap.long.length")};
    const Feet high_bay{desk.book.number("tap.high_bay.length")};
    const auto length = given("L", input.length);
    if (input.length <= Feet{}) {
        inquiry.stated("tap.short", "tap_length", "Length of the tap", "the length of the tap",
                       false);
        return inquiry.verdicts();
    }
    if (input.length <= short_tap) {
        ask_load(input, "tap.short", inquiry);
        ask_end(input, "tap.short", inquiry);
        if (input.leaves_enclosure)
            ask_share(desk, input, "tap.short", inquiry);
        return inquiry.verdicts();
    }
    const bool in_high_bay = input.high_bay && input.length > long_tap;
    const std::string_view rule_id = in_high_bay ? "tap.high_bay" : "tap.long";
    inquiry.compare(rule_id, "tap_length", "Length of the tap", length, "≤",
                    constant(in_high_bay ? high_bay : long_tap));
    ask_load(input, rule_id, inquiry);
    ask_end(input, rule_id, inquiry);
    ask_share(desk, input, rule_id, inquiry);
    return inquiry.verdicts();
}

} // namespace ohmfolio
