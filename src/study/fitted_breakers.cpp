// Breakers that are put in, held against what the label of their enclosure lists (110.3(B)).
#include "study/fitted_breakers.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
#include "study/paragraphs.h"
#include "study/steps.h"

namespace ohmfolio {
namespace {

bool stays(const Equipment& e) { return e.existing || e.is<Utility>(); }

void add_circuit_devices(const System& system, const Study& study,
                         std::vector<FittedDevice>& devices) {
    for (std::size_t i = 0; i < system.breakers.size(); ++i) {
        const Breaker& breaker = system.breakers[i];
        if (breaker.circuit < 0)
            continue;
        const Circuit& circuit = system.circuits[static_cast<std::size_t>(breaker.circuit)];
        const Run& run = system.runs[static_cast<std::size_t>(circuit.run)];
        if (!was_there(system, circuit))
            devices.push_back({breaker.at, study.breakers[i].rating, breaker.poles,
                               system.at(breaker.at).is<Disconnect>(), circuit.direct_current,
                               breaker.tag, "breaker:" + breaker.tag,
                               breaker.stated ? breaker.stated->span : run.span});
    }
}

void add_string_fuses(const System& system, std::vector<FittedDevice>& devices) {
    for (const Circuit& circuit : system.circuits) {
        const Equipment& e = system.at(system.child_of(circuit));
        const auto* array = e.as<StringArray>();
        if (array != nullptr && array->fuse && !was_there(system, circuit))
            devices.push_back({system.parent_of(circuit), array->fuse->value, 2 * array->strings,
                               true, true, e.id, "circuit:" + circuit.tag, array->fuse->span});
    }
}

void add_panel_devices(const System& system, int index, const Panel& panel,
                       std::vector<FittedDevice>& devices) {
    const Equipment& e = system.at(index);
    const std::string subject = "equipment:" + e.id;
    if (panel.main && !e.existing)
        devices.push_back({index, panel.main->value, system.lines_at(index), false, false,
                           e.id + " main", subject, panel.main->span});
    for (const LoadCircuit& load : panel.loads) {
        if (!e.existing || load.added)
            devices.push_back({index, load.breaker.value, load.poles, false, false,
                               e.id + " " + load.name, subject, load.breaker.span});
    }
}

} // namespace

bool was_there(const System& system, const Circuit& circuit) {
    return stays(system.at(system.child_of(circuit))) &&
           stays(system.at(system.parent_of(circuit)));
}

std::vector<FittedDevice> fitted_devices(const System& system, const Study& study) {
    std::vector<FittedDevice> devices;
    add_circuit_devices(system, study, devices);
    add_string_fuses(system, devices);
    for (int i = 0; i < static_cast<int>(system.equipment.size()); ++i) {
        if (const auto* panel = system.at(i).as<Panel>())
            add_panel_devices(system, i, *panel, devices);
    }
    std::erase_if(devices, [](const FittedDevice& device) { return device.rating <= Amps{0}; });
    return devices;
}

namespace workings {

namespace {

std::string listed_families(const Catalogue& catalogue, const Record& holder) {
    std::vector<std::string> names;
    for (const auto& name : holder.breakers) {
        const Record* record = catalogue.find(name.value);
        const auto* family =
            record == nullptr ? nullptr : std::get_if<BreakerFamilyRatings>(&record->ratings);
        if (family != nullptr)
            names.push_back(fmt::format("{} ({}P, {} to {})", record->model, family->poles,
                                        shown(family->sizes.front()), shown(family->sizes.back())));
    }
    return join(names, ", ");
}

/// A rating that is faulted already: which model has it is no question yet.
bool faulted(const Work& work, const std::string& subject) {
    return std::ranges::any_of(work.study.findings, [&](const Finding& finding) {
        return finding.subject == subject && finding.rule == "breaker.rating";
    });
}

} // namespace

void check_fitted_breakers(Work& work) {
    const System& system = work.system;
    for (const FittedDevice& device : fitted_devices(system, work.study)) {
        const Equipment& holder = at(system.equipment, device.holder);
        const Record* record = system.record(holder);
        if (record == nullptr || record->breakers.empty() || device.fuses ||
            device.direct_current || faulted(work, device.subject) ||
            listed_breaker(system.catalogue, *record, device.rating, device.poles) != nullptr)
            continue;
        complain_of_missing(
            work, paragraph::listed_breaker,
            {.rule = "breaker.listed",
             .span = device.span,
             .message =
                 fmt::format("{}: no breaker of {} with {} pole{} is among those that the "
                             "label of {} ({} {}) lists",
                             device.serves, shown(device.rating), device.poles,
                             device.poles == 1 ? "" : "s", holder.id, record->maker, record->model),
             .expected =
                 "a breaker that its label lists: " + listed_families(system.catalogue, *record),
             .subject = device.subject});
    }
}

} // namespace workings

} // namespace ohmfolio
