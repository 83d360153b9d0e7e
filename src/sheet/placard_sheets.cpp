#include <algorithm>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "sheet/column_grid.h"
#include "sheet/pages.h"
#include "sheet/placards.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

constexpr Length caption_gap = inches(0.10);

/// Of the circle around a placard's number, which may have two figures.
Length number_radius(const Job& job) {
    return job.measure.width("P00", job.layout.lettering.strong) / 2 + points(4);
}

/// A placard with what stands below it; the number is known only when all are placed.
struct Piece {
    NeededPlacard needed;
    Frame placard;
    Frame caption; ///< title, quantity, size, place and section, right of the number
    Point caption_at;
    Size size;
};

std::string inches_text(Length length) { return trimmed(length.in_inches(), 3); }

/// "4.2 × 2.84 in, capitals 0.188 to 0.313 in"
std::string size_words(const NeededPlacard& needed, const Size& size, Edition edition) {
    Length least = needed.placard->width;
    Length most{};
    for (const PlacardPanel& panel : needed.placard->panels) {
        if (!panel.editions.contains(edition) || panel.kind == PlacardPanel::Kind::blank)
            continue;
        least = std::min(least, panel.letter_height);
        most = std::max(most, panel.letter_height);
    }
    const std::string capitals =
        least < most ? fmt::format("{} to {}", inches_text(least), inches_text(most))
                     : inches_text(most);
    return fmt::format("{} × {} in, capitals {} in", trimmed(size.width.in_inches(), 2),
                       trimmed(size.height.in_inches(), 2), capitals);
}

Frame caption_of(const NeededPlacard& needed, const Size& placard, Length width, const Job& job) {
    const LetteringLayout& lettering = job.layout.lettering;
    const Length left = 2 * number_radius(job) + points(6);
    const std::string shows = "placard:" + needed.placard->id;
    Frame frame;
    Length y{};
    const auto write = [&](const std::string& text, const TextStyle& style) {
        y += write_paragraph(frame, {left, y}, width - left, drafting_case(text),
                             {style, Align::left, black, shows}, job.measure);
        y += line_pitch(style) - job.measure.cap_height(style);
    };
    write(fmt::format("{}, qty {}", needed.placard->title,
                      needed.count ? fmt::format("{}", *needed.count) : needed.placard->quantity),
          lettering.strong);
    write(size_words(needed, placard, job.system.edition), lettering.body);
    write(needed.where, lettering.body);
    write(needed.placard->note.empty()
              ? needed.section
              : fmt::format("{}; {}", needed.section, needed.placard->note),
          lettering.body);
    const Length last = line_pitch(lettering.body) - job.measure.cap_height(lettering.body);
    frame.size = {width, y - last + job.measure.descent(lettering.body)};
    return frame;
}

/// The width of `span` columns with the gaps between them.
Length width_of(int span, const GridRoom& room) {
    return room.column_width() * span + room.gap * (span - 1);
}

/// The caption stands below the placard; on a sheet too low for both, beside it.
Piece piece_of(NeededPlacard needed, const GridRoom& room, const Job& job) {
    Piece piece;
    piece.placard = draw_placard(needed, job);
    if (piece.placard.size.height > room.page.height) {
        constexpr double wider = 1.5;
        const Length width =
            std::min(scaled(needed.placard->width, wider), room.page.width - room.gap);
        if (width > needed.placard->width)
            piece.placard = draw_placard(needed, width, job);
    }
    const Size& placard = piece.placard.size;
    const int span = room.span(placard.width);
    Length width = width_of(span, room);
    piece.caption = caption_of(needed, placard, width, job);
    piece.caption_at = {{}, placard.height + caption_gap};
    Length height = piece.caption_at.y + piece.caption.size.height;
    if (height > room.page.height && span < room.columns) {
        width = width_of(span + 1, room);
        const Length left = placard.width + room.gap;
        piece.caption = caption_of(needed, placard, width - left, job);
        piece.caption_at = {left, {}};
        height = std::max(placard.height, piece.caption.size.height);
    }
    piece.size = {width, height};
    piece.needed = std::move(needed);
    return piece;
}

