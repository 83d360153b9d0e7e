/// Sheets to bytes. Knows fonts, Cairo and SVG; knows no electricity.
///
/// The room becomes a module that is loaded when something is drawn, since Cairo, Pango and the
/// forty libraries they need take a fifth of the time of a command that only calculates.
#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include "drawing/measure.h"
#include "drawing/sheet.h"
#include "render/picture.h"

namespace ohmfolio {

/// The lettering of the house, loaded privately from two font files so that the fonts installed on
/// the machine never change a drawing. Throws std::runtime_error when a file cannot be used.
class Lettering {
  public:
    /// `folder` holds RobotoCondensed-Regular.ttf and RobotoCondensed-Bold.ttf.
    explicit Lettering(const std::filesystem::path& folder);
    Lettering(const Lettering&) = delete;
    Lettering& operator=(const Lettering&) = delete;

    const TextMeasure& measure() const { return *measure_; }

    struct Fonts;
    const Fonts& fonts() const { return *fonts_; }

  private:
    /// Shared, so that whoever lets go of it need not know what fonts are: they belong to the
    /// module.
    std::shared_ptr<const Fonts> fonts_;
    const TextMeasure* measure_;
};

/// One PDF page a sheet, with outline, page labels equal to sheet numbers, links and metadata.
std::string to_pdf(const Packet& packet, const Lettering& lettering);
/// One SVG with real text; every mark keeps what it shows as `data-shows`.
std::string to_svg(const Sheet& sheet, const Lettering& lettering);

/// What the module hands out; the functions are those above, and `examine_png`.
struct Renderer {
    std::unique_ptr<Lettering> (*lettering)(const std::filesystem::path& folder);
    std::string (*to_pdf)(const Packet& packet, const Lettering& lettering);
    std::string (*to_svg)(const Sheet& sheet, const Lettering& lettering);
    PictureReport (*examine_png)(std::string_view bytes);
};

} // namespace ohmfolio
