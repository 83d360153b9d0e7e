#include "input/phases.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "base/text.h"
#include "input/faults.h"
#include "input/topology.h"

namespace ohmfolio {
namespace {

/// Nominal voltages apart by less are the same. Common practice, no source: 277 V and 480 V, 120 V
/// and 208 V differ by far more.
constexpr double alike = 0.05;

bool same_voltage(Volts a, Volts b) { return std::abs(a.value - b.value) <= alike * b.value; }

/// The nameplate that tells lines and voltage: of a branch, that of its microinverters.
const Record* nameplate_of(const System& system, int index) {
    const Equipment& e = system.at(index);
    const auto* branch = e.as<BranchArray>();
    if (branch == nullptr) {
        return system.record(e);
    }
    return branch->microinverter < 0
               ? nullptr
               : &system.catalogue.records[static_cast<std::size_t>(branch->microinverter)];
}

/// Lines of a source or a bus by its nameplate; nothing of what only passes power on.
std::optional<int> lines_by_nameplate(const System& system, int index) {
    const Record* record = nameplate_of(system, index);
    const auto phases = record == nullptr ? std::nullopt : phases_of(record->ratings);
    if (!phases) {
        return std::nullopt;
    }
    const auto voltage = output_voltage_of(record->ratings);
    const bool to_neutral = voltage && same_voltage(*voltage, system.site.to_neutral);
    return *phases == 3 ? 3 : to_neutral ? 1 : 2;
}

// ---- phases ------------------------------------------------------------------------------------

bool is_bus(const Equipment& e) {
    return e.is<Combiner>() || e.is<Mid>() || e.is<Panel>() || e.is<TransferSwitch>() ||
           e.is<SupplyConnection>() || e.is<Utility>();
}

/// Hands out the lines of a bus in turn.
class Turn {
  public:
    explicit Turn(int lines) : lines_(lines) {}
    Phases next(int count) {
        if (count >= lines_) {
            return Phases::all(lines_);
        }
        if (lines_ == 2) {
            Phases one;
            one.on[static_cast<std::size_t>(at_)] = true;
            at_ = 1 - at_;
            return one;
        }
        const Phases phases = Phases::from(at_, count);
        at_ = (at_ + count) % 3;
        return phases;
    }

  private:
    int lines_;
    int at_ = 0;
};

std::string_view number_at_end(std::string_view terminal) {
    const auto last = terminal.find_last_not_of("0123456789");
    return last == std::string_view::npos ? terminal : terminal.substr(last + 1);
}

class Phasing {
  public:
    explicit Phasing(System& system) : system_(system) {}

    void on(int equipment) {
        Equipment& e = system_.equipment[static_cast<std::size_t>(equipment)];
        Turn turn(system_.lines_at(equipment));
        for (Circuit& circuit : system_.circuits) {
            if (system_.parent_of(circuit) != equipment || circuit.direct_current) {
                continue;
            }
            circuit.phases = is_bus(e) ? turn.next(circuit.lines) : passed_on(equipment, circuit);
        }
        if (auto* panel = std::get_if<Panel>(&e.detail)) {
            for (LoadCircuit& load : panel->loads) {
                load.phases = turn.next(load.poles);
            }
        }
        for (const int child : system_.children(equipment)) {
            on(child);
        }
    }

  private:
    /// As the circuit goes on behind equipment that is no bus.
    Phases passed_on(int equipment, const Circuit& circuit) const {
        const Circuit* onward = nullptr;
        for (const Circuit& other : system_.circuits) {
            const bool leaves = system_.child_of(other) == equipment;
            if (leaves &&
                (onward == nullptr || number_at_end(other.from) == number_at_end(circuit.to))) {
                onward = &other;
            }
        }
        return onward != nullptr && onward->phases.count() == circuit.lines
                   ? onward->phases
                   : Phases::all(circuit.lines);
    }

    System& system_;
};

// ---- checks ------------------------------------------------------------------------------------

class PhaseCheck {
  public:
    PhaseCheck(const System& system, const std::vector<Declared>& all, Findings& findings)
        : system_(system), all_(all), findings_(findings) {}

    void check(int index) {
        if (nameplate_of(system_, index) == nullptr && !system_.at(index).is<Disconnect>()) {
            return;
        }
        if (fits_supply(index)) {
            check_voltage(index);
            check_parent(index);
        }
        check_loads(index);
    }

  private:
    const Declared& at(int index) const { return all_[static_cast<std::size_t>(index)]; }

