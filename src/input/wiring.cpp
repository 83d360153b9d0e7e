#include "input/wiring.h"

#include <algorithm>
#include <fmt/format.h>

#include "input/phases.h"
#include "input/topology.h"

namespace ohmfolio {
namespace {

/// All that joins one piece of equipment to its parent.
struct Link {
    Run run;
    std::vector<Circuit> circuits;
    std::vector<std::optional<Breaker>> breakers; ///< parallel to `circuits`
};

class Wiring {
  public:
    Wiring(const System& system, const std::vector<Declared>& all) : system_(system), all_(all) {}

    /// Links in the order of the drawing: by use, and within a use from the sources on.
    std::vector<Link> links() {
        std::vector<Link> result;
        append_links(system_.root(), result);
        std::ranges::stable_sort(result, {}, [](const Link& l) { return l.circuits.front().use; });
        return result;
    }

  private:
    const Equipment& at(int index) const {
        return system_.equipment[static_cast<std::size_t>(index)];
    }
    const Form& form(int index) const { return *all_[static_cast<std::size_t>(index)].form; }
    bool on_backup(int index) const { return all_[static_cast<std::size_t>(index)].on_backup; }

    void append_links(int equipment, std::vector<Link>& links) const {
        for (const int child : system_.children(equipment)) {
            append_links(child, links);
            links.push_back(link(child));
        }
    }

    Link link(int child) const {
        Link result;
        result.run = run(child);
        const int count = circuit_count(system_, child);
        for (int n = 0; n < count; ++n) {
            result.circuits.push_back(circuit(child, n));
            result.breakers.push_back(breaker(child, n));
        }
        return result;
    }

    /// Where the drafter states the run: in the child, or in the MID that backs it up.
    const Form* run_form(int child) const {
        return on_backup(child) ? form(at(child).parent).form("backup_run")
                                : form(child).form("run");
    }

    CircuitUse use(int child) const {
        const Equipment& e = at(child);
        const Equipment& parent = at(e.parent);
        const Behind sources = behind(system_, child);
        if (e.is<BranchArray>()) {
            return CircuitUse::trunk;
        }
        if (e.is<StringArray>()) {
            return CircuitUse::string;
        }
        if (e.is<JunctionBox>()) {
            return CircuitUse::branch;
        }
        if (carries_direct_current(system_, child)) {
            return CircuitUse::storage;
        }
        if (parent.is<SupplyConnection>() && !sources.loads) {
            return CircuitUse::supply_side;
        }
        if (parent.is<Utility>() || is_service_equipment(system_, child)) {
            return CircuitUse::service;
        }
        if (on_backup(child)) {
            return CircuitUse::backup_feeder;
        }
        if (sources.generator && !sources.loads && !sources.pv && !sources.storage) {
            return CircuitUse::generator;
        }
        if (sources.loads || sources.pv == sources.storage) {
            return CircuitUse::source_feeder;
        }
        return sources.pv ? CircuitUse::pv_output : CircuitUse::storage;
    }

    Run run(int child) const {
        Run run;
        run.child = child;
        run.span = at(child).span;
        run.raceway = RacewayKind::free_air;
        const Form* stated = run_form(child);
        if (stated == nullptr) {
            return run; // the utility's
        }
        run.span = stated->span;
        run.length = stated->value<Feet>("length");
        if (const auto ambient = stated->get<Celsius>("ambient")) {
            run.ambient = ambient->value;
        }
        if (at(child).is<BranchArray>()) {
            return run; // trunk cable under the modules
        }
        run.raceway = stated->value<RacewayKind>("raceway");
        run.stated_trade_size = stated->get<TradeSize>("trade_size");
        run.parallel_sets = stated->value<int>("sets", 1);
        if (const auto above = stated->get<Feet>("above_roof")) {
            run.on_roof = true;
            run.above_roof = inches(above->value.value * 12);
        }
        return run;
    }

