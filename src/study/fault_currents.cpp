// Available fault current from the utility to each enclosure, and whether what stands there
// interrupts or withstands it.
//
// Along the lines of the power wiring by the point-to-point method, from what the utility states or
// from its transformer. Inverters add little and for less than a cycle; their records say nothing
// of it, so nothing is added for them.

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "base/text.h"
#include "code/rules.h"
#include "study/fault_currents.h"
#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

std::optional<Amps> interrupting_of(const Record& record) {
    if (const auto* combiner = std::get_if<CombinerRatings>(&record.ratings))
        return combiner->interrupting;
    if (const auto* mid = std::get_if<MidRatings>(&record.ratings))
        return mid->interrupting;
    if (const auto* panel = std::get_if<PanelRatings>(&record.ratings))
        return panel->interrupting;
    if (const auto* disconnect = std::get_if<DisconnectRatings>(&record.ratings))
        return disconnect->interrupting;
    if (const auto* inverter = std::get_if<StringInverterRatings>(&record.ratings))
        return inverter->interrupting;
    if (const auto* transfer = std::get_if<TransferSwitchRatings>(&record.ratings))
        return transfer->interrupting;
    if (const auto* supply = std::get_if<SupplyConnectionRatings>(&record.ratings))
        return supply->interrupting;
    return {};
}

/// The first bus behind the meter: where the service conductors end.
bool is_service_equipment(const System& system, const Equipment& e) {
    return is_bus(e) && std::ranges::any_of(system.circuits, [&](const Circuit& circuit) {
               return circuit.use == CircuitUse::service &&
                      &at(system.equipment, system.child_of(circuit)) == &e;
           });
}

/// Lines about a place stand under a subject of their own, so that they read as one calculation.
std::string fault_subject(const Equipment& e) { return "fault:" + e.id; }

class FaultCurrents {
  public:
    explicit FaultCurrents(Work& work) : work_(work) {}

    /// At the terminals of `index`: what is stated there, else what is left of that nearer the
    /// service. Nothing where neither is known.
    std::optional<Term<Amps>> at(int index) {
        if (const auto known = known_.find(index); known != known_.end())
            return known->second;
        const auto current = derive(index);
        known_.emplace(index, current);
        return current;
    }

  private:
    std::optional<Term<Amps>> derive(int index) {
        const Equipment& e = workings::at(work_.system.equipment, index);
        if (e.fault_current) {
            const auto current = stated(e);
            check_stated(index, current);
            return current;
        }
        if (e.is<Utility>())
            return at_service();
        const auto available = at(e.parent);
        const auto circuits = circuits_from(work_.system, index);
        if (!available || circuits.empty())
            return available;
        return after(e, *available, circuits.front());
    }

    Term<Amps> stated(const Equipment& e) {
        return state_once(work_,
                          {.subject = fault_subject(e),
                           .name = "fault_current",
                           .symbol = "I_f",
                           .title = "Available fault current at " + e.id,
                           .cite = {},
                           .source = "as stated in the description",
                           .as = ShownAs::kiloamps},
                          e.fault_current->value);
    }

    /// A fault that draws less than the device ahead lets through in use would never open it: a
    /// kilo was left out.
    void check_stated(int index, const Term<Amps>& stated) {
        const Equipment& e = workings::at(work_.system.equipment, index);
        const auto device = main_of(work_, index);
        if (stated.value > device.value)
            return;
        require(work_,
                {.subject = fault_subject(e),
                 .name = "stated_kept",
                 .symbol = {},
                 .title = "Stated fault current above the rating of the device ahead",
                 .cite = work_.book.cite(paragraph::interrupting)},
                device, "<", stated,
                {.rule = "fault.stated",
                 .span = e.fault_current->span,
                 .message = fmt::format("{}: a fault current of {} would not open the device "
                                        "ahead, which is {}",
                                        e.id, shown(stated.value), shown(device.value)),
                 .expected = "the fault current available there, in kA",
                 .hint = fmt::format("did you mean \"{} kA\"?", trimmed(stated.value.value, 2)),
                 .subject = subject_of(e)});
    }

    std::optional<Term<Amps>> at_service() {
        if (work_.system.site.transformer)
            return work_.study.worksheet.define({.subject = "site:service",
                                                 .name = "fault_available",
                                                 .symbol = "I_fault",
                                                 .title = "Available fault current at the service",
                                                 .cite = work_.book.cite("fault.run"),
                                                 .as = ShownAs::kiloamps},
                                                behind_transformer(*work_.system.site.transformer));
        if (work_.system.site.fault_current.value <= 0)
            return {};
        return state_once(work_,
                          {.subject = "site:service",
                           .name = "fault_current",
                           .symbol = "I_fault",
                           .title = "Available fault current at the service",
                           .cite = {},
                           .source = "as stated in the description",
                           .as = ShownAs::kiloamps},
                          work_.system.site.fault_current);
    }

