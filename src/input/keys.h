/// Every key that a description or a catalogue may hold, once. These tables drive the reading, the
/// messages, and whatever else must agree with them. A key's place is its shape: `Shape` is the set
/// of keys of one kind of table, and a key may hold a table of another shape.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace ohmfolio {

/// What a key holds.
enum class Kind {
    // one value
    text,
    date,         ///< "2026-03-02"
    flag,         ///< true or false
    count,        ///< a whole number, at least 1
    number,       ///< a plain number above 0
    percent,      ///< "2 %"
    per_celsius,  ///< "-0.26 %/C"
    power,        ///< "405 W", "3.84 kVA"
    voltage,      ///< "240 V"
    current,      ///< "20 A", "9.2 kA"
    energy,       ///< "10.08 kWh"
    length,       ///< "85 ft", "26 m"
    distance,     ///< as a length, but may be 0
    paper,        ///< "10.2 pt", "0.25 mm": a length on paper, in feet as the others
    temperature,  ///< "-9 C", "15 F"
    area,         ///< "2150 ft2"
    angle,        ///< "23 deg"
    plan_point,   ///< "12 ft, 30 ft": to the right and up the sheet of a site plan
    wire_size,    ///< "8 AWG", "250 kcmil"
    trade_size,   ///< "3/4"
    raceway,      ///< "EMT"
    material,     ///< "copper"
    insulation,   ///< "THWN-2"
    load_breaker, ///< "20 A" (one pole), "20 A 2P"
    service,      ///< "120/240 V, 200 A"
    edition,      ///< "NEC 2023"
    choice,       ///< one of `words`
    equipment,    ///< id of equipment of this description
    record,       ///< key of a catalogue record, of the kinds in `words`
    // tables
    table,         ///< one table of `shape`
    tables_by_id,  ///< tables of `shape`, each under an id
    table_list,    ///< a list of tables of `shape`
    values_by_name ///< load breakers, each under a name; or tables of `shape` that say more
};

struct Shape;

struct Key {
    std::string_view name;
    Kind kind = Kind::text;
    bool required = false;
    bool many = false;              ///< a list of such values; a single one need not be a list
    std::string_view fallback = {}; ///< as it would be written in TOML; empty: none
    std::string_view meaning = {};  ///< one line
    std::string_view example = {};  ///< as written in TOML
    std::span<const std::string_view> words = {};
    const Shape* shape = nullptr;
};

struct Shape {
    std::string_view name; ///< "run"
    std::span<const Key> own;
    std::span<const Key> shared; ///< keys that several shapes have in common

    const Key* find(std::string_view key) const;
    std::vector<std::string> names() const; ///< in the order of the tables
    std::vector<const Key*> keys() const;   ///< shared keys first
};

const Shape& description_shape();
const Shape& catalogue_shape();
const Shape& house_shape();

} // namespace ohmfolio
