#include "input/job.h"

#include <cmath>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "input/faults.h"
#include "input/material.h"
#include "input/revisions.h"

namespace ohmfolio {
namespace {

Project read_project(const Form& f) {
    Project project;
    project.name = f.text("name");
    project.owner = f.text("owner");
    project.address = f.text("address");
    project.parcel = f.text("parcel");
    project.jurisdiction = f.text("jurisdiction");
    project.utility = f.text("utility");
    project.scope = f.text("scope");
    project.date = f.text("date");
    project.permit = f.text("permit");
    project.number = f.text("number");
    project.designer = f.text("designer");
    project.designer_address = f.text("designer_address");
    project.designer_phone = f.text("designer_phone");
    project.designer_web = f.text("designer_web");
    project.licence = f.text("licence");
    project.drawn_by = f.text("drawn_by");
    project.checked_by = f.text("checked_by");
    project.occupancy = f.text("occupancy");
    project.adoption = f.text("adoption");
    project.other_codes = f.values<std::string>("other_codes");
    return project;
}

/// A fault draws more than the service carries in use: less is a kilo that was left out.
void check_fault_current(const Site& site, const Form& f, Findings& findings) {
    const double stated = site.fault_current.value, carried = site.service.value;
    if (stated <= 0 || stated > carried) // zero: not stated, or told already
        return;
    findings.push_back(input_fault(
        "input.value", f.span_of("fault_current"), "",
        fmt::format("site.fault_current ({} A) is not above what the service carries in use, {} A",
                    trimmed(stated, 2), trimmed(carried, 2)),
        {"the fault current as the utility states it, in kA",
         stated * 1000 > carried ? fmt::format("did you mean \"{} kA\"?", trimmed(stated, 2))
                                 : std::string{}}));
}

Site read_site(const Form& f, Findings& findings) {
    Site site;
    const auto coldest = f.get<Celsius>("coldest");
    const auto hottest = f.get<Celsius>("hottest");
    site.climate_source = f.text("climate_source");
    site.wind = f.text("wind");
    site.snow = f.text("snow");
    site.seismic = f.text("seismic");
    site.fault_current = f.value<Amps>("fault_current");
    site.unbalance_limit = f.get<Amps>("unbalance_limit");
    if (const auto latitude = f.get<Degrees>("latitude")) {
        site.latitude = {latitude->value.value, latitude->span};
        if (std::abs(latitude->value.value) > 90) {
            findings.push_back(
                input_fault("input.value", latitude->span, "",
                            fmt::format("site.latitude ({} deg) lies beyond the pole",
                                        trimmed(latitude->value.value, 1)),
                            {"-90 deg to 90 deg, north positive", "is it the longitude?"}));
        }
    }
    if (const Form* transformer = f.form("transformer")) {
        site.transformer = {
            .power = {transformer->value<Watts>("power"), transformer->span_of("power")},
            .impedance = transformer->value<Fraction>("impedance").value,
            .service_length = transformer->value<Feet>("length"),
            .service_size = transformer->value<WireSize>("size"),
            .service_material = transformer->value<Material>("material"),
            .service_sets = transformer->value<int>("sets", 1)};
        if (f.written("fault_current")) {
            findings.push_back(input_fault(
                "input.no_place", f.span_of("transformer"), "",
                "the fault current is stated, and worked out from a transformer as well",
                {"fault_current as the utility states it, or the transformer", ""}));
        }
    }
    if (const auto service = f.get<ServiceRating>("service")) {
        site.supply = service->value.supply;
        site.voltage = service->value.voltage;
        site.to_neutral = service->value.to_neutral;
        site.service = service->value.rating;
        check_fault_current(site, f, findings);
    }
    if (coldest && hottest) {
        site.coldest = coldest->value;
        site.hottest = hottest->value;
        if (site.coldest >= site.hottest) {
            findings.push_back(input_fault(
                "input.value", coldest->span, "",
                fmt::format("site.coldest ({} C) is not below site.hottest ({} C)",
                            trimmed(site.coldest.value, 1), trimmed(site.hottest.value, 1)),
                {"coldest below hottest", "check the signs and whether they are C or F"}));
        }
    }
    return site;
}

/// LoadMethod is in the order of the words of the key `method`.
DwellingLoad read_load_calculation(const Form& f) {
    return {.method = static_cast<LoadMethod>(f.word("method").value_or(0)),
            .floor_area = f.value<SquareFeet>("floor_area").value,
            .small_appliance_circuits = f.value<int>("small_appliance_circuits", 2),
            .laundry_circuits = f.value<int>("laundry_circuits", 1),
            .peak_demand = {f.value<Watts>("peak_demand"), f.span_of("peak_demand")},
            .span = f.span};
}

/// Each method needs what it counts by.
void check_load_calculation(const Form& f, const DwellingLoad& load, Findings& findings) {
    const bool metered = load.method == LoadMethod::metered;
    const std::string_view needed = metered ? "peak_demand" : "floor_area";
    const std::string_view surplus = metered ? "floor_area" : "peak_demand";
    if (!f.written(needed)) {
        findings.push_back(input_fault(
            "input.required", f.span, "", fmt::format("load_calculation.{} is missing", needed),
            {fmt::format("{} = {}", needed, f.shape->find(needed)->example), ""}));
    }
    if (f.written(surplus)) {
        findings.push_back(
            input_fault("input.no_place", f.span_of(surplus), "",
                        fmt::format("this method does not count by {}", surplus),
                        {metered ? "a floor area with method \"optional\", \"existing\" or "
                                   "\"standard\""
                                 : "a peak demand with method \"metered\"",
                         "leave it out"}));
    }
}

void read_building(const Form& description, System& system, Findings& findings) {
    if (description.written("load_calculation")) {
        const Form& form = *description.form("load_calculation");
        system.dwelling_load = read_load_calculation(form);
        check_load_calculation(form, *system.dwelling_load, findings);
    }
    if (const Form* backup = description.form("backup")) {
        system.backup = {{backup->value<Watts>("average"), backup->span_of("average")}};
    }
    if (const Form* wiring = description.form("control_wiring")) {
        system.control_length = wiring->get<Feet>("length");
    }
}

} // namespace

void read_job(const Form& description, System& system, Findings& findings) {
    system.edition = description.value<Edition>("code", system.edition);
    if (description.written("sheet")) {
        system.sheet = {description.text("sheet"), description.span_of("sheet")};
    }
    if (const Form* project = description.form("project")) {
        system.project = read_project(*project);
    }
    if (const Form* site = description.form("site")) {
        system.site = read_site(*site, findings);
    }
    read_building(description, system, findings);
    read_revisions(description, system, findings);
    if (const Form* limits = description.form("limits")) {
        system.ratio_limit = limits->value<double>("dc_ac_ratio");
        system.voltage_change_limit = limits->value<Fraction>("voltage_change").value;
    }
    if (const Form* material = description.form("material")) {
        system.material = read_material(*material);
    }
    for (const Form& waiver : description.forms("waiver")) {
        system.waivers.push_back({waiver.text("rule"), waiver.text("subject"),
                                  waiver.text("reason"), waiver.text("by"), waiver.span});
    }
}

} // namespace ohmfolio
