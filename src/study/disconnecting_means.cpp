// Disconnecting means that must be there: the initiation device of rapid shutdown, and a switch
// between storage and its bus.

#include <algorithm>
#include <array>
#include <set>

#include <fmt/format.h>

#include "base/text.h"
#include "study/paragraphs.h"
#include "study/steps.h"

namespace ohmfolio::workings {

namespace {

/// Words of a location that put a device indoors, unless it says that it is outside.
constexpr std::array<std::string_view, 4> indoors = {"ATTIC", "BASEMENT", "INSIDE", "GARAGE"};

bool sounds_indoors(const std::string& location) {
    const std::string words = upper(location);
    const auto says = [&](std::string_view word) { return words.find(word) != std::string::npos; };
    return std::ranges::any_of(indoors, says) && !says("OUTSIDE");
}

/// Where the initiation device of a dwelling stands is seen in the field; a location in words that
/// say indoors is worth a second look.
void advise_on_location(Work& work, const Equipment& e) {
    if (!is_dwelling(work.system) || !sounds_indoors(e.location))
        return;
    complain_of_missing(
        work, paragraph::shutdown_initiator,
        {.rule = "shutdown.location",
         .severity = Severity::advice,
         .span = e.span,
         .message = fmt::format("{} starts rapid shutdown and its location reads \"{}\"; at a "
                                "dwelling it must be outside, where it can be reached readily",
                                e.id, e.location),
         .expected = "a place outside the building",
         .hint = "where it is outside, say so in its location",
         .subject = subject_of(e)});
}

bool stands_below(const System& system, int equipment, int head) {
    return first_upward(system, equipment, [&](int i) { return i == head; }) >= 0;
}

/// Whether opening the disconnect takes the power from the array: it is on the way to the utility,
/// and neither the array nor anything between the two carries on as an island.
bool takes_power_from(const System& system, int array, int disconnect) {
    const int island = island_head(system, array);
    return stands_below(system, array, disconnect) &&
           (island < 0 || !stands_below(system, island, disconnect)) &&
           !forms_by_sun(system, at(system.equipment, array));
}

bool shuts_down(const System& system, int array, int disconnect) {
    const auto* initiator = at(system.equipment, disconnect).as<Disconnect>();
    return initiator != nullptr && initiator->rapid_shutdown &&
           (initiator->shutdown_contact || takes_power_from(system, array, disconnect));
}

bool any_shuts_down(const System& system, int array) {
    for (int i = 0; i < static_cast<int>(system.equipment.size()); ++i) {
        if (shuts_down(system, array, i))
            return true;
    }
    return false;
}

bool is_array(const Equipment& e) { return e.is<BranchArray>() || e.is<StringArray>(); }

/// Arrays that none of the marked disconnects takes the power from, nor tells to shut down.
void warn_of_arrays_left_live(Work& work) {
    const System& system = work.system;
    std::set<Span> told; // a line that describes many of a kind is told of once
    for (int array = 0; array < static_cast<int>(system.equipment.size()); ++array) {
        const Equipment& e = at(system.equipment, array);
        if (!is_array(e) || any_shuts_down(system, array) || !told.insert(e.span).second)
            continue;
        complain_of_missing(
            work, paragraph::shutdown_initiator,
            {.rule = "shutdown.initiator.effect",
             .severity = Severity::warning,
             .span = e.span,
             .message = fmt::format("{}: no disconnect that starts rapid shutdown ends it: opening "
                                    "it leaves a source that carries on islanded, or is not on the "
                                    "way from the array",
                                    e.id),
             .expected = "an initiator that takes the power from the array, or tells it to shut "
                         "down",
             .hint = "on the disconnect: shutdown_contact = true, where a contact of it is wired "
                     "to the inverters or the electronics",
             .subject = subject_of(e)});
    }
}

/// A combiner or panel with nothing but storage on it: one disconnect behind it serves all units.
bool joins_storage_alone(const System& system, int bus) {
    const Equipment& e = at(system.equipment, bus);
    const auto* panel = e.as<Panel>();
    return (e.is<Combiner>() || (panel != nullptr && panel->collects)) &&
           std::ranges::all_of(system.subtree(bus), [&](int i) {
               const Equipment& below = at(system.equipment, i);
               return !is_source(below) || below.is<Battery>();
           });
}

/// Whether a disconnect that `accepts` lies on the way from `equipment` to the first bus, the one
/// that it stands on included.
template <class Accepts>
bool disconnected_before_bus(const System& system, int equipment, Accepts accepts) {
    for (int i = at(system.equipment, equipment).parent; i >= 0;
         i = at(system.equipment, i).parent) {
        const Equipment& e = at(system.equipment, i);
        const auto* disconnect = e.as<Disconnect>();
        if (disconnect != nullptr && accepts(*disconnect))
            return true;
        if (e.is<Inverter>() || (is_bus(e) && !joins_storage_alone(system, i)))
            return false;
    }
    return false;
}

bool has_storage_disconnect(const System& system, int battery) {
    const auto* ratings = system.ratings<BatteryRatings>(at(system.equipment, battery));
    return (ratings != nullptr && ratings->disconnect) ||
           disconnected_before_bus(system, battery, [](const Disconnect& d) { return d.storage; });
}

/// A unit behind another of the chain that lacks it too is not reported again.
bool reported_with_parent(const System& system, int battery) {
    const int parent = at(system.equipment, battery).parent;
    return at(system.equipment, parent).is<Battery>() && !has_storage_disconnect(system, parent);
}

} // namespace

void check_shutdown_initiator(Work& work) {
    const auto array = std::ranges::find_if(work.system.equipment, is_array);
    if (array == work.system.equipment.end())
        return;
    bool found = false;
    for (const Equipment& e : work.system.equipment) {
        const auto* disconnect = e.as<Disconnect>();
        if (disconnect == nullptr || !disconnect->rapid_shutdown)
            continue;
        found = true;
        advise_on_location(work, e);
    }
    if (found) {
        warn_of_arrays_left_live(work);
        return;
    }
    complain_of_missing(work, paragraph::shutdown_initiator,
                        {.rule = "shutdown.initiator",
                         .span = array->span,
                         .message = "no disconnect is marked to start rapid shutdown of the PV on "
                                    "the building",
                         .expected = "one disconnect that starts rapid shutdown",
                         .hint = "on the disconnect: use = [\"rapid shutdown\"]",
                         .subject = "site:rapid_shutdown"});
}

void check_storage_disconnects(Work& work) {
    for (const int battery : batteries_below(work.system, work.system.root())) {
        if (has_storage_disconnect(work.system, battery) ||
            reported_with_parent(work.system, battery))
            continue;
        const Equipment& e = at(work.system.equipment, battery);
        complain_of_missing(
            work, paragraph::storage_disconnect,
            {.rule = "storage.disconnect",
             .span = e.span,
             .message = fmt::format("{}: no disconnecting means between it and its busbar", e.id),
             .expected = "a disconnect for the storage, or units that hold one",
             .hint =
                 "on the disconnect: use = [\"storage\"]; in the record of units that hold one: "
                 "disconnect = true",
             .subject = subject_of(e)});
    }
}

} // namespace ohmfolio::workings
