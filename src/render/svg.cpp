#include "render/render.h"

#include <fmt/format.h>
#include <iterator>
#include <set>

#include "base/text.h"
#include "render/anchor_id.h"
#include "render/base64.h"
#include "render/fonts.h"
#include "render/pen.h"

namespace ohmfolio {

namespace {

/// Escaped for text and for attributes alike. What XML 1.0 forbids becomes U+FFFD.
std::string escaped(std::string_view text) {
    std::string result;
    result.reserve(text.size());
    for (const char c : text) {
        switch (c) {
        case '&':
            result += "&amp;";
            break;
        case '<':
            result += "&lt;";
            break;
        case '>':
            result += "&gt;";
            break;
        case '"':
            result += "&quot;";
            break;
        default:
            if (static_cast<unsigned char>(c) < 0x20 && c != '\t' && c != '\n') {
                result += "\xEF\xBF\xBD";
            } else {
                result += c;
            }
        }
    }
    return result;
}

constexpr Length insert_lettering = points(12);

std::string hex(Color color) {
    return fmt::format("#{:02x}{:02x}{:02x}", color.red, color.green, color.blue);
}

/// Points to two decimals, exactly rounded from the whole nanometres: 7200 hundredths of a point
/// are 25 400 000 nm.
void append_number(std::string& out, Length length) {
    const std::int64_t scaled_up = length.nm * 36;
    const std::int64_t half = length.nm < 0 ? -63'500 : 63'500;
    const std::int64_t hundredths = (scaled_up + half) / 127'000;
    const std::int64_t magnitude = hundredths < 0 ? -hundredths : hundredths;
    if (hundredths < 0)
        out += '-';
    auto to = std::back_inserter(out);
    fmt::format_to(to, "{}", magnitude / 100);
    if (magnitude % 10 != 0) {
        fmt::format_to(to, ".{:02}", magnitude % 100);
    } else if (magnitude % 100 != 0) {
        fmt::format_to(to, ".{}", magnitude % 100 / 10);
    }
}

std::string number(Length length) {
    std::string result;
    append_number(result, length);
    return result;
}

std::string number(double value) { return trimmed(value, 2); }

void append_point(std::string& out, char command, Point point) {
    out += command;
    append_number(out, point.x);
    out += ' ';
    append_number(out, point.y);
}

std::string outline(const Path& path) {
    std::string d;
    for (const Segment& segment : path.segments) {
        switch (segment.kind) {
        case Segment::Kind::move:
            append_point(d, 'M', segment.to);
            break;
        case Segment::Kind::line:
            append_point(d, 'L', segment.to);
            break;
        case Segment::Kind::curve:
            append_point(d, 'C', segment.control1);
            append_point(d, ' ', segment.control2);
            append_point(d, ' ', segment.to);
            break;
        case Segment::Kind::close:
            d += 'Z';
            break;
        }
    }
    return d;
}

std::string stroke_attributes(const Stroke& stroke) {
    std::string result =
        fmt::format(" stroke=\"{}\" stroke-width=\"{}\"", hex(stroke.color), number(stroke.width));
    const auto dashes = dash_pattern(stroke);
    if (!dashes.empty()) {
        std::vector<std::string> lengths;
        lengths.reserve(dashes.size());
        for (const double dash : dashes)
            lengths.push_back(number(dash));
        result += fmt::format(" stroke-dasharray=\"{}\"", join(lengths, " "));
    }
    if (!round_ends(stroke))
        result += " stroke-linecap=\"butt\"";
    return result;
}

class SheetWriter {
  public:
    SheetWriter(std::string& out, const Lettering::Fonts& fonts, const Frame& frame)
        : out_(out), fonts_(fonts) {
        for (const Mark& mark : frame.marks) {
            if (const auto* anchor = std::get_if<Anchor>(&mark.item))
                anchors_.insert(anchor->name);
        }
        open_anchors_ = anchors_;
    }

    void write(const Mark& mark) {
        shows_ = mark.shows.empty() ? std::string{}
                                    : fmt::format(" data-shows=\"{}\"", escaped(mark.shows));
        std::visit(*this, mark.item);
    }

