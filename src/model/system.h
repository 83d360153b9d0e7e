/// What a system is: equipment, the circuits between it, and where it stands. Plain facts with
/// lookup and nothing more. `input/` makes only systems that hold together: every index is valid,
/// the equipment forms one tree rooted at the utility, quantities are positive.
///
/// Direction: the *parent* of a piece of equipment is its neighbour toward the utility. A circuit
/// runs from the child to the parent, whichever way power flows.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/edition.h"
#include "base/length.h"
#include "base/quantity.h"
#include "base/source.h"
#include "base/wire.h"
#include "model/appendix.h"
#include "model/catalogue.h"
#include "model/elevation.h"
#include "model/equipment.h"
#include "model/house.h"
#include "model/load.h"
#include "model/material.h"
#include "model/revision.h"
#include "model/site_plan.h"
#include "model/supply.h"

namespace ohmfolio {

/// A raceway or cable from one piece of equipment to its parent, holding one or more circuits.
struct Run {
    std::string tag; ///< "R3"; empty where there is no raceway of ours: free air, the utility's
    int child = -1;
    Feet length{};
    RacewayKind raceway = RacewayKind::emt;
    std::optional<Spanned<TradeSize>> stated_trade_size;
    bool on_roof = false;             ///< in sunlight on a roof
    std::optional<Length> above_roof; ///< distance of its underside from the roof
    std::optional<Celsius> ambient;   ///< differs from the site's hottest temperature
    std::vector<int> circuits;        ///< indices into System::circuits
    int parallel_sets = 1;            ///< of conductors, each in a raceway of its own alike
    Span span;
};

enum class CircuitUse {
    trunk,         ///< trunk cable under the modules
    string,        ///< direct current of one string to its inverter
    branch,        ///< one microinverter branch below the junction box
    pv_output,     ///< an inverter, or all branches of a combiner together
    storage,       ///< output of one or more battery units
    generator,     ///< output of a generator
    supply_side,   ///< sources to the service conductors, ahead of the main
    source_feeder, ///< sources and backed-up loads together, between MID and panel
    backup_feeder, ///< from the MID to a backed-up panel
    service        ///< service conductors
};

struct Circuit {
    std::string tag; ///< "C3"; numbered in the order of the drawing, sources first
    CircuitUse use = CircuitUse::branch;
    int run = -1;     ///< index into System::runs
    std::string from; ///< terminal of the child, "out1"
    std::string to;   ///< terminal of the parent, "in1"
    Material material = Material::copper;
    Insulation insulation = Insulation::thwn_2;
    int lines = 2; ///< ungrounded conductors of a set; of direct current both
    Phases phases; ///< of alternating current: the lines of the bus that they belong to
    bool neutral = false;
    bool direct_current = false;
    int sets = 1;            ///< equal sets of conductors side by side, one a string
    bool by_utility = false; ///< the utility's conductors: drawn, not sized
    std::optional<Spanned<WireSize>> stated_size;
    std::optional<Spanned<WireSize>> stated_equipment_ground;
};

/// An overcurrent device at the parent's terminal of a circuit.
struct Breaker {
    std::string tag;  ///< "Q3"
    int at = -1;      ///< equipment
    int circuit = -1; ///< the circuit it protects
    std::string port; ///< terminal of `at` behind which it sits
    int poles = 2;
    std::optional<Spanned<Amps>> stated;
};

enum class Electrode { ground_rod, two_ground_rods, concrete_encased, water_pipe, ground_ring };

struct Grounding {
    int at = -1; ///< equipment where neutral and ground are bonded
    std::vector<Spanned<Electrode>> electrodes;
    Material material = Material::copper;
    std::optional<Spanned<WireSize>> stated_size;
};

/// A current transformer on the conductors at a terminal.
struct CurrentTransformer {
    std::string tag; ///< "CT-1"
    int at = -1;     ///< equipment
    std::string port;
    bool production = false; ///< else consumption
    int reports_to = -1;     ///< equipment that holds the gateway
};

/// Communications or control wiring between two pieces of equipment.
struct ControlLink {
    int from = -1, to = -1;
    std::string purpose;         ///< "MID CONTROL"
    std::string controller = {}; ///< load controller whose contacts it commands; empty: none
};

/// The utility's transformer and its conductors to the service, for the fault current there.
struct ServiceTransformer {
    Spanned<Watts> power{};
    double impedance = 0; ///< fraction
    Feet service_length{};
    WireSize service_size{};
    Material service_material = Material::aluminum;
    int service_sets = 1; ///< of its conductors, in parallel
};

struct Site {
    Celsius coldest{}; ///< extreme annual mean minimum, for 690.7
    Celsius hottest{}; ///< 2 % design dry bulb, for conductors
    std::string climate_source;
    std::string wind, snow, seismic;         ///< design loads, as the authority states them
    std::optional<Spanned<double>> latitude; ///< degrees, north positive
    std::vector<RoofPlane> roofs;
    SitePlan plan;
    std::optional<ServiceTransformer> transformer;
    Supply supply = Supply::split_phase;
    Volts voltage{240}; ///< between lines
    Volts to_neutral{120};
    Amps service{};
    Amps fault_current{}; ///< available at the service, 0: not stated
    /// Most that single-phase sources may load one line more than another, by the utility.
    std::optional<Spanned<Amps>> unbalance_limit;
};

/// A control system that keeps the current of sources on a bus within a setting (705.13).
struct PowerControl {
    int at = -1;                          ///< equipment whose bus it guards
    std::optional<Spanned<Amps>> sources; ///< most that all sources there deliver together
    std::optional<Spanned<Amps>> bus;     ///< most that all supplies bring to the bus
    std::string listing;                  ///< standard that it is listed to; empty: not stated
    int by = -1; ///< equipment that is, or holds, the system; -1: not stated
    Span span;
};

/// Relays that cut loads or PV branches off while the site is islanded.
struct LoadController {
    std::string id; ///< "LC-1"
    int record = -1;
    int mid = -1; ///< the interconnect device that commands it
    bool existing = false;
    Span span;
};

/// What the loads draw while the grid is away, as stated.
struct BackupStatement {
    Spanned<Watts> average{}; ///< zero: not stated
};

struct Project {
    std::string name, owner, address, parcel, jurisdiction, utility, scope, date, number;
    std::string permit; ///< number of the application
    std::string designer, licence, drawn_by, checked_by;
    std::string designer_address; ///< its lines parted by '\n'
    std::string designer_phone, designer_web;
    std::string occupancy;
    std::string adoption; ///< how the electrical code came into force: "Vance County Code 15.04"
    std::vector<std::string> other_codes; ///< as adopted locally, in their own words
};

struct Waiver {
    std::string rule, subject, reason;
    std::string by; ///< who ruled: the authority, the engineer of record
    Span span;
};

/// Who hangs on whom, looked up once; filled by System::relate(). Lists are in the order of the
/// text, or of the tags.
struct Relations {
    int root = -1; ///< the utility
    std::map<std::string, int, std::less<>> equipment_by_id;
    std::vector<std::vector<int>> children;                     ///< by equipment
    std::vector<std::vector<int>> circuits_from, circuits_into; ///< by equipment, its ends
    std::vector<int> run_from;                                  ///< by equipment, -1: none
    std::vector<int> breaker_of;                                ///< by circuit, -1: none
};

struct System {
    Edition edition = Edition::nec2023;
    Spanned<std::string> sheet; ///< format of the sheets, "ansi-d"; empty: the usual one
    Project project;
    House house; ///< style of the office that draws the job
    Site site;
    Catalogue catalogue;
    std::vector<Equipment>
        equipment; ///< in the order of the text; the utility is somewhere among it
    std::vector<Run> runs;
    std::vector<Circuit> circuits;
    std::vector<Breaker> breakers;
    Grounding grounding;
    std::vector<CurrentTransformer> transformers;
    std::vector<ControlLink> controls;
    std::vector<Waiver> waivers;
    std::vector<Revision> revisions; ///< oldest first
    std::vector<Comment> comments;
    std::vector<PowerControl> power_controls;
    std::vector<LoadController> load_controllers;
    std::vector<Wall> walls;
    std::optional<DwellingLoad> dwelling_load;
    std::optional<BackupStatement> backup;
    std::optional<Spanned<Feet>> control_length; ///< of all control wiring together
    MaterialStatement material;                  ///< beyond what is drawn
    std::vector<AppendedDocument> appendix;      ///< cut sheets first
    double voltage_change_limit = 0.02;          ///< PV to point of connection; common practice
    double ratio_limit = 0;                      ///< DC/AC; 0: the record's
    Relations relations;

