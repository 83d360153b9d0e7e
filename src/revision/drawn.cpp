// The display list of a sheet as text.
#include <iterator>

#include <fmt/format.h>

#include "revision/changed_marks.h"

namespace ohmfolio::revision {

namespace {

using Out = std::back_insert_iterator<std::string>;

void write(Out out, Point p) { fmt::format_to(out, " {},{}", p.x.nm, p.y.nm); }
void write(Out out, const Box& box) {
    write(out, box.low);
    write(out, box.high);
}
void write(Out out, Color c) {
    fmt::format_to(out, " #{:02x}{:02x}{:02x}", c.red, c.green, c.blue);
}

/// Writes each item so that different ones are written differently; names stand last.
struct Writer {
    Out out;

    void operator()(const Path& path) const {
        fmt::format_to(out, "path");
        if (path.stroked) {
            fmt::format_to(out, " {} {}", path.stroke.width.nm, static_cast<int>(path.stroke.type));
            write(out, path.stroke.color);
        }
        if (path.filled)
            write(out, path.fill);
        for (const Segment& segment : path.segments) {
            fmt::format_to(out, " {}", "mlcz"[static_cast<int>(segment.kind)]);
            if (segment.kind == Segment::Kind::curve) {
                write(out, segment.control1);
                write(out, segment.control2);
            }
            if (segment.kind != Segment::Kind::close)
                write(out, segment.to);
        }
    }
    void operator()(const Text& text) const {
        fmt::format_to(out, "text {} {} {} {}", text.style.size.nm, text.style.bold,
                       static_cast<int>(text.align), text.turned);
        write(out, text.at);
        write(out, text.color);
        fmt::format_to(out, " {}", text.text);
    }
    void operator()(const Link& link) const {
        fmt::format_to(out, "link");
        write(out, link.area);
        fmt::format_to(out, " {}", link.target);
    }
    void operator()(const Anchor& anchor) const {
        fmt::format_to(out, "anchor");
        write(out, anchor.at);
        fmt::format_to(out, " {}", anchor.name);
    }
    void operator()(const Port& port) const {
        fmt::format_to(out, "port");
        write(out, port.at);
        fmt::format_to(out, " {}", port.name);
    }
    void operator()(const Picture& picture) const {
        fmt::format_to(out, "picture");
        write(out, picture.at);
        fmt::format_to(out, " {}", picture.png ? *picture.png : std::string{});
    }
    void operator()(const Insert& insert) const {
        fmt::format_to(out, "page {} {} {}", insert.document, insert.page, insert.turned);
        write(out, insert.area);
        fmt::format_to(out, " {}", insert.caption);
    }
    void operator()(const Part& part) const {
        fmt::format_to(out, "part {} {}", static_cast<int>(part.kind), part.begins);
    }
    void operator()(const View& view) const {
        fmt::format_to(out, "view {}", view.begins);
        write(out, view.zero);
        fmt::format_to(out, " {}", view.name);
    }
};

} // namespace

std::string drawn(const Sheet& sheet) {
    std::string text =
        fmt::format("{} {}\n", sheet.frame.size.width.nm, sheet.frame.size.height.nm);
    const Out out = std::back_inserter(text);
    for (const Mark& mark : sheet.frame.marks) {
        if (tells_of_the_issue(mark))
            continue;
        fmt::format_to(out, "{} {} ", static_cast<int>(mark.role), mark.shows);
        std::visit(Writer{out}, mark.item);
        text += '\n';
    }
    return text;
}

} // namespace ohmfolio::revision
