#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "input/faults.h"
#include "input/holds_together.h"
#include "input/topology.h"

namespace ohmfolio {
namespace {

class Terminals {
  public:
    Terminals(const System& system, const std::vector<Declared>& all, Findings& findings)
        : system_(system), all_(all), findings_(findings) {}

    void check() {
        for (int i = 0; i < static_cast<int>(all_.size()); ++i) {
            if (at(i).form == nullptr) {
                continue;
            }
            check_inputs(i);
            check_breaker(i);
            check_run(i);
            check_backup(i);
        }
        check_grounding();
    }

  private:
    const Declared& at(int index) const { return all_[static_cast<std::size_t>(index)]; }
    const Equipment& equipment(int index) const { return at(index).equipment; }

    void report(std::string rule, int about, std::string_view key, std::string message,
                Advice advice) {
        findings_.push_back(input_fault(std::move(rule), at(about).form->span_of(key),
                                        at(about).subject(), std::move(message),
                                        std::move(advice)));
    }

    void check_inputs(int index) {
        const Equipment& e = equipment(index);
        if (e.is<Disconnect>() || e.is<Meter>() || e.is<Battery>()) {
            check_single_input(index);
        } else if (e.is<Combiner>()) {
            check_combiner(index);
        } else if (e.is<Mid>()) {
            check_mid(index);
        } else if (e.is<Inverter>()) {
            check_inverter(index);
        } else if (e.is<TransferSwitch>()) {
            check_transfer_switch(index);
        }
        if (e.is<Battery>() && e.parent >= 0 && !equipment(e.parent).is<Battery>()) {
            check_battery_side(index);
        }
        if (e.is<Panel>()) {
            check_collector(index);
        }
    }

    /// Direct current goes to an inverter, alternating current to anything else.
    void check_battery_side(int index) {
        const auto* ratings = system_.ratings<BatteryRatings>(equipment(index));
        int to = equipment(index).parent;
        while (to >= 0 && equipment(to).is<Disconnect>()) {
            to = equipment(to).parent;
        }
        if (ratings == nullptr || to < 0 ||
            ratings->direct_current() == equipment(to).is<Inverter>()) {
            return;
        }
        report("input.reference_kind", index, "feeds",
               fmt::format("battery \"{}\" has {} terminals and cannot feed {} \"{}\"",
                           equipment(index).id, ratings->direct_current() ? "DC" : "AC",
                           kind_word(equipment(to)), equipment(to).id),
               {ratings->direct_current()
                    ? "the battery input of an inverter, or a disconnect ahead of it"
                    : "a combiner, a disconnect, a MID or a panel",
                ratings->direct_current() ? "" : "a record with a `window` has DC terminals"});
    }

    /// A panel that joins sources: no loads, and no panels of loads on it.
    void check_collector(int index) {
        const auto* panel = equipment(index).as<Panel>();
        if (!panel->collects) {
            const int parent = equipment(index).parent;
            if (parent >= 0 && equipment(parent).is<Mid>() && !at(index).on_backup) {
                report("input.reference_kind", index, "feeds",
                       fmt::format("panel \"{}\" has loads and cannot feed a source input of MID "
                                   "\"{}\"",
                                   equipment(index).id, equipment(parent).id),
                       {"a panel with collects = true, or `backs_up` in the MID", ""});
            }
            return;
        }
        if (!panel->loads.empty()) {
            report(
                "input.no_place", index, "loads",
                fmt::format("panel \"{}\" collects sources: it has no loads", equipment(index).id),
                {"loads on another panel, or no `collects`", ""});
        }
        for (const int child : system_.children(index)) {
            if (has_loads(equipment(child))) {
                report("input.terminal", child, "feeds",
                       fmt::format("panel \"{}\" collects sources and \"{}\" has loads",
                                   equipment(index).id, equipment(child).id),
                       {"sources only on a panel that collects them", ""});
            }
        }
    }

