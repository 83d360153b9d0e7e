// Sources on the supply side of the service disconnect.
#include "code/supply_side_rules.h"

#include "code/inquiry.h"
#include "code/overcurrent_rules.h"

namespace ohmfolio {

namespace {

std::string words(SupplyRoute route) {
    switch (route) {
    case SupplyRoute::ahead_of_disconnect:
        return "on the supply side of the service disconnect, 230.82(6)";
    case SupplyRoute::new_service:
        return "a service of their own, 230.2(A)";
    case SupplyRoute::own_entrance_conductors:
        return "a further set of service-entrance conductors, 230.40 Exception No. 5";
    case SupplyRoute::not_stated:
        break;
    }
    return "how the sources reach the service";
}

void ask_conductors(const Desk& desk, const SupplySideInput& input, Inquiry& inquiry) {
    if (const auto least = smallest_supply_conductor(desk.book, input.material)) {
        const bool enough = input.conductor >= *least;
        inquiry.judge("supply.conductor", "supply_conductor", "Smallest conductor to the service",
                      name(input.conductor) +
                          (enough ? " is not smaller than " : " is smaller than ") + name(*least),
                      enough);
    }
    const auto required = required_rating(desk, input.connected, "source.conductor.continuous");
    inquiry.compare("source.conductor.continuous", "supply_ampacity",
                    "Conductors carry 125 % of the sources", input.ampacity, "≥", required);
    inquiry.compare("source.overcurrent", "supply_device_rating",
                    "Device carries 125 % of the sources", input.device, "≥", required);
}

/// Inside the building a distance counts, in other buildings than dwellings a longer one.
void ask_distance(const Desk& desk, const SupplySideInput& input, Inquiry& inquiry) {
    const SupplyDevicePlace& place = input.place;
    if (inquiry.asks("supply.distance.limiters") && place.limiters) {
        inquiry.stated("supply.distance.limiters", "supply_distance", "Limiters at the connection",
                       "cable limiters or current-limited breakers", true);
        return;
    }
    // Conductors have a length, but for those within a meter-socket adapter.
    if (place.length <= Feet{} && !input.adapter) {
        inquiry.stated("supply.distance", "supply_distance", "Conductors to the overcurrent device",
                       "their length", false);
        return;
    }
    const auto length = told(desk, "supply_length", "L", "Length from the connection to the device",
                             "as stated in the description", place.length);
    if (inquiry.asks("supply.distance.engineered") && !input.dwelling &&
        !place.engineered_by.empty()) {
        inquiry.stated("supply.distance.engineered", "supply_supervision",
                       "Engineering supervision", place.engineered_by, true);
        inquiry.compare("supply.distance.engineered", "supply_distance",
                        "Conductors to the overcurrent device, under supervision", length, "≤",
                        constant(Feet{desk.book.number("supply.distance.engineered")}));
        return;
    }
    const double limit =
        desk.book.number(input.dwelling ? "supply.distance.dwelling" : "supply.distance.other");
    inquiry.compare("supply.distance", "supply_distance", "Conductors to the overcurrent device",
                    length, "≤", constant(Feet{limit}));
}

void ask_place(const Desk& desk, const SupplySideInput& input, Inquiry& inquiry) {
    if (inquiry.asks("supply.device")) {
        inquiry.stated("supply.device", "supply_device_place", "Place of the overcurrent device",
                       "in the service disconnect or next to it", input.place.with_disconnect);
    } else if (inquiry.asks("supply.distance.outside") && input.place.connection_outside) {
        inquiry.stated("supply.distance.outside", "supply_device_place",
                       "Place of the overcurrent device",
                       "outside, or at the first readily accessible place inside",
                       input.place.readily_accessible);
    } else {
        ask_distance(desk, input, inquiry);
    }
}

void ask_adapter(const SupplySideInput& input, Inquiry& inquiry) {
    if (!input.adapter)
        return;
    inquiry.stated("supply.adapter", "supply_adapter_listed", "Meter-socket adapter is listed",
                   "listing", input.adapter_listed);
    inquiry.compare("supply.adapter", "supply_adapter", "Adapter carries the device of the sources",
                    *input.adapter, "≥", input.device);
}

} // namespace

std::optional<WireSize> smallest_supply_conductor(const CodeBook& book, Material material) {
    if (!book.rule("supply.conductor").exists)
        return std::nullopt;
    return book.conductor_size("supply.conductor", material);
}

RuleVerdicts check_supply_side(const Desk& desk, const SupplySideInput& input) {
    Inquiry inquiry(desk);
    inquiry.stated("supply.route", "supply_route", "Way to the service", words(input.route),
                   input.route != SupplyRoute::not_stated);
    inquiry.compare("supply.sum", "supply_sum", "Service carries the sources", input.sources, "≤",
                    input.service);
    inquiry.compare("supply.sum.devices", "supply_sum_devices",
                    "Service carries the devices of the sources",
                    input.devices.value_or(input.device), "≤", input.service);
    inquiry.stated("supply.connection", "supply_connection", "Connection to service conductors",
                   "connectors suitable for the line side of service equipment",
                   input.connectors_suitable);
    ask_conductors(desk, input, inquiry);
    ask_place(desk, input, inquiry);
    inquiry.stated("supply.disconnect", "supply_disconnect_service", "Disconnect of the sources",
                   "suitable for use as service equipment", input.service_rated);
    inquiry.stated("supply.disconnect", "supply_disconnect_opens", "Disconnect of the sources",
                   "opens all ungrounded conductors at once", input.opens_all);
    inquiry.stated("supply.bonding", "supply_bonding", "Bonding of the disconnect",
                   "bonded as service equipment", input.bonded_as_service);
    ask_adapter(input, inquiry);
    return inquiry.verdicts();
}

} // namespace ohmfolio
