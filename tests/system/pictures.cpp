#include "pictures.h"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <stdexcept>

#include "folders.h"
#include "run_program.h"

namespace ohmfolio::test {

namespace {

void run_or_throw(const Command& command, const Circumstances& circumstances = {}) {
    const Outcome outcome = run_program(command, circumstances);
    if (outcome.exit_code != 0) {
        throw std::runtime_error(command.front() + ": " + outcome.err);
    }
}

/// A fontconfig that knows the house's lettering and nothing else.
std::filesystem::path private_fonts(const std::filesystem::path& scratch) {
    const auto path = scratch / "fonts.conf";
    write_file(path, "<?xml version=\"1.0\"?>\n<!DOCTYPE fontconfig SYSTEM \"fonts.dtd\">\n"
                     "<fontconfig><dir>" OHMFOLIO_SOURCE "/layouts/lettering</dir><cachedir>" +
                         scratch.string() + "</cachedir></fontconfig>\n");
    return path;
}

} // namespace

Picture read_ppm(const std::filesystem::path& path) {
    const std::string bytes = read_file(path);
    std::istringstream in(bytes);
    std::string kind;
    std::size_t depth = 0;
    Picture picture;
    in >> kind >> picture.width >> picture.height >> depth;
    const std::size_t size = picture.width * picture.height * 3;
    const auto begin = static_cast<std::size_t>(in.tellg()) + 1; // one white space
    if (!in || kind != "P6" || depth != 255 || bytes.size() != begin + size) {
        throw std::runtime_error("not a binary PPM of 8 bits: " + path.string());
    }
    picture.rgb.assign(bytes.begin() + static_cast<std::ptrdiff_t>(begin), bytes.end());
    return picture;
}

std::vector<Picture> pictures_of_pdf(const std::filesystem::path& pdf, int dots_per_inch,
                                     const std::filesystem::path& scratch) {
    const auto folder = scratch / "pages";
    std::filesystem::create_directories(folder);
    run_or_throw({"pdftoppm", "-r", std::to_string(dots_per_inch), pdf.string(),
                  (folder / "page").string()});
    std::vector<Picture> pictures;
    for (const std::string& name : names_in(folder)) { // page-01, page-02
        pictures.push_back(read_ppm(folder / name));
    }
    return pictures;
}

Picture picture_of_svg(const std::filesystem::path& svg, int dots_per_inch,
                       const std::filesystem::path& scratch) {
    const auto png = scratch / "sheet.png";
    const auto ppm = scratch / "sheet.ppm";
    const std::string dots = std::to_string(dots_per_inch);
    run_or_throw({"rsvg-convert", "-d", dots, "-p", dots, svg.string(), "-o", png.string()},
                 {.environment = {{"FONTCONFIG_FILE", private_fonts(scratch).string()}}});
    run_or_throw(
        {"convert", png.string(), "-background", "white", "-flatten", "-depth", "8", ppm.string()});
    return read_ppm(ppm);
}

namespace {

using Colour = std::array<double, 3>;

Blur cells_of(const Picture& picture, std::size_t side) {
    Blur blur;
    blur.across = (picture.width + side - 1) / side;
    blur.down = (picture.height + side - 1) / side;
    blur.cells.resize(blur.across * blur.down);
    const auto dots = static_cast<double>(side * side);
    for (std::size_t y = 0; y < picture.height; ++y) {
        for (std::size_t x = 0; x < picture.width; ++x) {
            Colour& cell = blur.cells[y / side * blur.across + x / side];
            for (std::size_t colour = 0; colour < 3; ++colour) {
                cell[colour] += picture.rgb[(y * picture.width + x) * 3 + colour] / dots;
            }
        }
    }
    return blur;
}

/// The mean of each cell and the two beside it; `step` is the way to the next cell of a row of
/// `length`.
void share_with_neighbours(std::vector<Colour>& cells, std::size_t first, std::size_t step,
                           std::size_t length) {
    std::vector<Colour> row(length);
    for (std::size_t i = 0; i < length; ++i) {
        row[i] = cells[first + i * step];
    }
    for (std::size_t i = 0; i < length; ++i) {
        const Colour& before = row[i == 0 ? 0 : i - 1];
        const Colour& after = row[i + 1 == length ? i : i + 1];
        for (std::size_t colour = 0; colour < 3; ++colour) {
            cells[first + i * step][colour] = (before[colour] + row[i][colour] + after[colour]) / 3;
        }
    }
}

} // namespace

Blur blurred(const Picture& picture, std::size_t side) {
    Blur blur = cells_of(picture, side);
    // Twice in each direction: the weight falls off evenly over three cells.
    for (int round = 0; round < 2; ++round) {
        for (std::size_t y = 0; y < blur.down; ++y) {
            share_with_neighbours(blur.cells, y * blur.across, 1, blur.across);
        }
        for (std::size_t x = 0; x < blur.across; ++x) {
            share_with_neighbours(blur.cells, x, blur.across, blur.down);
        }
    }
    return blur;
}

Difference difference(const Blur& a, const Blur& b) {
    if (a.across != b.across || a.down != b.down) {
        throw std::runtime_error("pictures of different sizes");
    }
    Difference result;
    for (std::size_t cell = 0; cell < a.cells.size(); ++cell) {
        for (std::size_t colour = 0; colour < 3; ++colour) {
            const double apart = std::abs(a.cells[cell][colour] - b.cells[cell][colour]);
            result.largest = std::max(result.largest, apart);
            result.mean += apart;
        }
    }
    result.mean /= static_cast<double>(a.cells.size() * 3);
    return result;
}

} // namespace ohmfolio::test
