/// Fifth step: what is written beside each block and over each breaker, with keyed notes. Something
/// drawn once for several names all of them.
#include <algorithm>

#include "base/drafting_case.h"
#include "base/name_runs.h"
#include "base/text.h"
#include "diagram/callouts.h"
#include "diagram/plan.h"

namespace ohmfolio::diagram {

namespace {

class Captions {
  public:
    explicit Captions(Plan& plan) : plan_(plan) {}

    /// Every block that is drawn, in the order of the text, which numbers the notes.
    void write_all() {
        std::vector<int> drawn = plan_.roots;
        for (std::size_t i = 0; i < drawn.size(); ++i) {
            const std::vector<int>& children = plan_.block(drawn[i]).children;
            drawn.insert(drawn.end(), children.begin(), children.end());
        }
        std::sort(drawn.begin(), drawn.end());
        for (const int index : drawn) {
            write(plan_.block(index));
        }
    }

  private:
    void write(Block& block) {
        const Fields fields = fields_of_all(block);
        const auto callout = plan_.style.callouts.find(kind_of(plan_.of(block)));
        if (callout != plan_.style.callouts.end()) {
            block.name = filled(callout->second.above, fields);
            block.wording = filled(callout->second.below, fields);
        }
        add_typical(block);
        add_notes(block, fields);
        std::sort(block.notes.begin(), block.notes.end());
        for (Tap& tap : block.taps) {
            write_tap(block, tap);
        }
        for (const int wire : block.wires) {
            write_tag(plan_.wire(wire));
        }
    }

    Fields fields_of_all(const Block& block) const {
        Fields fields = fields_of(plan_.system, plan_.study, plan_.of(block));
        std::vector<std::string> ids;
        for (const int member : block.members) {
            ids.push_back(plan_.system.at(member).id);
        }
        fields["id"] = runs(ids, " to ");
        fields["placards"] = placards_of(ids);
        return fields;
    }

    /// "P2, P8": each that one of the equipment bears, in the order of the numbers.
    std::string placards_of(const std::vector<std::string>& ids) const {
        std::vector<std::string> numbers;
        for (const std::string& id : ids) {
            const auto borne = plan_.style.placards.find(id);
            if (borne != plan_.style.placards.end()) {
                numbers.insert(numbers.end(), borne->second.begin(), borne->second.end());
            }
        }
        std::vector<std::string> once;
        for (const std::size_t i : counting_order(numbers)) {
            if (once.empty() || once.back() != numbers[i]) {
                once.push_back(numbers[i]);
            }
        }
        return runs(once, " to ", all_pieces);
    }

    /// "TYPICAL OF 12, 4 AT EACH", under the name.
    void add_typical(Block& block) const {
        const std::size_t total = block.members.size();
        if (total < 2) {
            return;
        }
        const std::size_t parents = block.parent < 0 ? 1 : plan_.block(block.parent).members.size();
        const bool each = parents > 1 && total > parents;
        const auto words = plan_.style.callouts.find(each ? "typical_each" : "typical");
        if (words == plan_.style.callouts.end()) {
            return;
        }
        const Fields fields = {{"total", std::to_string(total)},
                               {"each", std::to_string(total / parents)}};
        for (std::string& line : filled(words->second.above, fields)) {
            block.name.push_back(std::move(line));
        }
    }

    // ---- keyed notes -------------------------------------------------------------------------

    /// Adds the keyed note `key` to the block when the drafting style words one.
    void add_note(Block& block, const std::string& key, const Fields& fields) {
        const auto found = plan_.style.notes.find(key);
        if (found == plan_.style.notes.end()) {
            return;
        }
        const std::vector<std::string> lines = filled({found->second}, fields);
        if (lines.empty()) {
            return;
        }
        const auto known = std::find(plan_.notes.begin(), plan_.notes.end(), lines.front());
        if (known == plan_.notes.end()) {
            plan_.notes.push_back(lines.front());
            block.notes.push_back(static_cast<int>(plan_.notes.size()));
        } else {
            block.notes.push_back(static_cast<int>(known - plan_.notes.begin()) + 1);
        }
    }

