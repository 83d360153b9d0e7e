/// Sheets to bytes. Knows fonts, Cairo and SVG; knows no electricity.
#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include "drawing/measure.h"
#include "drawing/sheet.h"

namespace ohmfolio {

/// The lettering of the house, loaded privately from two font files so that the fonts installed on
/// the machine never change a drawing. Throws std::runtime_error when a file cannot be used.
class Lettering {
  public:
    /// `folder` holds RobotoCondensed-Regular.ttf and RobotoCondensed-Bold.ttf.
    explicit Lettering(const std::filesystem::path& folder);
    ~Lettering();
    Lettering(const Lettering&) = delete;
    Lettering& operator=(const Lettering&) = delete;

    const TextMeasure& measure() const;

    struct Fonts;
    const Fonts& fonts() const { return *fonts_; }

  private:
    std::unique_ptr<Fonts> fonts_;
};

/// One PDF page a sheet, with outline, page labels equal to sheet numbers, links and metadata.
std::string to_pdf(const Packet& packet, const Lettering& lettering);
/// One SVG with real text; every mark keeps what it shows as `data-shows`.
std::string to_svg(const Sheet& sheet, const Lettering& lettering);

} // namespace ohmfolio
