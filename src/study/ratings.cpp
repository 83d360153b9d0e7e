// Ratings of equipment that carries a circuit without being its overcurrent device.

#include <algorithm>

#include <fmt/format.h>

#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

bool carries(Work& work, const Equipment& e, const Term<Amps>& rating, const Term<Amps>& required) {
    return require(work,
                   {.subject = subject_of(e),
                    .name = "rating_kept",
                    .symbol = {},
                    .title = "Disconnect carries its circuit",
                    .cite = work.book.cite(paragraph::equipment_limit)},
                   rating, "≥", required,
                   {.rule = "disconnect.rating",
                    .span = e.span,
                    .message = fmt::format("{}: a {} disconnect on a circuit that needs {}", e.id,
                                           shown(rating.value), shown(required.value)),
                    .expected = fmt::format("a disconnect of {} or more", shown(required.value))});
}

/// Without fuses of its own a switch withstands a fault only as far as the device ahead of it
/// limits how long it lasts, and no listing covers one smaller than that device. One that is too
/// small for its circuit already is reported once.
void check_protection(Work& work, const Equipment& e, const Term<Amps>& rating, int breaker,
                      bool report) {
    const std::string tag = at(work.system.breakers, breaker).tag;
    const auto device = rating_of(work, breaker);
    if (!device)
        return;
    const bool passes =
        work.study.worksheet.check({.subject = subject_of(e),
                                    .name = "protection_kept",
                                    .symbol = {},
                                    .title = "Unfused disconnect protected by " + tag,
                                    .cite = work.book.cite(paragraph::equipment_protection)},
                                   rating, "≥", *device);
    if (passes || !report)
        return;
    complain(work, work.study.worksheet.all().back().id,
             {.rule = "disconnect.protection",
              .span = e.span,
              .message = fmt::format("{}: a {} unfused disconnect behind {}, which is {}", e.id,
                                     shown(rating.value), tag, shown(device->value)),
              .expected = fmt::format("a disconnect of {} or more, or one with fuses",
                                      shown(device->value))});
}

/// A switch opens all ungrounded conductors of its circuit at once.
void check_poles(Work& work, const Equipment& e, int poles, int lines) {
    const Citation cite = work.book.cite(paragraph::equipment_limit);
    if (lines <= 2 && poles >= lines)
        return; // as nearly every switch has them: not worth a line
    const bool passes = work.study.worksheet.judge(
        {.subject = subject_of(e),
         .name = "poles_kept",
         .symbol = {},
         .title = "Opens all ungrounded conductors",
         .cite = cite},
        fmt::format("{} poles, {} ungrounded conductors", poles, lines), poles >= lines, {});
    if (passes)
        return;
    complain(work, work.study.worksheet.all().back().id,
             {.rule = "disconnect.poles",
              .span = e.span,
              .message = fmt::format("{}: a switch of {} poles on a circuit of {} ungrounded "
                                     "conductors",
                                     e.id, poles, lines),
              .expected = fmt::format("a disconnect of {} poles", lines)});
}

void check_disconnect(Work& work, int index, const DisconnectRatings& ratings) {
    const Equipment& e = at(work.system.equipment, index);
    const auto circuits = circuits_from(work.system, index);
    if (circuits.empty() || !at(work.load, circuits.front()))
        return;
    check_poles(work, e, ratings.poles, at(work.system.circuits, circuits.front()).lines);
    const auto rating = from_nameplate(work, *work.system.record(e), "rating", "I_switch",
                                       "Rating of the disconnect", ratings.rating);
    const bool carried = carries(work, e, rating, at(work.load, circuits.front())->required);
    const int breaker = protecting_breaker(work.system, circuits.front());
    if (!ratings.fused && breaker >= 0)
        check_protection(work, e, rating, breaker, carried);
}

/// The socket carries what goes through it; behind current transformers only a share of it does.
void check_meter(Work& work, int index, const MeterRatings& ratings) {
    const Equipment& e = at(work.system.equipment, index);
    std::optional<Term<Amps>> required;
    for (const int circuit : circuits_into(work.system, index)) {
        if (at(work.load, circuit))
            required = at(work.load, circuit)->required;
    }
    if (!required || !ratings.transformer_ratio.empty())
        return;
    const auto rating = from_nameplate(work, *work.system.record(e), "rating", "I_meter",
                                       "Rating of the meter socket", ratings.rating);
    require(work,
            {.subject = subject_of(e),
             .name = "rating_kept",
             .symbol = {},
             .title = "Meter socket carries its circuit",
             .cite = work.book.cite(paragraph::equipment_limit)},
            rating, "≥", *required,
            {.rule = "meter.rating",
             .span = e.span,
             .message = fmt::format("{}: a {} meter socket on a circuit that needs {}", e.id,
                                    shown(rating.value), shown(required->value)),
             .expected = fmt::format("a meter socket of {} or more", shown(required->value)),
             .hint = "behind current transformers: transformer_ratio in its record"});
}

} // namespace

void check_meters(Work& work) {
    for (int i = 0; i < static_cast<int>(work.system.equipment.size()); ++i) {
        if (const auto* ratings = work.system.ratings<MeterRatings>(at(work.system.equipment, i)))
            check_meter(work, i, *ratings);
    }
}

void check_disconnects(Work& work) {
    for (int i = 0; i < static_cast<int>(work.system.equipment.size()); ++i) {
        const Equipment& e = at(work.system.equipment, i);
        if (const auto* ratings = work.system.ratings<DisconnectRatings>(e))
            check_disconnect(work, i, *ratings);
        if (const auto* transfer = work.system.ratings<TransferSwitchRatings>(e))
            check_poles(work, e, transfer->poles, work.system.lines_at(i));
    }
}

} // namespace ohmfolio::workings
