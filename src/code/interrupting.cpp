// Ratings against the available fault current, and its marking.
#include "code/fault_rules.h"
#include "code/line.h"

namespace ohmfolio {

namespace {

/// One condition of a series rating that is not a number.
bool stated(const Desk& desk, const std::string& name, const std::string& title, bool holds,
            const std::string& yes, const std::string& no, std::vector<std::string>& faults) {
    if (!holds)
        faults.push_back(no);
    return desk.sheet.judge(line_for(desk, name, "", title, desk.book.cite("equipment.series")),
                            holds ? yes : no, holds, {});
}

bool motors_within(const Desk& desk, const InterruptingInput& input, Amps motors,
                   std::vector<std::string>& faults) {
    const auto most = desk.sheet.define(line_for(desk, "series_motors_most", "I_motors.max",
                                                 "Motors between the two devices",
                                                 desk.book.cite("equipment.series.motors")),
                                        factor(desk.book.number("series.motors")) * input.rating);
    const bool holds =
        desk.sheet.check(line_for(desk, "series_motors", "", "Motors between the two devices",
                                  desk.book.cite("equipment.series.motors")),
                         given("I_motors", motors), "≤", most);
    if (!holds)
        faults.push_back("motors of " + shown(motors) +
                         " between the series-rated devices are above " + shown(most.value));
    return holds;
}

InterruptingResult check_series(const Desk& desk, const InterruptingInput& input) {
    const SeriesRating& series = *input.series;
    InterruptingResult result{.by_series_rating = true};
    const bool enough = desk.sheet.check(
        line_for(desk, "series_check", "",
                 "Series rating with " + series.with + " covers the fault current",
                 desk.book.cite("equipment.series"), ShownAs::kiloamps),
        given("I_series", series.rating, {}, ShownAs::kiloamps), "≥", input.available);
    if (!enough)
        result.faults.push_back("series rating of " + shown_kiloamps(series.rating) +
                                " is below the " + shown_kiloamps(input.available.value) +
                                " available");
    const bool listed =
        stated(desk, "series_listed", "Series combination", series.listed,
               "tested combination with " + series.with,
               "not stated to be a tested combination with " + series.with, result.faults);
    const bool marked = stated(desk, "series_marked", "Marking of the series combination",
                               series.marked, "marked on the equipment",
                               "not stated to be marked on the equipment", result.faults);
    const bool motors = motors_within(desk, input, series.motors, result.faults);
    result.passes = enough && listed && marked && motors;
    return result;
}

/// A run whose fault current could not be worked out leaves 0 A, which every rating would cover.
InterruptingResult unknown_fault_current(const Desk& desk, const InterruptingInput& input) {
    const std::string fault = "the available fault current is not known";
    desk.sheet.judge(line_for(desk, "interrupting_check", "", "Available fault current",
                              desk.book.cite(input.interrupts ? "equipment.interrupting"
                                                              : "equipment.withstand")),
                     fault, false, input.available.from);
    return {.passes = false, .faults = {fault}};
}

} // namespace

InterruptingResult check_interrupting(const Desk& desk, const InterruptingInput& input) {
    if (input.available.value <= Amps{})
        return unknown_fault_current(desk, input);
    const bool fully = input.rating.value >= input.available.value;
    if (!fully && input.series)
        return check_series(desk, input);
    const std::string rule = input.interrupts ? "equipment.interrupting" : "equipment.withstand";
    InterruptingResult result;
    result.passes = desk.sheet.check(
        line_for(desk, "interrupting_check", "",
                 input.interrupts ? "Device interrupts the available fault current"
                                  : "Equipment withstands the available fault current",
                 desk.book.cite(rule), ShownAs::kiloamps),
        input.rating, "≥", input.available);
    if (!result.passes)
        result.faults.push_back("rating of " + shown_kiloamps(input.rating.value) +
                                " is below the " + shown_kiloamps(input.available.value) +
                                " available");
    return result;
}

bool needs_fault_marking(const Desk& desk, const FaultMarkingInput& input) {
    std::string why = "service equipment other than of a dwelling unit";
    bool needed = true;
    if (!input.service_equipment) {
        needed = false;
        why = "not service equipment";
    } else if (input.dwelling) {
        needed = false;
        why = "service equipment of a dwelling unit";
    } else if (input.qualified_industrial) {
        needed = false;
        why = "industrial, serviced by qualified persons alone";
    }
    const bool anew = needed && input.modified;
    Heading line = line_for(desk, "fault_marking", "", "Marking of the available fault current",
                            desk.book.cite(anew ? "fault.marking.anew" : "fault.marking"));
    line.governs = why;
    const std::string marked = anew ? "verified or calculated anew, with the date of that"
                                    : "with the date of its calculation";
    desk.sheet.choose(line, needed ? marked : "not required", {});
    return needed;
}

} // namespace ohmfolio
