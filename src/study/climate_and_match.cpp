// The site's temperatures, and each distinct pair of module and microinverter judged at them.

#include <algorithm>

#include <fmt/format.h>

#include "study/module_match.h"
#include "study/paragraphs.h"
#include "study/practice.h"
#include "study/steps.h"

namespace ohmfolio::workings {

namespace {

constexpr std::string_view climate = "site:climate";

Heading climate_line(std::string name, std::string symbol, std::string title, Citation cite,
                     std::string source) {
    return {.subject = std::string(climate),
            .name = std::move(name),
            .symbol = std::move(symbol),
            .title = std::move(title),
            .cite = std::move(cite),
            .source = std::move(source)};
}

Complaint complaint_of(const Work& work, const Equipment& where, const BranchArray& branch,
                       const PairVerdict& verdict) {
    const Record& module = at(work.system.catalogue.records, branch.module);
    const Record& inverter = at(work.system.catalogue.records, branch.microinverter);
    const std::string pair = fmt::format("{} on {}", module.model, inverter.model);
    const std::string shown = work.study.derivation(verdict.derivation).comparison;
    Complaint complaint{.rule = verdict.rule, .span = where.span, .message = {}};
    complaint.subject = subject_of(where);
    if (verdict.rule == "module.input.voltage") {
        complaint.message =
            fmt::format("{}: coldest open-circuit voltage {} breaks the input limit", pair, shown);
        complaint.expected = "a module whose coldest voltage stays within the input limit";
    } else if (verdict.rule == "module.input.current") {
        complaint.message =
            fmt::format("{}: short-circuit current {} breaks the input limit", pair, shown);
        complaint.expected = "a module whose short-circuit current stays within the input limit";
    } else if (verdict.rule == "module.window.cold") {
        complaint.message = fmt::format(
            "{}: coldest voltage at maximum power lies above the tracking window: {}", pair, shown);
        complaint.expected = "a module whose voltage stays inside the window";
    } else if (verdict.rule == "module.window.hot") {
        complaint.message = fmt::format(
            "{}: hottest voltage at maximum power lies below the tracking window: {}", pair, shown);
        complaint.expected = "a module whose voltage stays inside the window";
    } else {
        complaint.severity = Severity::advice;
        complaint.message = fmt::format(
            "{}: larger than the DC/AC ratio allows, so the output will clip: {}", pair, shown);
        complaint.expected = "a smaller module, or the loss accepted";
    }
    return complaint;
}

/// A temperature and a difference are not quantities of one kind, so their sum is spelled out.
Term<Celsius> hot_cell_temperature(const Term<Celsius>& air, const Term<CelsiusDelta>& rise) {
    return {air.value + rise.value, air.symbols + " + " + rise.symbols,
            air.figures + " + " + rise.figures, Binding::sum, detail::merged(air.from, rise.from)};
}

void judge(Work& work, const Equipment& where, const BranchArray& branch) {
    const auto& records = work.system.catalogue.records;
    const auto& inverter =
        std::get<MicroinverterRatings>(at(records, branch.microinverter).ratings);
    const double ratio = work.system.ratio_limit > 0 ? work.system.ratio_limit
                         : inverter.ratio_limit > 0  ? inverter.ratio_limit
                                                     : work.book.number(paragraph::module_ratio);
    const auto verdicts =
        judge_pair(work.desk(pair_subject(work.system, branch)),
                   {.module = std::get<ModuleRatings>(at(records, branch.module).ratings),
                    .microinverter = inverter,
                    .coldest = work.system.site.coldest,
                    .hot_cell = Celsius{work.study.derivation("climate.hot_cell").value},
                    .ratio_limit = ratio});
    for (const PairVerdict& verdict : verdicts) {
        if (!verdict.passes)
            complain(work, verdict.derivation, complaint_of(work, where, branch, verdict));
    }
}

} // namespace

void state_climate(Work& work) {
    const Site& site = work.system.site;
    Worksheet& sheet = work.study.worksheet;
    sheet.state(climate_line("coldest", "T_cold", "Lowest expected temperature",
                             work.book.cite(paragraph::cold_voltage), site.climate_source),
                site.coldest);
    const auto hottest =
        sheet.state(climate_line("hottest", "T_hot", "Highest temperature for conductors",
                                 work.book.cite(paragraph::ambient), site.climate_source),
                    site.hottest);
    const auto rise = sheet.state(
        climate_line("roof_rise", "T_rise", "Rise of the cells over the air, mounted to a roof",
                     common_practice(), "modules parallel to the roof with an air gap"),
        practice::roof_mount_rise);
    sheet.define(
        climate_line("hot_cell", "T_cell.hot", "Hottest cell temperature", common_practice(), {}),
        hot_cell_temperature(hottest, rise));
}

void match_modules(Work& work) {
    std::vector<std::string> judged;
    for (const Equipment& e : work.system.equipment) {
        const auto* branch = e.as<BranchArray>();
        if (branch == nullptr)
            continue;
        const std::string pair = pair_subject(work.system, *branch);
        if (std::ranges::find(judged, pair) != judged.end())
            continue;
        judged.push_back(pair);
        judge(work, e, *branch);
    }
}

} // namespace ohmfolio::workings
