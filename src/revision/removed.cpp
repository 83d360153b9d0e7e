#include "revision/removed.h"

#include <map>
#include <set>
#include <string>
#include <utility>

namespace ohmfolio::revision {

namespace {

/// A view by the content of its sheet and its name.
using ViewKey = std::pair<std::string, std::string>;

struct ViewContents {
    std::size_t sheet = 0;
    Point zero;
    std::set<std::string> shapes; ///< with their places in the view
};

ViewKey key_of(const Piece& piece, const Packet& packet) {
    return {packet.sheets[piece.sheet].content, piece.view->name};
}

/// Lettering moves with the room that it finds; shapes are where they are to be built.
bool is_placed(const Piece& piece) { return piece.view && piece.words.empty(); }

std::map<ViewKey, ViewContents> views_of(const IssuePieces& issue) {
    std::map<ViewKey, ViewContents> views;
    for (const Piece& piece : issue.all) {
        if (!is_placed(piece))
            continue;
        ViewContents& view = views[key_of(piece, issue.packet)];
        view.sheet = piece.sheet;
        view.zero = piece.view->zero;
        view.shapes.insert(piece.says);
    }
    return views;
}

bool mostly_alike(const ViewContents& a, const ViewContents& b) {
    std::size_t shared = 0;
    for (const std::string& shape : a.shapes)
        shared += b.shapes.contains(shape) ? 1 : 0;
    return shared * 2 > a.shapes.size();
}

} // namespace

std::vector<Piece> removed_from_views(const IssuePieces& older, const IssuePieces& newer) {
    const auto before = views_of(older), after = views_of(newer);
    std::set<std::pair<ViewKey, std::string>> moved; // what they show
    for (const Piece& piece : newer.unpaired) {
        if (is_placed(piece))
            moved.insert({key_of(piece, newer.packet), piece.shows});
    }
    std::vector<Piece> removed;
    for (const Piece& piece : older.unpaired) {
        if (!is_placed(piece) || piece.shows.empty())
            continue;
        const ViewKey key = key_of(piece, older.packet);
        const auto now = after.find(key);
        if (now == after.end() || moved.contains({key, piece.shows}) ||
            !mostly_alike(before.at(key), now->second))
            continue;
        Piece& place = removed.emplace_back(piece);
        place.sheet = now->second.sheet;
        for (Box& ink : place.ink)
            ink = ink.moved(now->second.zero - piece.view->zero);
    }
    return removed;
}

} // namespace ohmfolio::revision
