#include "input/details.h"

#include <algorithm>
#include <fmt/format.h>

#include "base/drafting_case.h"
#include "input/catalogue_reader.h"
#include "input/faults.h"

namespace ohmfolio {
namespace {

/// The branch's own module or microinverter, else that of [modules].
int branch_record(const Form& form, Reading& reading, std::string_view key) {
    if (form.written(key)) {
        return find_record(form, key, reading.shelf, reading.findings);
    }
    const Form* common = reading.description.form("modules");
    if (common == nullptr || !common->written(key)) {
        reading.findings.push_back(
            input_fault("input.required", form.span, "equipment:" + form.id,
                        fmt::format("no {} is stated for {}", key, form.id),
                        {fmt::format("{} in [modules], or in the branch", key),
                         fmt::format("[modules] {} = {}", key, form.shape->find(key)->example)}));
        return -1;
    }
    const std::string name = common->text(key);
    const auto found = std::ranges::find(reading.shelf.catalogue.records, name, &Record::key);
    return found == reading.shelf.catalogue.records.end() || record_kind(*found) != key
               ? -1
               : static_cast<int>(found - reading.shelf.catalogue.records.begin());
}

/// LoadKind is in the order of the words of the key `kind`.
LoadCircuit read_load(const Form& form) {
    LoadCircuit result{drafting_case(form.id), {}};
    if (const auto breaker = form.get<LoadBreaker>("breaker")) {
        result.breaker = {breaker->value.rating, breaker->span};
        result.poles = breaker->value.poles;
    }
    result.kind = static_cast<LoadKind>(form.word("kind").value_or(0));
    result.power = form.get<Watts>("power");
    result.locked_rotor = form.get<Amps>("locked_rotor");
    result.added = form.value<bool>("added");
    result.shed_by = form.text("shed_by");
    return result;
}

/// The first of the kinds is that it has none.
GroundFaultProtection ground_fault(const Form& form) {
    const auto word = form.word("ground_fault");
    return word ? static_cast<GroundFaultProtection>(*word + 1) : GroundFaultProtection::none;
}

std::optional<SurgeDevice> surge_device(const Form& form) {
    const Form* device = form.form("surge_device");
    if (device == nullptr)
        return {};
    SurgeDevice result;
    result.type = static_cast<int>(device->word("type").value_or(1)) + 1;
    if (const auto discharge = device->get<Amps>("discharge"))
        result.discharge = discharge->value;
    result.span = device->span;
    return result;
}

} // namespace

Detail read_branch(const Form& form, Reading& reading) {
    BranchArray result{.module = branch_record(form, reading, "module"),
                       .microinverter = branch_record(form, reading, "microinverter"),
                       .count = form.value<int>("modules"),
                       .roof = drafting_case(form.text("roof"))};
    if (const auto orientation = form.word("orientation")) {
        result.orientation = {static_cast<Orientation>(*orientation), form.span_of("orientation")};
    }
    result.shed_by = form.text("shed_by");
    return result;
}

Detail read_string(const Form& form, Reading& reading) {
    return StringArray{.module = branch_record(form, reading, "module"),
                       .in_series = form.value<int>("modules"),
                       .strings = form.value<int>("strings", 1),
                       .roof = drafting_case(form.text("roof")),
                       .input = {form.value<int>("input", 1), form.span_of("input")},
                       .fuse = form.get<Amps>("fuse"),
                       .module_shutdown = form.value<bool>("module_shutdown"),
                       .electronics =
                           find_record(form, "electronics", reading.shelf, reading.findings)};
}

Detail read_battery(const Form& form, Reading&) {
    Battery result;
    if (const auto place = form.word("place")) {
        // The first of the places is the one that is not stated.
        result.place = {static_cast<StoragePlace>(*place + 1), form.span_of("place")};
    }
    result.spacing = form.get<Feet>("spacing");
    return result;
}

Detail read_disconnect(const Form& form, Reading&) {
    Disconnect result;
    result.ground_fault = ground_fault(form);
    result.surge_device = surge_device(form);
    result.shutdown_contact = form.value<bool>("shutdown_contact");
    for (const Item& item : form.items("use")) {
        const auto& use = std::get<std::string>(item.value);
        result.utility |= use == "utility";
        result.rapid_shutdown |= use == "rapid shutdown";
        result.storage |= use == "storage";
        result.service |= use == "service";
    }
    return result;
}

Detail read_panel(const Form& form, Reading&) {
    Panel result;
    result.main = form.get<Amps>("main");
    result.opposite_end = form.value<bool>("opposite_end");
    result.center_fed = form.value<bool>("center_fed");
    result.through_lugs = form.value<bool>("through_lugs");
    result.ground_fault = ground_fault(form);
    result.collects = form.value<bool>("collects");
    result.surge_device = surge_device(form);
    result.loads_described = form.written("loads") || result.collects;
    for (const Item& item : form.items("loads")) {
        const auto breaker = std::get<LoadBreaker>(item.value);
        result.loads.push_back(
            {drafting_case(item.name), {breaker.rating, item.span}, breaker.poles});
    }
    for (const Form& more : form.forms("loads")) {
        result.loads.push_back(read_load(more));
    }
    std::ranges::stable_sort(result.loads, {}, [](const LoadCircuit& l) { return l.breaker.span; });
    return result;
}

Detail read_mid(const Form& form, Reading&) {
    return Mid{.power_control = form.value<bool>("power_control")};
}

Detail read_generator(const Form& form, Reading&) {
    return Generator{{form.value<bool>("bonded"), form.span_of("bonded")}};
}

Detail read_supply_connection(const Form& form, Reading&) {
    return SupplyConnection{form.value<bool>("meter_adapter")};
}

} // namespace ohmfolio
