// replay LIST FONTS PDF: puts a display list on paper and does nothing else, with Cairo and Pango
// used as cheaply as is known: private fonts, each text shaped once, strokes of a look in one
// outline, a white page first. This is the floor that ohmfolio's own time is held against. Knows
// none of its code.
#include <cstdio>
#include <fstream>
#include <iterator>
#include <string>
#include <unordered_map>

#include <cairo-pdf.h>
#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>
#include <pango/pangofc-fontmap.h>

#include "display_list.h"

namespace {

class Replay {
  public:
    Replay(const std::string& fonts, const char* pdf) {
        FcConfig* config = FcConfigCreate();
        for (const char* file : {"/RobotoCondensed-Regular.ttf", "/RobotoCondensed-Bold.ttf"}) {
            const std::string path = fonts + file;
            FcConfigAppFontAddFile(config, reinterpret_cast<const FcChar8*>(path.c_str()));
        }
        FcConfigSetCurrent(config);
        PangoFontMap* map = pango_cairo_font_map_new();
        pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(map), config);
        context_ = pango_font_map_create_context(map);
        pango_cairo_context_set_resolution(context_, 72.0);
        surface_ = cairo_pdf_surface_create(pdf, 72, 72);
        cr_ = cairo_create(surface_);
    }

    void run(display_list::Reader list) {
        bool first = true;
        while (!list.done()) {
            switch (list.letter()) {
            case 'P':
                if (!first) {
                    cairo_show_page(cr_);
                }
                first = false;
                page(list);
                break;
            case 'S':
                cairo_set_line_width(cr_, list.number());
                color(list);
                list.count();
                outline(list);
                cairo_stroke(cr_);
                break;
            case 'F':
                color(list);
                outline(list);
                cairo_fill(cr_);
                break;
            case 'T':
                lettering(list);
                break;
            case 'I':
                for (int i = 0; i < 4; ++i) {
                    list.number();
                }
                list.text(); // pictures are few, and left out
                break;
            default:
                std::fputs("no display list\n", stderr);
                return;
            }
        }
        cairo_show_page(cr_);
        cairo_surface_finish(surface_);
    }

  private:
    void page(display_list::Reader& list) {
        const double width = list.number(), height = list.number();
        cairo_pdf_surface_set_size(surface_, width, height);
        cairo_set_source_rgb(cr_, 1, 1, 1);
        cairo_rectangle(cr_, 0, 0, width, height);
        cairo_fill(cr_);
        cairo_set_line_join(cr_, CAIRO_LINE_JOIN_ROUND);
        cairo_set_line_cap(cr_, CAIRO_LINE_CAP_ROUND);
    }

    void color(display_list::Reader& list) {
        const double red = list.number(), green = list.number(), blue = list.number();
        cairo_set_source_rgb(cr_, red, green, blue);
    }

    void outline(display_list::Reader& list) {
        double p[6];
        const auto read = [&](int numbers) {
            list.letter();
            for (int i = 0; i < numbers; ++i) {
                p[i] = list.number();
            }
        };
        for (;;) {
            switch (list.peek()) {
            case 'm':
                read(2);
                cairo_move_to(cr_, p[0], p[1]);
                break;
            case 'l':
                read(2);
                cairo_line_to(cr_, p[0], p[1]);
                break;
            case 'c':
                read(6);
                cairo_curve_to(cr_, p[0], p[1], p[2], p[3], p[4], p[5]);
                break;
            case 'z':
                read(0);
                cairo_close_path(cr_);
                break;
            default:
                return;
            }
        }
    }

    void lettering(display_list::Reader& list) {
        const double x = list.number(), y = list.number(), size = list.number();
        const bool bold = list.count() != 0;
        const std::uint32_t align = list.count();
        const bool turned = list.count() != 0;
        color(list);
        const std::string text = list.text();
        const auto& [item, width] = shaped(text, size, bold);
        cairo_save(cr_);
        cairo_translate(cr_, x, y);
        if (turned) {
            cairo_rotate(cr_, -G_PI / 2);
        }
        cairo_move_to(cr_, align == 0 ? 0 : align == 1 ? -width / 2 : -width, 0);
        pango_cairo_show_glyph_item(cr_, text.c_str(), item);
        cairo_restore(cr_);
    }

    struct Shaped {
        PangoGlyphItem* item;
        double width;
    };
    const Shaped& shaped(const std::string& text, double size, bool bold) {
        auto& texts = cache_[(bold ? "b" : "r") + std::to_string(size)];
        if (texts.like == nullptr) {
            texts.like = like(size, bold);
        }
        const auto [place, is_new] = texts.shaped.try_emplace(text);
        if (is_new) {
            PangoItem* item = pango_item_copy(texts.like);
            item->length = static_cast<int>(text.size());
            item->num_chars = static_cast<int>(g_utf8_strlen(text.c_str(), -1));
            PangoGlyphString* glyphs = pango_glyph_string_new();
            pango_shape_item(item, text.data(), item->length, nullptr, glyphs, PANGO_SHAPE_NONE);
            PangoGlyphItem run{};
            run.item = item;
            run.glyphs = glyphs;
            place->second = {g_slice_dup(PangoGlyphItem, &run),
                             static_cast<double>(pango_glyph_string_get_width(glyphs)) /
                                 PANGO_SCALE};
        }
        return place->second;
    }

    PangoItem* like(double size, bool bold) {
        PangoFontDescription* face = pango_font_description_new();
        pango_font_description_set_family(face, "Roboto Condensed");
        pango_font_description_set_weight(face, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
        pango_font_description_set_absolute_size(face, size * PANGO_SCALE);
        PangoAttrList* attributes = pango_attr_list_new();
        pango_attr_list_insert(attributes, pango_attr_font_desc_new(face));
        GList* items = pango_itemize(context_, "A", 0, 1, attributes, nullptr);
        return static_cast<PangoItem*>(items->data);
    }

    struct Texts {
        PangoItem* like = nullptr;
        std::unordered_map<std::string, Shaped> shaped;
    };

    PangoContext* context_;
    cairo_surface_t* surface_;
    cairo_t* cr_;
    std::unordered_map<std::string, Texts> cache_;
};

} // namespace

int main(int argc, char** argv) {
    if (argc != 4) {
        std::fputs("usage: replay LIST FONTS PDF\n", stderr);
        return 2;
    }
    std::ifstream in(argv[1], std::ios::binary);
    const std::string list{std::istreambuf_iterator<char>(in), {}};
    Replay(argv[2], argv[3]).run(display_list::Reader(list));
    return 0;
}
