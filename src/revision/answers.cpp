#include "revision/answers.h"

#include <algorithm>
#include <optional>
#include <string_view>

#include <fmt/format.h>

#include "base/text.h"
#include "revision/things.h"
#include "revision/traces.h"

namespace ohmfolio::revision {

namespace {

void add_zone(std::vector<PlaceOnSheet>& places, const std::string& sheet,
              const std::string& zone) {
    auto place = std::ranges::find(places, sheet, &PlaceOnSheet::sheet);
    if (place == places.end())
        place = places.insert(places.end(), {sheet, {}});
    if (!zone.empty() && std::ranges::find(place->zones, zone) == place->zones.end())
        place->zones.push_back(zone);
}

bool has_zone(const std::vector<PlaceOnSheet>& places, const std::string& sheet,
              const std::string& zone) {
    const auto place = std::ranges::find(places, sheet, &PlaceOnSheet::sheet);
    return place != places.end() && std::ranges::find(place->zones, zone) != place->zones.end();
}

class Answering {
  public:
    Answering(const Issue& newer, const Issue& older, const ChangedMarks& changed,
              const Comparison& comparison, const std::vector<Cloud>& clouds,
              const std::vector<SheetChange>& sheets, Findings& findings)
        : newer_(newer), older_(older), changed_(changed), comparison_(comparison), clouds_(clouds),
          sheets_(sheets), traces_(older, newer), findings_(findings) {}

    Answer of(const Comment& comment) {
        Answer answer;
        answer.comment = &comment;
        for (const auto& id : comment.concerns)
            find_change(comment, id, answer);
        for (const auto& id : comment.see)
            find_shown(comment, id, answer);
        find_used(comment, answer);
        for (auto* places : {&answer.changed, &answer.used, &answer.shown})
            put_in_order(*places, comment);
        return answer;
    }

  private:
    const Packet& packet() const { return newer_.packet; }

    /// Sheets stand for themselves.
    std::optional<std::size_t> sheet_named(const std::string& id) const {
        const auto found = std::ranges::find(packet().sheets, id, &Sheet::number);
        if (found == packet().sheets.end())
            return std::nullopt;
        return static_cast<std::size_t>(found - packet().sheets.begin());
    }

    void find_change(const Comment& comment, const Spanned<std::string>& id, Answer& answer) {
        if (const auto sheet = sheet_named(id.value)) {
            change_on_sheet(comment, id, *sheet, answer);
            return;
        }
        const auto keys = keys_of(newer_.system, id.value);
        bool found = false;
        for (const Cloud& cloud : clouds_) {
            if (std::ranges::none_of(cloud.shows,
                                     [&](const std::string& each) { return about(keys, each); }))
                continue;
            add_zone(answer.changed, packet().sheets[cloud.sheet].number, cloud.zone);
            found = true;
        }
        if (!found && is_gone(id.value)) {
            answer.left_out.push_back(id.value);
            found = true;
        }
        if (!found)
            tell_unchanged(comment, id);
    }

    void change_on_sheet(const Comment& comment, const Spanned<std::string>& id, std::size_t sheet,
                         Answer& answer) {
        const std::vector<std::string> figures = new_figures_in(comment, comparison_.stated);
        bool clouded = add_clouds_on(sheet, figures, answer);
        // Nothing on it says a figure of the comment: it is about the sheet as a whole.
        if (!clouded)
            clouded = add_clouds_on(sheet, {}, answer);
        if (!clouded && sheets_[sheet] == SheetChange::none)
            tell_unchanged(comment, id);
        else if (!clouded)
            add_zone(answer.changed, id.value, {});
    }

    /// Those that hold one of the figures; without figures all of the sheet.
    bool add_clouds_on(std::size_t sheet, const std::vector<std::string>& figures,
                       Answer& answer) const {
        bool any = false;
        for (const Cloud& cloud : clouds_) {
            const auto holds_one = [&](const Piece& piece) {
                return is_in(piece, cloud) &&
                       std::ranges::any_of(
                           figures, [&](const std::string& figure) { return says(piece, figure); });
            };
            if (cloud.sheet != sheet ||
                (!figures.empty() && std::ranges::none_of(changed_.added, holds_one)))
                continue;
            add_zone(answer.changed, packet().sheets[sheet].number, cloud.zone);
            any = true;
        }
        return any;
    }

    static bool is_in(const Piece& piece, const Cloud& cloud) {
        return piece.sheet == cloud.sheet && std::ranges::any_of(piece.ink, [&](const Box& ink) {
                   return cloud.box.contains(ink.centre());
               });
    }

    /// Calculations and checks that use what was changed for the comment.
    void find_used(const Comment& comment, Answer& answer) const {
        Keys keys;
        for (const auto& id : comment.concerns)
            keys.merge(keys_of(newer_.system, id.value));
        const auto pieces =
            traces_.rest_on(keys, new_figures_in(comment, comparison_.stated), changed_.added);
        for (const Cloud& cloud : clouds_) {
            const std::string& sheet = packet().sheets[cloud.sheet].number;
            if (!has_zone(answer.changed, sheet, cloud.zone) &&
                std::ranges::any_of(pieces,
                                    [&](const Piece* piece) { return is_in(*piece, cloud); }))
                add_zone(answer.used, sheet, cloud.zone);
        }
    }

