// Inputs of a microgrid interconnect device: what PV, storage and the backed-up side may draw or
// feed, by its nameplate.

#include <algorithm>

#include <fmt/format.h>

#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

struct Device {
    int index;
    const Equipment& equipment;
    const Record& record;
    const MidRatings& ratings;
};

std::vector<int> circuits_at(const System& system, int device, std::string_view terminal) {
    std::vector<int> result;
    for (const int circuit : circuits_into(system, device)) {
        if (at(system.circuits, circuit).to.starts_with(terminal))
            result.push_back(circuit);
    }
    return result;
}

Heading line(const Work& work, const Device& device, std::string name, std::string title) {
    return {.subject = subject_of(device.equipment),
            .name = std::move(name),
            .symbol = {},
            .title = std::move(title),
            .cite = work.book.cite(paragraph::equipment_limit)};
}

/// A side as findings name it, "pv", and as a sentence does.
std::string_view in_words(std::string_view side) { return side == "pv" ? "PV" : side; }

/// One input's breaker against the largest that the device takes there.
void check_breaker(Work& work, const Device& device, int circuit, std::string_view side,
                   const Term<Amps>& limit) {
    const int index = breaker_of(work.system, circuit);
    if (index < 0 || !at(work.breaker_rating, index))
        return;
    const Breaker& breaker = at(work.system.breakers, index);
    const auto rating = *rating_of(work, index);
    require(work,
            line(work, device, fmt::format("{}_kept", breaker.tag),
                 fmt::format("{} within the limit of the {} side", breaker.tag, in_words(side))),
            rating, "≤", limit,
            {.rule = fmt::format("mid.{}.breaker", side),
             .span = breaker.stated ? breaker.stated->span : device.equipment.span,
             .message = fmt::format("{}: the {} breaker {} is {}; {} is the largest it takes",
                                    device.equipment.id, in_words(side), breaker.tag,
                                    shown(rating.value), shown(limit.value)),
             .expected = fmt::format("{} or less", shown(limit.value))});
}

void check_current(Work& work, const Device& device, const Term<Amps>& current,
                   const std::string& name, std::string_view side, const Term<Amps>& limit) {
    require(
        work,
        line(work, device, name, fmt::format("Continuous current of the {} input", in_words(side))),
        current, "≤", limit,
        {.rule = fmt::format("mid.{}.continuous", side),
         .span = device.equipment.span,
         .message =
             fmt::format("{}: {} continuous at the {} input; it carries {}", device.equipment.id,
                         shown(current.value), in_words(side), shown(limit.value)),
         .expected = fmt::format("{} or less", shown(limit.value))});
}

void check_pv(Work& work, const Device& device) {
    const auto inputs = circuits_at(work.system, device.index, "pv");
    std::optional<Term<Amps>> sum;
    for (const int circuit : inputs) {
        if (at(work.sources, circuit))
            add_to(sum, *at(work.sources, circuit));
    }
    if (!sum)
        return;
    const auto limit = from_nameplate(work, device.record, "pv_continuous", "I_pv,max",
                                      "PV input, continuous", device.ratings.pv_continuous);
    Heading most = line(work, device, "pv_most", "Largest PV output that the input takes");
    most.symbol = "S_pv,max";
    most.as = ShownAs::apparent_power;
    work.study.worksheet.define(most, power_voltage(work) * limit);
    check_current(work, device, *sum, "pv_kept", "pv", limit);
    const auto breaker_limit =
        from_nameplate(work, device.record, "pv_breaker_limit", "I_pv,brk", "Largest PV breaker",
                       device.ratings.pv_breaker_limit);
    for (const int circuit : inputs) {
        check_breaker(work, device, circuit, "pv", breaker_limit);
    }
}

