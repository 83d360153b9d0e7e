// The grounding electrode conductor, from the service conductors of the panel where neutral and
// ground are bonded.

#include <fmt/format.h>

#include "code/bonding_rules.h"
#include "study/steps.h"
#include "study/terms.h"

namespace ohmfolio::workings {

namespace {

/// The kinds of the code book.
std::string kind_of(Electrode electrode) {
    switch (electrode) {
    case Electrode::ground_rod:
    case Electrode::two_ground_rods:
        return "rod";
    case Electrode::concrete_encased:
        return "concrete-encased";
    case Electrode::water_pipe:
        return "water pipe";
    case Electrode::ground_ring:
        return "ring";
    }
    return {};
}

/// Service conductors sized here; where they are the utility's, those that the rating of the
/// service would ask for.
struct ServiceConductor {
    WireSize size{};
    Material material = Material::copper;
    int sets = 1; ///< in parallel
};

std::optional<ServiceConductor> service_conductor(Work& work) {
    for (std::size_t i = 0; i < work.system.circuits.size(); ++i) {
        const Circuit& circuit = work.system.circuits[i];
        if (circuit.use == CircuitUse::service && work.study.circuits[i].sized) {
            const CircuitStudy& study = work.study.circuits[i];
            return ServiceConductor{study.size, circuit.material, study.parallel_sets};
        }
    }
    Worksheet scratch;
    const auto rating = service_rating(work);
    const auto result =
        size_conductor({scratch, work.book, "site:service"},
                       {.continuous = rating,
                        .required = rating,
                        .overcurrent = rating,
                        .above_roof = {},
                        .stated = {},
                        .dwelling_service = is_dwelling(work.system) &&
                                            work.system.site.supply == Supply::split_phase});
    return result.found ? std::optional(ServiceConductor{result.size, Material::copper})
                        : std::nullopt;
}

GroundingElectrodeInput electrodes_of(const Grounding& grounding, const ServiceConductor& ahead) {
    GroundingElectrodeInput input{.service = ahead.size,
                                  .service_material = ahead.material,
                                  .material = grounding.material,
                                  .electrodes = {},
                                  .stated = {},
                                  .parallel_sets = ahead.sets};
    for (const auto& electrode : grounding.electrodes) {
        input.electrodes.push_back(kind_of(electrode.value));
    }
    return input;
}

BondingJumperInput main_jumper(const ServiceConductor& ahead) {
    return {.use = JumperUse::main,
            .phase = ahead.size,
            .phase_material = ahead.material,
            .parallel_sets = ahead.sets};
}

/// What stands on the supply side is bonded and grounded as the service disconnect is (250.25), by
/// its own conductors.
void ground_on_supply_side(Work& work, const Circuit& circuit, const CircuitStudy& study) {
    const int disconnect = work.system.child_of(circuit);
    const ServiceConductor ahead{study.size, circuit.material, study.parallel_sets};
    const Desk desk = work.desk("grounding:" + at(work.system.equipment, disconnect).id);
    const auto jumper = size_bonding_jumper(desk, main_jumper(ahead));
    const auto electrode =
        size_grounding_electrode(desk, electrodes_of(work.system.grounding, ahead));
    work.study.source_groundings.push_back({disconnect, jumper.size, electrode.size});
}

void ground_sources(Work& work) {
    for (std::size_t i = 0; i < work.system.circuits.size(); ++i) {
        const Circuit& circuit = work.system.circuits[i];
        if (circuit.use == CircuitUse::supply_side && work.study.circuits[i].sized &&
            work.system.at(work.system.child_of(circuit)).is<Disconnect>())
            ground_on_supply_side(work, circuit, work.study.circuits[i]);
    }
}

} // namespace

void size_grounding_electrode_conductor(Work& work) {
    const Grounding& grounding = work.system.grounding;
    const auto service = service_conductor(work);
    if (grounding.at < 0 || grounding.electrodes.empty() || !service)
        return;
    GroundingElectrodeInput input = electrodes_of(grounding, *service);
    if (grounding.stated_size)
        input.stated = grounding.stated_size->value;
    const std::size_t before = work.study.worksheet.all().size();
    size_bonding_jumper(work.desk("grounding:GEC"), main_jumper(*service));
    const auto result = size_grounding_electrode(work.desk("grounding:GEC"), input);
    work.study.grounding_electrode = result.size;
    work.study.grounding_steps = ids_since(work.study, before);
    if (!result.passes) {
        complain(
            work, work.study.grounding_steps.back(),
            {.rule = "grounding.electrode",
             .span = grounding.stated_size ? grounding.stated_size->span
                                           : at(work.system.equipment, grounding.at).span,
             .message = fmt::format("grounding electrode conductor {} at {} is too small for "
                                    "service conductors of {}",
                                    name(result.size), at(work.system.equipment, grounding.at).id,
                                    name(service->size)),
             .expected = result.needed ? fmt::format("{} or larger", name(*result.needed))
                                       : std::string("smaller service conductors: the table ends "
                                                     "below them")});
    }
    ground_sources(work);
}

} // namespace ohmfolio::workings
