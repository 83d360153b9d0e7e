/// What has to be bought for a system: counted from the model, never from the drawing, so that what
/// is drawn once for many is bought as often as it stands there. What existed before this work is
/// not bought.
///
/// A quantity is what is drawn (`net`), more by the waste of what is cut to length, rounded up to
/// whole units, and more by the spares that the job asks for.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "model/system.h"
#include "study/study.h"

namespace ohmfolio {

enum class MaterialGroup {
    array,      ///< modules, inverters at the modules, trunk cable and what goes with it
    wire,       ///< conductors by size, insulation and color
    raceway,    ///< raceway with what joins and fastens it
    protection, ///< breakers and fuses
    enclosures, ///< combiners, panels, switches, inverters, meters
    storage,    ///< storage units and generators
    control,    ///< load controllers, current transformers, control wiring
    grounding,  ///< electrode conductor and electrodes
};

struct MaterialItem {
    MaterialGroup group = MaterialGroup::array;
    std::string description;         ///< "Wire, 12 AWG CU THWN-2, black"
    std::string maker, model;        ///< of its catalogue record; empty where any make will do
    std::string unit;                ///< "ea", "ft", "drop"
    double net = 0;                  ///< as drawn
    double waste = 0;                ///< fraction added to it
    int spares = 0;                  ///< added to it
    std::string spare_kind;          ///< key of [material.spares]; empty: it has none
    std::vector<std::string> serves; ///< tags and ids: "C5", "PV-1"
    std::string note;                ///< what decides the quantity: "3 ft from boxes, ..."
    bool measured_on_site = false;   ///< nobody stated a length: no quantity

    int quantity() const; ///< to be ordered, in whole units
};

/// In the order of the groups; within a group of the system. Items that are alike are one.
std::vector<MaterialItem> take_off(const System& system, const Study& study);

} // namespace ohmfolio
