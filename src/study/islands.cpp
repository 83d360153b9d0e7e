// Islands: what is cut off from the utility together, what feeds it and what it carries.

#include "study/standby.h"

#include <algorithm>

#include <fmt/format.h>

#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

Term<Watts> rated_output(Work& work, const Record& record, const std::string& symbol,
                         const std::string& title, Watts output) {
    return state_once(work,
                      {.subject = "record:" + record.key,
                       .name = "output",
                       .symbol = symbol,
                       .title = title,
                       .cite = nameplate(),
                       .source = nameplate_of(record),
                       .as = ShownAs::apparent_power},
                      output);
}

/// Units for direct current feed through an inverter, which gives no more than its own output.
std::vector<int> units_of(const System& system, const Island& island, bool direct_current) {
    std::vector<int> units = island.batteries;
    std::erase_if(units, [&](int i) {
        return system.ratings<BatteryRatings>(at(system.equipment, i))->direct_current() !=
               direct_current;
    });
    return units;
}

std::string symbol_with(const std::string& symbol, const Equipment& e) {
    return symbol + "," + e.id;
}

int number_of(const System& system, const std::vector<int>& equipment, int record) {
    return static_cast<int>(std::ranges::count_if(
        equipment, [&](int i) { return at(system.equipment, i).record == record; }));
}

} // namespace

std::vector<int> records_of(const System& system, const std::vector<int>& equipment) {
    std::vector<int> records;
    for (const int i : equipment) {
        if (std::ranges::find(records, at(system.equipment, i).record) == records.end())
            records.push_back(at(system.equipment, i).record);
    }
    return records;
}

std::string called(const PanelLoad& load) {
    return fmt::format("{} on {}", load.circuit->name, load.panel->id);
}

std::vector<PanelLoad> kept_loads(std::vector<PanelLoad> loads) {
    std::erase_if(loads, [](const PanelLoad& load) { return !load.circuit->shed_by.empty(); });
    return loads;
}

std::optional<SingleLoad> largest_load(const Island& island, bool shed) {
    std::optional<SingleLoad> largest;
    for (const PanelLoad& load : island.loads) {
        if (!load.circuit->power || (!shed && !load.circuit->shed_by.empty()))
            continue;
        if (!largest || largest->power < load.circuit->power->value)
            largest = SingleLoad{load, load.circuit->power->value};
    }
    return largest;
}

std::vector<Island> islands(const System& system) {
    std::vector<Island> result;
    for (int i = 0; i < static_cast<int>(system.equipment.size()); ++i) {
        const Equipment& e = at(system.equipment, i);
        if (island_head(system, i) != i)
            continue;
        Island island{i,
                      e,
                      batteries_below(system, i),
                      generators_below(system, i),
                      {},
                      backed_up_loads(system, i)};
        for (const int below : system.subtree(i)) {
            if (forms_by_sun(system, at(system.equipment, below)))
                island.forming.push_back(below);
        }
        if (!island.batteries.empty() || !island.generators.empty() || !island.forming.empty())
            result.push_back(std::move(island));
    }
    return result;
}

