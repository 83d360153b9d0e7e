#include "render/fonts.h"

#include <cmath>
#include <fmt/format.h>
#include <optional>
#include <pango/pangofc-fontmap.h>
#include <stdexcept>

#include <hb-ot.h>

#include "base/text.h"

namespace ohmfolio {

namespace {

using Description = Owned<PangoFontDescription, pango_font_description_free>;

/// A font collection that holds our files and knows nothing of the machine's.
Owned<FcConfig, FcConfigDestroy> private_collection(const std::filesystem::path& folder) {
    Owned<FcConfig, FcConfigDestroy> config(FcConfigCreate());
    if (!config)
        throw std::runtime_error("the font library does not start");
    for (const char* file : {"RobotoCondensed-Regular.ttf", "RobotoCondensed-Bold.ttf"}) {
        const std::string path = (folder / file).string();
        const auto* bytes = reinterpret_cast<const FcChar8*>(path.c_str());
        if (!std::filesystem::is_regular_file(path) ||
            FcConfigAppFontAddFile(config.get(), bytes) == FcFalse)
            throw std::runtime_error(fmt::format("cannot read the lettering font {}", path));
    }
    // Pango's own thread would otherwise read the machine's fonts at start-up.
    FcConfigSetCurrent(config.get());
    return config;
}

Description description(const TextStyle& style) {
    Description result(pango_font_description_new());
    // Not from a string: there "Condensed" is taken for a width of plain Roboto.
    pango_font_description_set_family(result.get(), lettering_family);
    pango_font_description_set_weight(result.get(),
                                      style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_font_description_set_absolute_size(result.get(), style.size.in_points() * PANGO_SCALE);
    return result;
}

/// Outlines and advances as designed, whatever the machine's screen settings say.
void set_unhinted(PangoContext* context) {
    const Owned<cairo_font_options_t, cairo_font_options_destroy> options(
        cairo_font_options_create());
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(context, options.get());
    pango_cairo_context_set_resolution(context, 72.0);
    pango_context_set_round_glyph_positions(context, FALSE);
}

/// The code point of one UTF-8 character, or nothing if the bytes are no UTF-8.
std::optional<char32_t> code_point(std::string_view character) {
    const gunichar value =
        g_utf8_get_char_validated(character.data(), static_cast<gssize>(character.size()));
    // (gunichar)-1 and -2 stand for broken and cut-off text.
    if (value >= 0x110000)
        return std::nullopt;
    return static_cast<char32_t>(value);
}

} // namespace

Lettering::Fonts::Fonts(const std::filesystem::path& folder)
    : config_(private_collection(folder)), map_(pango_cairo_font_map_new()) {
    pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(map_.get()), config_.get());
    context_.reset(pango_font_map_create_context(map_.get()));
    set_unhinted(context_.get());
    pango_context_set_language(context_.get(), pango_language_from_string("en"));
    pango_context_set_base_dir(context_.get(), PANGO_DIRECTION_LTR);
    regular_ = load_face(false);
    bold_ = load_face(true);
}

Lettering::Fonts::Face Lettering::Fonts::load_face(bool bold) const {
    const auto wanted = description({points(10), bold});
    const OwnedObject<PangoFont> font(
        pango_font_map_load_font(map_.get(), context_.get(), wanted.get()));
    if (!font)
        throw std::runtime_error("the lettering fonts cannot be opened");
    const Description got(pango_font_describe(font.get()));
    const bool is_bold = pango_font_description_get_weight(got.get()) >= PANGO_WEIGHT_SEMIBOLD;
    if (pango_font_description_get_family(got.get()) != std::string_view(lettering_family) ||
        is_bold != bold) {
        throw std::runtime_error(fmt::format("the lettering folder holds no {} {}",
                                             lettering_family, bold ? "Bold" : "Regular"));
    }
    hb_face_t* face = hb_font_get_face(pango_font_get_hb_font(font.get()));
    Face result;
    result.font.reset(hb_font_create(face)); // scaled to font units by default
    const auto height = [&](hb_ot_metrics_tag_t tag) {
        hb_position_t value = 0;
        if (!hb_ot_metrics_get_position(result.font.get(), tag, &value))
            throw std::runtime_error("a lettering font does not tell the height of its letters");
        return static_cast<double>(value) / hb_face_get_upem(face);
    };
    result.heights = {height(HB_OT_METRICS_TAG_CAP_HEIGHT),
                      height(HB_OT_METRICS_TAG_HORIZONTAL_ASCENDER),
                      -height(HB_OT_METRICS_TAG_HORIZONTAL_DESCENDER)};
    return result;
}

/// Lettering is of one face, reads from left to right and never breaks by itself: what Pango would
/// find out of each text anew, it finds out once for all texts of a style.
Lettering::Fonts::Item Lettering::Fonts::item_of(const TextStyle& style) const {
    const auto face_wanted = description(style);
    const Owned<PangoAttrList, pango_attr_list_unref> attributes(pango_attr_list_new());
    pango_attr_list_insert(attributes.get(), pango_attr_font_desc_new(face_wanted.get()));
    pango_attr_list_insert(attributes.get(), pango_attr_fallback_new(FALSE));
    // Ligatures would tie letters of a designation together.
    pango_attr_list_insert(attributes.get(), pango_attr_font_features_new("liga=0, clig=0"));
    constexpr std::string_view letter = "A";
    GList* items = pango_itemize(context_.get(), letter.data(), 0, static_cast<int>(letter.size()),
                                 attributes.get(), nullptr);
    Item item(static_cast<PangoItem*>(items->data));
    g_list_free(items);
    return item;
}

ShapedText Lettering::Fonts::shape(const std::string& text, const Item& like) const {
    Item item(pango_item_copy(like.get()));
    item->length = static_cast<int>(text.size());
    item->num_chars = static_cast<int>(character_count(text));
    Owned<PangoGlyphString, pango_glyph_string_free> glyphs(pango_glyph_string_new());
    pango_shape_item(item.get(), text.data(), item->length, nullptr, glyphs.get(),
                     PANGO_SHAPE_NONE);
    ShapedText result;
    result.width = static_cast<double>(pango_glyph_string_get_width(glyphs.get())) / PANGO_SCALE;
    PangoGlyphItem run{};
    run.item = item.release();
    run.glyphs = glyphs.release();
    result.run.reset(g_slice_dup(PangoGlyphItem, &run));
    return result;
}

const ShapedText& Lettering::Fonts::shaped(std::string_view text, const TextStyle& style) const {
    auto& [item, texts] = cache_[style];
    const auto found = texts.find(text);
    if (found != texts.end())
        return found->second;
    if (!item)
        item = item_of(style);
    std::string key(text);
    ShapedText result = shape(key, item);
    return texts.emplace(std::move(key), std::move(result)).first->second;
}

Length Lettering::Fonts::width(std::string_view text, const TextStyle& style) const {
    return text.empty() ? Length{} : points(shaped(text, style).width);
}

Length Lettering::Fonts::cap_height(const TextStyle& style) const {
    return scaled(style.size, face(style).heights.capital);
}

Length Lettering::Fonts::ascent(const TextStyle& style) const {
    return scaled(style.size, face(style).heights.ascent);
}

Length Lettering::Fonts::descent(const TextStyle& style) const {
    return scaled(style.size, face(style).heights.descent);
}

std::string Lettering::Fonts::missing(std::string_view text, const TextStyle& style) const {
    std::string result;
    for (const std::string_view character : characters(text)) {
        const auto code = code_point(character);
        hb_codepoint_t glyph = 0;
        const bool known =
            code && hb_font_get_nominal_glyph(face(style).font.get(), *code, &glyph) != 0;
        const std::string_view shown = code ? character : "\xEF\xBF\xBD"; // U+FFFD
        if (!known && result.find(shown) == std::string::npos)
            result += shown;
    }
    return result;
}

Lettering::Lettering(const std::filesystem::path& folder)
    : fonts_(std::make_shared<const Fonts>(folder)), measure_(fonts_.get()) {}

void require_glyphs(const Text& text, const TextMeasure& measure) {
    const std::string missing = measure.missing(text.text, text.style);
    if (!missing.empty()) {
        throw std::logic_error(fmt::format("\"{}\" cannot be set: {} has no glyph for \"{}\"",
                                           text.text, lettering_family, missing));
    }
}

} // namespace ohmfolio
