/// Sources on the supply side of the service disconnect, a meter-socket adapter among them (2017:
/// 705.12(A) and 705.31; since 2020: 705.11). Currents here are the continuous outputs themselves,
/// not 125 % of them, unless said otherwise.
///
/// What the editions ask differs most in where the overcurrent device may be: 2017 and 2020 measure
/// the conductors, 2023 sends to the place of the service disconnect.
#pragma once

#include <optional>
#include <string>

#include "base/wire.h"
#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

/// How the sources reach the service (705.11(A) of 2023 lists these three).
enum class SupplyRoute {
    not_stated,
    ahead_of_disconnect,    ///< on the supply side of the service disconnect (230.82(6))
    new_service,            ///< a service of their own (230.2(A))
    own_entrance_conductors ///< a further set of entrance conductors (230.40 Exception No. 5)
};

/// Where the overcurrent device is, seen from the point of connection.
struct SupplyDevicePlace {
    Feet length{}; ///< of the conductors between; since 2020 of their part in the building
    bool connection_outside = false; ///< outside the building
    /// Outside, or at the first readily accessible place where the conductors enter. Not stated.
    bool readily_accessible = false;
    bool with_disconnect = false; ///< part of the service disconnect, or next to it. Not stated
    bool limiters = false;        ///< cable limiters or current-limited breakers at the connection
    std::string engineered_by = {}; ///< document of the supervision for the longer distance
};

struct SupplySideInput {
    SupplyRoute route = SupplyRoute::not_stated;
    Term<Amps> service;   ///< ampacity of the service conductors, or their device if that is less
    Term<Amps> sources;   ///< continuous outputs of all sources of the service, also its load side
    Term<Amps> connected; ///< continuous outputs that these conductors carry
    WireSize conductor{};
    Material material = Material::copper;
    Term<Amps> ampacity; ///< of the conductors
    Term<Amps> device;
    /// Ratings of the devices of all sources on the supply side, which 2017 adds up. Nothing:
    /// `device` is the only one.
    std::optional<Term<Amps>> devices = {};
    bool dwelling = true;
    SupplyDevicePlace place = {};
    bool connectors_suitable = false; ///< for the line side of service equipment; not stated
    bool service_rated = false;       ///< disconnect suitable as service equipment; not stated
    bool opens_all = false;           ///< all ungrounded conductors at once; not stated
    bool bonded_as_service = false;   ///< main bonding jumper in it; not stated
    std::optional<Term<Amps>> adapter = {}; ///< rating of a meter-socket adapter
    bool adapter_listed = false;            ///< not stated
};
/// Faults by "supply.route", "supply.sum", "supply.sum.devices", "supply.connection",
/// "supply.conductor", "source.conductor.continuous", "source.overcurrent", "supply.distance" (and
/// ".outside",
/// ".engineered"), "supply.device", "supply.disconnect", "supply.bonding", "supply.adapter".
RuleVerdicts check_supply_side(const Desk&, const SupplySideInput&);

/// The smallest conductor that the edition allows between service and sources, whatever their
/// current; nothing where it names none.
std::optional<WireSize> smallest_supply_conductor(const CodeBook&, Material);

} // namespace ohmfolio
