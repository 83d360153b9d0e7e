#include "drawn/score.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <limits>
#include <map>
#include <set>

#include <fmt/format.h>

#include "drawing/strokes.h"
#include "drawn/bodies.h"
#include "drawn/crossings.h"

namespace ohmfolio::drawn {
namespace {

double mean_of(const std::vector<double>& all) {
    double sum = 0;
    for (const double each : all) {
        sum += each;
    }
    return all.empty() ? 0 : sum / static_cast<double>(all.size());
}

double variation_of(const std::vector<double>& all) {
    const double mean = mean_of(all);
    if (all.size() < 2 || mean <= 0) {
        return 0;
    }
    double squares = 0;
    for (const double each : all) {
        squares += (each - mean) * (each - mean);
    }
    return std::sqrt(squares / static_cast<double>(all.size())) / mean;
}

/// All that is gathered over the pages of one diagram.
struct Gathered {
    std::vector<double> row_gaps, line_gaps, tag_distances;
    int cells = 0, empty_cells = 0;
};

/// "C3" of "schedule:C3".
std::string key_of(const std::string& target) { return target.substr(target.find(':') + 1); }

bool is_level(const Stretch& stretch) { return stretch.from.y == stretch.to.y; }

int bends_of(const Outline& line) {
    int bends = 0;
    for (std::size_t i = 1; i < line.stretches(); ++i) {
        bends += is_level(line.stretch(i - 1)) != is_level(line.stretch(i)) ? 1 : 0;
    }
    return bends;
}

double length_of(const Outline& line) {
    double sum = 0;
    for (std::size_t i = 0; i < line.stretches(); ++i) {
        sum += length(line.stretch(i)).in_inches();
    }
    return sum;
}

Point middle_of(const Outline& line) {
    double left = length_of(line) / 2;
    for (std::size_t i = 0; i < line.stretches(); ++i) {
        const Stretch stretch = line.stretch(i);
        const double here = length(stretch).in_inches();
        if (here >= left && here > 0) {
            const double part = left / here;
            return {stretch.from.x + inches((stretch.to.x - stretch.from.x).in_inches() * part),
                    stretch.from.y + inches((stretch.to.y - stretch.from.y).in_inches() * part)};
        }
        left -= here;
    }
    return line.points.front();
}

void score_wires(const Frame& frame, Score& score) {
    for (const Outline& wire : outlines_of(frame, Role::wire)) {
        score.bends += bends_of(wire);
        score.wire += length_of(wire);
    }
    const Crossings crossed = crossings(frame);
    score.power_crossings += crossed.of_power;
    score.control_crossings += crossed.by_control;
}

// ---- tags ------------------------------------------------------------------------------------

/// The place where each tag stands: an anchor by which the schedule leads back to it.
std::map<std::string, Point> tags_of(const Frame& frame) {
    constexpr std::string_view prefix = "diagram:";
    std::map<std::string, Point> tags;
    for (const Mark& mark : frame.marks) {
        const auto* anchor = std::get_if<Anchor>(&mark.item);
        if (anchor != nullptr && anchor->name.starts_with(prefix)) {
            tags.emplace(anchor->name.substr(prefix.size()), anchor->at);
        }
    }
    return tags;
}

/// From the middle of the tag to the middle of its wire; of several wires, to the nearest.
void gather_tags(const Frame& frame, Gathered& gathered) {
    std::map<std::string, std::vector<Point>> middles;
    for (const Outline& wire : outlines_of(frame, Role::wire)) {
        middles[frame.marks[wire.mark].shows].push_back(middle_of(wire));
    }
    const auto tags = tags_of(frame);
    for (const Mark& mark : frame.marks) {
        const auto* link = std::get_if<Link>(&mark.item);
        const auto tag = link == nullptr ? tags.end() : tags.find(key_of(link->target));
        if (tag == tags.end() || tag->second != link->area.low) {
            continue; // a row of the conductors beside the diagram
        }
        double nearest = std::numeric_limits<double>::max();
        for (const Point middle : middles["circuit:" + tag->first]) {
            nearest = std::min(nearest, distance(link->area.centre(), middle).in_inches());
        }
        if (nearest < std::numeric_limits<double>::max()) {
            gathered.tag_distances.push_back(nearest);
        }
    }
}

// ---- rows and lines ----------------------------------------------------------------------------

/// Rows are the heights at which wires come to equipment from its left.
std::set<Length> rows_of(const Frame& frame, const std::vector<Box>& bodies) {
    std::set<Length> rows;
    for (const Outline& wire : outlines_of(frame, Role::wire)) {
        for (std::size_t i = 0; i < wire.stretches(); ++i) {
            const Stretch stretch = wire.stretch(i);
            const Length right = std::max(stretch.from.x, stretch.to.x);
            const bool arrives = std::ranges::any_of(bodies, [&](const Box& body) {
                return body.low.x == right && body.low.y <= stretch.from.y &&
                       stretch.from.y <= body.high.y;
            });
            if (is_level(stretch) && arrives) {
                rows.insert(stretch.from.y);
            }
        }
    }
    return rows;
}

void gather_gaps(const Frame& frame, Gathered& gathered) {
    std::vector<Box> bodies;
    for (const auto& [id, body] : bodies_of(frame)) {
        bodies.push_back(body);
    }
    std::ranges::sort(bodies, {}, [](const Box& b) { return b.low.x; });
    const std::set<Length> rows = rows_of(frame, bodies);
    const Length* before = nullptr;
    for (const Length& row : rows) {
        if (before != nullptr) {
            gathered.row_gaps.push_back((row - *before).in_inches());
        }
        before = &row;
        const Box* left = nullptr;
        for (const Box& body : bodies) {
            if (body.low.y > row || body.high.y < row) {
                continue;
            }
            if (left != nullptr && body.low.x > left->high.x) {
                gathered.line_gaps.push_back((body.low.x - left->high.x).in_inches());
            }
            left = &body;
        }
    }
}

// ---- area --------------------------------------------------------------------------------------

/// Coarse cells of the drawing area, and which of them hold ink.
class Cells {
  public:
    explicit Cells(const Box& area)
        : area_(area), columns_(count(area.width())), rows_(count(area.height())),
          inked_(static_cast<std::size_t>(columns_ * rows_)) {}