    /// A fault to neutral is the higher one at the transformer and the lower one far from it: the
    /// greater of the two counts.
    Term<Amps> behind_transformer(const ServiceTransformer& transformer) {
        const Desk desk = work_.desk("site:service");
        const Site& site = work_.system.site;
        const bool wye = is_wye(site.supply);
        const auto lines = transformer_fault_current(desk, {.rating = transformer.power.value,
                                                            .secondary = site.voltage,
                                                            .phases = wye ? 3 : 1,
                                                            .impedance = transformer.impedance});
        FaultRunInput run{.available = lines,
                          .path = lines_of(site.supply) == 3 ? FaultPath::three_phase
                                                             : FaultPath::line_to_line,
                          .voltage = site.voltage,
                          .length = transformer.service_length,
                          .size = transformer.service_size,
                          .material = transformer.service_material,
                          .raceway = RacewayKind::free_air,
                          .sets = transformer.service_sets};
        const auto between_lines = fault_current_after_run(desk, run);
        if (wye) // a fault of all three lines is the greatest there is
            return between_lines.found ? between_lines.current : lines;
        run.available = fault_to_neutral(desk, lines);
        run.path = FaultPath::line_to_neutral;
        run.voltage = site.to_neutral;
        const auto to_neutral = fault_current_after_run(desk, run);
        if (!between_lines.found || !to_neutral.found)
            return lines;
        return larger(between_lines.current, to_neutral.current);
    }

    /// What is left where the run to `e` ends. Conductors that are not sized, such as the
    /// utility's, take nothing off: the safe side.
    Term<Amps> after(const Equipment& e, const Term<Amps>& available, int circuit) {
        const Circuit& c = workings::at(work_.system.circuits, circuit);
        const CircuitStudy& study = workings::at(work_.study.circuits, circuit);
        const Run& run = workings::at(work_.system.runs, c.run);
        if (!study.sized || c.by_utility || c.direct_current || study.listed_assembly)
            return available;
        const auto ahead =
            work_.study.worksheet.define({.subject = fault_subject(e),
                                          .name = "fault_ahead",
                                          .symbol = "I_ahead",
                                          .title = "Fault current where the run begins",
                                          .cite = work_.book.cite("fault.run"),
                                          .as = ShownAs::kiloamps},
                                         available);
        const auto result = fault_current_after_run(
            work_.desk(fault_subject(e)),
            {.available = ahead,
             .path = path_of(c),
             .voltage = c.lines == 1 ? work_.system.site.to_neutral : work_.system.site.voltage,
             .length = run.length,
             .size = study.size,
             .material = c.material,
             .raceway = run.raceway,
             .sets = run.parallel_sets});
        return result.found ? result.current : available;
    }

    /// Lines of a wye that a single-phase circuit takes along carry less than all three would; the
    /// current where it begins is taken all the same, which is the safe side.
    static FaultPath path_of(const Circuit& circuit) {
        return circuit.lines == 3 ? FaultPath::three_phase : FaultPath::line_to_line;
    }

    Work& work_;
    std::map<int, std::optional<Term<Amps>>> known_;
};

/// With as many digits as it takes to see that it is more.
std::string told_apart(const Term<Amps>& available, const Term<Amps>& rating) {
    const bool alike = shown_kiloamps(available.value) == shown_kiloamps(rating.value);
    return shown_kiloamps(available.value, alike ? Digits::full : Digits::usual);
}

void check_interrupting(Work& work, const Equipment& e, const Record& record, Amps rating,
                        const Term<Amps>& available) {
    const bool at_service = is_service_equipment(work.system, e);
    const auto interrupting = from_nameplate(work, record, "interrupting", "I_int",
                                             "Interrupting rating", rating, ShownAs::kiloamps);
    require(work,
            {.subject = subject_of(e),
             .name = "interrupting_kept",
             .symbol = {},
             .title = "Interrupting rating at the available fault current",
             .cite = work.book.cite(paragraph::interrupting),
             .as = ShownAs::kiloamps},
            interrupting, "≥", available,
            {.rule = at_service ? "fault.service" : "fault.beyond",
             .span = e.span,
             .message = fmt::format("{}: interrupts {}; {} is available", e.id,
                                    shown_kiloamps(interrupting.value),
                                    told_apart(available, interrupting)),
             .expected = fmt::format("equipment rated {} or more", shown_kiloamps(available.value)),
             .hint = at_service ? std::string{}
                                : std::string("where field data or an engineer's study shows less, "
                                              "state it here: fault_current = \"... kA\"")});
}

