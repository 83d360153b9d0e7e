#include "diagram/callouts.h"

#include <algorithm>
#include <charconv>
#include <type_traits>

#include "base/drafting_case.h"
#include "base/name_runs.h"
#include "base/text.h"
#include "study/fault_currents.h"

namespace ohmfolio::diagram {

namespace {

std::string amps(Amps a) { return trimmed(a.value, 2) + " A"; }
std::string kilo_amps(Amps a) { return a.value > 0 ? trimmed(a.value / 1000, 2) + " kA" : ""; }
std::string volts(Volts v) { return trimmed(v.value, 1) + " V"; }

void add_output(Fields& f, Watts output, Volts voltage, Amps current) {
    f["output"] = trimmed(output.value / 1000, 2) + " kVA";
    f["output_voltage"] = volts(voltage);
    f["current"] = amps(current);
}

void add_record(Fields& f, const Record& r) {
    f["maker"] = r.maker;
    f["model"] = r.model;
    f["enclosure"] = r.enclosure;
    f["listing"] = r.listing;
    if (const auto* c = std::get_if<CombinerRatings>(&r.ratings)) {
        f["bus"] = amps(c->bus);
        f["interrupting"] = kilo_amps(c->interrupting);
        f["gateway"] = c->gateway ? "gateway" : "";
    } else if (const auto* m = std::get_if<MidRatings>(&r.ratings)) {
        f["bus"] = amps(m->bus);
        f["interrupting"] = kilo_amps(m->interrupting);
    } else if (const auto* p = std::get_if<PanelRatings>(&r.ratings)) {
        f["bus"] = amps(p->bus);
        f["interrupting"] = kilo_amps(p->interrupting);
    } else if (const auto* d = std::get_if<DisconnectRatings>(&r.ratings)) {
        f["rating"] = amps(d->rating);
        f["poles"] = std::to_string(d->poles) + "P";
        f["fused"] = d->fused ? "fused" : "unfused";
        f["lockable"] = d->lockable ? "lockable" : "";
        f["interrupting"] = kilo_amps(d->interrupting);
    } else if (const auto* b = std::get_if<BatteryRatings>(&r.ratings)) {
        f["energy"] = trimmed(b->energy.value / 1000, 2) + " kWh";
        add_output(f, b->output, b->output_voltage, b->output_current);
        if (b->direct_current()) {
            f["output"] = trimmed(b->output.value / 1000, 2) + " kW";
            f["output_voltage"] += " DC";
        }
    } else if (const auto* e = std::get_if<MeterRatings>(&r.ratings)) {
        f["rating"] =
            e->transformer_ratio.empty() ? amps(e->rating) : "CTs " + e->transformer_ratio;
    } else if (const auto* i = std::get_if<StringInverterRatings>(&r.ratings)) {
        add_output(f, i->output, i->output_voltage, i->output_current);
    } else if (const auto* g = std::get_if<GeneratorRatings>(&r.ratings)) {
        add_output(f, g->output, g->output_voltage, g->output_current);
    } else if (const auto* t = std::get_if<TransferSwitchRatings>(&r.ratings)) {
        f["rating"] = amps(t->rating);
        f["poles"] = std::to_string(t->poles) + "P";
        f["interrupting"] = kilo_amps(t->interrupting);
    } else if (const auto* s = std::get_if<SupplyConnectionRatings>(&r.ratings)) {
        f["rating"] = amps(s->rating);
        f["interrupting"] = kilo_amps(s->interrupting);
    }
}

void add_branch(Fields& f, const System& system, const BranchArray& branch) {
    f["count"] = std::to_string(branch.count);
    f["roof"] = branch.roof;
    const Record& module = system.catalogue.records[static_cast<std::size_t>(branch.module)];
    const Record& inverter =
        system.catalogue.records[static_cast<std::size_t>(branch.microinverter)];
    f["module"] = module.model;
    f["inverter"] = inverter.model;
    if (const auto* m = std::get_if<ModuleRatings>(&module.ratings)) {
        f["module_power"] = trimmed(m->power.value, 0) + " W";
    }
    if (const auto* m = std::get_if<MicroinverterRatings>(&inverter.ratings)) {
        f["inverter_output"] = trimmed(m->output.value, 0) + " VA";
        f["inverter_current"] = amps(m->output_current);
    }
}

void add_strings(Fields& f, const System& system, const StringArray& array) {
    f["strings"] = std::to_string(array.strings) + (array.strings == 1 ? " string" : " strings");
    f["count"] = std::to_string(array.in_series);
    f["roof"] = array.roof;
    const Record& module = system.catalogue.records[static_cast<std::size_t>(array.module)];
    f["module"] = module.model;
    if (const auto* m = std::get_if<ModuleRatings>(&module.ratings)) {
        f["module_power"] = trimmed(m->power.value, 0) + " W";
    }
    const std::string each_module = std::to_string(array.modules());
    if (array.electronics >= 0) {
        f["electronics_count"] = each_module;
        f["electronics"] =
            system.catalogue.records[static_cast<std::size_t>(array.electronics)].model;
    } else if (array.module_shutdown) {
        f["shutdown_count"] = each_module;
    }
}

void add_site(Fields& f, const System& system, const Study& study) {
    f["utility"] = system.project.utility;
    f["service"] = system.site.to_neutral.value > 0
                       ? trimmed(system.site.to_neutral.value, 0) + "/" +
                             trimmed(system.site.voltage.value, 0) + " V"
                       : volts(system.site.voltage);
    f["service_amps"] = amps(system.site.service);
    f["fault_current"] = kilo_amps(fault_at_service(system, study).current);
}

/// Replaces the fields of one line; says whether any was filled and whether there was any at all.
struct Filled {
    std::string text;
    bool has_field = false;
    bool has_value = false;
};

Filled fill(const std::string& line, const Fields& fields) {
    Filled out;
    std::size_t at = 0;
    while (at < line.size()) {
        const std::size_t open = line.find('{', at);
        const std::size_t close = open == std::string::npos ? open : line.find('}', open);
        if (close == std::string::npos) {
            out.text += line.substr(at);
            break;
        }
        out.text += line.substr(at, open - at);
        const auto field = fields.find(line.substr(open + 1, close - open - 1));
        out.has_field = true;
        if (field != fields.end() && !field->second.empty()) {
            out.text += field->second;
            out.has_value = true;
        }
        at = close + 1;
    }
    return out;
}

/// Blanks and separators that an empty field left at the ends or doubled.
std::string tidied(std::string text) {
    const auto drop_all = [&text](std::string_view what, std::string_view with) {
        for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what)) {
            text.replace(at, what.size(), with);
        }
    };
    drop_all("  ", " ");
    drop_all(" ,", ",");
    drop_all(",.", ".");
    drop_all(", .", ".");
    drop_all(",.", ".");
    drop_all(", .", ".");
    const std::size_t first = text.find_first_not_of(" ,");
    const std::size_t last = text.find_last_not_of(" ,");
    return first == std::string::npos ? std::string() : text.substr(first, last - first + 1);
}

} // namespace