    void add_notes(Block& block, const Fields& fields) {
        const Equipment& e = plan_.of(block);
        const auto* mid = plan_.system.ratings<MidRatings>(e);
        if (mid != nullptr && mid->interlocked) {
            add_note(block, "interlocked", fields);
        }
        if (const auto* disconnect = e.as<Disconnect>()) {
            if (disconnect->rapid_shutdown) {
                add_note(block,
                         std::string("rapid_shutdown") +
                             (disconnect->shutdown_contact ? "_contact" : "") +
                             (has_strings() ? "_strings" : ""),
                         fields);
            }
            if (disconnect->utility) {
                add_note(block, "utility_disconnect", fields);
            }
            if (disconnect->storage) {
                add_note(block, "storage_disconnect", fields);
            }
            if (is_of_supply_side(e)) {
                add_supply_side_note(block, e, fields);
                add_bonding_note(block, fields);
                add_grounding_note(block, fields);
            }
        }
        if (e.is<Mid>()) {
            add_note(block, "mid", fields);
        }
        if (e.is<Mid>() && !plan_.system.load_controllers.empty()) {
            Fields more = fields;
            std::vector<std::string> ids;
            for (const LoadController& controller : plan_.system.load_controllers) {
                if (controller.mid == block.equipment) {
                    ids.push_back(controller.id);
                }
            }
            more["controllers"] = join(ids, ", ");
            if (!ids.empty()) {
                add_note(block, "load_control", more);
            }
        }
        if (e.is<TransferSwitch>()) {
            add_note(block, "transfer_switch", fields);
        }
        add_power_control_note(block, fields);
        if (fields.count("connection_rule") != 0 && e.is<Panel>()) {
            add_note(block, "point_of_connection", fields);
        }
        if (plan_.system.grounding.at == block.equipment) {
            add_bonding_note(block, fields);
            add_unbonding_note(block, fields);
        }
    }

    /// At the equipment that is, or holds, a power control system: what it holds, bus by bus.
    void add_power_control_note(Block& block, const Fields& fields) {
        std::vector<std::string> settings, listings;
        for (const PowerControl& control : plan_.system.power_controls) {
            if (control.by != block.equipment) {
                continue;
            }
            settings.push_back(settings_of(plan_.system, control));
            if (std::find(listings.begin(), listings.end(), control.listing) == listings.end()) {
                listings.push_back(control.listing);
            }
        }
        if (settings.empty()) {
            return;
        }
        Fields more = fields;
        more["control_settings"] = join(settings, "; ");
        more["control_listing"] = join(listings, ", ");
        add_note(block, "power_control", more);
    }

    /// One note at every place where neutral and ground are bonded, which names them all.
    void add_bonding_note(Block& block, const Fields& fields) {
        const System& system = plan_.system;
        std::vector<std::string> sources;
        for (const Equipment& e : system.equipment) {
            if (is_of_supply_side(e)) {
                sources.push_back(e.id);
            }
        }
        Fields more = fields;
        more["bonded_sources"] = runs(sources, " to ", all_pieces);
        if (system.grounding.at >= 0) {
            more["bonded_service"] = system.at(system.grounding.at).id;
        }
        const char* several = sources.size() > 1 ? "bonding_supply_sides" : "bonding_supply_side";
        add_note(block, sources.empty() ? "bonding" : several, more);
    }

    /// A panel that was the service equipment stands behind a new disconnect: its bond goes.
    void add_unbonding_note(Block& block, const Fields& fields) {
        const System& system = plan_.system;
        if (system.at(block.equipment).existing) {
            return;
        }
        std::vector<std::string> panels;
        for (const int i : system.subtree(block.equipment)) {
            if (system.at(i).is<Panel>() && system.at(i).existing) {
                panels.push_back(system.at(i).id);
            }
        }
        if (panels.empty()) {
            return;
        }
        Fields more = fields;
        more["panels"] = join(panels, ", ");
        add_note(block, "unbonding", more);
    }

