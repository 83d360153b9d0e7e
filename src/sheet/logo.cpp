#include "sheet/logo.h"

#include <algorithm>

#include "sheet/symbol_art.h"

namespace ohmfolio::sheets {

namespace {

constexpr std::string_view shown = "company:logo";

double share(Length given, Length needed) {
    return static_cast<double>(given.nm) / static_cast<double>(std::max(needed, Length{1}).nm);
}

bool has_letters(const Symbol& symbol) {
    return !symbol.slots.empty() || std::ranges::any_of(symbol.art.marks, [](const Mark& mark) {
        return std::holds_alternative<Text>(mark.item);
    });
}

std::optional<Symbol> read_drawing(const HouseLogo& logo, const SourceFiles& sources,
                                   Findings& findings) {
    auto symbol = parse_symbol(logo.name, logo.file, sources, findings);
    if (!symbol || !has_letters(*symbol))
        return symbol;
    Finding finding;
    finding.rule = "sheet.logo";
    finding.span = symbol->span;
    finding.message = "the logo holds <text>, which does not grow and shrink with it";
    finding.expected = "letters drawn as outlines, <path> or <polygon>";
    findings.push_back(std::move(finding));
    return std::nullopt;
}

/// Outlines and pens alike, so that the drawing looks the same in every size.
Path reduced(Path path, double factor) {
    for (Segment& segment : path.segments) {
        segment.to = scaled(segment.to, factor);
        segment.control1 = scaled(segment.control1, factor);
        segment.control2 = scaled(segment.control2, factor);
    }
    path.stroke.width = std::max(scaled(path.stroke.width, factor), fine_pen);
    return path;
}

} // namespace

Logo read_logo(const House& house, const SourceFiles& sources, Findings& findings) {
    Logo logo;
    if (!house.logo)
        return logo;
    if (house.logo->kind == HouseLogo::Kind::picture) {
        logo.png = std::make_shared<const std::string>(sources.text(house.logo->file));
        logo.size = {points(house.logo->pixels_wide), points(house.logo->pixels_high)};
    } else if ((logo.drawing = read_drawing(*house.logo, sources, findings))) {
        logo.size = logo.drawing->size;
    }
    return logo;
}

Frame logo_frame(const Logo& logo, Size room) {
    const double factor =
        std::min(share(room.width, logo.size.width), share(room.height, logo.size.height));
    Frame frame;
    frame.size = {scaled(logo.size.width, factor), scaled(logo.size.height, factor)};
    if (logo.png)
        frame.add(Picture{box_at({}, frame.size), logo.png}, Role::none, std::string(shown));
    if (logo.drawing) {
        for (const Mark& mark : logo.drawing->art.marks) {
            if (const auto* path = std::get_if<Path>(&mark.item))
                frame.add(reduced(*path, factor), mark.role, std::string(shown));
        }
    }
    return frame;
}

} // namespace ohmfolio::sheets