    void check_inverter(int index) {
        const auto* ratings = system_.ratings<StringInverterRatings>(equipment(index));
        if (ratings == nullptr || ratings->inputs == 0) {
            return;
        }
        check_strings(index, ratings);
        check_battery_inputs(index, ratings->battery.inputs);
        if (at(index).form->written("backs_up") && ratings->backup.output <= Watts{0}) {
            report("input.no_place", index, "backs_up",
                   fmt::format("inverter \"{}\" has no backup output", equipment(index).id),
                   {"an inverter whose record states `backup_output`", "or a MID"});
        }
    }

    /// As many circuits of storage as the inverter has battery inputs.
    void check_battery_inputs(int index, int inputs) {
        int taken = 0;
        for (const int child : system_.children(index)) {
            if (equipment(child).is<StringArray>() || equipment(child).is<Panel>()) {
                continue;
            }
            if (!carries_direct_current(system_, child)) {
                if (!equipment(child).is<Battery>()) { // of a battery the terminals are told
                    report("input.reference_kind", child, "feeds",
                           fmt::format("\"{}\" brings no storage to inverter \"{}\"",
                                       equipment(child).id, equipment(index).id),
                           {"a battery with DC terminals behind it", ""});
                }
            } else if (++taken == inputs + 1) {
                report("input.terminal", child, "feeds",
                       fmt::format("no battery input of inverter \"{}\" is left for \"{}\"",
                                   equipment(index).id, equipment(child).id),
                       {inputs == 0 ? "an inverter whose record states `battery_inputs`"
                                    : fmt::format("at most {} on its battery inputs", inputs),
                        inputs == 0 ? "" : "chain the units"});
            }
        }
    }

    /// Inputs that exist, and no more strings on one than it has terminals.
    void check_strings(int index, const StringInverterRatings* ratings) {
        std::map<int, int> taken;
        for (const int child : system_.children(index)) {
            const auto* array = equipment(child).as<StringArray>();
            if (array == nullptr) {
                continue;
            }
            if (array->input.value > ratings->inputs) {
                report("input.terminal", child, "input",
                       fmt::format("inverter \"{}\" has no input {}", equipment(index).id,
                                   array->input.value),
                       {fmt::format("an input from 1 to {}", ratings->inputs), ""});
            }
            const int before = taken[array->input.value];
            taken[array->input.value] += array->strings;
            if (before <= ratings->strings_per_input &&
                taken[array->input.value] > ratings->strings_per_input) {
                report("input.terminal", child, "input",
                       fmt::format("{} strings on input {} of \"{}\", which takes {}",
                                   taken[array->input.value], array->input.value,
                                   equipment(index).id, ratings->strings_per_input),
                       {fmt::format("at most {} strings on an input", ratings->strings_per_input),
                        "use another input"});
            }
        }
    }

    /// A generator on one side; what it backs up, on the other.
    void check_transfer_switch(int index) {
        int generators = 0;
        for (const int child : system_.children(index)) {
            if (equipment(child).is<Panel>()) {
                continue;
            }
            if (!behind(system_, child).generator) {
                report("input.terminal", child, "feeds",
                       fmt::format("\"{}\" is no generator", equipment(child).id),
                       {fmt::format("a generator, or `backs_up` for a panel, at \"{}\"",
                                    equipment(index).id),
                        ""});
            } else if (++generators == 2) {
                report("input.terminal", child, "feeds",
                       fmt::format("transfer switch \"{}\" has a generator already",
                                   equipment(index).id),
                       {"one generator on a transfer switch", ""});
            }
        }
    }

    void check_single_input(int index) {
        const auto children = system_.children(index);
        if (!children.empty() && circuit_count(system_, children[0]) > 1) {
            report("input.terminal", children[0], "feeds",
                   fmt::format("\"{}\" brings {} branch circuits to {} \"{}\"",
                               equipment(children[0]).id, circuit_count(system_, children[0]),
                               kind_word(equipment(index)), equipment(index).id),
                   {"one circuit on its terminals", "a combiner between them"});
        }
        for (std::size_t i = 1; i < children.size(); ++i) {
            report("input.terminal", children[i], "feeds",
                   fmt::format("{} \"{}\" is fed by \"{}\" already", kind_word(equipment(index)),
                               equipment(index).id, equipment(children[0]).id),
                   {"one piece of equipment on its terminals", ""});
        }
    }

