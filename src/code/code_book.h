/// The code book: tables and citations of one edition. Tables are TOML under code/tables/, embedded
/// in the program at build time; a table lists an edition only where a value or its section moved,
/// and what it says holds until the next listed edition.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/edition.h"
#include "base/quantity.h"
#include "base/wire.h"
#include "code/derivation.h"

namespace ohmfolio {

/// One rule of the book, for the list of rules and the reference page.
struct Rule {
    std::string id;     ///< "source.conductor.continuous"
    std::string checks; ///< what it asks, in our words
    std::string formula;
    std::string source;      ///< where the number and the paragraph were read, and how sure that is
    Citation cite;           ///< in this edition
    bool exists = true;      ///< false: the edition has no such rule
    std::string number = {}; ///< name of the number that it uses, see `CodeBook::number`
    std::string chapter = {}; ///< title of the chapter that it stands in
};

/// A number of the law that is data, for the reference page.
struct BookNumber {
    std::string id;      ///< "source.continuous"
    std::string meaning; ///< with its unit, in our words
    std::string source;
    std::string chapter; ///< title of the chapter that it stands in
    double value = 0;    ///< in this edition
};

/// A table of the book, for the reference page.
struct BookTable {
    std::string title; ///< "Ampacities of insulated conductors"
    Citation cite;     ///< in this edition
    std::string source;
    std::string confidence; ///< how many pages agree on its values, in words
};

/// Fuses come in more standard ratings than breakers do (240.6(A)).
enum class DeviceKind { breaker, fuse };

class CodeBook {
  public:
    explicit CodeBook(Edition edition);
    /// Reads the files of the book, which else the first book does: for a thread beside others.
    static void read_ahead();
    Edition edition() const { return edition_; }

    /// The paragraph of rule `id` in this edition. An unknown id is a fault of ours: throws.
    Citation cite(std::string_view id) const;
    const Rule& rule(std::string_view id) const;
    /// All rules, in report order.
    const std::vector<Rule>& rules() const { return rules_; }
    /// A number of the law that is data: number("source.continuous") = 1.25, ("bus.120") = 1.20.
    /// The id of a rule names the number that the rule uses.
    double number(std::string_view id) const;
    /// All numbers, in the order of the chapters.
    const std::vector<BookNumber>& numbers() const;
    /// All tables, by title.
    std::vector<BookTable> tables() const;

    // Tables. Each returns nothing where the table has no entry.
    std::optional<Amps> ampacity(WireSize, Material, int column_celsius) const; ///< Table 310.16
    /// Single conductors in free air, Table 310.17.
    std::optional<Amps> ampacity_free_air(WireSize, Material, int column_celsius) const;
    std::optional<double> ambient_factor(Celsius ambient, int column_celsius) const;
    double bundling_factor(int current_carrying_conductors) const;
    /// Smallest standard rating not below `amps`, and the largest not above it.
    std::optional<Amps> standard_rating_up(Amps amps, DeviceKind = DeviceKind::breaker) const;
    std::optional<Amps> standard_rating_down(Amps amps, DeviceKind = DeviceKind::breaker) const;
    bool is_standard_rating(Amps amps, DeviceKind = DeviceKind::breaker) const;
    /// Largest overcurrent device for a small conductor (240.4(D)); nothing: not a small conductor.
    std::optional<Amps> small_conductor_limit(WireSize, Material) const;
    std::optional<WireSize> equipment_ground(Amps overcurrent, Material) const; ///< 250.122
    std::optional<WireSize> grounding_electrode(WireSize service, Material service_material,
                                                Material electrode_material) const; ///< 250.66
    /// The same by the area of the service conductors of one phase: parallel ones add up.
    std::optional<WireSize> grounding_electrode(CircularMils service, Material service_material,
                                                Material electrode_material) const;
    /// Jumper or grounded conductor on the supply side by the area of the conductors of one phase
    /// (250.102(C)(1)); nothing: the area is beyond the table, where a share of it counts.
    std::optional<WireSize> bonding_jumper(CircularMils phase, Material phase_material,
                                           Material jumper_material) const;
    std::optional<double> voltage_table_factor(Celsius coldest) const;      ///< 690.7(A)
    std::optional<SquareInches> conductor_area(WireSize, Insulation) const; ///< Ch. 9 T. 5
    std::optional<SquareInches> raceway_area(RacewayKind, TradeSize) const; ///< Ch. 9 T. 4
    std::optional<double> raceway_diameter(RacewayKind, TradeSize) const;   ///< inside, in inches
    double fill_limit(int conductors, bool nipple) const;                   ///< Ch. 9 T. 1
    std::optional<CircularMils> circular_mils(WireSize) const;              ///< Ch. 9 T. 8
    std::optional<OhmsPerFoot> dc_resistance(WireSize, Material) const;     ///< Ch. 9 T. 8
    /// AC resistance and reactance to neutral, Ch. 9 T. 9; falls back on nothing.
    struct Impedance {
        OhmsPerFoot resistance, reactance;
    };
    std::optional<Impedance> ac_impedance(WireSize, Material, RacewayKind) const;
    /// Below this height above the roof a raceway in sunlight takes the rooftop adder.
    Feet rooftop_height() const;
    CelsiusDelta rooftop_adder() const;
    /// "Table 310.16" in this edition; `table` is the file's name without suffix, "ampacity".
    std::string table_name(std::string_view table) const;
    Citation cite_table(std::string_view table) const;
    /// The paragraph of 240.4(D) that is about this conductor.
    Citation cite_small_conductor(WireSize, Material) const;
    /// The cap on a grounding electrode conductor that serves only electrodes of one kind ("rod",
    /// "concrete-encased"); nothing: there is no cap.
    struct ElectrodeCap {
        WireSize size;
        Citation cite;
    };
    std::optional<ElectrodeCap> electrode_cap(std::string_view electrode, Material) const;
    /// A conductor size of the law that stands alone: conductor_size("supply.conductor", copper) is
    /// 6 AWG. Nothing: the law names none for the material.
    std::optional<WireSize> conductor_size(std::string_view id, Material) const;
    /// What a metal raceway may ground (250.118); nothing: the kind or size may ground nothing.
    struct RacewayGround {
        std::optional<Amps> device; ///< largest overcurrent device of the circuits inside
        std::optional<Feet> length; ///< longest flexible part of the ground-fault path
    };
    std::optional<RacewayGround> raceway_ground(RacewayKind, TradeSize) const;
    /// Longest raceway that counts as a nipple.
    Feet nipple_length() const;
    /// All sizes that the ampacity table lists for the material, smallest first.
    std::vector<WireSize> listed_sizes(Material) const;
    /// All trade sizes listed for the kind, smallest first.
    std::vector<TradeSize> listed_trade_sizes(RacewayKind) const;

    struct Tables;

  private:
    Edition edition_;
    const Tables* tables_;
    std::vector<Rule> rules_;
};

} // namespace ohmfolio