    void ink(const Box& box) {
        for (int y = row(box.low.y - area_.low.y); y <= row(box.high.y - area_.low.y); ++y) {
            for (int x = row(box.low.x - area_.low.x); x <= row(box.high.x - area_.low.x); ++x) {
                if (x >= 0 && x < columns_ && y >= 0 && y < rows_) {
                    inked_[static_cast<std::size_t>(y * columns_ + x)] = true;
                }
            }
        }
    }
    int all() const { return columns_ * rows_; }
    int empty() const { return static_cast<int>(std::ranges::count(inked_, false)); }

  private:
    static constexpr double side = 0.5; // in: about a row of lettering with its symbol
    static int row(Length length) {
        return static_cast<int>(std::floor(length.in_inches() / side));
    }
    static int count(Length length) { return std::max(1, row(length)); }

    Box area_;
    int columns_, rows_;
    std::vector<bool> inked_;
};

void gather_area(const Sheet& sheet, Gathered& gathered) {
    Cells cells(sheet.drawing_area);
    for (std::size_t i = 0; i < sheet.frame.marks.size(); ++i) {
        const Mark& mark = sheet.frame.marks[i];
        if (const auto* text = std::get_if<Text>(&mark.item)) {
            cells.ink(text_box(*text, house_measure()));
        } else if (const auto* path = std::get_if<Path>(&mark.item)) {
            for (const Outline& line : outlines_of(*path, i)) {
                for (std::size_t s = 0; s < line.stretches(); ++s) {
                    cells.ink(bounds(line.stretch(s)));
                }
            }
        }
    }
    gathered.cells += cells.all();
    gathered.empty_cells += cells.empty();
}

} // namespace

Score score(const DrawnJob& job) {
    Score result;
    Gathered gathered;
    for (const Sheet* sheet : job.diagram_sheets()) {
        ++result.pages;
        score_wires(sheet->frame, result);
        gather_tags(sheet->frame, gathered);
        gather_gaps(sheet->frame, gathered);
        gather_area(*sheet, gathered);
    }
    result.row_gaps = variation_of(gathered.row_gaps);
    result.line_gaps = variation_of(gathered.line_gaps);
    result.tag_distance = mean_of(gathered.tag_distances);
    result.unused =
        gathered.cells == 0 ? 0 : static_cast<double>(gathered.empty_cells) / gathered.cells;
    return result;
}

std::vector<std::string> example_jobs() {
    const std::filesystem::path repository = OHMFOLIO_SOURCE;
    std::vector<std::string> jobs;
    for (const auto& entry :
         std::filesystem::recursive_directory_iterator(repository / "examples")) {
        const std::string path = entry.path().lexically_relative(repository).string();
        if (entry.path().extension() == ".toml" &&
            repository_text(path).find("\n[project]") != std::string::npos) {
            jobs.push_back(path);
        }
    }
    std::ranges::sort(jobs);
    return jobs;
}

std::string score_table() {
    std::string table =
        "                                  crossings             wire   unevenness  unused   tags\n"
        "example                   pages power control  bends     in   rows  lines       %     "
        "in\n";
    for (const std::string& path : example_jobs()) {
        const Score s = score(*draw_file(path));
        table += fmt::format("{:<25} {:>5} {:>5} {:>7} {:>6} {:>6.0f} {:>6.2f} {:>6.2f} {:>7.0f} "
                             "{:>6.2f}\n",
                             std::filesystem::path(path).stem().string(), s.pages,
                             s.power_crossings, s.control_crossings, s.bends, s.wire, s.row_gaps,
                             s.line_gaps, s.unused * 100, s.tag_distance);
    }
    return table;
}

} // namespace ohmfolio::drawn
