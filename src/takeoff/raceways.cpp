// Raceway by kind and trade size, with what joins it, ends it and holds it.
#include <fmt/format.h>

#include "base/text.h"
#include "study/fitted_breakers.h"
#include "takeoff/bill.h"

namespace ohmfolio::takeoff {

namespace {

constexpr int ends = 2; ///< of a raceway, each with a connector

bool is_flexible(RacewayKind kind) {
    return kind == RacewayKind::fmc || kind == RacewayKind::lfmc || kind == RacewayKind::lfnc;
}

void add_pieces(Bill& bill, const std::string& what, int count, const Run& run, std::string note) {
    MaterialItem item = pieces(MaterialGroup::raceway, what, count, run.tag);
    item.note = std::move(note);
    bill.add(std::move(item));
}

void add_straps(Bill& bill, const std::string& size, const Run& run, TradeSize trade_size) {
    const StrapRule* rule = bill.practice.strap(run.raceway, trade_size);
    if (rule == nullptr)
        return;
    add_pieces(bill, fmt::format("Strap, {}", size),
               straps_for(run.length, *rule) * run.parallel_sets, run,
               fmt::format("{} ft from boxes, {} ft apart, {}", trimmed(rule->from_box.value, 1),
                           trimmed(rule->apart.value, 1), rule->section));
}

void measure_raceway(Bill& bill, const Run& run, TradeSize trade_size) {
    const std::string size = fmt::format("{}\" {}", name(trade_size), name(run.raceway));
    bill.add(
        by_the_foot(bill, MaterialGroup::raceway, size, run.length * run.parallel_sets, run.tag));
    if (!is_flexible(run.raceway))
        add_pieces(bill, fmt::format("Coupling, {}", size),
                   couplings_for(run.length, bill.practice.raceway_length) * run.parallel_sets, run,
                   fmt::format("lengths of {} ft", trimmed(bill.practice.raceway_length.value, 1)));
    add_pieces(bill, fmt::format("Connector, {}", size), ends * run.parallel_sets, run,
               "at both ends");
    add_straps(bill, size, run, trade_size);
}

} // namespace

void measure_raceways(Bill& bill) {
    for (std::size_t i = 0; i < bill.system.runs.size(); ++i) {
        const Run& run = bill.system.runs[i];
        if (run.circuits.empty() || !bill.study.runs[i].sized ||
            run.raceway == RacewayKind::cable || run.raceway == RacewayKind::free_air)
            continue;
        const auto first = static_cast<std::size_t>(run.circuits.front());
        if (!was_there(bill.system, bill.system.circuits[first]))
            measure_raceway(bill, run, bill.study.runs[i].trade_size);
    }
}

} // namespace ohmfolio::takeoff
