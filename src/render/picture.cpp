#include "render/picture.h"

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <stdexcept>

#include <fmt/format.h>

#include "render/picture_store.h"

namespace ohmfolio {

namespace {

/// A PNG begins with these, then the length and the name of its first chunk, width and height
/// (W3C, Portable Network Graphics, 5.2 and 11.2.2).
constexpr std::string_view signature = "\x89PNG\r\n\x1a\n";
constexpr std::size_t width_at = 16;
constexpr std::size_t height_at = 20;
constexpr std::size_t head_size = 33;

std::uint32_t big_endian(std::string_view bytes, std::size_t at) {
    std::uint32_t number = 0;
    for (std::size_t i = at; i < at + 4; ++i)
        number = number << 8 | static_cast<unsigned char>(bytes[i]);
    return number;
}

cairo_status_t read_some(void* rest, unsigned char* into, unsigned int count) {
    auto& bytes = *static_cast<std::string_view*>(rest);
    if (bytes.size() < count)
        return CAIRO_STATUS_READ_ERROR;
    std::memcpy(into, bytes.data(), count);
    bytes.remove_prefix(count);
    return CAIRO_STATUS_SUCCESS;
}

} // namespace

PictureSurface unpacked(std::string_view png) {
    return PictureSurface(cairo_image_surface_create_from_png_stream(read_some, &png));
}

cairo_surface_t* PictureStore::surface(const Picture& picture) {
    const std::string* const key = picture.png.get();
    const auto known = surfaces_.find(key);
    if (known != surfaces_.end())
        return known->second.get();
    PictureSurface surface = unpacked(*picture.png);
    if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error("a picture on a sheet cannot be read");
    return surfaces_.emplace(key, std::move(surface)).first->second.get();
}

PictureReport examine_png(std::string_view bytes) {
    PictureReport report;
    if (!bytes.starts_with(signature) || bytes.size() < head_size ||
        bytes.substr(12, 4) != "IHDR") {
        report.fault = "it is not a PNG";
        return report;
    }
    const std::int64_t width = big_endian(bytes, width_at);
    const std::int64_t height = big_endian(bytes, height_at);
    if (width == 0 || height == 0 || std::max(width, height) > most_pixels_a_side ||
        width * height > most_pixels) {
        report.fault = fmt::format("it has {} x {} pixels", width, height);
        return report;
    }
    if (cairo_surface_status(unpacked(bytes).get()) != CAIRO_STATUS_SUCCESS) {
        report.fault = "its pixels cannot be read";
        return report;
    }
    report.width = static_cast<int>(width);
    report.height = static_cast<int>(height);
    return report;
}

} // namespace ohmfolio
