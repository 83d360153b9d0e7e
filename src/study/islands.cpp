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
        for (const int branch : branches_below(system, i)) {
            const auto& array = std::get<BranchArray>(at(system.equipment, branch).detail);
            if (std::get<MicroinverterRatings>(
                    at(system.catalogue.records, array.microinverter).ratings)
                    .grid_forming)
                island.forming_branches.push_back(branch);
        }
        if (!island.batteries.empty() || !island.generators.empty() ||
            !island.forming_branches.empty())
            result.push_back(std::move(island));
    }
    return result;
}

std::optional<Term<Watts>> storage_output(Work& work, const Island& island) {
    std::optional<Term<Watts>> sum;
    for (const int index : records_of(work.system, island.batteries)) {
        const Record& record = at(work.system.catalogue.records, index);
        const auto units = number_of(work.system, island.batteries, index);
        const auto one = count(work, island.subject(), "units_" + record.key, "N_units",
                               "Battery units, " + record.model, units) *
                         rated_output(work, record, "S_ess", "Continuous output of one unit",
                                      std::get<BatteryRatings>(record.ratings).output);
        add_to(sum, one);
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
