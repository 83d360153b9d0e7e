#include "input/job.h"

#include <fmt/format.h>

#include "base/text.h"
#include "input/faults.h"

namespace ohmfolio {
namespace {

std::vector<std::string> texts(const Form& form, std::string_view key) {
    std::vector<std::string> result;
    for (const Item& item : form.items(key)) {
        result.push_back(std::get<std::string>(item.value));
    }
    return result;
}

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
    project.number = f.text("number");
    project.designer = f.text("designer");
    project.designer_address = f.text("designer_address");
    project.licence = f.text("licence");
    project.drawn_by = f.text("drawn_by");
    project.checked_by = f.text("checked_by");
    project.occupancy = f.text("occupancy");
    project.other_codes = texts(f, "other_codes");
    for (const Form& row : f.forms("revision")) {
        project.revisions.push_back(
            {row.text("mark"), row.text("date"), row.text("by"), row.text("description")});
    }
    return project;
}

Site read_site(const Form& f, Findings& findings) {
    Site site;
    const auto coldest = f.get<Celsius>("coldest");
    const auto hottest = f.get<Celsius>("hottest");
    site.climate_source = f.text("climate_source");
    site.fault_current = f.value<Amps>("fault_current");
    if (const auto service = f.get<ServiceRating>("service")) {
        site.voltage = service->value.voltage;
        site.to_neutral = service->value.to_neutral;
        site.service = service->value.rating;
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

} // namespace

void read_job(const Form& description, System& system, Findings& findings) {
    system.edition = description.value<Edition>("code", system.edition);
    if (const Form* project = description.form("project")) {
        system.project = read_project(*project);
    }
    if (const Form* site = description.form("site")) {
        system.site = read_site(*site, findings);
    }
    if (const Form* limits = description.form("limits")) {
        system.ratio_limit = limits->value<double>("dc_ac_ratio");
        system.voltage_change_limit = limits->value<Fraction>("voltage_change").value;
    }
    for (const Form& waiver : description.forms("waiver")) {
        system.waivers.push_back({waiver.text("rule"), waiver.text("subject"),
                                  waiver.text("reason"), waiver.text("by"), waiver.span});
    }
}

} // namespace ohmfolio