    /// To be called when parents or circuits have changed; lookups go by what it has found.
    void relate();

    const Equipment& at(int index) const { return equipment[static_cast<std::size_t>(index)]; }
    int root() const { return relations.root; }            ///< the utility
    const std::vector<int>& children(int equipment) const; ///< in the order of the text
    int find(std::string_view id) const;                   ///< -1 when absent
    const Record* record(const Equipment& e) const;
    template <class R> const R* ratings(const Equipment& e) const {
        const Record* r = record(e);
        return r ? std::get_if<R>(&r->ratings) : nullptr;
    }
    int child_of(const Circuit& c) const { return runs[static_cast<std::size_t>(c.run)].child; }
    int parent_of(const Circuit& c) const;
    /// The ends as the trade names them: where power comes from, and where it goes. For the circuit
    /// of a source these are child and parent, for a feeder to loads the other way round.
    int source_end(const Circuit& c) const;
    int load_end(const Circuit& c) const;
    const Breaker* breaker_of(int circuit) const; ///< nullptr when protected elsewhere
    /// Ungrounded conductors of the bus or the terminals of `equipment`, and so the poles of its
    /// main: by its nameplate, of a switch or a splice by what goes through it.
    int lines_at(int equipment) const;
    /// All equipment below and including `equipment`, away from the utility.
    std::vector<int> subtree(int equipment) const;
    /// Modules or microinverters below and including `equipment`.
    int inverter_count(int equipment) const;
    const RoofPlane* roof(std::string_view name) const; ///< nullptr when not described
};

} // namespace ohmfolio