std::string kind_of(const Equipment& equipment) {
    return std::visit(
        [](const auto& detail) -> std::string {
            using T = std::decay_t<decltype(detail)>;
            if constexpr (std::is_same_v<T, BranchArray>) {
                return "branch";
            } else if constexpr (std::is_same_v<T, StringArray>) {
                return "string";
            } else if constexpr (std::is_same_v<T, Inverter>) {
                return "inverter";
            } else if constexpr (std::is_same_v<T, Generator>) {
                return "generator";
            } else if constexpr (std::is_same_v<T, TransferSwitch>) {
                return "transfer_switch";
            } else if constexpr (std::is_same_v<T, SupplyConnection>) {
                return "supply_connection";
            } else if constexpr (std::is_same_v<T, JunctionBox>) {
                return "junction_box";
            } else if constexpr (std::is_same_v<T, Combiner>) {
                return "combiner";
            } else if constexpr (std::is_same_v<T, Disconnect>) {
                return "disconnect";
            } else if constexpr (std::is_same_v<T, Mid>) {
                return "mid";
            } else if constexpr (std::is_same_v<T, Battery>) {
                return "battery";
            } else if constexpr (std::is_same_v<T, Panel>) {
                return "panel";
            } else if constexpr (std::is_same_v<T, Meter>) {
                return "meter";
            } else {
                return "utility";
            }
        },
        equipment.detail);
}

Fields fields_of(const System& system, const Study& study, const Equipment& equipment) {
    Fields f;
    f["id"] = equipment.id;
    f["title"] = equipment.title;
    f["location"] = equipment.location;
    f["status"] = equipment.existing ? "(E)" : "(N)";
    add_site(f, system, study);
    if (const Record* record = system.record(equipment)) {
        add_record(f, *record);
    }
    if (const auto* branch = equipment.as<BranchArray>()) {
        add_branch(f, system, *branch);
    }
    if (const auto* array = equipment.as<StringArray>()) {
        add_strings(f, system, *array);
    }
    if (const auto* panel = equipment.as<Panel>()) {
        f["main"] = panel->main ? amps(panel->main->value) + " main" : "main lugs only";
        f["service_equipment"] = panel->service_equipment ? "service equipment" : "";
    }
    if (const SurgeDevice* device = surge_device(equipment)) {
        f["surge_device"] = "SPD " + name(*device);
    }
    for (std::size_t i = 0; equipment.is<Disconnect>() && i < system.breakers.size(); ++i) {
        if (&system.at(system.breakers[i].at) == &equipment) {
            f["fuses"] = system.breakers[i].tag + " " + amps(study.breakers[i].rating) + " fuses";
        }
    }
    for (const ConnectionStudy& connection : study.connections) {
        if (&system.at(connection.panel) != &equipment) {
            continue;
        }
        for (const ConnectionOption& option : connection.options) {
            if (option.chosen) {
                f["connection_rule"] = option.rule;
                f["connection_section"] = text(option.cite);
            }
        }
        f["connection_reliance"] = reliance_of(system, study, connection);
    }
    return f;
}

