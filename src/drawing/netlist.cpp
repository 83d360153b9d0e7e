/// What the drawn wires join, read back from the marks, and the comparison with what they should.
#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <numeric>
#include <set>

#include "base/text.h"
#include "drawing/connections.h"
#include "drawing/lint.h"

namespace ohmfolio {

namespace {

constexpr std::string_view match_prefix = "match:";

/// Sets of things known by number, joined two at a time.
class DisjointSets {
  public:
    std::size_t add() {
        parent_.push_back(parent_.size());
        return parent_.back();
    }
    std::size_t find(std::size_t i) {
        while (parent_[i] != i)
            i = parent_[i] = parent_[parent_[i]];
        return i;
    }
    void join(std::size_t a, std::size_t b) { parent_[find(a)] = find(b); }

  private:
    std::vector<std::size_t> parent_;
};

/// A set of ports that stand for several terminals each, drawn once for all that are alike, as the
/// sets that it stands for: there are as many as the port with the fewest terminals has, and each
/// has an equal share of the terminals of every other. Where the names of two frames meet is no
/// terminal of anything.
std::vector<std::vector<std::string>> each_of(const std::vector<std::string>& ports) {
    std::vector<std::vector<std::string>> terminals;
    for (const std::string& port : ports) {
        if (!port.starts_with(match_prefix))
            terminals.push_back(terminals_of(port));
    }
    const auto fewest = std::ranges::min_element(terminals, {}, &std::vector<std::string>::size);
    const std::size_t count = fewest == terminals.end() ? 0 : fewest->size();
    std::vector<std::vector<std::string>> sets(count);
    for (const std::vector<std::string>& names : terminals) {
        const std::size_t share = std::max<std::size_t>(names.size() / count, 1);
        for (std::size_t i = 0; i < names.size(); ++i)
            sets[std::min(i / share, count - 1)].push_back(names[i]);
    }
    return sets;
}

/// Terminals by name, over all frames: a terminal drawn on two sheets is one terminal.
class NetlistReader {
  public:
    void read(const Frame& frame, Role role) {
        const Strokes wires(frame, {role});
        const Ports ports(frame);
        const Junctions dots(frame);
        std::vector<std::size_t> wire_nodes;
        for (std::size_t i = 0; i < wires.outlines().size(); ++i)
            wire_nodes.push_back(sets_.add());
        join_ports(ports);
        for (std::size_t i = 0; i < wires.outlines().size(); ++i) {
            const Outline& wire = wires.outlines()[i];
            for (std::size_t s = 0; s < wire.stretches(); ++s)
                join_along(wire.stretch(s), wire_nodes[i], wires, wire_nodes, ports, dots);
            for (const Point end : {wire.points.front(), wire.points.back()})
                join_end(end, wire_nodes[i], wires, wire_nodes);
        }
    }

    Netlist netlist() {
        std::map<std::size_t, std::vector<std::string>> by_root;
        for (const auto& [name, node] : nodes_)
            by_root[sets_.find(node)].push_back(name);
        Netlist result;
        for (const auto& [root, ports] : by_root) {
            for (std::vector<std::string>& names : each_of(ports)) {
                std::ranges::sort(names);
                if (names.size() > 1)
                    result.push_back(std::move(names));
            }
        }
        std::ranges::sort(result);
        return result;
    }

  private:
    std::size_t node(const Port& port) {
        const auto found = nodes_.find(port.name);
        if (found != nodes_.end())
            return found->second;
        return nodes_[port.name] = sets_.add();
    }

    /// Terminals in one place touch without any wire.
    void join_ports(const Ports& ports) {
        for (const Port* port : ports.all) {
            for (const std::size_t other : ports.at(port->at, joined_within))
                sets_.join(node(*port), node(*ports.all[other]));
        }
    }

    void join_end(Point end, std::size_t wire, const Strokes& wires,
                  const std::vector<std::size_t>& nodes) {
        for (const auto found : wires.near(Box{end, end}.grown(joined_within))) {
            if (distance(end, wires.stretch(found)) <= joined_within)
                sets_.join(wire, nodes[found.outline]);
        }
    }

    /// A terminal touched anywhere is joined: the drawing shows it so, meant or not. Two wires that
    /// cross are joined only by a dot.
    void join_along(const Stretch& stretch, std::size_t wire, const Strokes& wires,
                    const std::vector<std::size_t>& nodes, const Ports& ports,
                    const Junctions& dots) {
        const Box around = bounds(stretch).grown(joined_within);
        for (const std::size_t port : ports.grid.near(around)) {
            if (distance(ports.all[port]->at, stretch) <= joined_within)
                sets_.join(wire, node(*ports.all[port]));
        }
        for (const auto found : wires.near(around)) {
            const auto met = meeting(stretch, wires.stretch(found));
            if (met && met->overlap <= joined_within && dots.at(met->at))
                sets_.join(wire, nodes[found.outline]);
        }
    }

    DisjointSets sets_;
    std::map<std::string, std::size_t> nodes_;
};

/// The set that each name is in; names in no set stand alone.
std::map<std::string, int> set_of_each(const Netlist& netlist) {
    std::map<std::string, int> result;
    for (std::size_t i = 0; i < netlist.size(); ++i) {
        for (const std::string& name : netlist[i])
            result[name] = static_cast<int>(i);
    }
    return result;
}

/// One name for each of the sets of `other` that `names` is spread over.
std::vector<std::string> spread_over(const std::vector<std::string>& names,
                                     const std::map<std::string, int>& other) {
    std::vector<std::string> result;
    std::set<int> seen;
    for (const std::string& name : names) {
        const auto found = other.find(name);
        if (found == other.end() || seen.insert(found->second).second)
            result.push_back(name);
    }
    return result;
}

/// "equipment:mid" of "equipment:mid/pv".
std::string owner(const std::string& terminal) { return terminal.substr(0, terminal.rfind('/')); }

Finding netlist_finding(const std::vector<std::string>& names, const std::string& message,
                        const std::string& expected) {
    Finding finding;
    finding.rule = "lint.netlist";
    finding.severity = Severity::error;
    finding.subject = owner(names.front());
    finding.message = fmt::format(fmt::runtime(message), join(names, ", "));
    finding.expected = expected;
    return finding;
}

} // namespace

Netlist read_netlist(const std::vector<const Frame*>& frames, Role role) {
    NetlistReader reader;
    for (const Frame* frame : frames)
        reader.read(*frame, role);
    return reader.netlist();
}

Findings compare_netlists(const Netlist& drawn, const Netlist& intended) {
    Findings findings;
    const auto in_intended = set_of_each(intended);
    const auto in_drawn = set_of_each(drawn);
    for (const auto& names : drawn) {
        const auto apart = spread_over(names, in_intended);
        if (apart.size() > 1) {
            findings.push_back(netlist_finding(apart, "the drawn wires join the terminals {}",
                                               "terminals that the system keeps apart"));
        }
    }
    for (const auto& names : intended) {
        const auto apart = spread_over(names, in_drawn);
        if (apart.size() > 1) {
            findings.push_back(netlist_finding(apart,
                                               "the drawn wires do not join the terminals {}",
                                               "one connection, as in the system"));
        }
    }
    return findings;
}

} // namespace ohmfolio
