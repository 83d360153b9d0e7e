#include "revision/pieces.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <string_view>
#include <utility>

#include <fmt/format.h>

namespace ohmfolio::revision {

namespace {

/// Shapes and places are compared to this, far below what can be seen.
constexpr Length seen = millimetres(0.05);

std::string rounded(Point p) {
    const auto steps = [](Length l) {
        const auto half = seen.nm / 2;
        return (l.nm >= 0 ? l.nm + half : l.nm - half) / seen.nm;
    };
    return fmt::format("{},{}", steps(p.x), steps(p.y));
}

std::string words_of(const Stroke& stroke) {
    return fmt::format("{}/{}", stroke.width.nm, static_cast<int>(stroke.type));
}

/// The outline as seen from `origin`.
std::string shape_of(const Path& path, Point origin) {
    std::string shape = path.stroked ? words_of(path.stroke) : "";
    shape += path.filled
                 ? fmt::format(" filled {}", path.fill.red + path.fill.green + path.fill.blue)
                 : "";
    for (const Segment& segment : path.segments) {
        shape += fmt::format(" {}", static_cast<int>(segment.kind));
        if (segment.kind != Segment::Kind::close)
            shape += rounded(segment.to - origin);
        if (segment.kind == Segment::Kind::curve)
            shape += rounded(segment.control1 - origin) + rounded(segment.control2 - origin);
    }
    return shape;
}

/// A heading says the same where it stands again over what goes on.
std::string without_continued(const std::string& heading) {
    for (const std::string_view ending : {" (CONTINUED)", "(CONTINUED)", ", CONTINUED"}) {
        if (heading.ends_with(ending))
            return heading.substr(0, heading.size() - ending.size());
    }
    return heading;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

constexpr std::string_view note = "NOTE ";

/// One past the number of "NOTE 3" that stands at `at`; `at` itself where none does.
std::size_t end_of_number(std::string_view words, std::size_t at) {
    std::size_t end = at + note.size();
    while (end < words.size() && is_digit(words[end]))
        ++end;
    return end == at + note.size() ? at : end;
}

/// Numbers of notes count those that stand before them.
std::string without_note_numbers(std::string words) {
    for (auto at = words.find(note); at != std::string::npos; at = words.find(note, at + 1)) {
        const std::size_t end = end_of_number(words, at);
        if (end > at)
            words.erase(at + note.size(), end - at - note.size());
    }
    return words;
}

/// "NOTE 3: ..."
bool begins_a_note(std::string_view words) {
    return words.starts_with(note) && words.substr(end_of_number(words, 0)).starts_with(':');
}

/// Where lines break, blanks stand elsewhere.
std::string without_blanks(std::string words) {
    std::erase(words, ' ');
    return words;
}

/// What a wire may end on, by place.
using PortsByPlace = std::multimap<Point, std::string>;

PortsByPlace ports_of(const Frame& frame) {
    PortsByPlace ports;
    for (const Mark& mark : frame.marks) {
        if (const auto* port = std::get_if<Port>(&mark.item))
            ports.emplace(port->at, port->name);
    }
    return ports;
}

/// The stretches of a path one by one: the box around a square wire is mostly free.
void add_legs(std::vector<Box>& ink, const Path& path) {
    Point from;
    for (const Segment& segment : path.segments) {
        if (segment.kind == Segment::Kind::line || segment.kind == Segment::Kind::curve)
            ink.push_back({{std::min(from.x, segment.to.x), std::min(from.y, segment.to.y)},
                           {std::max(from.x, segment.to.x), std::max(from.y, segment.to.y)}});
        from = segment.to;
    }
}

class SheetReader {
  public:
    SheetReader(const Sheet& sheet, std::size_t index, const TextMeasure& measure,
                std::vector<Piece>& pieces)
        : sheet_(sheet), index_(index), measure_(measure), ports_(ports_of(sheet.frame)),
          pieces_(pieces) {}

    void read() {
        for (const Mark& mark : sheet_.frame.marks) {
            if (const auto* part = std::get_if<Part>(&mark.item))
                take_part(*part);
            else if (const auto* view = std::get_if<View>(&mark.item))
                view_ = view->begins ? view : nullptr;
            else if (!tells_of_the_issue(mark) && mark.shows != a_count)
                take(mark);
        }
        finish_wires();
    }

  private:
    void take_part(const Part& part) {
        if (part.begins) {
            parts_.push_back(part.kind);
            count(part.kind);
        } else if (!parts_.empty()) {
            parts_.pop_back();
        }
        open_ = none_open;
        in_notes_ = false;
    }

    void count(Part::Kind begun) {
        using enum Part::Kind;
        if (begun == table) {
            place_.table = pieces_.size();
            place_.row = none_open; // the first becomes 0
        } else if (begun == row) {
            ++place_.row;
            place_.column = none_open;
        } else if (begun == cell || begun == heading_cell) {
            ++place_.column;
        }
    }

    void take(const Mark& mark) {
        if (const auto* text = std::get_if<Text>(&mark.item))
            take_text(*text, mark.shows);
        else if (const auto* path = std::get_if<Path>(&mark.item))
            take_path(*path, mark);
        else if (const auto* picture = std::get_if<Picture>(&mark.item))
            add("picture " + (picture->png ? *picture->png : std::string{}), mark.shows,
                {picture->at});
        else if (const auto* insert = std::get_if<Insert>(&mark.item))
            add(fmt::format("page {} {}", insert->caption, insert->page), mark.shows,
                {insert->area});
    }

    bool within(std::initializer_list<Part::Kind> kinds) const {
        return std::ranges::any_of(
            parts_, [&](Part::Kind part) { return std::ranges::find(kinds, part) != kinds.end(); });
    }

    /// Lines of one cell or paragraph are one piece; in a paragraph of notes each note is one.
    void take_text(const Text& text, const std::string& shows) {
        using enum Part::Kind;
        const bool heads = within({heading_cell, heading});
        std::string words = without_continued(text.text);
        if (is_calculation())
            words = without_note_numbers(words);
        if (words.empty())
            return;
        if (is_calculation() && within({paragraph}) && begins_a_note(text.text)) {
            open_ = none_open;
            in_notes_ = true;
        }
        const bool column = names_a_column(shows);
        const bool in_block = !column && within({paragraph, cell, heading_cell, heading});
        const Box ink = letters_box(text, measure_);
        if (in_block && open_ != none_open) {
            join(pieces_[open_], text, words, ink);
            return;
        }
        if (column && words.ends_with(','))
            words.pop_back();
        Piece& piece = add("text " + shows + "|" + without_blanks(words), shows, {ink});
        piece.words = text.text;
        piece.repeated = piece.repeated || heads || names_a_step(shows);
        if (within({row}))
            piece.cell = place_;
        if (in_block)
            open_ = pieces_.size() - 1;
    }

    void join(Piece& piece, const Text& text, const std::string& words, const Box& ink) {
        piece.words += " " + text.text;
        piece.says += without_blanks(words);
        if (in_notes_)
            piece.ink.push_back(ink); // it ends where the next begins
        else
            piece.ink.front() = united(piece.ink.front(), ink); // in one cloud
    }

    bool is_calculation() const { return sheet_.content == "calculations"; }

    /// A column of a calculation is headed by all that read alike in it: each is a piece, since
    /// what reads like others is no part of what it says.
    bool names_a_column(const std::string& shows) const {
        return is_calculation() && !shows.empty() && place_.row == 0 &&
               within({Part::Kind::heading_cell});
    }

    /// On calculation sheets every figure shows what it is of. What shows nothing names steps,
    /// which stand again in each part of a table.
    bool names_a_step(const std::string& shows) const { return shows.empty() && is_calculation(); }

    void take_path(const Path& path, const Mark& mark) {
        if (path.segments.empty())
            return;
        switch (mark.role) {
        case Role::wire:
        case Role::control:
            take_wire(path, mark);
            return;
        case Role::symbol:
        case Role::overlay:
            add(fmt::format("shape {}|{}", mark.shows, placed_shape(path)), mark.shows,
                {bounds(path)});
            return;
        case Role::enclosure:
            take_enclosure(path, mark);
            return;
        default: // serves others, or is furniture
            return;
        }
    }

    /// In a view to scale where it is counts as well; elsewhere only its form.
    std::string placed_shape(const Path& path) const {
        return view_ != nullptr ? view_->name + " " + shape_of(path, view_->zero)
                                : shape_of(path, bounds(path).low);
    }

    /// A box around contents is as large as they are, which says nothing, unless it is to scale.
    void take_enclosure(const Path& path, const Mark& mark) {
        if (view_ == nullptr && mark.shows.empty())
            return;
        const std::string form = view_ != nullptr ? placed_shape(path) : words_of(path.stroke);
        add(fmt::format("enclosure {}|{}", mark.shows, form), mark.shows, {bounds(path)});
    }

    /// All of one circuit on a sheet together.
    struct Wire {
        std::size_t piece = 0;
        std::set<std::string> strokes, ends;
    };

    void take_wire(const Path& path, const Mark& mark) {
        const auto [found, is_new] = wires_.try_emplace(mark.shows);
        Wire& wire = found->second;
        if (is_new) {
            add({}, mark.shows, {});
            wire.piece = pieces_.size() - 1;
        }
        wire.strokes.insert(words_of(path.stroke));
        for (const Point end : {path.segments.front().to, path.segments.back().to}) {
            const auto [from, to] = ports_.equal_range(end);
            for (auto port = from; port != to; ++port)
                wire.ends.insert(port->second);
        }
        add_legs(pieces_[wire.piece].ink, path);
    }

    void finish_wires() {
        for (const auto& [shows, wire] : wires_) {
            std::string& says = pieces_[wire.piece].says;
            says = "wire " + shows + "|";
            for (const auto* part : {&wire.strokes, &wire.ends}) {
                for (const std::string& each : *part)
                    says += each + ";";
            }
        }
    }

    Piece& add(std::string says, const std::string& shows, std::vector<Box> ink) {
        open_ = none_open;
        Piece piece;
        piece.says = std::move(says);
        piece.shows = shows;
        piece.sheet = index_;
        if (view_ != nullptr)
            piece.view = ViewPlace{view_->name, view_->zero};
        // The title block says the same on every sheet.
        piece.repeated = !ink.empty() && !sheet_.drawing_area.contains(ink.front().centre());
        piece.ink = std::move(ink);
        return pieces_.emplace_back(std::move(piece));
    }

    static constexpr std::size_t none_open = static_cast<std::size_t>(-1);

    const Sheet& sheet_;
    std::size_t index_;
    const TextMeasure& measure_;
    PortsByPlace ports_;
    std::vector<Piece>& pieces_;
    std::vector<Part::Kind> parts_;
    std::size_t open_ = none_open; ///< the piece that further lines of the block join
    bool in_notes_ = false;        ///< in a paragraph of them
    TablePlace place_;             ///< in the table that is being read
    const View* view_ = nullptr;   ///< in which the marks are
    std::map<std::string, Wire> wires_;
};

} // namespace

std::vector<Piece> pieces_of(const Packet& packet, const TextMeasure& measure) {
    std::vector<Piece> pieces;
    for (std::size_t i = 0; i < packet.sheets.size(); ++i)
        SheetReader(packet.sheets[i], i, measure, pieces).read();
    return pieces;
}

} // namespace ohmfolio::revision