void check_storage_inputs(Work& work, const Device& device) {
    const auto inputs = circuits_at(work.system, device.index, "storage");
    if (inputs.empty())
        return;
    const int used = static_cast<int>(inputs.size());
    const auto most =
        from_nameplate(work, device.record, "storage_inputs", "N_storage,max", "Storage inputs",
                       Ratio{static_cast<double>(device.ratings.storage_inputs)});
    require(work, line(work, device, "storage_inputs_kept", "Storage inputs used"),
            count(work, subject_of(device.equipment), "storage_inputs_used", "N_storage",
                  "Storage circuits on the device", used),
            "≤", most,
            {.rule = "mid.storage.inputs",
             .span = device.equipment.span,
             .message = fmt::format("{}: {} storage circuits; it has {} storage inputs",
                                    device.equipment.id, used, device.ratings.storage_inputs),
             .expected = fmt::format("at most {} circuits; chain the units",
                                     device.ratings.storage_inputs)});
    const auto limit =
        from_nameplate(work, device.record, "storage_continuous", "I_storage,max",
                       "Storage input, continuous", device.ratings.storage_continuous);
    const auto breaker_limit =
        from_nameplate(work, device.record, "storage_breaker_limit", "I_storage,brk",
                       "Largest storage breaker", device.ratings.storage_breaker_limit);
    for (const int circuit : inputs) {
        if (at(work.sources, circuit)) {
            check_current(work, device, *at(work.sources, circuit),
                          "storage_kept_" + at(work.system.circuits, circuit).tag, "storage",
                          limit);
        }
        check_breaker(work, device, circuit, "storage", breaker_limit);
    }
}

void check_backup(Work& work, const Device& device) {
    const auto circuits = circuits_at(work.system, device.index, "backup");
    if (circuits.empty())
        return;
    const auto limit =
        from_nameplate(work, device.record, "backup_breaker_limit", "I_backup,max",
                       "Largest breaker of the backup side", device.ratings.backup_breaker_limit);
    for (const int circuit : circuits) {
        check_breaker(work, device, circuit, "backup", limit);
    }
}

/// Largest continuous current of the sources at inputs of one side.
std::optional<Term<Amps>> current_at(Work& work, const Device& device, std::string_view side) {
    std::optional<Term<Amps>> sum;
    for (const int circuit : circuits_at(work.system, device.index, side)) {
        if (at(work.sources, circuit)) {
            add_to(sum, *at(work.sources, circuit));
        } else if (side == "generator") {
            for (const int i : generators_below(
                     work.system, work.system.child_of(at(work.system.circuits, circuit)))) {
                add_to(sum,
                       output_current(work, *work.system.record(at(work.system.equipment, i))));
            }
        }
    }
    return sum;
}

/// While the grid is away the sources of the island feed one bus together; interlocked inputs are
/// never on together, so that the larger one counts.
void check_island_bus(Work& work, const Device& device) {
    const auto generator = current_at(work, device, "generator");
    if (!generator)
        return; // without one the sum is that of the point of connection
    auto sum = generator;
    if (const auto storage = current_at(work, device, "storage")) {
        sum = device.ratings.interlocked ? larger(*storage, *generator) : *storage + *generator;
    }
    if (const auto pv = current_at(work, device, "pv"))
        sum = *pv + *sum;
    Heading heading =
        line(work, device, "island_sources",
             device.ratings.interlocked ? "Sources of the island, storage or generator"
                                        : "Sources of the island together");
    heading.symbol = "I_island";
    const auto total = work.study.worksheet.define(heading, *sum);
    const auto bus = *bus_rating(work, device.equipment);
    require(work, line(work, device, "island_bus_kept", "Busbar carries the sources of the island"),
            total, "≤", bus,
            {.rule = "mid.island.bus",
             .span = device.equipment.span,
             .message = fmt::format("{}: {} of sources on its {} busbar while the grid is away",
                                    device.equipment.id, shown(total.value), shown(bus.value)),
             .expected = "smaller sources, a larger device, or one whose inputs are interlocked"});
}

} // namespace

void check_interconnect_devices(Work& work) {
    for (int i = 0; i < static_cast<int>(work.system.equipment.size()); ++i) {
        const Equipment& e = at(work.system.equipment, i);
        const auto* ratings = work.system.ratings<MidRatings>(e);
        if (ratings == nullptr)
            continue;
        const Device device{i, e, *work.system.record(e), *ratings};
        check_pv(work, device);
        check_storage_inputs(work, device);
        check_backup(work, device);
        check_island_bus(work, device);
    }
}

} // namespace ohmfolio::workings