    /// Of a disconnect on the supply side: its jumper, and its conductor to the electrodes.
    void add_grounding_note(Block& block, const Fields& fields) {
        const auto& groundings = plan_.study.source_groundings;
        const auto found =
            std::ranges::find(groundings, block.equipment, &SourceGrounding::disconnect);
        if (found == groundings.end()) {
            return;
        }
        const std::string material(name(plan_.system.grounding.material));
        Fields more = fields;
        more["main_jumper"] = name(found->jumper) + " CU";
        more["electrode_conductor"] = name(found->electrode) + " " + material;
        add_note(block, "source_grounding", more);
    }

    bool has_strings() const {
        const auto& all = plan_.system.equipment;
        return std::any_of(all.begin(), all.end(),
                           [](const Equipment& e) { return e.is<StringArray>(); });
    }

    /// The service disconnect of sources that join ahead of the main.
    bool is_of_supply_side(const Equipment& e) const {
        const auto* disconnect = e.as<Disconnect>();
        return disconnect != nullptr && disconnect->service && e.parent >= 0 &&
               plan_.system.at(e.parent).is<SupplyConnection>();
    }

    void add_supply_side_note(Block& block, const Equipment& e, const Fields& fields) {
        Fields more = fields;
        more["connection"] = plan_.system.at(e.parent).id;
        more["connection_section"] = supply_section(plan_.system, plan_.study, e);
        add_note(block, "supply_side", more);
    }

    // ---- taps --------------------------------------------------------------------------------

    void write_tap(const Block& block, Tap& tap) const {
        tap.transformer = drafting_case(runs(tap.transformers, "\u2013"));
        if (tap.device == Device::breaker) {
            tap.label = breaker_label(plan_.system, plan_.study, tap.breakers) +
                        (tap.controller.empty() ? "" : ", " + tap.controller);
        } else if (tap.device == Device::load) {
            write_load(plan_.of(block), tap);
        } else if (tap.device == Device::tracker) {
            write_tracker(tap);
        } else if (plan_.of(block).is<TransferSwitch>()) {
            write_contact(tap);
        }
    }

    void write_tracker(Tap& tap) const {
        std::vector<std::string> inputs;
        for (const Terminal& terminal : tap.terminals) {
            std::string input = std::to_string(tracker_input(terminal.name));
            if (std::find(inputs.begin(), inputs.end(), input) == inputs.end()) {
                inputs.push_back(std::move(input));
            }
        }
        const auto words = plan_.style.callouts.find("tracker");
        if (words != plan_.style.callouts.end()) {
            tap.label =
                join(filled(words->second.above, {{"input", runs(inputs, "\u2013")}}), ", ");
        }
    }

    /// Which source a contact of a transfer switch stands for.
    void write_contact(Tap& tap) const {
        const std::string kind = tap.device == Device::contact   ? "normal_contact"
                                 : tap.device == Device::standby ? "standby_contact"
                                                                 : "";
        const auto words = plan_.style.callouts.find(kind);
        if (words != plan_.style.callouts.end()) {
            tap.label = join(filled(words->second.above, {}), ", ");
        }
    }

    void write_tag(Wire& wire) const {
        std::vector<std::string> tags;
        for (const int circuit : wire.circuits) {
            tags.push_back(plan_.circuit(circuit).tag);
        }
        wire.tag = drafting_case(runs(tags, "\u2013"));
    }

    void write_load(const Equipment& holder, Tap& tap) const {
        const auto& panel = *holder.as<Panel>();
        const int first = tap.loads.front();
        const bool several = tap.loads.size() > 1;
        const Fields fields = {{"count", std::to_string(tap.loads.size())},
                               {"rating", load_rating(panel, first)},
                               {"name", load_name(holder, first)},
                               {"controller", tap.controller},
                               {"status", is_added(holder, first) ? "(N)" : ""}};
        const auto words = plan_.style.callouts.find(several ? "loads" : "load");
        if (words != plan_.style.callouts.end() && !words->second.above.empty()) {
            tap.load = join(filled(words->second.above, fields), ", ");
        }
        if (tap.load.empty()) {
            tap.load = drafting_case(fields.at("rating") + " " + fields.at("name"));
        }
    }

    Plan& plan_;
};

} // namespace

void caption(Plan& whole) { Captions(whole).write_all(); }

} // namespace ohmfolio::diagram
