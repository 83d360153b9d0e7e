// The grounding electrode system.
#include "code/electrode_rules.h"

#include <algorithm>

#include "code/inquiry.h"
#include "code/wire_words.h"

namespace ohmfolio {

namespace {

/// "two ground rods" and "rod" are of the kind that the caps call "rod".
std::string_view kind_of(const std::string& electrode) {
    if (electrode.find("concrete") != std::string::npos)
        return "concrete-encased";
    if (electrode.find("rod") != std::string::npos || electrode.find("plate") != std::string::npos)
        return "rod";
    return electrode.find("ring") != std::string::npos ? "ring" : std::string_view(electrode);
}

struct Cap {
    CodeBook::ElectrodeCap cap;
    std::string kind;
};

/// A ring's cap is the ring itself.
std::optional<Cap> cap_of(const CodeBook& book, const std::string& electrode, Material material,
                          std::optional<WireSize> ring) {
    const auto kind = kind_of(electrode);
    if (kind == "ring") {
        return ring ? std::optional(Cap{{*ring, book.cite("ground.electrode.ring")}, "ring"})
                    : std::nullopt;
    }
    const auto cap = book.electrode_cap(kind, material);
    return cap ? std::optional(Cap{*cap, std::string(kind)}) : std::nullopt;
}

/// The largest cap of the electrodes present; nothing when one of them has none.
std::optional<Cap> largest_cap(const CodeBook& book, const std::vector<std::string>& electrodes,
                               Material material, std::optional<WireSize> ring) {
    std::optional<Cap> result;
    for (const std::string& electrode : electrodes) {
        const auto cap = cap_of(book, electrode, material, ring);
        if (!cap)
            return std::nullopt;
        if (!result || cap->cap.size > result->cap.size)
            result = cap;
    }
    return result;
}

std::string service_words(const GroundingElectrodeInput& input) {
    const std::string one = words(input.service, input.service_material);
    return input.parallel_sets > 1 ? std::to_string(input.parallel_sets) + " × " + one : one;
}

std::optional<WireSize> of_table(const CodeBook& book, const GroundingElectrodeInput& input) {
    const auto area = book.circular_mils(input.service);
    if (!area)
        return std::nullopt;
    return book.grounding_electrode(input.parallel_sets * *area, input.service_material,
                                    input.material);
}

/// The size of the table with a line of its own, for a cap to rest on.
std::vector<std::string> recorded_table_size(const Desk& desk, const Heading& heading,
                                             const std::string& size, const std::string& title) {
    return {desk.sheet
                .choose({.subject = desk.subject,
                         .name = heading.name + "_table",
                         .title = title,
                         .cite = heading.cite,
                         .source = heading.source},
                        size, {})
                .id};
}

void cite_cap(Heading& heading, const Cap& cap) {
    heading.cite = cap.cap.cite;
    heading.source.clear();
    heading.governs = "need not be larger to " + cap.kind + " electrodes";
}

GroundingElectrodeResult finished(const Desk& desk, const Heading& heading, WireSize size,
                                  Material material, const std::optional<WireSize>& stated,
                                  const std::vector<std::string>& from) {
    const std::string chosen = desk.sheet.choose(heading, words(size, material), from).id;
    const bool passes =
        check_stated(desk, heading.name + "_check", "Stated grounding electrode conductor",
                     heading.cite, stated, size, {chosen});
    return {stated.value_or(size), passes, size};
}

} // namespace

GroundingElectrodeResult size_grounding_electrode(const Desk& desk,
                                                  const GroundingElectrodeInput& input) {
    Heading heading = line_for(desk, "grounding_electrode", "", "Grounding electrode conductor",
                               desk.book.cite("ground.electrode"));
    const auto table = of_table(desk.book, input);
    if (!table) {
        desk.sheet.judge(heading, "no row for service conductors of " + service_words(input), false,
                         {});
        return {input.stated.value_or(input.service), false};
    }
    heading.source = desk.book.table_name("grounding_electrode") + ", service conductors of " +
                     service_words(input);
    heading.governs = "service conductors govern";
    WireSize size = *table;
    std::vector<std::string> from;
    const auto cap = largest_cap(desk.book, input.electrodes, input.material, input.ring);
    if (cap && cap->cap.size < size) {
        from = recorded_table_size(desk, heading, words(*table, input.material),
                                   "Grounding electrode conductor for the service");
        size = cap->cap.size;
        cite_cap(heading, *cap);
    }
    return finished(desk, heading, size, input.material, input.stated, from);
}

std::vector<ElectrodeConductor> conductors_to_electrodes(const CodeBook& book,
                                                         const GroundingElectrodeInput& input) {
    std::vector<ElectrodeConductor> result;
    const auto table = of_table(book, input);
    if (!table)
        return result;
    for (const std::string& electrode : input.electrodes) {
        const auto cap = cap_of(book, electrode, input.material, input.ring);
        if (cap && cap->cap.size < *table)
            result.push_back({electrode, cap->cap.size, cap->cap.cite});
        else
            result.push_back({electrode, *table, book.cite("ground.electrode")});
    }
    return result;
}

RuleVerdicts check_electrode_system(const Desk& desk, const ElectrodeSystemInput& input) {
    Inquiry inquiry(desk);
    const bool alone = input.others == 0;
    if (input.rods == 1 && alone && !input.water_pipe) {
        const auto limit = Ohms{desk.book.number("ground.electrode.resistance")};
        if (input.rod_ohms) {
            inquiry.compare("ground.electrode.rod.second", "electrode_rod", "Resistance to earth",
                            given("R", Ohms{*input.rod_ohms}), "≤", constant(limit));
        } else {
            inquiry.stated("ground.electrode.rod.second", "electrode_rod", "A single rod",
                           "a second electrode, or its resistance", false);
        }
    }
    if (input.rods > 1) {
        const auto apart = constant(Feet{desk.book.number("ground.electrode.spacing")});
        if (input.rod_spacing)
            inquiry.compare("ground.electrode.rod.spacing", "electrode_spacing",
                            "Distance between rods", given("s", *input.rod_spacing), "≥", apart);
        else
            inquiry.stated("ground.electrode.rod.spacing", "electrode_spacing",
                           "Distance between rods", shown(apart.value) + " or more", false);
    }
    if (input.water_pipe) {
        const bool another = input.rods > 0 || !alone;
        inquiry.judge(
            "ground.electrode.pipe.second", "electrode_pipe", "Electrode beside the water pipe",
            another ? "another electrode is there" : "the water pipe is the only electrode",
            another);
    }
    if (input.ring) {
        const WireSize least =
            desk.book.conductor_size("ground.electrode.ring", Material::copper).value();
        const bool enough = *input.ring >= least;
        inquiry.judge("ground.electrode.ring.size", "electrode_ring", "Conductor of the ring",
                      name(*input.ring) + (enough ? " is not smaller than " : " is smaller than ") +
                          name(least),
                      enough);
    }
    return inquiry.verdicts();
}

RuleVerdicts check_aluminum_electrode(const Desk& desk, const AluminumElectrodeInput& input) {
    constexpr double inches_per_foot = 12;
    Inquiry inquiry(desk);
    inquiry.compare(
        "ground.electrode.aluminum", "electrode_aluminum_height",
        "Height of the end of the aluminum conductor above earth", given("h", input.height), "≥",
        constant(Feet{desk.book.number("ground.electrode.aluminum") / inches_per_foot}));
    inquiry.judge("ground.electrode.aluminum", "electrode_aluminum_contact",
                  "Aluminum conductor and masonry or earth",
                  input.touches_masonry ? "touches masonry or earth" : "touches neither",
                  !input.touches_masonry);
    return inquiry.verdicts();
}

GroundingElectrodeResult size_direct_current_electrode(const Desk& desk,
                                                       const DirectCurrentElectrodeInput& input) {
    const WireSize least =
        desk.book.conductor_size("ground.direct_current.least", input.material).value();
    const WireSize most =
        desk.book.conductor_size("ground.direct_current.most", input.material).value();
    Heading heading = line_for(desk, "direct_current_electrode", "",
                               "Grounding electrode conductor, direct current",
                               desk.book.cite("ground.electrode.direct_current"));
    heading.governs = "largest conductor governs";
    WireSize size = input.largest;
    if (size < least) {
        size = least;
        heading.governs = "smallest allowed governs";
    }
    if (size > most) {
        size = most;
        heading.governs = "need not be larger";
    }
    std::vector<std::string> from;
    const auto cap = largest_cap(desk.book, input.electrodes, input.material, input.ring);
    if (cap && cap->cap.size < size) {
        const Citation cite = heading.cite;
        from = recorded_table_size(desk, heading, words(size, input.material),
                                   "Grounding electrode conductor for the system");
        size = cap->cap.size;
        cite_cap(heading, *cap);
        heading.cite = cite; // its caps are those of 250.66, in items of its own
    }
    return finished(desk, heading, size, input.material, input.stated, from);
}

RuleVerdicts check_pv_electrode(const Desk& desk, const PvElectrodeInput& input) {
    Inquiry inquiry(desk);
    if (!input.solidly_grounded)
        inquiry.stated("ground.pv.electrode", "pv_electrode", "Grounding of the PV system",
                       "equipment grounding conductor of the output to the electrode system",
                       input.output_ground_connected);
    return inquiry.verdicts();
}

RuleVerdicts check_intersystem_bonding(const Desk& desk, const IntersystemInput& input) {
    Inquiry inquiry(desk);
    const int least = static_cast<int>(desk.book.number("ground.electrode.intersystem"));
    inquiry.judge(
        "ground.electrode.intersystem", "intersystem_terminals", "Terminals for other systems",
        std::to_string(input.terminals) + " terminals, " + std::to_string(least) + " needed",
        input.terminals >= least);
    inquiry.stated("ground.electrode.intersystem", "intersystem_place", "Place of the termination",
                   "accessible, at the meter or the service", input.at_service);
    return inquiry.verdicts();
}

} // namespace ohmfolio
