// write_display_list SYSTEM.toml FILE: the display list of a packet, for replay.
#include <algorithm>
#include <fstream>
#include <iostream>
#include <map>

#include "app/data_folder.h"
#include "app/drawn_job.h"
#include "display_list.h"

namespace {

using namespace ohmfolio;

class ListWriter {
  public:
    void write(const Sheet& sheet) {
        out_.letter('P');
        point({sheet.frame.size.width, sheet.frame.size.height});
        // The floor may gather strokes over the whole page, which is the least that can be done.
        std::map<Stroke, std::vector<const Path*>> strokes;
        for (const Mark& mark : sheet.frame.marks) {
            if (const auto* path = std::get_if<Path>(&mark.item)) {
                if (path->filled) {
                    out_.letter('F');
                    color(path->fill);
                    outline(*path);
                }
                if (path->stroked) {
                    strokes[path->stroke].push_back(path);
                }
            }
        }
        for (const auto& [stroke, paths] : strokes) {
            out_.letter('S');
            out_.number(stroke.width.in_points());
            color(stroke.color);
            out_.count(0); // every stroke solid: dashes would only cost more
            for (const Path* path : paths) {
                outline(*path);
            }
        }
        for (const Mark& mark : sheet.frame.marks) {
            if (const auto* text = std::get_if<Text>(&mark.item); text && !text->text.empty()) {
                out_.letter('T');
                point(text->at);
                out_.number(text->style.size.in_points());
                out_.count(text->style.bold ? 1 : 0);
                out_.count(static_cast<std::uint32_t>(text->align));
                out_.count(text->turned ? 1 : 0);
                color(text->color);
                out_.text(text->text);
            }
            if (const auto* picture = std::get_if<Picture>(&mark.item)) {
                out_.letter('I');
                point(picture->at.low);
                point({picture->at.width(), picture->at.height()});
                out_.text(*picture->png);
            }
        }
    }
    const std::string& bytes() const { return out_.bytes(); }

  private:
    void point(Point p) {
        out_.number(p.x.in_points());
        out_.number(p.y.in_points());
    }
    void color(Color c) {
        out_.number(c.red / 255.0);
        out_.number(c.green / 255.0);
        out_.number(c.blue / 255.0);
    }
    void outline(const Path& path) {
        for (const Segment& segment : path.segments) {
            switch (segment.kind) {
            case Segment::Kind::move:
                out_.letter('m');
                point(segment.to);
                break;
            case Segment::Kind::line:
                out_.letter('l');
                point(segment.to);
                break;
            case Segment::Kind::curve:
                out_.letter('c');
                point(segment.control1);
                point(segment.control2);
                point(segment.to);
                break;
            case Segment::Kind::close:
                out_.letter('z');
                break;
            }
        }
    }

    display_list::Writer out_;
};

} // namespace

int main(int argc, char** argv) {
    if (argc != 3) {
        std::cerr << "usage: write_display_list SYSTEM.toml FILE\n";
        return 2;
    }
    const Surroundings where{OHMFOLIO_DATA, false, {}};
    const Lettering lettering(where.data / "layouts" / "lettering");
    DrawnJob job;
    study_job(job, argv[1], where);
    if (!job.studied) {
        return 2;
    }
    draw_job(job, {}, where, lettering);
    ListWriter list;
    for (const Sheet& sheet : job.packet.sheets) {
        list.write(sheet);
    }
    std::ofstream(argv[2], std::ios::binary) << list.bytes();
    return 0;
}
