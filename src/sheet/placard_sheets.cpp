#include <algorithm>

#include <fmt/format.h>

#include "sheet/pages.h"
#include "sheet/placards.h"
#include "sheet/sheet_case.h"
#include "sheet/shelves.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

const Length number_radius = inches(0.15);

/// A placard with what stands below it; the number is known only when all are placed.
struct Piece {
    NeededPlacard needed;
    Frame placard;
    Frame caption; ///< title, quantity, place and section, right of the number
    Size size;
};

Length caption_width(const Frame& placard, const Job& job) {
    return std::max(placard.size.width, job.layout.narrowest_caption);
}

Frame caption_of(const NeededPlacard& needed, Length width, const Job& job) {
    const LetteringLayout& lettering = job.layout.lettering;
    const Length left = 2 * number_radius + points(6);
    const std::string shows = "placard:" + needed.placard->id;
    Frame frame;
    Length y{};
    const auto write = [&](const std::string& text, const TextStyle& style) {
        y += write_paragraph(frame, {left, y}, width - left, sheet_case(text),
                             {style, Align::left, black, shows}, job.measure);
        y += line_pitch(style) - job.measure.cap_height(style);
    };
    write(fmt::format("{}, qty {}", needed.placard->title, needed.at.size()), lettering.strong);
    write(needed.where, lettering.body);
    write(needed.placard->note.empty()
              ? needed.section
              : fmt::format("{}; {}", needed.section, needed.placard->note),
          lettering.body);
    const Length last = line_pitch(lettering.body) - job.measure.cap_height(lettering.body);
    frame.size = {width, y - last + job.measure.descent(lettering.body)};
    return frame;
}

const Length caption_gap = inches(0.11);

Piece piece_of(NeededPlacard needed, const Job& job) {
    Piece piece;
    piece.placard = draw_placard(needed, job);
    const Length width = caption_width(piece.placard, job);
    piece.caption = caption_of(needed, width, job);
    piece.size = {width, piece.placard.size.height + caption_gap + piece.caption.size.height};
    piece.needed = std::move(needed);
    return piece;
}

void place(Frame& page, const Piece& piece, Point at, std::size_t number, const Job& job) {
    const TextStyle& style = job.layout.lettering.strong;
    const std::string shows = "placard:" + piece.needed.placard->id;
    page.add(piece.placard, at);
    const Point low{at.x, at.y + piece.placard.size.height + caption_gap};
    page.add(piece.caption, low);
    const Point centre{low.x + number_radius, low.y + number_radius};
    page.add(circle(centre, number_radius, {medium_pen}), Role::symbol, shows);
    write_line(page, {centre.x, centre.y - job.measure.cap_height(style) / 2},
               fmt::format("{}", number), {style, Align::centre, black, shows}, job.measure);
}

bool any_unverified(const std::vector<Piece>& pieces) {
    return std::any_of(pieces.begin(), pieces.end(),
                       [](const Piece& piece) { return piece.needed.section.ends_with('*'); });
}

/// What holds for all placards, along the foot of each page.
Frame footnote(const std::vector<Piece>& pieces, const Job& job) {
    std::string words = job.texts.remarks.placards;
    if (any_unverified(pieces))
        words += " " + job.texts.remarks.unverified;
    Frame frame;
    const TextStyle& style = job.layout.lettering.body;
    const Length height =
        write_paragraph(frame, {}, job.area.width, sheet_case(words), {style}, job.measure);
    frame.size = {job.area.width, height + job.measure.descent(style)};
    return frame;
}

} // namespace

std::vector<Frame> placard_pages(const Job& job) {
    std::vector<Piece> pieces;
    for (NeededPlacard& needed : needed_placards(job))
        pieces.push_back(piece_of(std::move(needed), job));
    const Frame foot = footnote(pieces, job);
    std::vector<Size> sizes;
    for (const Piece& piece : pieces)
        sizes.push_back(piece.size);
    const Length foot_room = foot.size.height + job.layout.placard_gap / 2;
    const ShelfRoom room{{job.area.width, job.area.height - foot_room},
                         job.layout.placard_gap,
                         job.layout.widest_placard_gap};
    std::vector<Frame> pages;
    std::size_t number = 0;
    for (const Shelved& place_of : shelved(sizes, room)) {
        while (static_cast<int>(pages.size()) <= place_of.page) {
            Frame page;
            page.size = job.area;
            page.add(foot, {{}, job.area.height - foot.size.height});
            pages.push_back(std::move(page));
        }
        place(pages.back(), pieces[place_of.piece], place_of.at, ++number, job);
    }
    return pages;
}

} // namespace ohmfolio::sheets