    void check_combiner(int index) {
        const auto* ratings = system_.ratings<CombinerRatings>(equipment(index));
        if (ratings == nullptr || ratings->branch_inputs == 0) {
            return;
        }
        int taken = 0;
        for (const int child : system_.children(index)) {
            const int before = taken;
            taken += circuit_count(system_, child);
            if (before <= ratings->branch_inputs && taken > ratings->branch_inputs) {
                report("input.terminal", child, "feeds",
                       fmt::format("\"{}\" is branch circuit {} on combiner \"{}\", which has {} "
                                   "inputs",
                                   equipment(child).id, taken, equipment(index).id,
                                   ratings->branch_inputs),
                       {fmt::format("at most {} branch circuits", ratings->branch_inputs),
                        "fewer, longer branches or a combiner with more inputs"});
            }
        }
    }

    void check_mid(int index) {
        const auto* ratings = system_.ratings<MidRatings>(equipment(index));
        int pv = 0;
        int storage = 0;
        int generators = 0;
        for (const int child : system_.children(index)) {
            if (at(child).on_backup) {
                continue;
            }
            const Behind sources = behind(system_, child);
            if (sources.generator) {
                const bool has_input =
                    ratings == nullptr || ratings->generator_breaker_limit > Amps{};
                if (++generators == (has_input ? 2 : 1)) {
                    report_full(child, index, "generator", has_input ? 1 : 0);
                }
                continue;
            }
            if (sources.pv && sources.storage) {
                report("input.terminal", child, "feeds",
                       fmt::format("PV and storage behind \"{}\" share one input of MID \"{}\"",
                                   equipment(child).id, equipment(index).id),
                       {"PV and storage each on an input of its own", ""});
            }
            pv += sources.storage ? 0 : 1;
            storage += sources.storage ? 1 : 0;
            if (!sources.storage && pv == 2) {
                report_full(child, index, "PV", 1);
            }
            if (ratings != nullptr && sources.storage && storage == ratings->storage_inputs + 1) {
                report_full(child, index, "storage", ratings->storage_inputs);
            }
        }
    }

    void report_full(int child, int mid, std::string_view what, int inputs) {
        report("input.terminal", child, "feeds",
               fmt::format("no {} input of MID \"{}\" is left for \"{}\"", what, equipment(mid).id,
                           equipment(child).id),
               {fmt::format("at most {} on its {} input{}", inputs, what, inputs == 1 ? "" : "s"),
                "combine them ahead of the MID"});
    }

    /// A branch may state the breaker that its home run has in the combiner.
    bool has_device(int index) const {
        const int parent = equipment(index).parent;
        const bool trunk = equipment(index).is<BranchArray>() && parent >= 0 &&
                           equipment(parent).is<JunctionBox>();
        return device_at_parent(system_, trunk ? parent : index);
    }

    void check_breaker(int index) {
        if (at(index).form->written("breaker") && equipment(index).parent >= 0 &&
            !at(index).on_backup && !has_device(index)) {
            report("input.no_place", index, "breaker",
                   fmt::format("there is no overcurrent device between \"{}\" and \"{}\"",
                               equipment(index).id, equipment(equipment(index).parent).id),
                   {"`breaker` on what feeds a combiner, a MID, a panel or a fused disconnect",
                    "leave it out"});
        }
    }

