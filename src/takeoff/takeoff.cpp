#include "takeoff/takeoff.h"

#include <algorithm>
#include <tuple>

#include "takeoff/bill.h"

namespace ohmfolio {

namespace takeoff {

namespace {

auto identity(const MaterialItem& item) {
    return std::tie(item.group, item.description, item.maker, item.model, item.unit, item.note,
                    item.measured_on_site);
}

} // namespace

Bill::Bill(const System& s, const Study& result)
    : system(s), study(result), practice(practice_of_trade()),
      waste(s.material.waste ? s.material.waste->value : practice.waste) {}

void Bill::add(MaterialItem item) {
    const auto alike = std::ranges::find_if(
        items_, [&](const MaterialItem& other) { return identity(other) == identity(item); });
    if (alike == items_.end()) {
        items_.push_back(std::move(item));
        return;
    }
    alike->net += item.net;
    for (std::string& each : item.serves) {
        if (std::ranges::find(alike->serves, each) == alike->serves.end())
            alike->serves.push_back(std::move(each));
    }
}

std::vector<MaterialItem> Bill::items() && {
    for (MaterialItem& item : items_) {
        const auto spares = system.material.spares.find(item.spare_kind);
        if (spares != system.material.spares.end())
            item.spares = spares->second;
    }
    std::erase_if(items_, [](const MaterialItem& item) {
        return item.quantity() == 0 && !item.measured_on_site;
    });
    std::ranges::stable_sort(items_, {}, &MaterialItem::group);
    return std::move(items_);
}

MaterialItem pieces(MaterialGroup group, std::string description, double count,
                    std::string serves) {
    MaterialItem item;
    item.group = group;
    item.description = std::move(description);
    item.unit = "ea";
    item.net = count;
    item.serves.push_back(std::move(serves));
    return item;
}

MaterialItem by_the_foot(const Bill& bill, MaterialGroup group, std::string description,
                         Feet length, std::string serves) {
    MaterialItem item = pieces(group, std::move(description), length.value, std::move(serves));
    item.unit = "ft";
    item.waste = bill.waste;
    return item;
}

MaterialItem pieces_of(MaterialGroup group, std::string description, const Record& record,
                       double count, std::string serves) {
    MaterialItem item = pieces(group, std::move(description), count, std::move(serves));
    item.maker = record.maker;
    item.model = record.model;
    return item;
}

} // namespace takeoff

int MaterialItem::quantity() const { return whole_pieces(net * (1 + waste)) + spares; }

std::vector<MaterialItem> take_off(const System& system, const Study& study) {
    takeoff::Bill bill(system, study);
    takeoff::count_arrays(bill);
    takeoff::measure_wire(bill);
    takeoff::measure_raceways(bill);
    takeoff::count_devices(bill);
    takeoff::count_equipment(bill);
    takeoff::count_controls(bill);
    takeoff::count_grounding(bill);
    return std::move(bill).items();
}

} // namespace ohmfolio
