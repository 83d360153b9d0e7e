// The load calculation (Article 220): loads of all panels by kind and nameplate, the rest by floor
// area, held against the service and its main breaker. Loads under a load controller count like
// others: what may be cut off in an island still runs while the grid is there.

#include "study/loads.h"

#include <algorithm>

#include <fmt/format.h>

#include "code/dwelling_load_rules.h"
#include "code/standard_load_rules.h"
#include "code/vehicle_rules.h"
#include "study/paragraphs.h"
#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

const std::string loads_subject = "site:loads";

using Powers = std::vector<Term<Watts>>;

std::string_view in_words(LoadKind kind) {
    switch (kind) {
    case LoadKind::general:
        return "load";
    case LoadKind::appliance:
        return "appliance";
    case LoadKind::range:
        return "range";
    case LoadKind::dryer:
        return "dryer";
    case LoadKind::cooling:
        return "cooling";
    case LoadKind::heating:
        return "heating";
    case LoadKind::heat_pump:
        return "heat pump";
    case LoadKind::vehicle:
        return "vehicle supply equipment";
    case LoadKind::motor:
        return "motor";
    }
    return {};
}

/// Loads sorted as the methods ask for them.
struct SortedLoads {
    Powers appliances, ranges, dryers, cooling, heating, heat_pumps, vehicles, motors;
    bool climate_added = false;
};

std::string underscored(std::string text) {
    std::ranges::replace(text, ' ', '_');
    return text;
}

/// By 220.57 where the edition has it, under a subject of its own: there may be several. It is
/// worked out once, however often the loads are added up.
Term<Watts> vehicle_of(Work& work, const PanelLoad& load) {
    const std::string subject =
        fmt::format("load:{}.{}", load.panel->id, underscored(load.circuit->name));
    const std::string known = std::string(key_of(subject)) + ".vehicle_load";
    if (work.study.worksheet.find(known) != nullptr)
        return recall<Watts>(work, known);
    const Volts volts = voltage_of(work.system, *load.circuit);
    return vehicle_load(
        work.desk(subject),
        {.nameplate = given("I_EV", Amps{load.circuit->power->value.value / volts.value},
                            "current of the charger"),
         .voltage = volts});
}

SortedLoads sorted(Work& work, const std::vector<PanelLoad>& loads) {
    SortedLoads result;
    for (const PanelLoad& load : loads) {
        const LoadCircuit& circuit = *load.circuit;
        if (!circuit.power)
            continue; // general ones count by area; the others were warned of
        const auto power = nameplate_load(circuit.name, circuit.power->value);
        const bool climate = circuit.kind == LoadKind::cooling ||
                             circuit.kind == LoadKind::heating ||
                             circuit.kind == LoadKind::heat_pump;
        result.climate_added = result.climate_added || (climate && circuit.added);
        switch (circuit.kind) {
        case LoadKind::general: // with a nameplate it is a circuit of its own
        case LoadKind::appliance:
            result.appliances.push_back(power);
            break;
        case LoadKind::range:
            result.ranges.push_back(power);
            break;
        case LoadKind::dryer:
            result.dryers.push_back(power);
            break;
        case LoadKind::cooling:
            result.cooling.push_back(power);
            break;
        case LoadKind::heating:
            result.heating.push_back(power);
            break;
        case LoadKind::heat_pump:
            result.heat_pumps.push_back(power);
            break;
        case LoadKind::vehicle:
            result.vehicles.push_back(vehicle_of(work, load));
            break;
        case LoadKind::motor:
            result.motors.push_back(power);
            break;
        }
    }
    return result;
}

std::optional<Term<Watts>> sum_if_any(const Powers& loads) {
    std::optional<Term<Watts>> sum;
    for (const Term<Watts>& one : loads) {
        add_to(sum, one);
    }
    return sum;
}

Powers joined(std::initializer_list<const Powers*> lists) {
    Powers all;
    for (const Powers* list : lists) {
        all.insert(all.end(), list->begin(), list->end());
    }
    return all;
}

GeneralLoads general_loads(const DwellingLoad& dwelling, const SortedLoads& loads) {
    return {.floor = SquareFeet{dwelling.floor_area},
            .small_appliance_circuits = dwelling.small_appliance_circuits,
            .laundry_circuits = dwelling.laundry_circuits,
            .appliances = joined({&loads.ranges, &loads.dryers, &loads.appliances, &loads.motors}),
            .vehicles = loads.vehicles};
}

ClimateLoads climate_loads(const SortedLoads& loads) {
    return {.cooling = sum_if_any(loads.cooling),
            .heat_pump = sum_if_any(loads.heat_pumps),
            .space_heating = sum_if_any(loads.heating),
            .space_heating_units = static_cast<int>(loads.heating.size())};
}

