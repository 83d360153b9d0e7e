// Microgrids and operation as an island.
#include "code/microgrid_rules.h"

#include "code/inquiry.h"

namespace ohmfolio {

namespace {

Heading power_line(const Desk& desk, std::string name, std::string symbol, std::string title) {
    Heading heading = line_for(desk, std::move(name), std::move(symbol), std::move(title),
                               desk.book.cite("island.capacity"));
    heading.as = ShownAs::apparent_power;
    return heading;
}

} // namespace

RuleVerdicts check_microgrid(const Desk& desk, const MicrogridInput& input) {
    Inquiry inquiry(desk);
    const bool connected = !input.connected_by.empty();
    inquiry.stated("microgrid.connection", "microgrid_connection",
                   "Connection to the primary source",
                   connected ? input.connected_by : "rule of the connection", connected);
    inquiry.stated("microgrid.device", "microgrid_device_listed", "Microgrid interconnect device",
                   "listing", input.device_listed);
    inquiry.stated("microgrid.device", "microgrid_device_place", "Microgrid interconnect device",
                   "at each connection to the primary source", input.at_each_connection);
    inquiry.stated("microgrid.device", "microgrid_device_opens", "Microgrid interconnect device",
                   "opens all ungrounded conductors of the primary source", input.opens_all);
    inquiry.stated("microgrid.controller", "microgrid_controller", "Control of the device",
                   "listed, or part of a listed system", input.controller_listed);
    inquiry.stated("microgrid.reconnection", "microgrid_reconnection",
                   "Return to the primary source", "in step with it", input.returns_in_step);
    return inquiry.verdicts();
}

IslandCapacity check_island_capacity(const Desk& desk, const std::vector<IslandSource>& sources,
                                     const std::vector<IslandLoad>& loads, bool count_variable) {
    std::optional<Term<Watts>> sum;
    for (const IslandSource& source : sources) {
        if (!source.variable || count_variable)
            add_to(sum, source.output);
    }
    const auto total = desk.sheet.define(
        power_line(desk, "island_sources", "S_island", "Sources of the island, together"),
        sum.value_or(constant(Watts{0})));
    const IslandLoad* largest = nullptr;
    for (const IslandLoad& load : loads) {
        if (!load.shed && (largest == nullptr || load.power.value > largest->power.value))
            largest = &load;
    }
    if (largest == nullptr)
        return {total, {}, true};
    const bool passes =
        desk.sheet.check(power_line(desk, "island_capacity", "",
                                    "Island carries its largest load, " + largest->name),
                         total, "≥", largest->power);
    return {total, largest->name, passes};
}

RuleVerdicts check_single_120_volt_supply(const Desk& desk, const Single120Input& input) {
    Inquiry inquiry(desk);
    inquiry.compare("island.single_120", "single_120_neutral", "Sources and the neutral bus",
                    input.sources, "<", input.neutral_bus);
    inquiry.stated("island.single_120", "single_120_loads", "Single 120 V supply",
                   "no 240 V outlets", input.no_240_volt_outlets);
    inquiry.stated("island.single_120", "single_120_multiwire", "Single 120 V supply",
                   "no multiwire branch circuits", input.no_multiwire_circuits);
    inquiry.stated("island.single_120", "single_120_marking", "Single 120 V supply",
                   "panel is marked", input.marked);
    return inquiry.verdicts();
}

} // namespace ohmfolio
