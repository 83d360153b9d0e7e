// Panels one behind the other.
#include "code/bus_chain.h"

#include <algorithm>
#include <stdexcept>

namespace ohmfolio {

namespace {

bool flows(const Term<Amps>& current) { return current.value > Amps{0}; }

std::string key_of(const std::string& subject) { return subject.substr(subject.find(':') + 1); }

/// The sources on the panel itself, then those behind it.
Term<Amps> sum_of(const Desk& desk, const std::vector<Term<Amps>>& parts) {
    if (parts.empty())
        return constant(Amps{0});
    if (parts.size() == 1)
        return parts.front();
    Term<Amps> sum = parts.front();
    for (std::size_t i = 1; i < parts.size(); ++i)
        sum = sum + parts[i];
    return desk.sheet.define({.subject = desk.subject,
                              .name = "sources_behind",
                              .symbol = "I_src." + key_of(desk.subject),
                              .title = "125 % of the sources on the busbar and behind it",
                              .cite = desk.book.cite("bus.sum")},
                             sum);
}

/// The device that holds the utility's part of the current: the smaller of two in series.
Term<Amps> protecting(const ChainBus& panel) {
    if (!panel.feeder)
        return panel.bus.main;
    const auto& main = panel.feeder->main_beyond;
    return main ? std::ranges::min(panel.feeder->device, *main, {}, &Term<Amps>::value)
                : panel.feeder->device;
}

ChainResult check_one(const Desk& desk, const ChainBus& panel,
                      const std::vector<Term<Amps>>& parts) {
    ChainResult result{panel.subject, sum_of(desk, parts), {}, {}, true};
    if (!flows(result.sources_125))
        return result;
    BusInput input = panel.bus;
    input.main = protecting(panel);
    input.sources_125 = result.sources_125;
    input.sources_125 = sources_counted(desk, input);
    result.sources_125 = input.sources_125;
    if (input.power_control)
        input.power_control->sources.reset(); // counted already
    result.options = try_bus_rules(desk, input);
    // The panel sends its sources up the feeder from the end that is not the primary one.
    if (panel.feeder)
        result.feeder = check_feeder(desk, {.ampacity = panel.feeder->ampacity,
                                            .primary = panel.feeder->device,
                                            .sources_125 = result.sources_125,
                                            .opposite_end = true});
    result.passes = any_passes(result.options) && all_pass(result.feeder);
    return result;
}

} // namespace

std::vector<ChainResult> check_bus_chain(const Desk& desk, const std::vector<ChainBus>& chain) {
    std::vector<ChainResult> results(chain.size());
    std::vector<std::vector<Term<Amps>>> parts(chain.size());
    // From the last panel back: what flows out of a panel is known before what it flows into.
    for (std::size_t i = chain.size(); i-- > 0;) {
        const ChainBus& panel = chain[i];
        if (flows(panel.bus.sources_125))
            parts[i].insert(parts[i].begin(), panel.bus.sources_125);
        results[i] = check_one({desk.sheet, desk.book, panel.subject}, panel, parts[i]);
        if (panel.behind < 0 || !flows(results[i].sources_125))
            continue;
        if (panel.behind >= static_cast<int>(i))
            throw std::logic_error("a panel must come after the one that feeds it");
        parts[static_cast<std::size_t>(panel.behind)].push_back(results[i].sources_125);
    }
    return results;
}

} // namespace ohmfolio
