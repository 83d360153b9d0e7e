#include "app/house.h"

#include <system_error>

#include <fmt/format.h>

#include "app/program_modules.h"

namespace ohmfolio {

namespace {

constexpr const char* file_beside_job = "house.toml";

/// Only the render room can tell whether a picture can be drawn.
void examine_logo(House& house, const SourceFiles& sources, Findings& findings) {
    if (!house.logo || house.logo->kind != HouseLogo::Kind::picture) {
        return;
    }
    const PictureReport report = renderer().examine_png(sources.text(house.logo->file));
    house.logo->pixels_wide = report.width;
    house.logo->pixels_high = report.height;
    if (report.fault.empty()) {
        return;
    }
    Finding finding;
    finding.rule = "house.logo";
    finding.span = house.logo->span;
    finding.message = "the logo cannot be drawn: " + report.fault;
    finding.expected = fmt::format("a PNG of at most {} pixels a side and {} in all",
                                   most_pixels_a_side, most_pixels);
    finding.hint = "export it again, smaller, or as SVG";
    findings.push_back(std::move(finding));
    house.logo.reset();
}

} // namespace

HouseFile read_house_of(const std::filesystem::path& job, const Surroundings& where,
                        SourceFiles& sources, Findings& findings) {
    std::filesystem::path path = where.house;
    if (path.empty()) {
        std::error_code ignored;
        path = job.parent_path() / file_beside_job;
        if (job.empty() || !std::filesystem::exists(path, ignored)) {
            return {};
        }
    }
    HouseFile house = read_house(path, path.string(), sources, findings);
    examine_logo(house.house, sources, findings);
    return house;
}

} // namespace ohmfolio