    /// First the sheet that the comment was put on, then those that it concerns, then the rest as
    /// they are bound.
    void put_in_order(std::vector<PlaceOnSheet>& places, const Comment& comment) const {
        std::vector<std::string> order;
        const auto add = [&](const std::string& number) {
            if (std::ranges::find(order, number) == order.end())
                order.push_back(number);
        };
        // It names sheets of the set that was commented on.
        for (std::size_t i = 0; i < changed_.were.size(); ++i) {
            if (changed_.were[i] == comment.sheet && !comment.sheet.empty())
                add(packet().sheets[i].number);
        }
        add(comment.sheet);
        for (const auto* ids : {&comment.concerns, &comment.see}) {
            for (const auto& id : *ids)
                add(id.value);
        }
        for (const Sheet& sheet : packet().sheets)
            add(sheet.number);
        std::ranges::sort(places, {}, [&](const PlaceOnSheet& place) {
            return std::ranges::find(order, place.sheet) - order.begin();
        });
    }

    bool is_gone(const std::string& id) const {
        const auto keys = keys_of(older_.system, id);
        const bool was = std::ranges::any_of(
            changed_.gone, [&](const Piece& piece) { return about(keys, piece.shows); });
        return was && !shows_anywhere(packet(), keys_of(newer_.system, id));
    }

    static bool shows_anywhere(const Packet& packet, const Keys& keys) {
        for (const Sheet& sheet : packet.sheets) {
            for (const Mark& mark : sheet.frame.marks) {
                if (!mark.shows.empty() && about(keys, mark.shows))
                    return true;
            }
        }
        return false;
    }

    /// Once a sheet: where it is first read.
    void find_shown(const Comment& comment, const Spanned<std::string>& id, Answer& answer) {
        if (sheet_named(id.value)) {
            add_zone(answer.shown, id.value, {});
            return;
        }
        const Keys keys{id.value};
        bool found = false;
        for (const Sheet& sheet : packet().sheets) {
            for (const Mark& mark : sheet.frame.marks) {
                const auto* text = std::get_if<Text>(&mark.item);
                if (text == nullptr || mark.shows.empty() || !about(keys, mark.shows))
                    continue;
                add_zone(answer.shown, sheet.number, zone_at(sheet.zones, text->at));
                found = true;
                break;
            }
        }
        if (!found)
            tell_unknown(comment, id);
    }

    void tell_unchanged(const Comment& comment, const Spanned<std::string>& id) {
        if (!shows_anywhere(packet(), keys_of(newer_.system, id.value)) &&
            !shows_anywhere(older_.packet, keys_of(older_.system, id.value))) {
            tell_unknown(comment, id);
            return;
        }
        tell("comment.unchanged", comment, id,
             fmt::format("comment {} is said to have changed {}, and nothing about it did",
                         comment.number, id.value),
             "a change of what the comment concerns",
             "make the change, or name it under `see` where the answer stands already");
    }

    void tell_unknown(const Comment& comment, const Spanned<std::string>& id) {
        tell("comment.unknown", comment, id,
             fmt::format("comment {} names {}, which no sheet shows", comment.number, id.value),
             "a tag, an id of equipment, or the number of a sheet", "");
    }

    void tell(std::string rule, const Comment& comment, const Spanned<std::string>& id,
              std::string message, std::string expected, std::string hint) {
        Finding finding;
        finding.rule = std::move(rule);
        finding.severity = Severity::violation;
        finding.span = id.span;
        finding.subject = "comment:" + comment.number;
        finding.message = std::move(message);
        finding.expected = std::move(expected);
        finding.hint = std::move(hint);
        findings_.push_back(std::move(finding));
    }

    const Issue& newer_;
    const Issue& older_;
    const ChangedMarks& changed_;
    const Comparison& comparison_;
    const std::vector<Cloud>& clouds_;
    const std::vector<SheetChange>& sheets_;
    Traces traces_;
    Findings& findings_;
};

bool is_answered_now(const Comment& comment, const System& system) {
    return !system.revisions.empty() && comment.revision == system.revisions.back().number;
}

} // namespace

std::vector<Answer> answers(const Issue& newer, const Issue& older, const ChangedMarks& changed,
                            const Comparison& comparison, const std::vector<Cloud>& clouds,
                            const std::vector<SheetChange>& sheets, Findings& findings) {
    Answering answering(newer, older, changed, comparison, clouds, sheets, findings);
    std::vector<Answer> result;
    for (const Comment& comment : newer.system.comments) {
        if (is_answered_now(comment, newer.system))
            result.push_back(answering.of(comment));
    }
    return result;
}

std::string text(const std::vector<PlaceOnSheet>& places) {
    std::vector<std::string> words;
    for (const PlaceOnSheet& place : places) {
        const std::string_view noun = place.zones.size() == 1 ? "zone" : "zones";
        words.push_back(place.zones.empty()
                            ? place.sheet
                            : fmt::format("{} {} {}", place.sheet, noun, join(place.zones, ", ")));
    }
    return join(words, "; ");
}

} // namespace ohmfolio::revision