StandardInput standard_input(const DwellingLoad& dwelling, const SortedLoads& loads) {
    std::optional<Term<Watts>> largest_motor;
    for (const Term<Watts>& motor : loads.motors) {
        if (!largest_motor || largest_motor->value < motor.value)
            largest_motor = motor;
    }
    return {.floor = SquareFeet{dwelling.floor_area},
            .small_appliance_circuits = dwelling.small_appliance_circuits,
            .laundry_circuits = dwelling.laundry_circuits,
            .appliances = joined({&loads.appliances, &loads.motors}),
            .dryers = loads.dryers,
            .cooking = loads.ranges,
            .heating = sum_if_any(joined({&loads.heating, &loads.heat_pumps})),
            .cooling = sum_if_any(loads.cooling),
            .largest_motor = largest_motor,
            .vehicles = loads.vehicles};
}

ServiceInput service_of(Work& work, bool against_service) {
    ServiceInput service{.voltage = work.system.site.voltage,
                         .three_phase = lines_of(work.system.site.supply) == 3,
                         .one_family = against_service};
    if (against_service)
        service.rating = service_rating(work);
    return service;
}

/// Whether what flows on the meter already holds the output of a variable source.
bool has_existing_sources(const System& system) {
    return std::ranges::any_of(system.equipment,
                               [](const Equipment& e) { return is_source(e) && e.existing; });
}

LoadResult metered_load(Work& work) {
    const DwellingLoad& dwelling = *work.system.dwelling_load;
    Powers added;
    for (const PanelLoad& load : all_loads(work.system)) {
        if (!load.circuit->added || !load.circuit->power)
            continue;
        added.push_back(load.circuit->kind == LoadKind::vehicle
                            ? vehicle_of(work, load)
                            : nameplate_load(load.circuit->name, load.circuit->power->value));
    }
    return load_by_record(work.desk(loads_subject),
                          {.peak = nameplate_load("peak", dwelling.peak_demand.value),
                           .variable_source = has_existing_sources(work.system),
                           .added = sum_if_any(added).value_or(constant(Watts{0}))},
                          service_of(work, true));
}

/// Name of the lines of a method, and its paragraph.
struct Method {
    std::string name;
    std::string_view paragraph;
};
Method method_of(LoadMethod method) {
    switch (method) {
    case LoadMethod::optional_dwelling:
        return {"optional", "load.optional"};
    case LoadMethod::existing_dwelling:
        return {"existing", "load.existing"};
    case LoadMethod::metered:
        return {"metered", "load.metered"};
    case LoadMethod::standard:
        return {"standard", "load.service"};
    }
    return {};
}

/// What the floor area stands for are circuits of one pole; of more poles it is a load of its own,
/// even where its kind is not stated.
bool counts_by_nameplate(const LoadCircuit& load) {
    return load.kind != LoadKind::general || load.poles > 1;
}

/// Loads that the method needs a nameplate of. By the meter's record that is only what is added.
void warn_of_missing_power(Work& work) {
    const DwellingLoad& dwelling = *work.system.dwelling_load;
    const bool by_record = dwelling.method == LoadMethod::metered;
    for (const PanelLoad& load : all_loads(work.system)) {
        const bool asked = by_record ? load.circuit->added : counts_by_nameplate(*load.circuit);
        if (load.circuit->power || !asked)
            continue;
        complain_of_missing(work, method_of(dwelling.method).paragraph,
                            {.rule = "load.power",
                             .severity = Severity::warning,
                             .span = load.circuit->breaker.span,
                             .message = fmt::format(
                                 "{} on {}: no power is stated for this {}, so the load "
                                 "calculation leaves it out",
                                 load.circuit->name, load.panel->id, in_words(load.circuit->kind)),
                             .expected = "the power on its nameplate",
                             .hint = load.circuit->kind == LoadKind::general
                                         ? "power = \"... kVA\", and what it is: kind = \"range\", "
                                           "\"motor\", \"cooling\", ..."
                                         : "power = \"... kVA\"",
                             .subject = loads_subject});
    }
}

void complain_of_method(Work& work, const LoadResult& result) {
    complain_of_missing(
        work, method_of(work.system.dwelling_load->method).paragraph,
        {.rule = "load.method",
         .span = work.system.dwelling_load->span,
         .message = "the load calculation may not be made this way: " + result.reason,
         .expected = "another method, \"standard\"",
         .subject = loads_subject});
}

/// The main breaker that the whole load passes; nullptr where there is none, or several.
const Equipment* only_main(const System& system) {
    const Equipment* found = nullptr;
    for (const Equipment& e : system.equipment) {
        const auto* panel = e.as<Panel>();
        if (panel == nullptr || !panel->service_equipment)
            continue;
        if (found != nullptr || !panel->main)
            return nullptr;
        found = &e;
    }
    return found;
}

void check_main(Work& work, const LoadResult& result) {
    const Equipment* panel = only_main(work.system);
    if (panel == nullptr)
        return;
    const auto main = main_of(work, work.system.find(panel->id));
    require(work,
            {.subject = loads_subject,
             .name = "main_kept",
             .symbol = {},
             .title = "Main breaker of " + panel->id + " carries the calculated load",
             .cite = work.book.cite("load.service")},
            main, "≥", result.amps,
            {.rule = "load.main",
             .span = panel->as<Panel>()->main->span,
             .message = fmt::format("{}: the calculated load is {}; its main breaker is {}",
                                    panel->id, shown(result.amps.value), shown(main.value)),
             .expected = fmt::format("a main breaker of {} or more", shown(result.amps.value)),
             .subject = subject_of(*panel)});
}

