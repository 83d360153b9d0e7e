#include "render/render.h"

#include <algorithm>
#include <cairo-pdf.h>
#include <cmath>
#include <fmt/format.h>
#include <set>
#include <stdexcept>

#include "render/anchor_id.h"
#include "render/fonts.h"
#include "render/pdf_repair.h"
#include "render/pen.h"
#include "render/picture_store.h"

namespace ohmfolio {

namespace {

using Surface = Owned<cairo_surface_t, cairo_surface_destroy>;
using Context = Owned<cairo_t, cairo_destroy>;

constexpr std::int64_t margin_around_anchor = 36; ///< points

/// Cairo reads the numbers of its tags by the rules of the user's locale, where the point may not
/// be a point; whole numbers are the same everywhere, and near enough for a click.
std::int64_t whole_points(Length length) { return std::llround(length.in_points()); }

void require_success(cairo_status_t status) {
    if (status != CAIRO_STATUS_SUCCESS) {
        throw std::runtime_error(
            fmt::format("the PDF cannot be written: {}", cairo_status_to_string(status)));
    }
}

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int length) {
    static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

void set_color(cairo_t* cr, Color color) {
    cairo_set_source_rgb(cr, color.red / 255.0, color.green / 255.0, color.blue / 255.0);
}

void set_stroke(cairo_t* cr, const Stroke& stroke) {
    set_color(cr, stroke.color);
    cairo_set_line_width(cr, stroke.width.in_points());
    cairo_set_line_cap(cr, round_ends(stroke) ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
    const auto dashes = dash_pattern(stroke);
    cairo_set_dash(cr, dashes.data(), static_cast<int>(dashes.size()), 0);
}

void trace(cairo_t* cr, const Path& path) {
    for (const Segment& segment : path.segments) {
        const double x = segment.to.x.in_points();
        const double y = segment.to.y.in_points();
        switch (segment.kind) {
        case Segment::Kind::move:
            cairo_move_to(cr, x, y);
            break;
        case Segment::Kind::line:
            cairo_line_to(cr, x, y);
            break;
        case Segment::Kind::curve:
            cairo_curve_to(cr, segment.control1.x.in_points(), segment.control1.y.in_points(),
                           segment.control2.x.in_points(), segment.control2.y.in_points(), x, y);
            break;
        case Segment::Kind::close:
            cairo_close_path(cr);
            break;
        }
    }
}

/// The structure types of ISO 32000-1, 14.8.4.
const char* tag_of(Part::Kind kind) {
    switch (kind) {
    case Part::Kind::section:
        return "Sect";
    case Part::Kind::heading:
        return "H1";
    case Part::Kind::table:
        return "Table";
    case Part::Kind::row:
        return "TR";
    case Part::Kind::heading_cell:
        return "TH";
    case Part::Kind::cell:
        return "TD";
    case Part::Kind::paragraph:
        break;
    }
    return "P";
}

/// What lettering stands on.
bool lies_below(const Mark& mark) {
    return std::holds_alternative<Path>(mark.item) || std::holds_alternative<Picture>(mark.item);
}

/// Draws the marks of one page: outlines and pictures first, then lettering in its order with the
/// parts that it makes up, so that it can be read aloud and copied as it was written. Strokes of
/// one style are gathered into one outline, since Cairo's work grows with the number of operations.
/// Opaque marks of one colour may be painted in any order, so gathering goes on until a mark of
/// another colour or a fill comes.
class PageWriter {
  public:
    PageWriter(cairo_t* cr, const Lettering::Fonts& fonts, std::set<std::string>& open_anchors,
               const std::set<std::string>& anchors)
        : cr_(cr), fonts_(fonts), open_anchors_(open_anchors), anchors_(anchors) {}

    void draw(const Frame& frame) {
        // First a white page: each later operation then lies inside a known area, which spares
        // Cairo an analysis that is quadratic in the number of operations.
        cairo_rectangle(cr_, 0, 0, frame.size.width.in_points(), frame.size.height.in_points());
        set_color(cr_, white);
        cairo_fill(cr_);
        cairo_set_line_join(cr_, CAIRO_LINE_JOIN_ROUND);
        for (const Mark& mark : frame.marks) {
            if (lies_below(mark))
                std::visit(*this, mark.item);
        }
        flush();
        (*this)(Part{Part::Kind::section, true});
        for (const Mark& mark : frame.marks) {
            if (!lies_below(mark))
                std::visit(*this, mark.item);
        }
        while (!open_parts_.empty())
            end_part();
    }

    void operator()(const Path& path) {
        if (path.stroked && !path.filled) {
            gather(path);
            return;
        }
        flush();
        trace(cr_, path);
        if (path.filled) {
            set_color(cr_, path.fill);
            cairo_fill_preserve(cr_);
        }
        if (path.stroked) {
            set_stroke(cr_, path.stroke);
            cairo_stroke_preserve(cr_);
        }
        cairo_new_path(cr_);
    }

    void operator()(const Text& text) {
        if (text.text.empty())
            return;
        require_glyphs(text, fonts_);
        set_color(cr_, text.color);
        const ShapedText& shaped = fonts_.shaped(text.text, text.style);
        cairo_save(cr_);
        cairo_translate(cr_, text.at.x.in_points(), text.at.y.in_points());
        if (text.turned)
            cairo_rotate(cr_, -G_PI / 2);
        double x = 0;
        if (text.align != Align::left)
            x = text.align == Align::right ? -shaped.width : -shaped.width / 2;
        cairo_move_to(cr_, x, 0);
        pango_cairo_show_glyph_item(cr_, text.text.c_str(), shaped.run.get());
        cairo_new_path(cr_);
        cairo_restore(cr_);
    }

    void operator()(const Link& link) {
        // Cairo refuses the whole file for one link that leads nowhere; lint names such links.
        if (!anchors_.contains(link.target))
            return;
        const auto low_x = whole_points(link.area.low.x);
        const auto low_y = whole_points(link.area.low.y);
        const auto attributes = fmt::format("dest='{}' rect=[{} {} {} {}]", anchor_id(link.target),
                                            low_x, low_y, whole_points(link.area.high.x) - low_x,
                                            whole_points(link.area.high.y) - low_y);
        cairo_tag_begin(cr_, CAIRO_TAG_LINK, attributes.c_str());
        cairo_tag_end(cr_, CAIRO_TAG_LINK);
    }

    void operator()(const Anchor& anchor) {
        if (open_anchors_.erase(anchor.name) == 0)
            return; // a second anchor of that name, which lint reports
        // A viewer puts the place into the corner of its window: show some of what is around.
        const auto x = std::max<std::int64_t>(0, whole_points(anchor.at.x) - margin_around_anchor);
        const auto y = std::max<std::int64_t>(0, whole_points(anchor.at.y) - margin_around_anchor);
        const auto attributes = fmt::format("name='{}' x={} y={}", anchor_id(anchor.name), x, y);
        cairo_tag_begin(cr_, CAIRO_TAG_DEST, attributes.c_str());
        cairo_tag_end(cr_, CAIRO_TAG_DEST);
    }

    void operator()(const Port&) const {}
    void operator()(const Insert&) const {} // whoever binds the PDF puts the page there

    void operator()(const View&) {}
    void operator()(const Part& part) {
        if (part.begins) {
            open_parts_.push_back(part.kind);
            cairo_tag_begin(cr_, tag_of(part.kind), nullptr);
        } else if (open_parts_.size() > 1 && open_parts_.back() == part.kind) {
            end_part();
        } else {
            throw std::logic_error("the parts of a sheet do not nest");
        }
    }

    void operator()(const Picture& picture) {
        flush();
        cairo_surface_t* const pixels = pictures_.surface(picture);
        const double width = cairo_image_surface_get_width(pixels);
        const double height = cairo_image_surface_get_height(pixels);
        cairo_save(cr_);
        cairo_translate(cr_, picture.at.low.x.in_points(), picture.at.low.y.in_points());
        cairo_scale(cr_, picture.at.width().in_points() / width,
                    picture.at.height().in_points() / height);
        cairo_set_source_surface(cr_, pixels, 0, 0);
        cairo_paint(cr_);
        cairo_restore(cr_);
    }

  private:
    struct Gathered {
        Stroke stroke;
        std::vector<const Path*> paths;
    };

    void end_part() {
        cairo_tag_end(cr_, tag_of(open_parts_.back()));
        open_parts_.pop_back();
    }

    void gather(const Path& path) {
        if (!gathered_.empty() && gathered_.front().stroke.color != path.stroke.color)
            flush();
        const auto found = std::ranges::find(gathered_, path.stroke, &Gathered::stroke);
        if (found != gathered_.end()) {
            found->paths.push_back(&path);
        } else {
            gathered_.push_back({path.stroke, {&path}});
        }
    }

    void flush() {
        for (const Gathered& batch : gathered_) {
            for (const Path* path : batch.paths)
                trace(cr_, *path);
            set_stroke(cr_, batch.stroke);
            cairo_stroke(cr_);
        }
        gathered_.clear();
    }

    cairo_t* cr_;
    const Lettering::Fonts& fonts_;
    std::set<std::string>& open_anchors_;
    const std::set<std::string>& anchors_;
    std::vector<Gathered> gathered_;
    PictureStore pictures_; ///< outlives the pages: one picture stands in the file once
    std::vector<Part::Kind> open_parts_;
};

std::set<std::string> anchor_names(const Packet& packet) {
    std::set<std::string> names;
    for (const Sheet& sheet : packet.sheets) {
        for (const Mark& mark : sheet.frame.marks) {
            if (const auto* anchor = std::get_if<Anchor>(&mark.item))
                names.insert(anchor->name);
        }
    }
    return names;
}

void set_metadata(cairo_surface_t* surface, const PacketInfo& info) {
    const auto set = [&](cairo_pdf_metadata_t key, const std::string& value) {
        if (!value.empty())
            cairo_pdf_surface_set_metadata(surface, key, value.c_str());
    };
    set(CAIRO_PDF_METADATA_TITLE, info.title);
    set(CAIRO_PDF_METADATA_AUTHOR, info.author);
    set(CAIRO_PDF_METADATA_SUBJECT, info.subject);
    set(CAIRO_PDF_METADATA_KEYWORDS, info.keywords);
    set(CAIRO_PDF_METADATA_CREATOR, "ohmfolio");
    set(CAIRO_PDF_METADATA_CREATE_DATE, cairo_date(info.date));
}

void add_page(cairo_surface_t* surface, cairo_t* cr, const Sheet& sheet, std::size_t page,
              PageWriter& writer) {
    cairo_pdf_surface_set_size(surface, sheet.frame.size.width.in_points(),
                               sheet.frame.size.height.in_points());
    cairo_pdf_surface_set_page_label(surface, sheet.number.c_str());
    const std::string heading = fmt::format("{} {}", sheet.number, sheet.title);
    const std::string place = fmt::format("page={} pos=[0 0]", page);
    cairo_pdf_surface_add_outline(surface, CAIRO_PDF_OUTLINE_ROOT, heading.c_str(), place.c_str(),
                                  CAIRO_PDF_OUTLINE_FLAG_OPEN);
    writer.draw(sheet.frame);
    cairo_show_page(cr);
    require_success(cairo_status(cr));
}

} // namespace

std::string to_pdf(const Packet& packet, const Lettering& lettering) {
    if (packet.sheets.empty())
        throw std::logic_error("a packet without sheets cannot become a PDF");
    std::string bytes;
    const Size first = packet.sheets.front().frame.size;
    const Surface surface(cairo_pdf_surface_create_for_stream(
        append, &bytes, first.width.in_points(), first.height.in_points()));
    // PDF 1.4 has all that we use, and every viewer a plan checker may have can read it.
    cairo_pdf_surface_restrict_to_version(surface.get(), CAIRO_PDF_VERSION_1_4);
    set_metadata(surface.get(), packet.info);

    const Context cr(cairo_create(surface.get()));
    const auto anchors = anchor_names(packet);
    auto open_anchors = anchors;
    PageWriter writer(cr.get(), lettering.fonts(), open_anchors, anchors);
    for (std::size_t page = 0; page < packet.sheets.size(); ++page)
        add_page(surface.get(), cr.get(), packet.sheets[page], page + 1, writer);
    cairo_surface_finish(surface.get());
    require_success(cairo_surface_status(surface.get()));
    repair_cross_references(bytes);
    repair_date(bytes, packet.info.date);
    return bytes;
}

} // namespace ohmfolio
