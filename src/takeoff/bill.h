/// The list while it is being made: what is alike becomes one item. Private to this room.
#pragma once

#include <string>
#include <vector>

#include "model/system.h"
#include "study/study.h"
#include "takeoff/practice.h"
#include "takeoff/takeoff.h"

namespace ohmfolio::takeoff {

class Bill {
  public:
    Bill(const System& system, const Study& study);

    const System& system;
    const Study& study;
    const Practice& practice;
    double waste; ///< of the job, else of the trade

    /// Adds to the item that is alike, or as a new one.
    void add(MaterialItem item);
    std::vector<MaterialItem> items() &&;

  private:
    std::vector<MaterialItem> items_;
};

/// An item counted in pieces, for what bears `serves`.
MaterialItem pieces(MaterialGroup group, std::string description, double count, std::string serves);
/// An item by the foot, with the waste of the bill.
MaterialItem by_the_foot(const Bill& bill, MaterialGroup group, std::string description,
                         Feet length, std::string serves);
/// The same as `pieces`, of a catalogue record.
MaterialItem pieces_of(MaterialGroup group, std::string description, const Record& record,
                       double count, std::string serves);

// array.cpp
void count_arrays(Bill& bill);
// wire.cpp
void measure_wire(Bill& bill);
// raceways.cpp
void measure_raceways(Bill& bill);
// devices.cpp
void count_devices(Bill& bill);
// equipment.cpp
void count_equipment(Bill& bill);
void count_controls(Bill& bill);
void count_grounding(Bill& bill);

} // namespace ohmfolio::takeoff
