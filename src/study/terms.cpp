#include "study/terms.h"

#include <fmt/format.h>

#include "study/phases.h"

namespace ohmfolio::workings {

namespace {

const std::string as_stated = "as stated in the description";

std::optional<Amps> bus_of(const Record& record) {
    if (const auto* combiner = std::get_if<CombinerRatings>(&record.ratings))
        return combiner->bus;
    if (const auto* mid = std::get_if<MidRatings>(&record.ratings))
        return mid->bus;
    if (const auto* panel = std::get_if<PanelRatings>(&record.ratings))
        return panel->bus;
    return {};
}

} // namespace

Term<Amps> output_current(Work& work, const Record& record) {
    if (const auto* inverter = std::get_if<StringInverterRatings>(&record.ratings)) {
        return from_nameplate(work, record, "output_current", "I_inv",
                              "Continuous output current of the inverter",
                              inverter->output_current);
    }
    if (const auto* generator = std::get_if<GeneratorRatings>(&record.ratings)) {
        return from_nameplate(work, record, "output_current", "I_gen",
                              "Continuous output current of the generator",
                              generator->output_current);
    }
    const auto* battery = std::get_if<BatteryRatings>(&record.ratings);
    return battery != nullptr
               ? from_nameplate(work, record, "output_current", "I_ess",
                                "Continuous output current of one unit", battery->output_current)
               : from_nameplate(work, record, "output_current", "I_inv",
                                "Continuous output current of one microinverter",
                                std::get<MicroinverterRatings>(record.ratings).output_current);
}

Term<Ratio> modules_on(Work& work, const Equipment& e, const BranchArray& branch) {
    return count(work, subject_of(e), "count", "N", "Microinverters on " + e.id, branch.count);
}

Term<Amps> stated_rating(Work& work, const Breaker& breaker) {
    return state_once(work,
                      {.subject = subject_of(breaker),
                       .name = "stated",
                       .symbol = "I_" + breaker.tag,
                       .title = "Rating of " + breaker.tag,
                       .cite = {},
                       .source = as_stated},
                      breaker.stated->value);
}

std::optional<Term<Amps>> rating_of(const Work& work, int breaker) {
    auto rating = breaker < 0 ? std::nullopt : at(work.breaker_rating, breaker);
    if (rating)
        rating->symbols = "I_" + at(work.system.breakers, breaker).tag;
    return rating;
}

std::optional<Term<Amps>> bus_rating(Work& work, const Equipment& equipment) {
    const Record* record = work.system.record(equipment);
    const auto bus = record == nullptr ? std::nullopt : bus_of(*record);
    if (!bus)
        return {};
    return from_nameplate(work, *record, "bus", "I_bus", "Rating of the busbar", *bus);
}

Term<Amps> backup_breaker_limit(Work& work, const Record& inverter) {
    return from_nameplate(work, inverter, "backup_breaker_limit", "I_backup,max",
                          "Largest breaker of the backup output",
                          std::get<StringInverterRatings>(inverter.ratings).backup.breaker_limit);
}

Term<Amps> service_rating(Work& work) {
    return state_once(work,
                      {.subject = "site:service",
                       .name = "rating",
                       .symbol = "I_service",
                       .title = "Rating of the service",
                       .cite = {},
                       .source = as_stated},
                      work.system.site.service);
}

Term<Amps> conductor_ampacity(const Work& work, int index) {
    const std::string& tag = at(work.system.circuits, index).tag;
    const CircuitStudy& study = at(work.study.circuits, index);
    if (study.parallel_sets > 1)
        return recall<Amps>(work, tag + ".ampacity");
    const bool terminals = study.ampacity_terminals < study.ampacity_corrected;
    return recall<Amps>(work, tag + (terminals ? ".ampacity_terminals" : ".ampacity_corrected"));
}

Term<Amps> main_of(Work& work, int index) {
    const Equipment& equipment = at(work.system.equipment, index);
    const auto* panel = equipment.as<Panel>();
    if (panel != nullptr && panel->main) {
        return state_once(work,
                          {.subject = subject_of(equipment),
                           .name = "main",
                           .symbol = "I_main",
                           .title = "Main breaker of " + equipment.id,
                           .cite = {},
                           .source = as_stated},
                          panel->main->value);
    }
    for (const int circuit : circuits_from(work.system, index)) {
        if (const auto rating = rating_of(work, protecting_breaker(work.system, circuit)))
            return *rating;
    }
    for (int ahead = equipment.parent; ahead >= 0;
         ahead = at(work.system.equipment, ahead).parent) {
        if (is_bus(at(work.system.equipment, ahead)))
            return device_ahead(work, ahead);
    }
    return service_rating(work);
}

Term<Amps> device_ahead(Work& work, int index) {
    auto device = main_of(work, index);
    if (!at(work.system.equipment, index).is<TransferSwitch>())
        return device;
    for (const int generator : generators_below(work.system, index)) {
        const Record& record = *work.system.record(at(work.system.equipment, generator));
        const Amps own = std::get<GeneratorRatings>(record.ratings).breaker;
        if (device.value < own)
            device = from_nameplate(work, record, "breaker", "I_gen,brk",
                                    "Overcurrent device at the generator", own);
    }
    return device;
}

namespace {

/// Of a bus of three lines with single-phase sources, the line that carries most.
std::optional<Term<Amps>> sum_on_bus(Work& work, int index) {
    const auto circuits = circuits_into(work.system, index);
    const PhaseSources by_phase = phase_sources_of(work, circuits);
    if (work.system.lines_at(index) == 3 && by_phase.single_phase()) {
        return greatest_line_current(work.desk(subject_of(at(work.system.equipment, index))),
                                     by_phase);
    }
    std::optional<Term<Amps>> sum;
    for (const int circuit : circuits) {
        if (at(work.sources, circuit))
            add_to(sum, *at(work.sources, circuit));
    }
    return sum;
}

} // namespace

std::optional<Term<Amps>> sources_on(Work& work, int index) {
    const std::string subject = subject_of(at(work.system.equipment, index));
    const std::string id = at(work.system.equipment, index).id + ".sources";
    if (work.study.worksheet.find(id) != nullptr)
        return recall<Amps>(work, id);
    const auto sum = sum_on_bus(work, index);
    if (!sum)
        return {};
    return work.study.worksheet.define({.subject = subject,
                                        .name = "sources",
                                        .symbol = "I_src",
                                        .title = "Output current of all sources on this bus",
                                        .cite = work.book.cite(paragraph::source_current)},
                                       *sum);
}

std::optional<Term<Amps>> sources_on_125(Work& work, int index) {
    const auto sources = sources_on(work, index);
    if (!sources)
        return {};
    const std::string id = at(work.system.equipment, index).id + ".sources_125";
    if (work.study.worksheet.find(id) != nullptr)
        return recall<Amps>(work, id);
    const double share = work.book.number(paragraph::continuous_source);
    // Ahead of the service disconnect there is no bus that the rules of buses could bear on.
    const bool ahead = at(work.system.equipment, index).as<SupplyConnection>() != nullptr;
    return work.study.worksheet.define(
        {.subject = subject_of(at(work.system.equipment, index)),
         .name = "sources_125",
         .symbol = "I_src,125",
         .title =
             ahead ? "125 % of the sources connected here" : "125 % of the sources on this bus",
         .cite = work.book.cite(ahead ? paragraph::source_conductor : paragraph::bus_sources)},
        factor(share) * *sources);
}

} // namespace ohmfolio::workings
