// Modules, what stands at each of them, and the trunk cable of microinverters: one drop for each,
// more where the cable has to reach farther than its drops, and a cap on each that stays empty.
#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
#include "takeoff/bill.h"

namespace ohmfolio::takeoff {

namespace {

constexpr auto array = MaterialGroup::array;

const Record& record_at(const Bill& bill, int index) {
    return bill.system.catalogue.records[static_cast<std::size_t>(index)];
}

void add_modules(Bill& bill, int record, int count, const std::string& id) {
    MaterialItem item = pieces_of(array, "PV module", record_at(bill, record), count, id);
    item.spare_kind = "modules";
    bill.add(std::move(item));
}

/// The one-way length of the trunk cable, as the job states it.
Feet trunk_length(const Bill& bill, int equipment) {
    const int run = bill.system.relations.run_from[static_cast<std::size_t>(equipment)];
    return run < 0 ? Feet{} : bill.system.runs[static_cast<std::size_t>(run)].length;
}

void add_clips(Bill& bill, Feet length, const std::string& what, const std::string& id) {
    const double inches = bill.practice.clip_spacing.value * 12;
    MaterialItem item = pieces(array, "Cable clip, " + what,
                               whole_pieces((length / bill.practice.clip_spacing).value), id);
    item.note = fmt::format("one every {} in", trimmed(inches, 1));
    item.spare_kind = "clips";
    bill.add(std::move(item));
}

/// Trunk cable of one branch: its conductors, the distance of its drops, and the record that has
/// both.
struct Trunk {
    const Record* cable = nullptr;
    Feet spacing{};
    std::string words;
};

/// Where the orientation of the modules is not stated, their cable is not known: the drops are
/// counted all the same, by the closer spacing, which asks for more of them.
Trunk trunk_of(const Bill& bill, const BranchArray& branch) {
    const Record& record = record_at(bill, branch.microinverter);
    const auto& inverter = std::get<MicroinverterRatings>(record.ratings);
    const std::string size = fmt::format("Trunk cable, {}, ", name(inverter.trunk_size));
    const auto feet = [](Feet f) { return trimmed(f.value, 2); };
    if (!branch.orientation) {
        return {nullptr, std::min(inverter.drop_spacing_portrait, inverter.drop_spacing_landscape),
                size + fmt::format("drops {} ft apart (portrait) or {} ft (landscape)",
                                   feet(inverter.drop_spacing_portrait),
                                   feet(inverter.drop_spacing_landscape))};
    }
    const bool portrait = branch.orientation->value == Orientation::portrait;
    const Feet spacing =
        portrait ? inverter.drop_spacing_portrait : inverter.drop_spacing_landscape;
    return {trunk_cable_of(bill.system.catalogue, record, portrait), spacing,
            size + fmt::format("drops {} ft apart, {}", feet(spacing),
                               portrait ? "portrait" : "landscape")};
}

/// Microinverters and spare drops, or as many as it takes to reach as far as stated.
int drops_of(const Bill& bill, const BranchArray& branch, Feet spacing, Feet length) {
    const int wanted = branch.count + bill.system.material.spare_drops;
    return spacing > Feet{0} ? std::max(wanted, whole_pieces((length / spacing).value)) : wanted;
}

void add_cap(Bill& bill, std::string what, std::string kind, int count, const std::string& id,
             const Record* cable, const std::string& model) {
    if (count == 0 && !bill.system.material.spares.contains(kind))
        return;
    MaterialItem item = pieces(array, std::move(what), count, id);
    if (cable != nullptr && !model.empty()) {
        item.maker = cable->maker;
        item.model = model;
    }
    item.spare_kind = std::move(kind);
    bill.add(std::move(item));
}

void add_trunk(Bill& bill, const Equipment& e, const BranchArray& branch, Feet length) {
    const Trunk trunk = trunk_of(bill, branch);
    const int drops = drops_of(bill, branch, trunk.spacing, length);
    MaterialItem cable = pieces(array, trunk.words, drops, e.id);
    cable.unit = "drop";
    cable.note = branch.orientation ? std::string{} : "orientation of the modules not stated";
    TrunkCableRatings ratings{};
    if (trunk.cable != nullptr) {
        ratings = std::get<TrunkCableRatings>(trunk.cable->ratings);
        cable.maker = trunk.cable->maker;
        cable.model = trunk.cable->model;
        if (ratings.drops > 0)
            cable.note = fmt::format("in pieces of {} drops", ratings.drops);
    }
    bill.add(std::move(cable));
    add_cap(bill, "End cap of trunk cable", "end_caps", 1, e.id, trunk.cable, ratings.end_cap);
    add_cap(bill, "Cap of an unused drop", "drop_caps", drops - branch.count, e.id, trunk.cable,
            ratings.drop_cap);
    add_clips(bill, std::max(length, trunk.spacing * drops), "trunk cable", e.id);
}

void add_branch(Bill& bill, int index, const BranchArray& branch) {
    const Equipment& e = bill.system.at(index);
    add_modules(bill, branch.module, branch.count, e.id);
    MaterialItem inverters = pieces_of(array, "Microinverter",
                                       record_at(bill, branch.microinverter), branch.count, e.id);
    inverters.spare_kind = "microinverters";
    bill.add(std::move(inverters));
    add_trunk(bill, e, branch, trunk_length(bill, index));
}

void add_strings(Bill& bill, int index, const StringArray& strings) {
    const Equipment& e = bill.system.at(index);
    add_modules(bill, strings.module, strings.modules(), e.id);
    if (strings.electronics >= 0) {
        MaterialItem item =
            pieces_of(array, "Module electronics", record_at(bill, strings.electronics),
                      strings.modules(), e.id);
        item.spare_kind = "electronics";
        bill.add(std::move(item));
    }
    MaterialItem connectors = pieces(array, "PV connector, pair",
                                     bill.practice.connectors_per_string * strings.strings, e.id);
    connectors.note = "for the leads to the inverter, of the make of the module's own";
    connectors.spare_kind = "connectors";
    bill.add(std::move(connectors));
}

} // namespace

void count_arrays(Bill& bill) {
    for (int i = 0; i < static_cast<int>(bill.system.equipment.size()); ++i) {
        const Equipment& e = bill.system.at(i);
        if (e.existing)
            continue;
        if (const auto* branch = e.as<BranchArray>())
            add_branch(bill, i, *branch);
        else if (const auto* strings = e.as<StringArray>())
            add_strings(bill, i, *strings);
    }
    for (const Run& run : bill.system.runs) {
        const Equipment& e = bill.system.at(run.child);
        if (e.is<StringArray>() && !e.existing && run.raceway == RacewayKind::free_air)
            add_clips(bill, run.length, "wire in free air", e.id);
    }
}

} // namespace ohmfolio::takeoff
