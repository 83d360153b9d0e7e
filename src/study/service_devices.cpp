// The service: something disconnects it and protects its conductors ahead of the first busbar, and
// no main is larger than the service. Sources ahead of that are told in supply_side.cpp.

#include <algorithm>

#include <fmt/format.h>

#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

/// Where the service conductors end: the first bus behind the meter, whatever switch is between.
bool is_first_bus(const System& system, int index) {
    const auto counts = [&](int i) {
        const Equipment& e = at(system.equipment, i);
        return is_bus(e) && !e.is<SupplyConnection>();
    };
    return counts(index) && first_upward(system, at(system.equipment, index).parent, counts) < 0;
}

/// A panel without a main whose few breakers are the service disconnect together.
bool few_breakers_serve(const Work& work, int index) {
    const auto* panel = at(work.system.equipment, index).as<Panel>();
    if (panel == nullptr || !panel->loads_described ||
        !work.book.rule("service.device.several").exists)
        return false;
    const auto of_sources = std::ranges::count(work.system.breakers, index, &Breaker::at);
    return static_cast<double>(of_sources) + static_cast<double>(panel->loads.size()) <=
           work.book.number("service.device.several");
}

/// The fused disconnect that the service conductors end in; nullptr where there is none.
const Equipment* fused_disconnect_ahead(const System& system, int index) {
    const int found = first_upward(system, at(system.equipment, index).parent, [&](int i) {
        const auto* ratings = system.ratings<DisconnectRatings>(at(system.equipment, i));
        return ratings != nullptr && ratings->fused;
    });
    return found < 0 ? nullptr : &at(system.equipment, found);
}

/// A line only where it fails: that a service has its main is not worth one.
void complain_in_words(Work& work, const Equipment& e, std::string_view rule,
                       const std::string& title, const std::string& statement,
                       Complaint complaint) {
    Worksheet& sheet = work.study.worksheet;
    sheet.judge({.subject = subject_of(e),
                 .name = rule == "service.device" ? "service_device" : "service_listing",
                 .symbol = {},
                 .title = title,
                 .cite = work.book.cite(rule)},
                statement, false, {});
    complaint.rule = rule;
    complaint.span = e.span;
    complain(work, sheet.all().back().id, complaint);
}

/// Panels and transfer switches state a main or that they are service equipment. An interconnect
/// device cannot, and some hold a main all the same: of them it is a warning.
void complain_of_no_device(Work& work, const Equipment& e) {
    const bool panel = e.is<Panel>();
    complain_in_words(
        work, e, "service.device", "Service disconnect and its overcurrent device",
        "none between " + e.id + " and the meter",
        {.rule = {},
         .severity = panel || e.is<TransferSwitch>() ? Severity::violation : Severity::warning,
         .span = {},
         .message = fmt::format("{}: nothing between it and the meter disconnects the service and "
                                "protects its conductors",
                                e.id),
         .expected = panel ? fmt::format("a main breaker in {}, or a fused service disconnect "
                                         "ahead of it",
                                         e.id)
                           : fmt::format("a fused service disconnect ahead of {}", e.id),
         .hint = panel ? "on the panel: main = \"... A\"; on a fused disconnect ahead of it: "
                         "use = [\"service\"]"
                       : "on the disconnect: use = [\"service\"]"});
}

void check_listing(Work& work, const Equipment& disconnect) {
    if (work.system.ratings<DisconnectRatings>(disconnect)->service_equipment)
        return;
    complain_in_words(work, disconnect, "service.listing", "Suitable as service equipment",
                      "its record does not say so",
                      {.rule = {},
                       .span = {},
                       .message = fmt::format("{} is the service disconnect, and not marked as "
                                              "suitable for use as service equipment",
                                              disconnect.id),
                       .expected = "a disconnect suitable as service equipment",
                       .hint = "where it is so marked, in its record: service_equipment = true"});
}

void check_device(Work& work, int index) {
    if (is_on_supply_side(work.system, index))
        return;
    const Equipment& e = at(work.system.equipment, index);
    if (!has_device_ahead(work.system, index)) {
        if (!few_breakers_serve(work, index))
            complain_of_no_device(work, e);
        return;
    }
    const auto* panel = e.as<Panel>();
    const Equipment* fused = fused_disconnect_ahead(work.system, index);
    if (fused != nullptr && (panel == nullptr || !panel->main))
        check_listing(work, *fused);
}

/// The rating of the service is that of its conductors and of the meter, which the main protects.
void check_main(Work& work, int index) {
    const Equipment& e = at(work.system.equipment, index);
    const auto* panel = e.as<Panel>();
    if (panel == nullptr || !panel->main || panel->main->value <= work.system.site.service)
        return;
    const auto main = main_of(work, index);
    const auto service = service_rating(work);
    require(
        work,
        {.subject = subject_of(e),
         .name = "service_kept",
         .symbol = {},
         .title = "Main breaker within the service",
         .cite = work.book.cite("service.main")},
        main, "≤", service,
        {.rule = "service.main",
         .span = panel->main->span,
         .message = fmt::format("{}: a {} main breaker on a service of {}", e.id, shown(main.value),
                                shown(service.value)),
         .expected = fmt::format("a main breaker of {} or less, or the rating that the service has",
                                 shown(service.value))});
}

} // namespace

void check_service_devices(Work& work) {
    for (int i = 0; i < static_cast<int>(work.system.equipment.size()); ++i) {
        if (!is_first_bus(work.system, i))
            continue;
        check_device(work, i);
        check_main(work, i);
    }
}

} // namespace ohmfolio::workings