/// Whether no load hangs anywhere but below `equipment`.
bool carries_all_loads(const System& system, int equipment) {
    const auto below = system.subtree(equipment);
    const auto loads = all_loads(system);
    return !loads.empty() && std::ranges::all_of(loads, [&](const PanelLoad& load) {
        return std::ranges::find(below, system.find(load.panel->id)) != below.end();
    });
}

/// Breakers of feeders that the whole load passes, as where a device between the service and the
/// panel backs all of it up: the panel behind the main holds no other loads.
void check_feeders(Work& work, const LoadResult& result) {
    for (int index = 0; index < static_cast<int>(work.system.breakers.size()); ++index) {
        const Breaker& breaker = at(work.system.breakers, index);
        const Circuit& circuit = at(work.system.circuits, breaker.circuit);
        const auto rating = rating_of(work, index);
        if (!rating || !carries_all_loads(work.system, work.system.child_of(circuit)))
            continue;
        require(
            work,
            {.subject = loads_subject,
             .name = breaker.tag + "_kept",
             .symbol = {},
             .title = breaker.tag + " carries the calculated load",
             .cite = work.book.cite(paragraph::feeder_overcurrent)},
            *rating, "≥", result.amps,
            {.rule = "load.feeder",
             .span = breaker.stated ? breaker.stated->span : at(work.system.runs, circuit.run).span,
             .message = fmt::format("{}: all loads pass it, which are {} as calculated; it is "
                                    "{}",
                                    breaker.tag, shown(result.amps.value), shown(rating->value)),
             .expected = fmt::format("a breaker of {} or more, or fewer loads behind it",
                                     shown(result.amps.value)),
             .subject = subject_of(breaker)});
    }
}

void check_service(Work& work, const LoadResult& result) {
    if (result.passes)
        return;
    const std::string name = method_of(work.system.dwelling_load->method).name;
    complain(work, std::string(key_of(loads_subject)) + "." + name + "_service",
             {.rule = "load.service",
              .span = work.system.dwelling_load->span,
              .message = fmt::format("the calculated load asks for a service of {} or more; it is "
                                     "{}",
                                     shown(result.least.value), shown(work.system.site.service)),
              .expected = result.standard_rating ? fmt::format("a service of {}, or fewer loads",
                                                               shown(*result.standard_rating))
                                                 : std::string("fewer loads")});
}

} // namespace

std::vector<PanelLoad> all_loads(const System& system) {
    std::vector<PanelLoad> loads;
    for (const Equipment& e : system.equipment) {
        if (const auto* panel = e.as<Panel>()) {
            for (const LoadCircuit& circuit : panel->loads) {
                loads.push_back({&e, &circuit});
            }
        }
    }
    return loads;
}

std::vector<PanelLoad> backed_up_loads(const System& system, int head) {
    const auto below = system.subtree(head);
    std::vector<PanelLoad> loads = all_loads(system);
    std::erase_if(loads, [&](const PanelLoad& load) {
        return !load.panel->as<Panel>()->backed_up ||
               std::ranges::find(below, system.find(load.panel->id)) == below.end();
    });
    return loads;
}

Volts voltage_of(const System& system, const LoadCircuit& load) {
    return load.poles == 1 ? system.site.to_neutral : system.site.voltage;
}

std::optional<LoadResult> calculated_load(Work& work, const std::string& subject,
                                          const std::vector<PanelLoad>& loads,
                                          bool against_service) {
    if (!work.system.dwelling_load)
        return {};
    const DwellingLoad& dwelling = *work.system.dwelling_load;
    if (dwelling.method == LoadMethod::metered)
        return {};
    const SortedLoads kinds = sorted(work, loads);
    const Desk desk = work.desk(subject);
    const ServiceInput service = service_of(work, against_service);
    switch (dwelling.method) {
    case LoadMethod::existing_dwelling:
        return existing_dwelling_load(desk,
                                      {.general = general_loads(dwelling, kinds),
                                       .climate = climate_loads(kinds),
                                       .climate_added = kinds.climate_added},
                                      service);
    case LoadMethod::standard:
        return standard_dwelling_load(desk, standard_input(dwelling, kinds), service);
    default:
        return optional_dwelling_load(
            desk, {.general = general_loads(dwelling, kinds), .climate = climate_loads(kinds)},
            service);
    }
}

void calculate_loads(Work& work) {
    if (!work.system.dwelling_load)
        return;
    const bool by_record = work.system.dwelling_load->method == LoadMethod::metered;
    warn_of_missing_power(work);
    if (by_record && work.system.dwelling_load->peak_demand.value.value <= 0)
        return;
    const LoadResult result =
        by_record ? metered_load(work)
                  : *calculated_load(work, loads_subject, all_loads(work.system), true);
    if (!result.applies) {
        complain_of_method(work, result);
        return;
    }
    work.calculated_load = result.load;
    check_service(work, result);
    check_main(work, result);
    check_feeders(work, result);
}

} // namespace ohmfolio::workings