    std::string called(int index) const {
        const Equipment& e = system_.at(index);
        return fmt::format("{} \"{}\"", kind_word(e), e.id);
    }

    void report(std::string rule, int about, std::string message, Advice advice) {
        const Form& form = *at(about).form;
        const std::string_view key =
            system_.at(about).is<BranchArray>() ? "microinverter" : "model";
        findings_.push_back(input_fault(std::move(rule), form.span_of(key), at(about).subject(),
                                        std::move(message), std::move(advice)));
    }

    bool fits_supply(int index) {
        const bool three = lines_by_nameplate(system_, index).value_or(0) == 3;
        const bool has_three = lines_of(system_.site.supply) == 3;
        if (three && !has_three) {
            report("input.phases", index,
                   fmt::format("{} has three phases, and the service has one", called(index)),
                   {"a record of one phase",
                    "a three-phase service is written \"120/208 V, 3 phase, 800 A\""});
            return false;
        }
        if (!three && has_three && index == service_meter(system_)) {
            report("input.phases", index,
                   fmt::format("{} has one phase, and the service has three", called(index)),
                   {"a record with phases = 3", ""});
            return false;
        }
        return true;
    }

    void check_voltage(int index) {
        const Record* record = nameplate_of(system_, index);
        const auto voltage = record == nullptr ? std::nullopt : output_voltage_of(record->ratings);
        const auto* battery =
            record == nullptr ? nullptr : std::get_if<BatteryRatings>(&record->ratings);
        const bool direct_current = battery != nullptr && battery->direct_current();
        if (!voltage || voltage->value <= 0 || direct_current) {
            return;
        }
        const Site& site = system_.site;
        const bool one_phase = phases_of(record->ratings) != 3;
        if (same_voltage(*voltage, site.voltage) ||
            (one_phase && same_voltage(*voltage, site.to_neutral))) {
            return;
        }
        report(
            "input.voltage", index,
            fmt::format("{}: {} puts out {} V, and the service has {} V between lines",
                        called(index), record->model, trimmed(voltage->value, 1),
                        trimmed(site.voltage.value, 1)),
            {fmt::format("a record with output_voltage = \"{} V\"", trimmed(site.voltage.value, 1)),
             ""});
    }

    void check_parent(int index) {
        const int parent = system_.at(index).parent;
        if (parent < 0 || parent == service_meter(system_)) {
            return; // the meter is held against the service itself
        }
        const auto has = lines_by_nameplate(system_, parent);
        if (!has || *has == 3 || system_.at(parent).is<Inverter>() ||
            lines_from(system_, index, 0) < 3) {
            return;
        }
        report("input.phases", index,
               fmt::format("{} has three phases, and {} has one", called(index), called(parent)),
               {fmt::format("a record with phases = 3 at \"{}\"", system_.at(parent).id), ""});
    }

    void check_loads(int index) {
        const auto* panel = system_.at(index).as<Panel>();
        if (panel == nullptr || lines_by_nameplate(system_, index).value_or(2) == 3) {
            return;
        }
        for (const LoadCircuit& load : panel->loads) {
            if (load.poles < 3) {
                continue;
            }
            findings_.push_back(input_fault(
                "input.phases", load.breaker.span, at(index).subject(),
                fmt::format("\"{}\" has three poles, and {} has one phase", load.name,
                            called(index)),
                {"a breaker of one or two poles, or a panel whose record says phases = 3", ""}));
        }
    }

    const System& system_;
    const std::vector<Declared>& all_;
    Findings& findings_;
};

} // namespace

int lines_from(const System& system, int child, int n) {
    const Equipment& e = system.at(child);
    const auto children = system.children(child);
    if (e.is<StringArray>()) {
        return 2;
    }
    if (e.is<JunctionBox>()) {
        return children.empty() ? 2 : lines_from(system, children[static_cast<std::size_t>(n)], 0);
    }
    if (const auto lines = lines_by_nameplate(system, child)) {
        return *lines;
    }
    int most = 0;
    for (const int behind : children) {
        for (int i = 0; i < circuit_count(system, behind); ++i) {
            most = std::max(most, lines_from(system, behind, i));
        }
    }
    return most == 0 ? 2 : most;
}

void assign_phases(System& system) { Phasing(system).on(system.root()); }

void check_phases(const System& system, const std::vector<Declared>& all, Findings& findings) {
    PhaseCheck check(system, all, findings);
    for (int i = 0; i < static_cast<int>(all.size()); ++i) {
        if (all[static_cast<std::size_t>(i)].form != nullptr) {
            check.check(i);
        }
    }
}

} // namespace ohmfolio