/// A placard is drawn at true size or not at all.
void check_room(const Piece& piece, const GridRoom& room, const Job& job) {
    if (piece.placard.size.width <= room.page.width && piece.size.height <= room.page.height)
        return;
    Finding finding;
    finding.rule = "sheet.placard_too_large";
    finding.subject = "placard:" + piece.needed.placard->id;
    finding.message =
        fmt::format("the placard \"{}\", {} × {} in at true size with its caption, is larger than "
                    "the {} × {} in "
                    "of this sheet",
                    piece.needed.placard->title, inches_text(piece.placard.size.width),
                    inches_text(piece.size.height), inches_text(room.page.width),
                    inches_text(room.page.height));
    finding.expected = "a larger sheet format";
    job.findings.push_back(std::move(finding));
}

void place(Frame& page, const Piece& piece, Point at, const std::string& number, const Job& job) {
    const TextStyle& style = job.layout.lettering.strong;
    const std::string shows = "placard:" + piece.needed.placard->id;
    page.add(piece.placard, at);
    const Point low = at + piece.caption_at;
    page.add(piece.caption, low);
    const Length radius = number_radius(job);
    const Point centre{low.x + radius, low.y + radius};
    page.add(circle(centre, radius, {thin_pen}), Role::symbol, shows);
    write_line(page, {centre.x, centre.y - job.measure.cap_height(style) / 2}, number,
               {style, Align::centre, black, shows}, job.measure);
}

/// A bar to lay a ruler on, since a print may have been scaled.
Frame scale_bar(const Job& job) {
    constexpr int length = 4;
    const TextStyle& style = job.layout.lettering.body;
    const Length tick = inches(0.1);
    Frame frame;
    for (int inch = 0; inch <= length; ++inch)
        frame.add(polyline({{inches(inch), {}}, {inches(inch), tick}}, {thin_pen}), Role::symbol);
    frame.add(polyline({{{}, tick}, {inches(length), tick}}, {wide_pen}), Role::symbol);
    const Length below = tick + points(4);
    write_line(frame, {{}, below},
               drafting_case(fmt::format("True size when this bar measures {} in", length)),
               {style}, job.measure);
    frame.size = {inches(length),
                  below + job.measure.cap_height(style) + job.measure.descent(style)};
    return frame;
}

/// The paragraphs that a careful drafter compares with the adopted text, each once.
std::string unverified_sections(const std::vector<NeededPlacard>& list, Edition edition) {
    std::vector<std::string> sections;
    for (const NeededPlacard& needed : list) {
        const std::string& section = needed.placard->sections.at(edition);
        if (needed.unverified && std::ranges::find(sections, section) == sections.end())
            sections.push_back(section);
    }
    return join(sections, ", ");
}

/// What holds for all placards, along the foot of each page, right of the scale bar.
Frame footnote(const std::vector<NeededPlacard>& list, const Job& job) {
    std::string words = job.texts.remarks.placards;
    const std::string sections = unverified_sections(list, job.system.edition);
    if (!sections.empty())
        words += fmt::format(" {} {}.", job.texts.remarks.unverified_placards, sections);
    Frame frame = scale_bar(job);
    const Length left = frame.size.width + job.layout.column_gap;
    const TextStyle& style = job.layout.lettering.body;
    const Length height = write_paragraph(frame, {left, {}}, job.area.width - left,
                                          drafting_case(words), {style}, job.measure);
    frame.size = {job.area.width, std::max(frame.size.height, height + job.measure.descent(style))};
    return frame;
}

} // namespace

PlacardPages placard_pages(const Job& job) {
    std::vector<NeededPlacard> list = needed_placards(job);
    const Frame foot = footnote(list, job);
    const Length foot_room = foot.size.height + job.layout.placard_gap;
    const GridRoom room{{job.area.width, job.area.height - foot_room},
                        job.layout.placard_columns,
                        job.layout.placard_gap};
    std::vector<Piece> pieces;
    std::vector<Size> sizes;
    for (NeededPlacard& needed : list) {
        pieces.push_back(piece_of(std::move(needed), room, job));
        check_room(pieces.back(), room, job);
        sizes.push_back(pieces.back().size);
    }
    PlacardPages result;
    std::vector<Frame>& pages = result.pages;
    for (const GridPlace& place_of : on_grid(sizes, room)) {
        while (static_cast<int>(pages.size()) <= place_of.page) {
            Frame page;
            page.size = job.area;
            page.add(foot, {{}, job.area.height - foot.size.height});
            pages.push_back(std::move(page));
        }
        const Piece& piece = pieces[place_of.piece];
        const std::string number = fmt::format("P{}", result.keys.size() + 1);
        place(pages.back(), piece, place_of.at, number, job);
        result.keys.push_back({number, piece.needed.at});
    }
    return result;
}

} // namespace ohmfolio::sheets
