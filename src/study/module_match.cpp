#include "study/module_match.h"

#include "study/paragraphs.h"
#include "study/work.h"

namespace ohmfolio::workings {

namespace {

/// A limit of the microinverter's input, and the line that checks it.
struct VoltageLimit {
    std::string name, symbol, title;
    std::string kept; ///< title of the check
    Citation cite;
    Volts value{};
};

/// Records the limit and checks a voltage against it.
PairVerdict check_voltage(Desk& desk, std::string rule, const Term<Volts>& voltage,
                          std::string_view relation, const VoltageLimit& limit) {
    const auto bound = desk.sheet.state({.subject = desk.subject,
                                         .name = limit.name,
                                         .symbol = limit.symbol,
                                         .title = limit.title,
                                         .cite = limit.cite},
                                        limit.value);
    const bool passes = desk.sheet.check({.subject = desk.subject,
                                          .name = limit.name + "_kept",
                                          .symbol = {},
                                          .title = limit.kept,
                                          .cite = limit.cite},
                                         voltage, relation, bound);
    return {std::move(rule), desk.sheet.all().back().id, passes};
}

PairVerdict check_input_limit(Desk& desk, const PairInput& pair) {
    const ModuleRatings& module = pair.module;
    const auto cold = cold_open_circuit_voltage(
        desk, {.voc = module.voc, .per_celsius = module.voc_per_celsius, .coldest = pair.coldest});
    return check_voltage(desk, "module.input.voltage", cold, "≤",
                         {.name = "input_limit",
                          .symbol = "V_in,max",
                          .title = "Input voltage limit of the microinverter",
                          .kept = "Coldest open-circuit voltage within the input limit",
                          .cite = desk.book.cite(paragraph::input_voltage),
                          .value = pair.microinverter.input_limit});
}

PairVerdict check_window_top(Desk& desk, const PairInput& pair) {
    const auto cold =
        power_point_voltage(desk, "cold_power_point", pair.module.vmp, pair.module.vmp_per_celsius,
                            pair.coldest, "Voltage at maximum power, coldest");
    return check_voltage(desk, "module.window.cold", cold, "≤",
                         {.name = "tracking_high",
                          .symbol = "V_track,max",
                          .title = "Top of the tracking window",
                          .kept = "Coldest voltage at maximum power within the window",
                          .cite = desk.book.cite(paragraph::tracking),
                          .value = pair.microinverter.tracking_high});
}

PairVerdict check_window_bottom(Desk& desk, const PairInput& pair) {
    const auto hot =
        power_point_voltage(desk, "hot_power_point", pair.module.vmp, pair.module.vmp_per_celsius,
                            pair.hot_cell, "Voltage at maximum power, hottest cells");
    return check_voltage(desk, "module.window.hot", hot, "≥",
                         {.name = "tracking_low",
                          .symbol = "V_track,min",
                          .title = "Bottom of the tracking window",
                          .kept = "Hottest voltage at maximum power within the window",
                          .cite = desk.book.cite(paragraph::tracking),
                          .value = pair.microinverter.tracking_low});
}

/// Nothing where the nameplate states no limit.
void check_input_current(Desk& desk, const PairInput& pair, std::vector<PairVerdict>& verdicts) {
    if (pair.microinverter.input_current_limit.value <= 0)
        return;
    const Citation cite = desk.book.cite(paragraph::input_current);
    const auto current = desk.sheet.state({.subject = desk.subject,
                                           .name = "short_circuit_current",
                                           .symbol = "I_sc",
                                           .title = "Short-circuit current of the module",
                                           .cite = nameplate()},
                                          pair.module.isc);
    const auto limit = desk.sheet.state({.subject = desk.subject,
                                         .name = "input_current_limit",
                                         .symbol = "I_in,max",
                                         .title = "Input current limit of the microinverter",
                                         .cite = cite},
                                        pair.microinverter.input_current_limit);
    const bool passes = desk.sheet.check({.subject = desk.subject,
                                          .name = "input_current_kept",
                                          .symbol = {},
                                          .title = "Short-circuit current within the input limit",
                                          .cite = cite},
                                         current, "≤", limit);
    verdicts.push_back({"module.input.current", desk.sheet.all().back().id, passes});
}

PairVerdict check_ratio(Desk& desk, const PairInput& pair) {
    const auto largest = largest_module(desk, pair.microinverter.output, pair.ratio_limit);
    const auto power = desk.sheet.state({.subject = desk.subject,
                                         .name = "module_power",
                                         .symbol = "P_mod",
                                         .title = "Module power at standard test conditions",
                                         .cite = nameplate()},
                                        pair.module.power);
    const bool passes = desk.sheet.check({.subject = desk.subject,
                                          .name = "ratio_kept",
                                          .symbol = {},
                                          .title = "Module within the DC/AC ratio",
                                          .cite = desk.book.cite(paragraph::module_ratio)},
                                         power, "≤", largest);
    return {"module.ratio", desk.sheet.all().back().id, passes};
}

} // namespace

Term<Watts> largest_module(Desk desk, Watts output, double ratio_limit) {
    const auto out = desk.sheet.state({.subject = desk.subject,
                                       .name = "output",
                                       .symbol = "S_inv",
                                       .title = "Continuous output of the microinverter",
                                       .cite = nameplate(),
                                       .as = ShownAs::apparent_power},
                                      output);
    const auto limit = desk.sheet.state({.subject = desk.subject,
                                         .name = "ratio_limit",
                                         .symbol = "r_max",
                                         .title = "DC/AC ratio up to which clipping is negligible",
                                         .cite = desk.book.cite(paragraph::module_ratio)},
                                        Ratio{ratio_limit});
    return desk.sheet.define({.subject = desk.subject,
                              .name = "largest_module",
                              .symbol = "P_mod,max",
                              .title = "Largest module for this output",
                              .cite = desk.book.cite(paragraph::module_ratio)},
                             limit * out);
}

std::vector<PairVerdict> judge_pair(Desk desk, const PairInput& pair) {
    std::vector<PairVerdict> verdicts{check_input_limit(desk, pair)};
    check_input_current(desk, pair, verdicts);
    verdicts.push_back(check_window_top(desk, pair));
    verdicts.push_back(check_window_bottom(desk, pair));
    verdicts.push_back(check_ratio(desk, pair));
    return verdicts;
}

} // namespace ohmfolio::workings
