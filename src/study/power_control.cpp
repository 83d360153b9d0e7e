// Power control systems as such: listed, known to the edition, settings within what they guard.
// What a setting does for a point of connection is connection.cpp's business.

#include <fmt/format.h>

#include "code/power_control_rules.h"
#include "study/paragraphs.h"
#include "study/steps.h"
#include "study/strings.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

/// A listing is of a product: without it nobody can tell whose it is.
void warn_of_unnamed(Work& work, const PowerControl& control, const Equipment& e) {
    if (control.by >= 0)
        return;
    complain_of_missing(work, "control.listed",
                        {.rule = "control.device_unnamed",
                         .severity = Severity::warning,
                         .span = control.span,
                         .message = fmt::format("power control at {}: which equipment is, or "
                                                "holds, the power control system is not stated",
                                                e.id),
                         .expected = "the id of the equipment that is listed for it",
                         .hint = "by = \"...\"",
                         .subject = subject_of(e)});
}

/// The description has no words for them.
void state_unseen(Work& work, const Equipment& e) {
    work.study.worksheet.choose({.subject = subject_of(e),
                                 .name = "control_not_checked",
                                 .title = "Not checked here",
                                 .cite = work.book.cite("control.access"),
                                 .source = "to be seen on site"},
                                "that settings are marked, and open to qualified people only", {});
}

void check_one(Work& work, const PowerControl& control) {
    const Equipment& e = at(work.system.equipment, control.at);
    const auto total = sources_on(work, control.at);
    const auto bus = bus_rating(work, e);
    if (!total || !bus)
        return;
    const Desk desk = work.desk(subject_of(e));
    PowerControlInput input{.listed = !control.listing.empty(),
                            .access_restricted = {},
                            .settings_marked = {},
                            .sources_total = *total};
    // Their lines were written with the point of connection.
    if (control.bus)
        input.parts.push_back({"busbar", *bus, recall<Amps>(work, e.id + ".control_bus")});
    if (control.sources)
        input.sources_setting = recall<Amps>(work, e.id + ".control_sources");
    const auto result = check_power_control(desk, input);
    if (!result.known) {
        complain_of_missing(work, paragraph::bus_sources,
                            {.rule = "control.edition",
                             .severity = Severity::warning,
                             .span = control.span,
                             .message = fmt::format("{} knows no power control systems, so the "
                                                    "settings at {} count for nothing",
                                                    name(work.book.edition()), e.id),
                             .expected = "a connection that needs no settings",
                             .subject = subject_of(e)});
        return;
    }
    state_unseen(work, e);
    warn_of_unnamed(work, control, e);
    complain_of_verdicts(work, result.verdicts,
                         {.rule = {},
                          .span = control.span,
                          .message = fmt::format("power control at {}", e.id),
                          .expected = "a listed system with its setting within the rating of what "
                                      "it guards",
                          .hint = "listing = \"...\" names the standard"});
}

} // namespace

void check_power_controls(Work& work) {
    for (const PowerControl& control : work.system.power_controls) {
        check_one(work, control);
    }
}

} // namespace ohmfolio::workings
