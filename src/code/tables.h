/// The tables of one edition, read from code/tables/*.toml into plain rows. Private to the room.
#pragma once

#include <array>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "code/code_book.h"
#include "code/table_file.h"

namespace ohmfolio {

/// One value each for copper and aluminum; nothing where the table has none.
template <class T> struct ByMaterial {
    std::optional<T> copper, aluminum;
    const std::optional<T>& of(Material material) const {
        return material == Material::copper ? copper : aluminum;
    }
};

/// One value for each temperature column: 60, 75 and 90 C.
struct ByColumn {
    std::array<std::optional<double>, 3> values;
    std::optional<double> of(int celsius) const;
};

struct CodeBook::Tables {
    Tables(const TableFiles& files, Edition edition);

    struct Name {
        std::string cite;
        bool unverified = false;
    };
    struct Ampacity {
        WireSize size;
        ByColumn copper, aluminum;
    };
    struct Ambient {
        double through = 0;
        ByColumn factors;
    };
    /// A value that holds up to `through`; without an end in the last row.
    struct Band {
        std::optional<double> through;
        double value = 0;
    };
    struct SmallConductor {
        ByMaterial<Amps> limit;
        ByMaterial<Name> name;
    };
    struct EquipmentGround {
        Amps through;
        ByMaterial<WireSize> size;
    };
    struct GroundingElectrode {
        ByMaterial<CircularMils> through; ///< nothing in a last row without end
        ByMaterial<WireSize> size;
    };
    struct RacewayGround {
        RacewayKind kind;
        std::optional<TradeSize> through; ///< nothing: all sizes
        CodeBook::RacewayGround limits;
    };
    struct Cap {
        ByMaterial<WireSize> size;
        std::string rule;
    };
    struct Cold {
        double from = 0;
        double factor = 1;
    };
    struct Raceway {
        RacewayKind kind;
        TradeSize trade;
        SquareInches area;
        double inside = 0; ///< diameter in inches
    };
    struct Properties {
        CircularMils area;
        SquareInches bare;
        ByMaterial<OhmsPerFoot> resistance;
    };
    struct AcImpedance {
        OhmsPerFoot reactance_other, reactance_steel;
        ByMaterial<OhmsPerFoot> plastic, steel;
    };

    std::map<std::string, double, std::less<>> numbers;
    std::vector<Ampacity> ampacity, ampacity_free_air;
    std::vector<Ambient> ambient;
    std::vector<Band> bundling;
    std::vector<Amps> standard_ratings, standard_fuses; ///< ascending
    std::map<WireSize, SmallConductor> small_conductors;
    std::vector<EquipmentGround> equipment_ground;
    std::vector<GroundingElectrode> grounding_electrode;
    std::vector<GroundingElectrode> bonding_jumper;
    std::map<std::string, Cap, std::less<>> electrode_caps;
    std::vector<RacewayGround> raceway_grounds;
    std::map<std::string, ByMaterial<WireSize>, std::less<>> sizes; ///< that stand alone
    std::vector<Cold> voltage_correction;
    std::map<std::pair<Insulation, WireSize>, SquareInches> conductor_areas;
    std::vector<Raceway> raceways;
    std::vector<Band> raceway_fill;
    double nipple_fill = 0;
    Feet nipple_length{};
    std::map<WireSize, Properties> properties;
    std::map<WireSize, AcImpedance> ac_impedance;
    Feet rooftop_height{};
    CelsiusDelta rooftop_adder{};
    std::vector<Rule> rules;
    std::vector<BookNumber> listed_numbers;
};

/// The value of the first band that reaches to `at`; the last one must have no end.
double banded(const std::vector<CodeBook::Tables::Band>& bands, double at);

/// The conductor size under `key`.
WireSize wire_size(const TableRow& row, std::string_view key);

/// Steel raises the reactance of what it encloses.
bool is_steel(RacewayKind kind);

/// The embedded files, parsed once and never changed.
const TableFiles& code_tables();
/// Names of those that hold tables, not chapters.
std::vector<std::string> table_names();

} // namespace ohmfolio