    void check_run(int index) {
        const Form& form = *at(index).form;
        const Form* run = form.form("run");
        if (equipment(index).is<StringArray>() && run != nullptr && run->written("sets")) {
            findings_.push_back(
                input_fault("input.no_place", run->span_of("sets"), at(index).subject(),
                            "each string has conductors of its own already",
                            {"`sets` on conductors of alternating current", "leave it out"}));
        }
        const bool own_way = at(index).feeds_stated;
        if (at(index).on_backup) {
            for (const std::string_view key : {"run", "breaker"}) {
                if (form.written(key)) {
                    report("input.no_place", index, key,
                           fmt::format("\"{}\" is backed up: its feeder is stated in the MID",
                                       form.id),
                           {fmt::format("`backup_{}` in the MID", key), ""});
                }
            }
        } else if (own_way && !form.written("run") && !form.shape->find("run")->required) {
            report("input.required", index, "", fmt::format("{}.run is missing", form.path),
                   {"a run to what it feeds, such as { length = \"10 ft\" }", ""});
        } else if (equipment(index).is<Meter>() && !own_way && form.written("run")) {
            report("input.no_place", index, "run",
                   "the conductors ahead of the meter are the utility's",
                   {"no `run` on the service meter", "leave it out"});
        }
    }

    void check_backup(int index) {
        const Form& form = *at(index).form;
        if (form.shape->find("backs_up") == nullptr) {
            return;
        }
        if (equipment(index).is<TransferSwitch>() && !form.written("backs_up")) {
            report("input.required", index, "", fmt::format("\"{}\" transfers no panel", form.id),
                   {"`backs_up` with the id of a panel", ""});
        }
        const bool backs_up = form.written("backs_up");
        if (backs_up && !form.written("backup_run")) {
            report("input.required", index, "", fmt::format("{}.backup_run is missing", form.path),
                   {"a run to the backed-up panel, such as { length = \"24 ft\" }", ""});
        }
        for (const std::string_view key : {"backup_run", "backup_breaker"}) {
            if (!backs_up && form.written(key)) {
                report("input.no_place", index, key,
                       fmt::format("\"{}\" backs up no panel", form.id),
                       {"`backs_up` with the id of a panel", ""});
            }
        }
    }

    /// Neutral and ground are bonded in one place, at the service.
    void check_grounding() {
        int bonded = -1;
        for (int i = 0; i < static_cast<int>(all_.size()); ++i) {
            if (at(i).form == nullptr || !at(i).form->written("electrodes")) {
                check_electrode_keys(i);
                continue;
            }
            if (bonded >= 0) {
                report("input.grounding", i, "electrodes",
                       fmt::format("electrodes are stated at \"{}\" already", equipment(bonded).id),
                       {"electrodes at one place: the service equipment", ""});
            } else if (service_meter(system_) >= 0 && !is_service_equipment(system_, i)) {
                report("input.grounding", i, "electrodes",
                       fmt::format("\"{}\" is not the service equipment", equipment(i).id),
                       {"electrodes at what feeds the service meter", ""});
            }
            bonded = i;
        }
        if (bonded < 0) {
            report_no_electrodes();
        }
    }

    void check_electrode_keys(int index) {
        for (const std::string_view key : {"electrode_conductor", "electrode_material"}) {
            if (at(index).form != nullptr && at(index).form->written(key)) {
                report("input.no_place", index, key,
                       fmt::format("\"{}\" has no electrodes", equipment(index).id),
                       {"`electrodes` beside it", ""});
            }
        }
    }

    void report_no_electrodes() {
        for (int i = 0; i < static_cast<int>(all_.size()); ++i) {
            if (at(i).form != nullptr && is_service_equipment(system_, i)) {
                report("input.grounding", i, "",
                       fmt::format("no grounding electrodes are stated at \"{}\"", equipment(i).id),
                       {"electrodes = [\"concrete-encased\", \"two ground rods\"], as found", ""});
                return;
            }
        }
    }

    const System& system_;
    const std::vector<Declared>& all_;
    Findings& findings_;
};

} // namespace

void check_terminals(const System& system, const std::vector<Declared>& all, Findings& findings) {
    Terminals(system, all, findings).check();
}

} // namespace ohmfolio
