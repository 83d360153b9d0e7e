#include "input/guards.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
#include "input/faults.h"

namespace ohmfolio {
namespace {

class Guards {
  public:
    Guards(const Form& description, Shelf shelf, System& system, Findings& findings)
        : description_(description), shelf_(shelf), system_(system), findings_(findings) {}

    void add() {
        for (const Form& form : description_.forms("load_controller")) {
            add_load_controller(form);
        }
        for (const Form& form : description_.forms("power_control")) {
            add_power_control(form);
        }
        check_shedding();
    }

  private:
    void report(std::string rule, Span span, std::string subject, std::string message,
                Advice advice) {
        findings_.push_back(input_fault(std::move(rule), span, std::move(subject),
                                        std::move(message), std::move(advice)));
    }

    /// Equipment that `key` names, of the kind that `fits` accepts; -1 when there is none.
    template <class Fits>
    int refer(const Form& form, std::string_view key, const std::string& subject, Fits fits,
              std::string_view wanted) {
        const auto name = form.get<std::string>(key);
        if (!name) {
            return -1;
        }
        const int found = system_.find(name->value);
        if (found >= 0 && fits(system_.at(found))) {
            return found;
        }
        std::vector<std::string> ids;
        for (const Equipment& e : system_.equipment) {
            if (fits(e)) {
                ids.push_back(e.id);
            }
        }
        const std::string wanted_id = fmt::format("the id of {}", wanted);
        if (found < 0) {
            findings_.push_back(no_such_equipment(*name, subject, wanted_id, ids));
        } else {
            report("input.reference_kind", name->span, subject,
                   fmt::format("\"{}\" is a {}", name->value, kind_word(system_.at(found))),
                   {wanted_id, did_you_mean(name->value, ids)});
        }
        return -1;
    }

    void add_load_controller(const Form& form) {
        const std::string subject = "equipment:" + form.id;
        if (system_.find(form.id) >= 0) {
            report("input.duplicate_id", form.span, subject,
                   fmt::format("\"{}\" is the id of other equipment", form.id),
                   {"an id of its own", ""});
        }
        LoadController controller;
        controller.id = form.id;
        controller.span = form.span;
        controller.existing = form.value<bool>("existing");
        controller.record = find_record(form, "model", shelf_, findings_);
        controller.mid = refer(
            form, "mid", subject, [](const Equipment& e) { return e.is<Mid>(); }, "a MID");
        system_.load_controllers.push_back(std::move(controller));
    }

    void add_power_control(const Form& form) {
        const auto has_bus = [](const Equipment& e) { return e.is<Panel>() || e.is<Mid>(); };
        const int at = refer(form, "at", {}, has_bus, "a panel or a MID");
        if (!form.written("sources") && !form.written("bus")) {
            report("input.required", form.span, {}, "power_control has no setting",
                   {"`sources`, `bus` or both, such as sources = \"32 A\"", ""});
        }
        if (at < 0) {
            return;
        }
        for (const PowerControl& other : system_.power_controls) {
            if (other.at == at) {
                report("input.duplicate_id", form.span, {},
                       fmt::format("\"{}\" is under power control already", system_.at(at).id),
                       {"one setting for each bus", ""});
            }
        }
        system_.power_controls.push_back({.at = at,
                                          .sources = form.get<Amps>("sources"),
                                          .bus = form.get<Amps>("bus"),
                                          .listing = form.text("listing"),
                                          .by = power_control_system(form),
                                          .span = form.span});
    }

    /// What may be, or hold, a power control system; -1 where it is not named.
    int power_control_system(const Form& form) {
        const auto may_hold = [](const Equipment& e) {
            return e.is<Combiner>() || e.is<Mid>() || e.is<Inverter>() || e.is<Battery>() ||
                   e.is<Panel>();
        };
        return refer(form, "by", {}, may_hold, "a combiner, MID, inverter, battery or panel");
    }

    void check_shed_by(const std::string& id, Span span, const std::string& subject) {
        if (id.empty()) {
            return;
        }
        std::vector<std::string> ids;
        for (const LoadController& controller : system_.load_controllers) {
            ids.push_back(controller.id);
        }
        if (std::ranges::find(ids, id) == ids.end()) {
            report("input.reference", span, subject,
                   fmt::format("there is no load controller \"{}\"", id),
                   {"the id of a load controller", did_you_mean(id, ids)});
        }
    }

    void check_shedding() {
        for (const Equipment& e : system_.equipment) {
            const std::string subject = "equipment:" + e.id;
            if (const auto* branch = e.as<BranchArray>()) {
                check_shed_by(branch->shed_by, e.span, subject);
            } else if (const auto* panel = e.as<Panel>()) {
                for (const LoadCircuit& load : panel->loads) {
                    check_shed_by(load.shed_by, load.breaker.span, subject);
                }
            }
        }
    }

    const Form& description_;
    Shelf shelf_;
    System& system_;
    Findings& findings_;
};

} // namespace

void add_guards(const Form& description, Shelf shelf, System& system, Findings& findings) {
    Guards(description, shelf, system, findings).add();
}

} // namespace ohmfolio
