#include "revision/changed_marks.h"

#include <algorithm>
#include <cctype>
#include <map>
#include <set>

#include "revision/alignment.h"
#include "revision/removed.h"
#include "revision/sheet_partners.h"
#include "revision/table_cells.h"

namespace ohmfolio::revision {

namespace {

/// Pieces by what fills their sheets: the text of a schedule may run over to its next sheet.
using ByContent = std::map<std::string, std::vector<const Piece*>>;

ByContent by_content(const Packet& packet, const std::vector<Piece>& pieces) {
    ByContent result;
    for (const Piece& piece : pieces)
        result[packet.sheets[piece.sheet].content].push_back(&piece);
    return result;
}

/// The same number for what says the same.
class Numbers {
  public:
    std::vector<int> of(const std::vector<const Piece*>& pieces) {
        std::vector<int> result;
        result.reserve(pieces.size());
        for (const Piece* piece : pieces)
            result.push_back(
                numbers_.try_emplace(piece->says, static_cast<int>(numbers_.size())).first->second);
        return result;
    }

  private:
    std::map<std::string, int> numbers_;
};

std::set<std::string> sayings(const std::vector<Piece>& pieces) {
    std::set<std::string> all;
    for (const Piece& piece : pieces)
        all.insert(piece.says);
    return all;
}

/// What no page of the other issue has; what is repeated from page to page is judged by this alone.
void tell_unpaired(const std::vector<const Piece*>& pieces, const std::vector<bool>& paired,
                   const std::set<std::string>& of_the_other, std::vector<Piece>& unpaired) {
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const bool known = pieces[i]->repeated && of_the_other.contains(pieces[i]->says);
        if (!paired[i] && !known)
            unpaired.push_back(*pieces[i]);
    }
}

/// A shape is what it is, and so are words; a figure that shows nothing might be any other.
bool is_unmistakable(const Piece& piece) {
    constexpr int letters_of_words = 6;
    return piece.words.empty() || std::ranges::count_if(piece.words, [](unsigned char c) {
                                      return std::isalpha(c) != 0;
                                  }) >= letters_of_words;
}

class Comparing {
  public:
    Comparing(const Packet& older, const Packet& newer, const TextMeasure& measure,
              const Steps& steps)
        : older_(older), newer_(newer), steps_(steps), old_pieces_(pieces_of(older, measure)),
          new_pieces_(pieces_of(newer, measure)), old_sayings_(sayings(old_pieces_)),
          new_sayings_(sayings(new_pieces_)) {}

    ChangedMarks compare() {
        ByContent before = by_content(older_, old_pieces_);
        ByContent after = by_content(newer_, new_pieces_);
        std::set<std::string> contents;
        for (const ByContent* each : {&before, &after}) {
            for (const auto& [content, pieces] : *each)
                contents.insert(content);
        }
        for (const std::string& content : contents)
            compare(before[content], after[content]);
        changed_.added = without_what_stayed(std::move(changed_.added), new_pieces_, steps_);
        changed_.gone = without_what_stayed(std::move(changed_.gone), old_pieces_, steps_);
        changed_.removed = removed_from_views({older_, old_pieces_, changed_.gone},
                                              {newer_, new_pieces_, changed_.added});
        judge_sheets();
        return std::move(changed_);
    }

  private:
    void compare(const std::vector<const Piece*>& before, const std::vector<const Piece*>& after) {
        std::vector<bool> may_move;
        for (const Piece* piece : after)
            may_move.push_back(!piece->shows.empty() || is_unmistakable(*piece));
        Numbers numbers;
        const std::vector<int> old_numbers = numbers.of(before);
        const std::vector<int> partner = partners(old_numbers, numbers.of(after), may_move);
        std::vector<bool> old_paired(before.size()), new_paired(after.size());
        for (std::size_t i = 0; i < partner.size(); ++i) {
            if (partner[i] < 0)
                continue;
            new_paired[i] = true;
            old_paired[static_cast<std::size_t>(partner[i])] = true;
        }
        tell_unpaired(after, new_paired, old_sayings_, changed_.added);
        tell_unpaired(before, old_paired, new_sayings_, changed_.gone);
    }

    void judge_sheets() {
        std::set<std::size_t> saying_more, saying_less;
        for (const Piece& piece : changed_.added)
            saying_more.insert(piece.sheet);
        for (const Piece& piece : changed_.gone)
            saying_less.insert(piece.sheet);
        const std::vector<int> partners = sheet_partners(older_, newer_, old_pieces_, new_pieces_);
        std::set<std::size_t> found;
        for (std::size_t i = 0; i < newer_.sheets.size(); ++i) {
            const auto old = static_cast<std::size_t>(partners[i]);
            if (partners[i] < 0) {
                changed_.sheets.push_back(SheetChange::added);
                changed_.were.emplace_back();
                continue;
            }
            found.insert(old);
            changed_.were.push_back(older_.sheets[old].number);
            changed_.sheets.push_back(
                saying_more.contains(i) || saying_less.contains(old)   ? SheetChange::changed
                : drawn(newer_.sheets[i]) == drawn(older_.sheets[old]) ? SheetChange::none
                                                                       : SheetChange::arranged);
        }
        for (std::size_t i = 0; i < older_.sheets.size(); ++i) {
            if (!found.contains(i))
                changed_.sheets_gone.push_back({older_.sheets[i].number, older_.sheets[i].title});
        }
    }

    const Packet& older_;
    const Packet& newer_;
    const Steps& steps_;
    std::vector<Piece> old_pieces_, new_pieces_;
    std::set<std::string> old_sayings_, new_sayings_;
    ChangedMarks changed_;
};

} // namespace

ChangedMarks changed_marks(const Packet& older, const Packet& newer, const TextMeasure& measure,
                           const Steps& steps) {
    return Comparing(older, newer, measure, steps).compare();
}

} // namespace ohmfolio::revision