std::vector<std::string> filled(const std::vector<std::string>& lines, const Fields& fields) {
    std::vector<std::string> out;
    for (const std::string& line : lines) {
        const Filled f = fill(line, fields);
        if (f.has_value || !f.has_field) {
            out.push_back(drafting_case(tidied(f.text)));
        }
    }
    return out;
}

std::string supply_section(const System& system, const Study& study, const Equipment& disconnect) {
    const std::string& connection = system.at(disconnect.parent).id;
    // Several sets of sources at one connection are judged one by one, each under its own name.
    const Derivation* route =
        study.worksheet.find(connection + "/" + disconnect.id + ".supply_route");
    if (route == nullptr) {
        route = study.worksheet.find(connection + ".supply_route");
    }
    return route == nullptr ? std::string() : text(route->cite);
}

std::string settings_of(const System& system, const PowerControl& control) {
    std::vector<std::string> settings;
    if (control.sources) {
        settings.push_back("sources " + trimmed(control.sources->value.value, 1) + " A");
    }
    if (control.bus) {
        settings.push_back("bus " + trimmed(control.bus->value.value, 1) + " A");
    }
    return system.at(control.at).id + ": " + join(settings, ", ");
}

std::string reliance_of(const System& system, const Study& study,
                        const ConnectionStudy& connection) {
    const auto control =
        std::find_if(system.power_controls.begin(), system.power_controls.end(),
                     [&](const PowerControl& each) { return each.at == connection.panel; });
    if (control == system.power_controls.end()) {
        return {};
    }
    for (const ConnectionOption& option : connection.options) {
        const bool relied_on = option.counted || option.chosen;
        if (option.rule_id != "bus.power_control" || !relied_on) {
            continue;
        }
        std::string words = option.counted ? "sources held to " + amps(control->sources->value)
                                           : "bus held to " + amps(control->bus->value);
        words += " by the power control system";
        if (control->by >= 0) {
            words += " of " + system.at(control->by).id;
        }
        words += ", " + control->listing + ", " + text(option.cite);
        const Derivation* access =
            study.worksheet.find(system.at(connection.panel).id + ".control_access");
        return access == nullptr ? words : words + " and " + access->cite.section;
    }
    return {};
}

int tracker_input(const std::string& terminal) {
    int input = 0;
    if (terminal.rfind("pv", 0) == 0) {
        std::from_chars(terminal.data() + 2, terminal.data() + terminal.size(), input);
    }
    return input;
}

std::string breaker_rating(const System& system, const Study& study, int breaker) {
    const auto index = static_cast<std::size_t>(breaker);
    return amps(study.breakers[index].rating) + " " + std::to_string(system.breakers[index].poles) +
           "P";
}

std::string breaker_label(const System& system, const Study& study,
                          const std::vector<int>& breakers) {
    std::vector<std::string> tags;
    for (const int breaker : breakers) {
        tags.push_back(system.breakers[static_cast<std::size_t>(breaker)].tag);
    }
    const Breaker& first = system.breakers[static_cast<std::size_t>(breakers.front())];
    // A new device in existing equipment is the one thing there that is new.
    const int child = system.child_of(system.circuits[static_cast<std::size_t>(first.circuit)]);
    const bool stands_out = system.at(first.at).existing && !system.at(child).existing;
    return drafting_case(runs(tags, "\u2013")) + (stands_out ? " (N) " : " ") +
           breaker_rating(system, study, breakers.front());
}

std::string load_rating(const Panel& panel, int load) {
    const LoadCircuit& circuit = panel.loads[static_cast<std::size_t>(load)];
    return trimmed(circuit.breaker.value.value, 0) + " A " + std::to_string(circuit.poles) + "P";
}

bool is_added(const Equipment& holder, int load) {
    return holder.existing && holder.as<Panel>()->loads[static_cast<std::size_t>(load)].added;
}

std::string load_name(const Equipment& holder, int load) {
    const LoadCircuit& circuit = holder.as<Panel>()->loads[static_cast<std::size_t>(load)];
    std::string name = circuit.name;
    if (!circuit.shed_by.empty())
        name += " (" + circuit.shed_by + ")";
    return is_added(holder, load) ? name + " (N)" : name;
}

} // namespace ohmfolio::diagram
