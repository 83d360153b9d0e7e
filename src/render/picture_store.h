/// Inside the render room: pictures unpacked once for all pages.
#pragma once

#include <map>
#include <string>

#include <cairo.h>

#include "drawing/frame.h"
#include "render/fonts.h"

namespace ohmfolio {

using PictureSurface = Owned<cairo_surface_t, cairo_surface_destroy>;

/// The pixels of a PNG file; a surface in a state of error when there are none.
PictureSurface unpacked(std::string_view png);

class PictureStore {
  public:
    /// Throws std::runtime_error for a picture that cannot be read: see examine_png().
    cairo_surface_t* surface(const Picture& picture);

  private:
    std::map<const std::string*, PictureSurface> surfaces_;
};

} // namespace ohmfolio
