#include "revision/sheet_partners.h"

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <map>
#include <string>
#include <utility>

namespace ohmfolio::revision {

namespace {

bool counts(const std::string& words) {
    return !words.empty() &&
           std::ranges::all_of(words, [](unsigned char c) { return std::isdigit(c) != 0; });
}

/// "MATERIAL LIST, 1 OF 2" without the count of its sheets, which is of the issue.
std::string without_count(const std::string& title) {
    const auto comma = title.rfind(", ");
    if (comma == std::string::npos)
        return title;
    const std::string count = title.substr(comma + 2);
    const auto of = count.find(' ');
    const auto last = count.rfind(' ');
    const bool is_count = of != std::string::npos && last > of && counts(count.substr(0, of)) &&
                          counts(count.substr(last + 1));
    return is_count ? title.substr(0, comma) : title;
}

/// Appended documents are told apart by their titles; of all else there is one kind each.
std::string kind_of(const Sheet& sheet) {
    return sheet.content == "appendix" ? "appendix " + without_count(sheet.title) : sheet.content;
}

using Places = std::vector<std::size_t>;

std::map<std::string, Places> by_kind(const Packet& packet) {
    std::map<std::string, Places> kinds;
    for (std::size_t i = 0; i < packet.sheets.size(); ++i)
        kinds[kind_of(packet.sheets[i])].push_back(i);
    return kinds;
}

/// How much two sheets say alike. What stands on many sheets tells none of them.
class Likeness {
  public:
    Likeness(const std::vector<Piece>& older, const std::vector<Piece>& newer) {
        constexpr std::size_t many = 4;
        const auto before = places_of(older), after = places_of(newer);
        for (const auto& [says, sheets] : after) {
            const auto old = before.find(says);
            if (old == before.end() || sheets.size() > many || old->second.size() > many)
                continue;
            for (const std::size_t mine : sheets) {
                for (const std::size_t theirs : old->second)
                    ++alike_[{theirs, mine}];
            }
        }
    }

    int of(std::size_t older, std::size_t newer) const {
        const auto found = alike_.find({older, newer});
        return found == alike_.end() ? 0 : found->second;
    }

  private:
    static std::map<std::string, Places> places_of(const std::vector<Piece>& pieces) {
        std::map<std::string, Places> places;
        for (const Piece& piece : pieces) {
            if (!piece.repeated)
                places[piece.says].push_back(piece.sheet);
        }
        return places;
    }

    std::map<std::pair<std::size_t, std::size_t>, int> alike_;
};

/// Pairs in the order of both, so that the sum of what they say alike is the greatest; as many
/// pairs as there can be, the first ones where it makes no difference.
class Pairing {
  public:
    Pairing(const Places& older, const Places& newer, const Likeness& likeness)
        : older_(older), newer_(newer), likeness_(likeness),
          best_(older.size() + 1, std::vector<int>(newer.size() + 1)) {
        for (std::size_t i = older.size(); i-- > 0;) {
            for (std::size_t j = newer.size(); j-- > 0;)
                best_[i][j] = std::max({paired(i, j), best_[i + 1][j], best_[i][j + 1]});
        }
    }

    void tell(std::vector<int>& partners) const {
        std::size_t i = 0, j = 0;
        while (i < older_.size() && j < newer_.size()) {
            if (best_[i][j] == paired(i, j)) {
                partners[newer_[j]] = static_cast<int>(older_[i]);
                ++i;
                ++j;
            } else if (best_[i][j] == best_[i][j + 1]) {
                ++j;
            } else {
                ++i;
            }
        }
    }

  private:
    int paired(std::size_t i, std::size_t j) const {
        return 1 + likeness_.of(older_[i], newer_[j]) + best_[i + 1][j + 1];
    }

    const Places& older_;
    const Places& newer_;
    const Likeness& likeness_;
    std::vector<std::vector<int>> best_; ///< of what is left from there on
};

} // namespace

std::vector<int> sheet_partners(const Packet& older, const Packet& newer,
                                const std::vector<Piece>& old_pieces,
                                const std::vector<Piece>& new_pieces) {
    std::vector<int> partners(newer.sheets.size(), -1);
    const auto before = by_kind(older);
    const Likeness likeness(old_pieces, new_pieces);
    for (const auto& [kind, sheets] : by_kind(newer)) {
        if (const auto old = before.find(kind); old != before.end())
            Pairing(old->second, sheets, likeness).tell(partners);
    }
    return partners;
}

} // namespace ohmfolio::revision
