/// Pictures from outside, examined before they come near a sheet.
#pragma once

#include <string>
#include <string_view>

namespace ohmfolio {

/// Most pixels of a side and in all: a logo of 3 in at 600 dots per inch has 1800 a side.
inline constexpr int most_pixels_a_side = 4000;
inline constexpr int most_pixels = 4'000'000;

struct PictureReport {
    int width = 0, height = 0; ///< pixels
    std::string fault;         ///< why the picture cannot be used; empty: it can
};

/// Examines a whole PNG file. Its size is read from the head and refused there when it is absurd,
/// before a pixel is unpacked; then the pixels are read once, so that a sheet meets sound ones
/// only.
PictureReport examine_png(std::string_view bytes);

} // namespace ohmfolio
