#include "input/declared.h"

#include <algorithm>
#include <array>
#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "input/catalogue_reader.h"
#include "input/faults.h"

namespace ohmfolio {
namespace {

/// A kind of equipment: its table in the description, and what a drawing calls it when the drafter
/// does not say.
struct EquipmentKind {
    std::string_view table;
    std::string_view word;
    std::string_view title;
};

/// In the order of the variant `Detail`, so that equipment finds its kind by index.
constexpr std::array<EquipmentKind, std::variant_size_v<Detail>> equipment_kinds = {{
    {"branch", "branch", "PV BRANCH"},
    {"string", "string", "PV STRINGS"},
    {"inverter", "inverter", "INVERTER"},
    {"junction_box", "junction box", "ROOF JUNCTION BOX"},
    {"combiner", "combiner", "PV COMBINER PANEL"},
    {"disconnect", "disconnect", "AC DISCONNECT"},
    {"mid", "MID", "MICROGRID INTERCONNECT DEVICE"},
    {"battery", "battery", "ENERGY STORAGE UNIT"},
    {"panel", "panel", "PANELBOARD"},
    {"generator", "generator", "GENERATOR"},
    {"transfer_switch", "transfer switch", "TRANSFER SWITCH"},
    {"supply_connection", "supply connection", "SUPPLY-SIDE CONNECTION"},
    {"meter", "meter", "UTILITY METER"},
    {"", "utility", "UTILITY"},
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
        const std::string near = nearest(name, candidates);
        if (!near.empty()) {
            return fmt::format("did you mean \"{}\"?", near);
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

class Declaration {
  public:
    Declaration(const Form& description, Shelf shelf, Findings& findings)
        : description_(description), shelf_(shelf), findings_(findings) {}

    Declared read(const Form& form, const EquipmentKind& kind, std::size_t index) {
        Declared declared;
        declared.form = &form;
        declared.feeds_stated = form.written("feeds");
        Equipment& e = declared.equipment;
        e.id = form.id;
        e.span = form.span;
        e.title = drafting_case(form.value<std::string>("title", std::string(kind.title)));
        e.location = drafting_case(form.text("location"));
        e.existing = form.value<bool>("existing");
        e.record = record(form, "model");
        e.fault_current = form.get<Amps>("fault_current");
        e.detail = detail(form, index);
        if (const auto* branch = e.as<BranchArray>()) {
            e.location = branch->roof;
        } else if (const auto* string = e.as<StringArray>()) {
            e.location = string->roof;
        }
        return declared;
    }

  private:
    Detail detail(const Form& form, std::size_t index) {
        switch (index) {
        case 0:
            return branch(form);
        case 1:
            return string(form);
        case 2:
            return Inverter{};
        case 3:
            return JunctionBox{};
        case 4:
            return Combiner{};
        case 5:
            return disconnect(form);
        case 6:
            return Mid{.power_control = form.value<bool>("power_control")};
        case 7:
            return battery(form);
        case 8:
            return panel(form);
        case 9:
            return Generator{{form.value<bool>("bonded"), form.span_of("bonded")}};
        case 10:
            return TransferSwitch{};
        case 11:
            return SupplyConnection{form.value<bool>("meter_adapter")};
        default:
            return Meter{};
        }
    }

    BranchArray branch(const Form& form) {
        BranchArray result{.module = branch_record(form, "module"),
                           .microinverter = branch_record(form, "microinverter"),
                           .count = form.value<int>("modules"),
                           .roof = drafting_case(form.text("roof"))};
        if (const auto word = form.get<std::string>("orientation")) {
            result.orientation = {word->value == "portrait" ? Orientation::portrait
                                                            : Orientation::landscape,
                                  word->span};
        }
        result.shed_by = form.text("shed_by");
        return result;
    }

    StringArray string(const Form& form) {
        return {.module = branch_record(form, "module"),
                .in_series = form.value<int>("modules"),
                .strings = form.value<int>("strings", 1),
                .roof = drafting_case(form.text("roof")),
                .input = {form.value<int>("input", 1), form.span_of("input")},
                .fuse = form.get<Amps>("fuse"),
                .module_shutdown = form.value<bool>("module_shutdown")};
    }

    static Battery battery(const Form& form) {
        static constexpr std::pair<std::string_view, StoragePlace> places[] = {
            {"attached garage", StoragePlace::attached_garage},
            {"detached garage", StoragePlace::detached_garage},
            {"exterior wall", StoragePlace::exterior_wall},
            {"outdoors", StoragePlace::outdoors},
            {"utility closet", StoragePlace::utility_closet}};
        Battery result;
        if (const auto word = form.get<std::string>("place")) {
            for (const auto& [spelling, place] : places) {
                if (spelling == word->value) {
                    result.place = {place, word->span};
                }
            }
        }
        result.spacing = form.get<Feet>("spacing");
        return result;
    }

    static Disconnect disconnect(const Form& form) {
        Disconnect result;
        for (const Item& item : form.items("use")) {
            const auto& use = std::get<std::string>(item.value);
            result.utility |= use == "utility";
            result.rapid_shutdown |= use == "rapid shutdown";
            result.storage |= use == "storage";
            result.service |= use == "service";
        }
        return result;
    }

    static Panel panel(const Form& form) {
        Panel result;
        result.main = form.get<Amps>("main");
        result.opposite_end = form.value<bool>("opposite_end");
        result.center_fed = form.value<bool>("center_fed");
        result.through_lugs = form.value<bool>("through_lugs");
        result.loads_described = form.written("loads");
        for (const Item& item : form.items("loads")) {
            const auto breaker = std::get<LoadBreaker>(item.value);
            result.loads.push_back(
                {drafting_case(item.name), {breaker.rating, item.span}, breaker.poles});
        }
        for (const Form& more : form.forms("loads")) {
            result.loads.push_back(load(more));
        }
        std::ranges::stable_sort(result.loads, {},
                                 [](const LoadCircuit& l) { return l.breaker.span; });
        return result;
    }

    /// Kinds in the order of the words of the key `kind`.
    static LoadCircuit load(const Form& form) {
        LoadCircuit result{drafting_case(form.id), {}};
        if (const auto breaker = form.get<LoadBreaker>("breaker")) {
            result.breaker = {breaker->value.rating, breaker->span};
            result.poles = breaker->value.poles;
        }
        const auto& words = form.shape->find("kind")->words;
        const auto word = std::ranges::find(words, form.value<std::string>("kind", "general"));
        result.kind = static_cast<LoadKind>(word - words.begin());
        result.power = form.get<Watts>("power");
        result.locked_rotor = form.get<Amps>("locked_rotor");
        result.added = form.value<bool>("added");
        result.shed_by = form.text("shed_by");
        return result;
    }

    int record(const Form& form, std::string_view key) const {
        return find_record(form, key, shelf_, findings_);
    }

    /// The branch's own module or microinverter, else that of [modules].
    int branch_record(const Form& form, std::string_view key) {
        if (form.written(key)) {
            return record(form, key);
        }
        const Form* common = description_.form("modules");
        if (common == nullptr || !common->written(key)) {
            findings_.push_back(input_fault(
                "input.required", form.span, "equipment:" + form.id,
                fmt::format("no {} is stated for {}", key, form.id),
                {fmt::format("{} in [modules], or in the branch", key),
                 fmt::format("[modules] {} = {}", key, form.shape->find(key)->example)}));
            return -1;
        }
        const std::string name = common->text(key);
        const auto found = std::ranges::find(shelf_.catalogue.records, name, &Record::key);
        return found == shelf_.catalogue.records.end() || record_kind(*found) != key
                   ? -1
                   : static_cast<int>(found - shelf_.catalogue.records.begin());
    }

    const Form& description_;
    Shelf shelf_;
    Findings& findings_;
};

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

std::string_view kind_word(const Equipment& equipment) {
    return equipment_kinds[equipment.detail.index()].word;
}

std::vector<Declared> declare_equipment(const Form& description, Shelf shelf, Findings& findings) {
    Declaration declaration(description, shelf, findings);
    if (const Form* modules = description.form("modules")) {
        find_record(*modules, "module", shelf, findings);
        find_record(*modules, "microinverter", shelf, findings);
    }
    std::vector<Declared> all;
    for (std::size_t index = 0; index < equipment_kinds.size(); ++index) {
        for (const Form& form : description.forms(equipment_kinds[index].table)) {
            all.push_back(declaration.read(form, equipment_kinds[index], index));
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
