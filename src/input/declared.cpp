#include "input/declared.h"

#include <algorithm>
#include <array>
#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "input/catalogue_reader.h"
#include "input/details.h"
#include "input/faults.h"

namespace ohmfolio {
namespace {

/// A kind of equipment: its table in the description, and what a drawing calls it when the drafter
/// does not say.
struct EquipmentKind {
    std::string_view table;
    std::string_view word;
    std::string_view title;
    DetailReader read;
};

/// In the order of the variant `Detail`, so that equipment finds its kind by index.
constexpr std::array<EquipmentKind, std::variant_size_v<Detail>> equipment_kinds = {{
    {"branch", "branch", "PV BRANCH", read_branch},
    {"string", "string", "PV STRINGS", read_string},
    {"inverter", "inverter", "INVERTER", read_plain<Inverter>},
    {"junction_box", "junction box", "ROOF JUNCTION BOX", read_plain<JunctionBox>},
    {"combiner", "combiner", "PV COMBINER PANEL", read_plain<Combiner>},
    {"disconnect", "disconnect", "AC DISCONNECT", read_disconnect},
    {"mid", "MID", "MICROGRID INTERCONNECT DEVICE", read_mid},
    {"battery", "battery", "ENERGY STORAGE UNIT", read_battery},
    {"panel", "panel", "PANELBOARD", read_panel},
    {"generator", "generator", "GENERATOR", read_generator},
    {"transfer_switch", "transfer switch", "TRANSFER SWITCH", read_plain<TransferSwitch>},
    {"supply_connection", "supply connection", "SUPPLY-SIDE CONNECTION", read_supply_connection},
    {"meter", "meter", "UTILITY METER", read_plain<Meter>},
    {"", "utility", "UTILITY", read_plain<Utility>},
}};

/// Far beyond any packet that a person could check, and within what a tree walk can take.
constexpr std::size_t most_equipment = 1000;

/// Looks records up for the keys that name them.
class Records {
  public:
    Records(Shelf shelf, Findings& findings) : shelf_(shelf), findings_(findings) {}

    int find(const Form& form, std::string_view key) {
        const auto name = form.get<std::string>(key);
        if (!name) {
            return -1;
        }
        const std::string_view kind = form.shape->find(key)->words.front();
        const auto found = std::ranges::find(shelf_.catalogue.records, name->value, &Record::key);
        if (found == shelf_.catalogue.records.end()) {
            report_unknown(*name, kind, form);
            return -1;
        }
        if (record_kind(*found) != kind) {
            findings_.push_back(
                input_fault("input.reference_kind", name->span, subject(form),
                            fmt::format("\"{}\" is a {} record", name->value, record_kind(*found)),
                            {fmt::format("a {} record", kind), suggestion(name->value, kind)}));
            return -1;
        }
        return static_cast<int>(found - shelf_.catalogue.records.begin());
    }

  private:
    static std::string subject(const Form& form) {
        return form.id.empty() ? "" : "equipment:" + form.id;
    }

    std::vector<std::string> keys_of(std::string_view kind) const {
        std::vector<std::string> keys;
        for (const Record& record : shelf_.catalogue.records) {
            if (record_kind(record) == kind) {
                keys.push_back(record.key);
            }
        }
        return keys;
    }

    std::string suggestion(const std::string& name, std::string_view kind) const {
        const auto candidates = keys_of(kind);
        if (const std::string hint = did_you_mean(name, candidates); !hint.empty()) {
            return hint;
        }
        return candidates.empty() ? fmt::format("the catalogue has no {} records", kind)
                                  : "the catalogue has: " + join(candidates, ", ");
    }

    void report_unknown(const Spanned<std::string>& name, std::string_view kind, const Form& form) {
        if (!shelf_.complete) {
            return;
        }
        findings_.push_back(input_fault(
            "input.reference", name.span, subject(form),
            fmt::format("no {} record \"{}\" in the catalogue", kind, name.value),
            {fmt::format("the key of a {} record", kind), suggestion(name.value, kind)}));
    }

    Shelf shelf_;
    Findings& findings_;
};

Declared read_equipment(const Form& form, const EquipmentKind& kind, Reading& reading) {
    Declared declared;
    declared.form = &form;
    declared.feeds_stated = form.written("feeds");
    Equipment& e = declared.equipment;
    e.id = form.id;
    e.span = form.span;
    e.title = drafting_case(form.value<std::string>("title", std::string(kind.title)));
    e.location = drafting_case(form.text("location"));
    e.existing = form.value<bool>("existing");
    e.record = find_record(form, "model", reading.shelf, reading.findings);
    e.fault_current = form.get<Amps>("fault_current");
    e.detail = kind.read(form, reading);
    if (const auto* branch = e.as<BranchArray>()) {
        e.location = branch->roof;
    } else if (const auto* string = e.as<StringArray>()) {
        e.location = string->roof;
    }
    return declared;
}

Declared utility() {
    Declared declared;
    declared.equipment.id = utility_id;
    declared.equipment.title = equipment_kinds.back().title;
    declared.equipment.existing = true;
    declared.equipment.detail = Utility{};
    return declared;
}

} // namespace

int find_record(const Form& form, std::string_view key, Shelf shelf, Findings& findings) {
    return Records(shelf, findings).find(form, key);
}

Finding no_such_equipment(const Spanned<std::string>& name, std::string subject,
                          std::string expected, const std::vector<std::string>& ids) {
    const std::string near = nearest(name.value, ids);
    return input_fault("input.reference", name.span, std::move(subject),
                       fmt::format("there is no equipment \"{}\"", name.value),
                       {std::move(expected), did_you_mean(name.value, ids)});
}

std::string_view kind_word(const Equipment& equipment) {
    return equipment_kinds[equipment.detail.index()].word;
}

std::vector<Declared> declare_equipment(const Form& description, Shelf shelf, Findings& findings) {
    Reading reading{description, shelf, findings};
    if (const Form* modules = description.form("modules")) {
        find_record(*modules, "module", shelf, findings);
        find_record(*modules, "microinverter", shelf, findings);
    }
    std::vector<Declared> all;
    for (const EquipmentKind& kind : equipment_kinds) {
        for (const Form& form : description.forms(kind.table)) {
            all.push_back(read_equipment(form, kind, reading));
        }
    }
    if (all.size() > most_equipment) {
        findings.push_back(
            input_fault("input.value", all[most_equipment].equipment.span, "",
                        fmt::format("{} pieces of equipment", all.size()),
                        {fmt::format("at most {} in one set", most_equipment), "divide the job"}));
        all.resize(most_equipment);
    }
    std::ranges::stable_sort(all, {}, [](const Declared& d) { return d.equipment.span; });
    all.push_back(utility());
    return all;
}

} // namespace ohmfolio
