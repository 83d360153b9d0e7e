/// Inside the render room: the two faces, ready for measuring and for setting type.
#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>

#include "render/render.h"

namespace ohmfolio {

inline constexpr const char* lettering_family = "Roboto Condensed";

/// Lets a C library's object go when its owner goes.
template <auto free_function> struct Release {
    template <class T> void operator()(T* object) const { free_function(object); }
};
template <class T, auto free_function> using Owned = std::unique_ptr<T, Release<free_function>>;
template <class T> using OwnedObject = Owned<T, g_object_unref>;

/// A text turned into glyphs: shaped once, measured and drawn from the same result.
struct ShapedText {
    Owned<PangoGlyphItem, pango_glyph_item_free> run;
    double width = 0; ///< in points
};

/// Heights of a face as parts of the em.
struct FaceHeights {
    double capital = 0;
    double ascent = 0;
    double descent = 0;
};

struct Lettering::Fonts final : TextMeasure {
    explicit Fonts(const std::filesystem::path& folder);

    Length width(std::string_view text, const TextStyle& style) const override;
    Length cap_height(const TextStyle& style) const override;
    Length ascent(const TextStyle& style) const override;
    Length descent(const TextStyle& style) const override;
    std::string missing(std::string_view text, const TextStyle& style) const override;

    const ShapedText& shaped(std::string_view text, const TextStyle& style) const;

  private:
    using Item = Owned<PangoItem, pango_item_free>;
    struct Face {
        Owned<hb_font_t, hb_font_destroy> font; ///< scaled to font units
        FaceHeights heights;
    };

    Face load_face(bool bold) const;
    Item item_of(const TextStyle& style) const;
    ShapedText shape(const std::string& text, const Item& like) const;
    const Face& face(const TextStyle& style) const { return style.bold ? bold_ : regular_; }

    Owned<FcConfig, FcConfigDestroy> config_;
    OwnedObject<PangoFontMap> map_;
    OwnedObject<PangoContext> context_;
    Face regular_, bold_;
    struct Hash {
        using is_transparent = void;
        std::size_t operator()(std::string_view text) const {
            return std::hash<std::string_view>{}(text);
        }
    };
    struct Shaped {
        Item item; ///< what Pango finds out of a text of this style; the same for all of them
        std::unordered_map<std::string, ShapedText, Hash, std::equal_to<>> texts;
    };
    // Only ever looked up, so layout and drawing shape a text once between them.
    mutable std::map<TextStyle, Shaped> cache_;
};

/// Throws std::logic_error: whoever composed the sheet had to ask missing() first, and neither
/// output may let another font stand in.
void require_glyphs(const Text& text, const TextMeasure& measure);

} // namespace ohmfolio
