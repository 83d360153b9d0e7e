/// Pictures of pages, small enough to compare two renderers by.
#pragma once

#include <array>
#include <filesystem>
#include <string>
#include <vector>

namespace ohmfolio::test {

struct Picture {
    std::size_t width = 0, height = 0;
    std::vector<unsigned char> rgb;
};

/// A binary PPM of 8 bits, as pdftoppm and ImageMagick write it. Throws std::runtime_error.
Picture read_ppm(const std::filesystem::path& path);

/// Every page of a PDF, by poppler; files are left in `scratch`.
std::vector<Picture> pictures_of_pdf(const std::filesystem::path& pdf, int dots_per_inch,
                                     const std::filesystem::path& scratch);
/// An SVG as librsvg draws it with no lettering but that of the house.
Picture picture_of_svg(const std::filesystem::path& svg, int dots_per_inch,
                       const std::filesystem::path& scratch);

/// A picture seen from afar: the mean colour of square cells of `side` dots, each then shared with
/// its neighbours, so that a line that one renderer puts a dot aside changes little, while one that
/// is missing leaves a trace. 0 to 255, row by row.
struct Blur {
    std::size_t across = 0, down = 0;
    std::vector<std::array<double, 3>> cells;
};
Blur blurred(const Picture& picture, std::size_t side);

struct Difference {
    double largest = 0; ///< of one colour of one cell
    double mean = 0;    ///< over all cells
};
/// Throws std::runtime_error when the pictures are not of one size.
Difference difference(const Blur& a, const Blur& b);

} // namespace ohmfolio::test
