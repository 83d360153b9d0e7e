// Accessories: load controllers and what they switch, control wiring, drops of the trunk cable.

#include <algorithm>

#include <fmt/format.h>

#include "code/accessory_rules.h"
#include "study/loads.h"
#include "study/paragraphs.h"
#include "study/steps.h"

namespace ohmfolio::workings {

namespace {

/// What a controller cuts off: loads, and PV branches, which are of the higher voltage.
struct Controlled {
    std::vector<PanelLoad> loads;
    std::vector<const Equipment*> branches;

    int high() const { return static_cast<int>(branches.size() + loads.size()) - low(); }
    int low() const {
        return static_cast<int>(std::ranges::count_if(
            loads, [](const PanelLoad& load) { return load.circuit->poles == 1; }));
    }
};

Controlled controlled_by(const System& system, const std::string& controller) {
    Controlled result;
    for (const PanelLoad& load : all_loads(system)) {
        if (load.circuit->shed_by == controller)
            result.loads.push_back(load);
    }
    for (const Equipment& e : system.equipment) {
        const auto* branch = e.as<BranchArray>();
        if (branch != nullptr && branch->shed_by == controller)
            result.branches.push_back(&e);
    }
    return result;
}

std::string subject_of_controller(const LoadController& controller) {
    return "controller:" + controller.id;
}

void check_contact(Work& work, const LoadController& controller, const Record& record,
                   const std::string& name, const std::string& called, const Term<Amps>& device,
                   Span span) {
    const auto& ratings = std::get<LoadControllerRatings>(record.ratings);
    if (ratings.contact <= Amps{0})
        return;
    const auto contact = from_nameplate(work, record, "contact", "I_contact",
                                        "Rating of a relay contact", ratings.contact);
    require(work,
            {.subject = subject_of_controller(controller),
             .name = name,
             .symbol = {},
             .title = "Relay contact carries what protects " + called,
             .cite = work.book.cite(paragraph::equipment_limit)},
            contact, "≥", device,
            {.rule = "controller.contact",
             .span = span,
             .message = fmt::format("{} is on {}; a contact of {} carries {}", called,
                                    shown(device.value), controller.id, shown(contact.value)),
             .expected = fmt::format("a circuit on {} or less, or a contactor of its own",
                                     shown(contact.value))});
}

void check_contacts(Work& work, const LoadController& controller, const Record& record,
                    const Controlled& controlled) {
    for (std::size_t i = 0; i < controlled.loads.size(); ++i) {
        const PanelLoad& load = controlled.loads[i];
        check_contact(work, controller, record, fmt::format("contact_load_{}", i + 1),
                      load.circuit->name,
                      given("I_brk", load.circuit->breaker.value, "breaker of the load"),
                      load.circuit->breaker.span);
    }
    for (const Equipment* branch : controlled.branches) {
        const auto circuits = circuits_from(work.system, work.system.find(branch->id));
        const int index = circuits.empty() ? -1 : protecting_breaker(work.system, circuits.front());
        if (index < 0 || !at(work.breaker_rating, index))
            continue;
        check_contact(work, controller, record, "contact_" + branch->id, branch->id,
                      *at(work.breaker_rating, index), branch->span);
    }
}

int controllers_on(const System& system, int mid) {
    return static_cast<int>(std::ranges::count(system.load_controllers, mid, &LoadController::mid));
}

void check_controller(Work& work, const LoadController& controller) {
    const Record& record = at(work.system.catalogue.records, controller.record);
    const auto& ratings = std::get<LoadControllerRatings>(record.ratings);
    const Controlled controlled = controlled_by(work.system, controller.id);
    const auto verdict = check_controller_loads(work.desk(subject_of_controller(controller)),
                                                {.controllers = 1,
                                                 .loads_240 = controlled.high(),
                                                 .loads_120 = controlled.low(),
                                                 .takes_240 = ratings.loads_240,
                                                 .takes_120 = ratings.loads_120});
    complain_of_verdicts(
        work, {verdict},
        {.rule = {},
         .span = controller.span,
         .message = fmt::format("{}: {} two-pole and {} one-pole circuits; it takes {} or {}",
                                controller.id, controlled.high(), controlled.low(),
                                ratings.loads_240, ratings.loads_120),
         .expected = "fewer circuits on it, or another controller"});
    check_contacts(work, controller, record, controlled);
}

/// Counts and contacts are of whole things: zero of them is no divisor.
bool is_rated(const System& system, const LoadController& controller) {
    const auto& ratings =
        std::get<LoadControllerRatings>(at(system.catalogue.records, controller.record).ratings);
    return ratings.loads_240 > 0 && ratings.loads_120 > 0;
}

void check_count(Work& work, int mid) {
    const Equipment& device = at(work.system.equipment, mid);
    const auto* ratings = work.system.ratings<MidRatings>(device);
    const int used = controllers_on(work.system, mid);
    if (used == 0 || ratings == nullptr)
        return;
    const auto limit =
        ratings->load_controllers > 0 ? std::optional(ratings->load_controllers) : std::nullopt;
    complain_of_verdicts(work,
                         {check_controller_count(work.desk(subject_of(device)),
                                                 {.controllers = used, .limit = limit})},
                         {.rule = {},
                          .span = device.span,
                          .message = fmt::format("{}: {} load controllers", device.id, used),
                          .expected = "fewer load controllers, or another device"});
}

/// The shortest reach of the interconnect devices; nothing where none states one.
std::optional<Feet> control_limit(const System& system) {
    std::optional<Feet> least;
    for (const Equipment& e : system.equipment) {
        const auto* ratings = system.ratings<MidRatings>(e);
        if (ratings != nullptr && ratings->control_limit > Feet{0} &&
            (!least || ratings->control_limit < *least))
            least = ratings->control_limit;
    }
    return least;
}

void check_control_length(Work& work) {
    if (!work.system.control_length)
        return;
    const auto verdict = check_control_wiring(
        work.desk("site:control"),
        {given("L_control", work.system.control_length->value, "control wiring, as stated")},
        control_limit(work.system));
    complain_of_verdicts(work, {verdict},
                         {.rule = {},
                          .span = work.system.control_length->span,
                          .message = "control wiring",
                          .expected = "shorter wiring, or the devices nearer to each other"});
}

std::optional<Feet> if_stated(Feet value) {
    return value > Feet{0} ? std::optional(value) : std::nullopt;
}

void check_trunk_drops(Work& work, const Equipment& e, const BranchArray& branch) {
    const auto& module =
        std::get<ModuleRatings>(at(work.system.catalogue.records, branch.module).ratings);
    if (!branch.orientation || module.width <= Feet{0} || module.height <= Feet{0})
        return;
    const auto& inverter = std::get<MicroinverterRatings>(
        at(work.system.catalogue.records, branch.microinverter).ratings);
    const bool portrait = branch.orientation->value == Orientation::portrait;
    const auto spacing =
        if_stated(portrait ? inverter.drop_spacing_portrait : inverter.drop_spacing_landscape);
    const Feet pitch = portrait ? module.width : module.height;
    const auto result = judge_trunk(
        work.desk("trunk:" + e.id),
        {.modules = branch.count,
         .orientation = portrait ? ModuleOrientation::portrait : ModuleOrientation::landscape,
         .module_pitch = pitch,
         .drop_spacing = spacing,
         .length = spacing.value_or(pitch) * branch.count});
    complain_of_verdicts(
        work, result.verdicts,
        {.rule = {},
         .severity = Severity::warning,
         .span = branch.orientation->span,
         .message = fmt::format("{}: trunk cable under modules in {}", e.id,
                                portrait ? "portrait" : "landscape"),
         .expected = "a cable whose drops are as far apart as the modules, or some drops left out",
         .subject = subject_of(e)});
}

} // namespace

void check_accessories(Work& work) {
    for (const Equipment& e : work.system.equipment) {
        if (const auto* branch = e.as<BranchArray>())
            check_trunk_drops(work, e, *branch);
    }
    for (const LoadController& controller : work.system.load_controllers) {
        if (is_rated(work.system, controller))
            check_controller(work, controller);
    }
    for (int i = 0; i < static_cast<int>(work.system.equipment.size()); ++i) {
        if (at(work.system.equipment, i).is<Mid>())
            check_count(work, i);
    }
    check_control_length(work);
}

} // namespace ohmfolio::workings
