/// What the steps share about strings and the inverters they feed. Private to the room.
#pragma once

#include "code/array_place.h"
#include "code/conductor_rules.h"
#include "code/grounding_rules.h"
#include "code/string_rules.h"
#include "study/work.h"

namespace ohmfolio::workings {

/// A string array with its records, on one input of its inverter.
struct StringOnInput {
    const Equipment& equipment;
    const StringArray& array;
    const Record& module_record;
    const ModuleRatings& module;
    const Equipment& inverter;
    const Record& inverter_record;
    const StringInverterRatings& ratings;
    const Record* electronics_record = nullptr; ///< at each module; nullptr: none named
    const ModuleElectronicsRatings* electronics = nullptr;

    bool converts() const { return electronics != nullptr && electronics->converts(); }
    bool record_shuts_down() const { return electronics != nullptr && electronics->shutdown; }
    bool shuts_down() const { return array.module_shutdown || record_shuts_down(); }
};

/// The array at the source end of a direct-current circuit.
StringOnInput string_of(const System&, const Circuit&);
/// Strings in parallel on the input that this one is on, itself included.
int parallel_on_input(const System&, const StringOnInput&);
/// Highest voltage of the string, as the step check_strings found it.
Term<Volts> string_voltage_of(const Work&, const Equipment&);
StringLimits limits_of(const Work&, const StringOnInput&);

// module_electronics.cpp
/// Each module against the electronics it stands on, at its coldest.
void check_module_electronics(Work&, const StringOnInput&);
/// Strings of converters: their number in series, their power and the voltage that they make.
void check_converters(Work&, const StringOnInput&);

// string_shutdown.cpp
/// Rapid shutdown by the electronics at the modules, as their record states it.
void check_string_shutdown(Work&, const StringOnInput&);

ArrayPlace place_of(const System&);

// string_circuits.cpp: what other steps ask of direct-current circuits
void derive_string_current(Work&, int circuit);
Work::Load string_load(Work&, int circuit);
ConductorResult size_string_conductor(Work&, int circuit, const ConductorInput& conditions);
EquipmentGroundResult size_string_ground(Work&, int circuit);

} // namespace ohmfolio::workings
