// Energy that inverters clip under a clear sky: whether modules and inverter are a sensible pair on
// the roof they are on. An estimate (sun/clipping.h says of what), so it is only ever advice.

#include <algorithm>

#include <fmt/format.h>

#include "study/paragraphs.h"
#include "study/steps.h"
#include "sun/clipping.h"

namespace ohmfolio::workings {

namespace {

/// Inverters that see the same: one microinverter of a branch, or one string inverter.
struct Pair {
    const Equipment* equipment; ///< the first branch, or the inverter
    const Record* module;
    const Record* inverter;
    std::vector<ArrayPlane> planes;
    std::string on; ///< "SOUTH ROOF"
    Watts output;
    double efficiency;

    std::string subject() const { return "clipping:" + equipment->id; }
    Watts rated() const {
        Watts sum{};
        for (const ArrayPlane& plane : planes) {
            sum = sum + plane.rated;
        }
        return sum;
    }
};

PlaneAngles angles_of(const RoofPlane& roof) { return {{roof.tilt}, {roof.azimuth}}; }

const ModuleRatings& module_of(const Record& record) {
    return std::get<ModuleRatings>(record.ratings);
}

std::optional<Pair> microinverter_pair(const System& system, const Equipment& e,
                                       const BranchArray& branch) {
    const RoofPlane* roof = system.roof(branch.roof);
    if (roof == nullptr)
        return {};
    const Record& module = at(system.catalogue.records, branch.module);
    const Record& inverter = at(system.catalogue.records, branch.microinverter);
    const auto& ratings = std::get<MicroinverterRatings>(inverter.ratings);
    return Pair{&e,
                &module,
                &inverter,
                {{module_of(module).power, angles_of(*roof)}},
                branch.roof,
                ratings.output,
                ratings.efficiency};
}

/// Nothing unless each roof that feeds it is described.
std::optional<Pair> inverter_pair(const System& system, int index) {
    const Equipment& e = at(system.equipment, index);
    const auto& ratings = *system.ratings<StringInverterRatings>(e);
    Pair pair{&e, nullptr, system.record(e), {}, {}, ratings.output, ratings.efficiency};
    for (const int child : system.children(index)) {
        const auto* array = at(system.equipment, child).as<StringArray>();
        if (array == nullptr)
            continue;
        const RoofPlane* roof = system.roof(array->roof);
        if (roof == nullptr)
            return {};
        pair.module = &at(system.catalogue.records, array->module);
        pair.planes.push_back({module_of(*pair.module).power * (array->in_series * array->strings),
                               angles_of(*roof)});
        if (pair.on.find(array->roof) == std::string::npos)
            pair.on += (pair.on.empty() ? "" : ", ") + array->roof;
    }
    return pair.module == nullptr ? std::nullopt : std::optional(pair);
}

std::vector<Pair> pairs_of(const System& system) {
    std::vector<Pair> pairs;
    for (int i = 0; i < static_cast<int>(system.equipment.size()); ++i) {
        const Equipment& e = at(system.equipment, i);
        std::optional<Pair> pair;
        if (const auto* branch = e.as<BranchArray>())
            pair = microinverter_pair(system, e, *branch);
        else if (e.is<Inverter>())
            pair = inverter_pair(system, i);
        if (!pair)
            continue;
        const bool known = std::ranges::any_of(pairs, [&](const Pair& other) {
            return e.is<BranchArray>() && other.equipment->is<BranchArray>() &&
                   other.module == pair->module && other.inverter == pair->inverter &&
                   other.on == pair->on;
        });
        if (!known)
            pairs.push_back(*std::move(pair));
    }
    return pairs;
}

ClippingResult clipping_of(const System& system, const Pair& pair,
                           const PowerCoefficient& coefficient) {
    const Degrees latitude{system.site.latitude->value};
    return clear_sky_clipping(
        {.latitude = latitude,
         .planes = pair.planes,
         .power_per_celsius = coefficient.per_celsius,
         .output = pair.output,
         .efficiency = Ratio{pair.efficiency},
         .air = daytime_temperatures(system.site.coldest, system.site.hottest, latitude)});
}

Term<Ratio> ratio_of(Work& work, const Pair& pair) {
    return work.study.worksheet.define(
        {.subject = pair.subject(),
         .name = "clipping_ratio",
         .symbol = "r",
         .title = "Modules to inverter, DC to AC, on " + pair.on,
         .cite = work.book.cite(paragraph::module_ratio)},
        given("P_dc", pair.rated(), "modules at standard test conditions") /
            given("P_ac", pair.output, "continuous output"));
}

void estimate(Work& work, const Pair& pair) {
    const auto& module = module_of(*pair.module);
    const auto coefficient = power_coefficient({}, module.vmp_per_celsius, module.voc_per_celsius);
    const auto result = clipping_of(work.system, pair, coefficient);
    const auto ratio = ratio_of(work, pair);
    const auto share = work.study.worksheet.state(
        {.subject = pair.subject(),
         .name = "clipped_share",
         .symbol = "f_clip",
         .title = "Share of a clear year's energy that the inverter clips",
         .cite = work.book.cite("inverter.clipping"),
         .source = fmt::format("clear-sky model of the ASHRAE Handbook of Fundamentals at latitude "
                               "{:.1f}°, twelve typical days, no shade, wind or soiling; cloudy "
                               "days clip less; temperature coefficient {}",
                               work.system.site.latitude->value, coefficient.origin),
         .as = ShownAs::percent},
        result.clipped_share, ratio.from);
    const Ratio most{work.book.number("inverter.clipping")};
    require(work,
            {.subject = pair.subject(),
             .name = "clipped_little",
             .symbol = {},
             .title = "Clipped share within good practice",
             .cite = work.book.cite("inverter.clipping"),
             .as = ShownAs::percent},
            share, "≤", constant(most),
            {.rule = "inverter.clipping",
             .severity = Severity::advice,
             .span = pair.equipment->span,
             .message = fmt::format(
                 "{} on {}: under a clear sky {} of the year's energy is clipped, "
                 "at a DC/AC ratio of {}",
                 pair.equipment->id, pair.on, shown_percent(share.value), shown(ratio.value)),
             .expected = "a larger inverter, or fewer or smaller modules on it",
             .subject = subject_of(*pair.equipment)});
}

} // namespace

void estimate_clipping(Work& work) {
    if (!work.system.site.latitude)
        return;
    for (const Pair& pair : pairs_of(work.system)) {
        estimate(work, pair);
    }
}

} // namespace ohmfolio::workings