    Circuit circuit(int child, int n) const {
        Circuit circuit;
        circuit.use = use(child);
        circuit.from = outgoing_terminal(system_, child, n);
        circuit.to = incoming_terminal(system_, child, n);
        circuit.lines = lines_from(system_, child, n);
        circuit.neutral = !carries_direct_current(system_, child) &&
                          (neutral(child, circuit.use) || circuit.lines == 1);
        circuit.by_utility = at(at(child).parent).is<Utility>();
        const Form* stated = run_form(child);
        if (at(child).is<BranchArray>()) {
            circuit.insulation = Insulation::trunk_cable;
        } else if (stated != nullptr) {
            circuit.material = stated->value<Material>("material");
            circuit.insulation = stated->value<Insulation>("insulation");
            circuit.direct_current = carries_direct_current(system_, child);
            if (const auto* array = at(child).as<StringArray>()) {
                circuit.sets = array->strings;
            }
            circuit.stated_size = stated->get<WireSize>("size");
            circuit.stated_equipment_ground = stated->get<WireSize>("ground");
            if (const auto stated_neutral = stated->get<bool>("neutral")) {
                circuit.neutral = stated_neutral->value;
            }
        }
        return circuit;
    }

    /// Loads at line to neutral need one. Of the sources, what the equipment's record says: most
    /// microinverters and storage units are two-wire at 240 V, a gateway may measure to neutral.
    bool neutral(int child, CircuitUse use) const {
        if (use != CircuitUse::trunk && use != CircuitUse::branch && use != CircuitUse::pv_output &&
            use != CircuitUse::storage) {
            return true;
        }
        return std::ranges::any_of(system_.subtree(child), [&](int i) {
            const Equipment& e = at(i);
            const auto* branch = e.as<BranchArray>();
            const auto* combiner = system_.ratings<CombinerRatings>(e);
            const auto* battery = system_.ratings<BatteryRatings>(e);
            const auto* inverter = system_.ratings<StringInverterRatings>(e);
            return (branch != nullptr && microinverter(*branch).neutral) ||
                   (combiner != nullptr && combiner->neutral) ||
                   (battery != nullptr && battery->neutral) ||
                   (inverter != nullptr && inverter->neutral);
        });
    }

    const MicroinverterRatings& microinverter(const BranchArray& branch) const {
        const auto index = static_cast<std::size_t>(branch.microinverter);
        return std::get<MicroinverterRatings>(system_.catalogue.records[index].ratings);
    }

    std::optional<Breaker> breaker(int child, int n) const {
        if (!device_at_parent(system_, child)) {
            return std::nullopt;
        }
        Breaker breaker;
        breaker.at = at(child).parent;
        breaker.port = incoming_terminal(system_, child, n);
        breaker.stated = on_backup(child) ? form(breaker.at).get<Amps>("backup_breaker")
                                          : stated_breaker(child, n);
        return breaker;
    }

    /// A branch knows its own breaker better than the junction box that all branches pass.
    std::optional<Spanned<Amps>> stated_breaker(int child, int n) const {
        if (at(child).is<JunctionBox>()) {
            const int branch = system_.children(child)[static_cast<std::size_t>(n)];
            if (const auto stated = form(branch).get<Amps>("breaker")) {
                return stated;
            }
        }
        return form(child).get<Amps>("breaker");
    }

    const System& system_;
    const std::vector<Declared>& all_;
};

void add_breaker(System& system, Breaker breaker, int circuit) {
    breaker.circuit = circuit;
    breaker.poles = system.circuits[static_cast<std::size_t>(circuit)].lines;
    breaker.tag = fmt::format("Q{}", system.breakers.size() + 1);
    system.breakers.push_back(std::move(breaker));
}

} // namespace

void wire(System& system, const std::vector<Declared>& all) {
    int raceways = 0;
    for (Link& link : Wiring(system, all).links()) {
        if (link.run.raceway != RacewayKind::free_air) {
            link.run.tag = fmt::format("R{}", ++raceways);
        }
        for (std::size_t n = 0; n < link.circuits.size(); ++n) {
            const int index = static_cast<int>(system.circuits.size());
            link.circuits[n].tag = fmt::format("C{}", index + 1);
            link.circuits[n].run = static_cast<int>(system.runs.size());
            link.run.circuits.push_back(index);
            system.circuits.push_back(std::move(link.circuits[n]));
            if (link.breakers[n]) {
                add_breaker(system, std::move(*link.breakers[n]), index);
            }
        }
        system.runs.push_back(std::move(link.run));
    }
    assign_phases(system);
}

} // namespace ohmfolio
