// Storage: units on a chain, the breaker of the chain, the energy behind an interconnect device.

#include <algorithm>

#include <fmt/format.h>

#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

/// A chain of units on one circuit, as its bus sees it.
struct Chain {
    std::vector<int> units; ///< nearest the bus first
    int circuit = -1;       ///< the one that ends at the bus
};

Heading line(const Work& work, const Equipment& head, std::string name, std::string title) {
    return {.subject = subject_of(head),
            .name = std::move(name),
            .symbol = {},
            .title = std::move(title),
            .cite = work.book.cite(paragraph::equipment_limit)};
}

/// What lies behind another bus is on chains of that bus.
void append_units(const System& system, int circuit, std::vector<int>& units) {
    const int child = system.child_of(at(system.circuits, circuit));
    if (is_bus(at(system.equipment, child)))
        return;
    if (at(system.equipment, child).is<Battery>())
        units.push_back(child);
    if (is_bus(at(system.equipment, child)))
        return; // its chains end there
    for (const int feeder : feeding(system, circuit)) {
        append_units(system, feeder, units);
    }
}

std::vector<Chain> chains_on(const System& system, int bus) {
    std::vector<Chain> chains;
    for (const int circuit : circuits_into(system, bus)) {
        if (at(system.circuits, circuit).use != CircuitUse::storage)
            continue;
        Chain chain{{}, circuit};
        append_units(system, circuit, chain.units);
        if (!chain.units.empty())
            chains.push_back(std::move(chain));
    }
    return chains;
}

void check_length(Work& work, const Equipment& head, const Record& record, const Chain& chain) {
    const auto& ratings = std::get<BatteryRatings>(record.ratings);
    const int units = static_cast<int>(chain.units.size());
    const auto limit =
        from_nameplate(work, record, "chain_limit", "N_units,max", "Most units on one circuit",
                       Ratio{static_cast<double>(ratings.chain_limit)});
    require(work, line(work, head, "chain_kept", "Units within the most on one circuit"),
            count(work, subject_of(head), "units", "N_units", "Units on this circuit", units), "≤",
            limit,
            {.rule = "storage.chain",
             .span = head.span,
             .message = fmt::format("{}: {} units on one circuit; {} are the most", head.id, units,
                                    ratings.chain_limit),
             .expected = fmt::format("at most {} units on a circuit", ratings.chain_limit)});
}

void check_breaker(Work& work, const Equipment& head, const Record& record, const Chain& chain) {
    const int index = protecting_breaker(work.system, chain.circuit);
    if (index < 0 || !at(work.breaker_rating, index))
        return;
    const Breaker& breaker = at(work.system.breakers, index);
    const auto rating = *rating_of(work, index);
    const auto limit = from_nameplate(work, record, "breaker_limit", "I_ess,max",
                                      "Largest breaker of a circuit of these units",
                                      std::get<BatteryRatings>(record.ratings).breaker_limit);
    require(
        work, line(work, head, "breaker_kept", "Storage breaker within the limit of the units"),
        rating, "≤", limit,
        {.rule = "storage.breaker.limit",
         .span = breaker.stated ? breaker.stated->span : head.span,
         .message = fmt::format("{} on {}: {}; the units may be on {} at most", breaker.tag,
                                head.id, shown(rating.value), shown(limit.value)),
         .expected = fmt::format("{} or less, or fewer units on the circuit", shown(limit.value))});
}

std::optional<Term<WattHours>> energy_of(Work& work, const Equipment& head,
                                         const std::vector<int>& units) {
    std::optional<Term<WattHours>> sum;
    std::vector<int> records;
    for (const int unit : units) {
        if (std::ranges::find(records, at(work.system.equipment, unit).record) == records.end())
            records.push_back(at(work.system.equipment, unit).record);
    }
    for (const int index : records) {
        const Record& record = at(work.system.catalogue.records, index);
        const auto alike = std::ranges::count_if(
            units, [&](int unit) { return at(work.system.equipment, unit).record == index; });
        const auto number = count(work, subject_of(head), "units_" + record.key, "N_ess",
                                  fmt::format("{} {} units in all", record.maker, record.model),
                                  static_cast<int>(alike));
        const auto energy =
            number * from_nameplate(work, record, "energy", "E_unit", "Usable energy of one unit",
                                    std::get<BatteryRatings>(record.ratings).energy);
        add_to(sum, energy);
    }
    return sum;
}

/// What the nameplate of an interconnect device says of storage behind it.
struct StorageLimit {
    WattHours energy{}; ///< zero: nothing
    std::string name, title;
};

/// A listed power control system may allow more.
StorageLimit storage_limit_of(const System& system, const Equipment& mid) {
    const auto* ratings = system.ratings<MidRatings>(mid);
    const auto* device = mid.as<Mid>();
    if (ratings == nullptr || device == nullptr)
        return {};
    if (device->power_control && ratings->storage_limit_power_control.value > 0) {
        return {ratings->storage_limit_power_control, "storage_limit_power_control",
                "Most storage behind this device under power control"};
    }
    return {ratings->storage_limit, "storage_limit", "Most storage behind this device"};
}

void check_energy(Work& work, const Equipment& mid, const Equipment& head,
                  const std::vector<int>& units) {
    const auto energy = energy_of(work, head, units);
    const StorageLimit stated = storage_limit_of(work.system, mid);
    if (!energy || stated.energy.value <= 0)
        return;
    Heading heading = line(work, head, "energy", "Storage behind " + mid.id);
    heading.symbol = "E_storage";
    const auto total = work.study.worksheet.define(heading, *energy);
    const auto limit = from_nameplate(work, *work.system.record(mid), stated.name, "E_max",
                                      stated.title, stated.energy);
    require(work, line(work, head, "energy_kept", "Storage within the limit of " + mid.id), total,
            "≤", limit,
            {.rule = "mid.storage.energy",
             .span = mid.span,
             .message = fmt::format("{}: {} of storage; the device takes {}", mid.id,
                                    shown(total.value), shown(limit.value)),
             .expected = fmt::format("storage of {} or less", shown(limit.value))});
}

void check_bus(Work& work, int bus) {
    const auto chains = chains_on(work.system, bus);
    for (const Chain& chain : chains) {
        const Equipment& head = at(work.system.equipment, chain.units.front());
        const Record* record = work.system.record(head);
        if (record == nullptr)
            continue;
        check_length(work, head, *record, chain);
        check_breaker(work, head, *record, chain);
    }
    const auto units = batteries_below(work.system, bus);
    if (!units.empty()) {
        check_energy(work, at(work.system.equipment, bus), at(work.system.equipment, units.front()),
                     units);
    }
}

} // namespace

void check_storage(Work& work) {
    for (int i = 0; i < static_cast<int>(work.system.equipment.size()); ++i) {
        const Equipment& e = at(work.system.equipment, i);
        if (is_bus(e) || e.is<Inverter>())
            check_bus(work, i);
    }
}

} // namespace ohmfolio::workings