namespace {

/// The units of each record, added up.
std::optional<Term<Watts>> output_of_units(Work& work, const Island& island,
                                           const std::vector<int>& units, const std::string& name) {
    std::optional<Term<Watts>> sum;
    for (const int index : records_of(work.system, units)) {
        const Record& record = at(work.system.catalogue.records, index);
        const auto of_one = rated_output(work, record, "S_ess", "Continuous output of one unit",
                                         std::get<BatteryRatings>(record.ratings).output);
        const auto number =
            count(work, island.subject(), name + record.key, "N_units",
                  "Battery units, " + record.model, number_of(work.system, units, index));
        add_to(sum, number * of_one);
    }
    return sum;
}

/// The lesser of what an inverter puts out and what the units on its direct-current side give.
std::optional<Term<Watts>> output_through(Work& work, const Island& island, int inverter,
                                          const std::vector<int>& direct) {
    const Equipment& e = at(work.system.equipment, inverter);
    std::vector<int> units = batteries_below(work.system, inverter);
    std::erase_if(units, [&](int i) { return std::ranges::find(direct, i) == direct.end(); });
    const auto of_units = output_of_units(work, island, units, "units_" + e.id + "_");
    if (!of_units)
        return {};
    const auto& ratings = *work.system.ratings<StringInverterRatings>(e);
    const bool own = inverter == island.head;
    const auto of_inverter =
        state_once(work,
                   {.subject = island.subject(),
                    .name = "through_" + e.id,
                    .symbol = symbol_with("S_inv", e),
                    .title = own ? "Continuous output to what " + e.id + " backs up"
                                 : "Continuous output of " + e.id,
                    .cite = nameplate(),
                    .source = nameplate_of(*work.system.record(e)),
                    .as = ShownAs::apparent_power},
                   own ? ratings.backup.output : ratings.output);
    const auto units_output = define_once(work,
                                          {.subject = island.subject(),
                                           .name = "units_" + e.id,
                                           .symbol = symbol_with("S_dc", e),
                                           .title = "Continuous output of the units on " + e.id,
                                           .cite = work.book.cite("standby.continuous"),
                                           .as = ShownAs::apparent_power},
                                          *of_units);
    return lesser(units_output, of_inverter);
}

} // namespace

std::optional<Term<Watts>> storage_output(Work& work, const Island& island) {
    auto sum = output_of_units(work, island, units_of(work.system, island, false), "units_");
    const auto direct = units_of(work.system, island, true);
    for (const int i : work.system.subtree(island.head)) {
        if (!at(work.system.equipment, i).is<Inverter>())
            continue;
        const auto through = output_through(work, island, i, direct);
        if (through)
            add_to(sum, *through);
    }
    if (!sum)
        return {};
    return define_once(work,
                       {.subject = island.subject(),
                        .name = "storage_output",
                        .symbol = "S_storage",
                        .title = "Continuous output of the storage",
                        .cite = work.book.cite("standby.continuous"),
                        .as = ShownAs::apparent_power},
                       *sum);
}

bool by_sun_alone(const Island& island) {
    return island.batteries.empty() && island.generators.empty() && !island.forming.empty();
}

bool is_interlocked(const System& system, const Island& island) {
    const auto* ratings = system.ratings<MidRatings>(island.device);
    return ratings != nullptr && ratings->interlocked;
}

std::optional<Term<Watts>> solar_output(Work& work, const Island& island) {
    std::optional<Term<Watts>> sum;
    for (const int i : island.forming) {
        const Equipment& e = at(work.system.equipment, i);
        if (const auto* branch = e.as<BranchArray>()) {
            const Record& record = at(work.system.catalogue.records, branch->microinverter);
            const auto of_one =
                rated_output(work, record, "S_inv", "Continuous output of one microinverter",
                             std::get<MicroinverterRatings>(record.ratings).output);
            const auto number = modules_on(work, e, *branch);
            add_to(sum, number * of_one);
        } else {
            const Record& record = *work.system.record(e);
            const auto& ratings = std::get<StringInverterRatings>(record.ratings);
            add_to(sum, rated_output(work, record, "S_inv", "Continuous output of the inverter",
                                     i == island.head ? ratings.backup.output : ratings.output));
        }
    }
    if (!sum)
        return {};
    return define_once(work,
                       {.subject = island.subject(),
                        .name = "solar_output",
                        .symbol = "S_sun",
                        .title = "Output of the PV that holds the grid, in full sun",
                        .cite = work.book.cite("standby.continuous"),
                        .as = ShownAs::apparent_power},
                       *sum);
}

std::optional<Term<Watts>> generator_output(Work& work, const Island& island) {
    std::optional<Term<Watts>> sum;
    for (const int i : island.generators) {
        const Record& record = *work.system.record(at(work.system.equipment, i));
        const auto one = rated_output(work, record, "S_gen", "Continuous output of the generator",
                                      std::get<GeneratorRatings>(record.ratings).output);
        add_to(sum, one);
    }
    return sum;
}

} // namespace ohmfolio::workings