/// The utility's fault current ends at a converter; what storage feeds is told in dc_storage.cpp.
bool on_dc_side(const System& system, int equipment) {
    return std::ranges::any_of(circuits_from(system, equipment), [&](int circuit) {
        return at(system.circuits, circuit).direct_current;
    });
}

/// Breakers of alternating current that an enclosure holds.
std::vector<std::string> breakers_in(const System& system, int equipment) {
    std::vector<std::string> tags;
    for (const Breaker& breaker : system.breakers) {
        if (breaker.at == equipment && !at(system.circuits, breaker.circuit).direct_current)
            tags.push_back(breaker.tag);
    }
    return tags;
}

/// Breakers in an inverter, of whose rating its record says nothing.
void warn_of_unrated(Work& work, const Equipment& e, const std::vector<std::string>& breakers,
                     const std::optional<Term<Amps>>& available) {
    const std::string there =
        available ? fmt::format("{} is available there", shown_kiloamps(available->value))
                  : std::string("the fault current available there is not known");
    complain_of_missing(
        work, paragraph::interrupting,
        {.rule = "fault.unrated",
         .severity = Severity::warning,
         .span = e.span,
         .message = fmt::format("{}: its record does not state the interrupting rating of {}; {}",
                                e.id, join(breakers, ", "), there),
         .expected = "the interrupting rating of the breakers that it holds",
         .hint = "`interrupting` in the record of the inverter",
         .subject = subject_of(e)});
}

/// One warning for all places that could not be checked.
void warn_of_missing(Work& work, const std::vector<std::string>& unchecked) {
    if (unchecked.empty())
        return;
    complain_of_missing(
        work, paragraph::interrupting,
        {.rule = "fault.missing",
         .severity = Severity::warning,
         .span = {},
         .message = fmt::format("the fault current available at the service is not stated, so the "
                                "interrupting rating of {} cannot be checked",
                                join(unchecked, ", ")),
         .expected = "the fault current as the utility states it, or its transformer",
         .hint = "[site] fault_current = \"... kA\", or transformer = { power, impedance, length, "
                 "size }",
         .subject = "site:service"});
}

/// The sheets state it and the service equipment is marked with it (110.24), also where no rating
/// was held against it.
void derive_at_service(const Work& work, FaultCurrents& faults) {
    if (work.system.site.transformer)
        faults.at(work.system.root());
}

} // namespace

void check_interrupting_ratings(Work& work) {
    FaultCurrents faults(work);
    std::vector<std::string> unchecked;
    for (int i = 0; i < static_cast<int>(work.system.equipment.size()); ++i) {
        const Equipment& e = at(work.system.equipment, i);
        const Record* record = work.system.record(e);
        const auto rating = record == nullptr ? std::nullopt : interrupting_of(*record);
        if (!rating || on_dc_side(work.system, i))
            continue;
        if (e.is<Inverter>()) {
            // Without a breaker of alternating current nothing in it interrupts the utility's.
            const auto breakers = breakers_in(work.system, i);
            if (breakers.empty())
                continue;
            if (rating->value <= 0)
                warn_of_unrated(work, e, breakers, faults.at(i));
        }
        if (rating->value <= 0)
            continue;
        if (const auto available = faults.at(i)) {
            check_interrupting(work, e, *record, *rating, *available);
        } else {
            unchecked.push_back(e.id);
        }
    }
    warn_of_missing(work, unchecked);
    derive_at_service(work, faults);
    for (std::size_t i = 0; i < work.system.breakers.size(); ++i) {
        const Record* record =
            work.system.record(at(work.system.equipment, work.system.breakers[i].at));
        const auto rating = record == nullptr ? std::nullopt : interrupting_of(*record);
        work.study.breakers[i].interrupting = rating.value_or(Amps{});
    }
}

} // namespace ohmfolio::workings

namespace ohmfolio {

ServiceFault fault_at_service(const System& system, const Study& study) {
    if (system.site.fault_current > Amps{})
        return {system.site.fault_current, false};
    const Derivation* line = study.worksheet.find("service.fault_available");
    return line == nullptr ? ServiceFault{} : ServiceFault{Amps{line->value}, true};
}

} // namespace ohmfolio
