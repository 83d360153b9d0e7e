/// Keys that several kinds of equipment have in common. Private to the tables of keys.
#pragma once

#include <array>

#include "input/key_tables.h"

namespace ohmfolio {

inline constexpr std::array<std::string_view, 5> electrode_words = {
    "ground rod", "two ground rods", "concrete-encased", "water pipe", "ground ring"};

inline constexpr Key run_keys[] = {
    {.name = "length",
     .kind = Kind::length,
     .required = true,
     .meaning = "One-way length",
     .example = "\"46 ft\""},
    {.name = "raceway",
     .kind = Kind::raceway,
     .fallback = "\"EMT\"",
     .meaning = "Wiring method",
     .example = "\"EMT\""},
    {.name = "trade_size",
     .kind = Kind::trade_size,
     .meaning = "Trade size of the raceway; none: the smallest that complies",
     .example = "\"3/4\""},
    {.name = "size",
     .kind = Kind::wire_size,
     .meaning = "Size of the phase conductors; none: the smallest that complies",
     .example = "\"10 AWG\""},
    {.name = "ground",
     .kind = Kind::wire_size,
     .meaning = "Size of the equipment ground; none: the smallest that complies",
     .example = "\"10 AWG\""},
    {.name = "sets",
     .kind = Kind::count,
     .fallback = "1",
     .meaning = "Sets of conductors in parallel, each in a raceway of its own",
     .example = "4"},
    {.name = "material",
     .kind = Kind::material,
     .fallback = "\"copper\"",
     .meaning = "Metal of the conductors",
     .example = "\"copper\""},
    {.name = "insulation",
     .kind = Kind::insulation,
     .fallback = "\"THWN-2\"",
     .meaning = "Insulation of the conductors",
     .example = "\"THWN-2\""},
    {.name = "neutral",
     .kind = Kind::flag,
     .meaning = "Carries a neutral; none: as the equipment at its ends needs",
     .example = "true"},
    {.name = "above_roof",
     .kind = Kind::distance,
     .meaning = "Over a roof in sunlight: from the roof to the underside of the raceway",
     .example = "\"1 in\""},
    {.name = "ambient",
     .kind = Kind::temperature,
     .meaning = "Where hotter or cooler than the site's hottest temperature",
     .example = "\"50 C\""},
};
inline constexpr Shape run = {"run", run_keys, {}};

inline constexpr Key trunk_keys[] = {
    {.name = "length",
     .kind = Kind::length,
     .required = true,
     .meaning = "One-way length of trunk cable, from the far microinverter",
     .example = "\"28 ft\""},
    {.name = "ambient",
     .kind = Kind::temperature,
     .meaning = "Draws a warning: trunk cable is a listed assembly with an ampacity of its own",
     .example = "\"50 C\""},
};
inline constexpr Shape trunk = {"trunk cable", trunk_keys, {}};

inline constexpr Key feeds_key = {.name = "feeds",
                                  .kind = Kind::equipment,
                                  .required = true,
                                  .meaning = "Neighbor toward the utility",
                                  .example = "\"MSP\""};
inline constexpr Key breaker_key = {
    .name = "breaker",
    .kind = Kind::current,
    .meaning = "Overcurrent device at what it feeds; none: the smallest that complies",
    .example = "\"20 A\""};
inline constexpr Key run_key = {.name = "run",
                                .kind = Kind::table,
                                .required = true,
                                .meaning = "Raceway and conductors to what it feeds",
                                .example = "{ length = \"10 ft\", raceway = \"EMT\" }",
                                .shape = &run};
inline constexpr std::array<std::string_view, 2> ground_fault_words = {"yes", "from all sources"};
inline constexpr Key ground_fault_key = {
    .name = "ground_fault",
    .kind = Kind::choice,
    .meaning =
        "Ground-fault protection of equipment that its main has, and whether it is listed to "
        "be fed from both sides; none: it has none",
    .example = "\"from all sources\"",
    .words = ground_fault_words};
inline constexpr Key backs_up_key = {.name = "backs_up",
                                     .kind = Kind::equipment,
                                     .meaning = "Panel on its backup side",
                                     .example = "\"BLP\""};
inline constexpr Key backup_run_key = {.name = "backup_run",
                                       .kind = Kind::table,
                                       .meaning = "Raceway and conductors to the backed-up panel",
                                       .example = "{ length = \"24 ft\" }",
                                       .shape = &run};
inline constexpr Key backup_breaker_key = {
    .name = "backup_breaker",
    .kind = Kind::current,
    .meaning = "Overcurrent device of the backup feeder; none: the smallest that complies",
    .example = "\"100 A\""};
inline constexpr Key electrodes_key = {.name = "electrodes",
                                       .kind = Kind::choice,
                                       .many = true,
                                       .meaning =
                                           "Grounding electrodes, where neutral and ground are "
                                           "bonded",
                                       .example = "[\"concrete-encased\", \"two ground rods\"]",
                                       .words = electrode_words};
inline constexpr Key electrode_conductor_key = {
    .name = "electrode_conductor",
    .kind = Kind::wire_size,
    .meaning = "Grounding electrode conductor; none: the smallest that complies",
    .example = "\"4 AWG\""};
inline constexpr Key electrode_material_key = {.name = "electrode_material",
                                               .kind = Kind::material,
                                               .fallback = "\"copper\"",
                                               .meaning = "Metal of that conductor",
                                               .example = "\"copper\""};

constexpr Key model_key(std::span<const std::string_view> records) {
    return {.name = "model",
            .kind = Kind::record,
            .required = true,
            .meaning = "Catalogue record",
            .example = "\"brackenway-60\"",
            .words = records};
}

constexpr Key not_required(Key key) {
    key.required = false;
    return key;
}

inline constexpr Key described_keys[] = {
    {.name = "title",
     .meaning = "What the drawing calls it; none: the name of its kind",
     .example = "\"PV AC disconnect\""},
    {.name = "location", .meaning = "Where it stands", .example = "\"Garage, west wall\""},
    {.name = "existing",
     .kind = Kind::flag,
     .fallback = "false",
     .meaning = "Was there before this work",
     .example = "true"},
    {.name = "fault_current",
     .kind = Kind::current,
     .meaning = "Fault current available here and beyond, away from the service, by calculation or "
                "field data; none: as nearer the service",
     .example = "\"7.4 kA\""},
};

} // namespace ohmfolio
