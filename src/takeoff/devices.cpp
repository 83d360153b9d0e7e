// Breakers, only of a model that the label of their enclosure lists, and fuses.
#include <fmt/format.h>

#include "base/text.h"
#include "study/fitted_breakers.h"
#include "takeoff/bill.h"

namespace ohmfolio::takeoff {

namespace {

std::string amps(Amps a) { return trimmed(a.value, 2) + " A"; }

void add_fuses(Bill& bill, const FittedDevice& device) {
    MaterialItem item =
        pieces(MaterialGroup::protection,
               fmt::format("Fuse, {}{}", amps(device.rating), device.direct_current ? ", DC" : ""),
               device.poles, device.serves);
    item.note = "of the class that the label of its holder names";
    item.spare_kind = "fuses";
    bill.add(std::move(item));
}

void add_breaker(Bill& bill, const FittedDevice& device) {
    const Equipment& holder = bill.system.at(device.holder);
    const Record* record = bill.system.record(holder);
    const std::string words = fmt::format("Circuit breaker, {}, {}-pole{}", amps(device.rating),
                                          device.poles, device.direct_current ? ", DC" : "");
    const Record* listed = record == nullptr ? nullptr
                                             : listed_breaker(bill.system.catalogue, *record,
                                                              device.rating, device.poles);
    MaterialItem item =
        listed == nullptr ? pieces(MaterialGroup::protection, words, 1, device.serves)
                          : pieces_of(MaterialGroup::protection, words, *listed, 1, device.serves);
    if (listed == nullptr && record != nullptr)
        item.note = fmt::format("of a model that the label of {} lists", record->model);
    item.spare_kind = "breakers";
    bill.add(std::move(item));
}

} // namespace

void count_devices(Bill& bill) {
    for (const FittedDevice& device : fitted_devices(bill.system, bill.study))
        device.fuses ? add_fuses(bill, device) : add_breaker(bill, device);
}

} // namespace ohmfolio::takeoff
