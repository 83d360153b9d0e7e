#include "render/render.h"

namespace {

std::unique_ptr<ohmfolio::Lettering> lettering(const std::filesystem::path& folder) {
    return std::make_unique<ohmfolio::Lettering>(folder);
}

} // namespace

/// The one name that the program looks up in the module.
extern "C" __attribute__((visibility("default"))) const ohmfolio::Renderer* ohmfolio_render() {
    static const ohmfolio::Renderer renderer{&lettering, &ohmfolio::to_pdf, &ohmfolio::to_svg,
                                             &ohmfolio::examine_png};
    return &renderer;
}
