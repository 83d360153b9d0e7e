// as_graph JOB: the equipment and circuits of a job as a graph for Graphviz, with the same words
// that our diagram letters: what a general-purpose graph tool makes of them stands beside our
// sheet.
#include <algorithm>
#include <iostream>

#include <fmt/format.h>

#include "input/input.h"

namespace {

using namespace ohmfolio;

std::string escaped(const std::string& text) {
    std::string result;
    for (const char c : text) {
        if (std::string_view("\"\\{}|<> ").find(c) != std::string_view::npos) {
            result += '\\';
        }
        result += c;
    }
    return result;
}

/// A record: id, title, product; a port for each load of a panel.
std::string label_of(const System& system, const Equipment& e) {
    std::string label = escaped(e.id) + "|" + escaped(e.title);
    if (const Record* record = system.record(e)) {
        label += "|" + escaped(record->maker + " " + record->model);
    }
    if (const auto* panel = e.as<Panel>()) {
        for (const LoadCircuit& load : panel->loads) {
            label += fmt::format("|{}\\ {:g} A", escaped(load.name), load.breaker.value.value);
        }
    }
    return label;
}

void print_graph(const System& system) {
    fmt::print("digraph {{\n  rankdir=LR; splines=ortho; nodesep=0.2;\n"
               "  node [shape=record, fontname=\"Helvetica\", fontsize=10];\n"
               "  edge [arrowhead=none, fontname=\"Helvetica\", fontsize=10];\n");
    for (const Equipment& e : system.equipment) {
        fmt::print("  \"{}\" [label=\"{}\"];\n", e.id, label_of(system, e));
    }
    for (std::size_t i = 0; i < system.circuits.size(); ++i) {
        const Circuit& circuit = system.circuits[i];
        const Breaker* breaker = system.breaker_of(static_cast<int>(i));
        fmt::print("  \"{}\" -> \"{}\" [xlabel=\"{}{}\"];\n",
                   system.at(system.source_end(circuit)).id, system.at(system.load_end(circuit)).id,
                   circuit.tag, breaker == nullptr ? "" : ", " + breaker->tag);
    }
    for (const ControlLink& link : system.controls) {
        fmt::print("  \"{}\" -> \"{}\" [style=dashed, constraint=false];\n",
                   system.at(link.from).id, system.at(link.to).id);
    }
    fmt::print("}}\n");
}

} // namespace

int main(int argc, char** argv) {
    if (argc != 2) {
        std::cerr << "usage: as_graph JOB\n";
        return 2;
    }
    SourceFiles sources;
    Findings findings;
    const auto system = read_system(argv[1], sources, findings);
    if (!system) {
        for (const Finding& finding : findings) {
            std::cerr << print(finding, sources, false) << '\n';
        }
        return 1;
    }
    print_graph(*system);
}