    void operator()(const Path& path) {
        if (!path.stroked && !path.filled)
            return;
        const std::string fill =
            path.filled ? fmt::format(" fill=\"{}\"", hex(path.fill)) : std::string{};
        line("<path{}{}{} d=\"{}\"/>", shows_, fill,
             path.stroked ? stroke_attributes(path.stroke) : std::string{}, outline(path));
    }

    void operator()(const Text& text) {
        if (text.text.empty())
            return;
        require_glyphs(text, fonts_);
        std::string attributes =
            fmt::format(" x=\"{}\" y=\"{}\" font-size=\"{}\"", number(text.at.x), number(text.at.y),
                        number(text.style.size));
        if (text.style.bold)
            attributes += " font-weight=\"bold\"";
        if (text.align != Align::left) {
            attributes +=
                text.align == Align::centre ? " text-anchor=\"middle\"" : " text-anchor=\"end\"";
        }
        if (text.turned) {
            attributes += fmt::format(" transform=\"rotate(-90 {} {})\"", number(text.at.x),
                                      number(text.at.y));
        }
        // A viewer without the font still keeps each text to its place.
        const Length width = fonts_.width(text.text, text.style);
        line("<text{}{} fill=\"{}\" xml:space=\"preserve\" textLength=\"{}\" "
             "lengthAdjust=\"spacingAndGlyphs\">{}</text>",
             shows_, attributes, hex(text.color), number(width), escaped(text.text));
    }

    void operator()(const Link& link) {
        if (!anchors_.contains(link.target))
            return; // it leads to another sheet, which is another file
        line("<a{} href=\"#{}\"><rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" "
             "pointer-events=\"all\"/></a>",
             shows_, anchor_id(link.target), number(link.area.low.x), number(link.area.low.y),
             number(link.area.width()), number(link.area.height()));
    }

    void operator()(const Anchor& anchor) {
        if (open_anchors_.erase(anchor.name) == 0)
            return;
        line("<path{} id=\"{}\" d=\"M{} {}h0\"/>", shows_, anchor_id(anchor.name),
             number(anchor.at.x), number(anchor.at.y));
    }

    void operator()(const Port&) const {}
    void operator()(const Part&) const {}
    void operator()(const View&) const {}

    /// The foreign page itself stands in the PDF only.
    void operator()(const Insert& insert) {
        (*this)(rectangle(insert.area, {thin_pen, LineType::dashed}));
        (*this)(Text{insert.area.centre(), insert.caption, {insert_lettering}, Align::centre});
    }

    void operator()(const Picture& picture) {
        line("<image{} x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" "
             "preserveAspectRatio=\"none\" href=\"data:image/png;base64,{}\"/>",
             shows_, number(picture.at.low.x), number(picture.at.low.y), number(picture.at.width()),
             number(picture.at.height()), base64(*picture.png));
    }

  private:
    template <class... Parts> void line(fmt::format_string<Parts...> form, Parts&&... parts) {
        fmt::format_to(std::back_inserter(out_), form, std::forward<Parts>(parts)...);
        out_ += '\n';
    }

    std::string& out_;
    const Lettering::Fonts& fonts_;
    std::set<std::string> anchors_, open_anchors_;
    std::string shows_;
};

} // namespace

std::string to_svg(const Sheet& sheet, const Lettering& lettering) {
    const Size size = sheet.frame.size;
    std::string out = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
    fmt::format_to(std::back_inserter(out),
                   "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{}in\" height=\"{}in\" "
                   "viewBox=\"0 0 {} {}\">\n",
                   trimmed(size.width.in_inches(), 4), trimmed(size.height.in_inches(), 4),
                   number(size.width), number(size.height));
    fmt::format_to(std::back_inserter(out), "<title>{}</title>\n",
                   escaped(sheet.number + " " + sheet.title));
    fmt::format_to(std::back_inserter(out),
                   "<rect width=\"{}\" height=\"{}\" fill=\"{}\"/>\n"
                   "<g font-family=\"'{}', sans-serif\" fill=\"none\" stroke-linecap=\"round\" "
                   "stroke-linejoin=\"round\">\n",
                   number(size.width), number(size.height), hex(white), lettering_family);
    SheetWriter writer(out, lettering.fonts(), sheet.frame);
    for (const Mark& mark : sheet.frame.marks)
        writer.write(mark);
    out += "</g>\n</svg>\n";
    return out;
}

} // namespace ohmfolio
