// What did not change has no cloud: the worked resubmittal of examples/tolliver-bend, where PV-4
// lost a module, two conductors and two breakers were altered and the rest of the set was only
// printed otherwise for that.
#include <algorithm>

#include "catch.h"
#include "drawn/drawn_job.h"
#include "revision/cloud_boxes.h"
#include "revision/clouds.h"

using namespace ohmfolio;
using namespace ohmfolio::drawn;

namespace {

struct Resubmittal {
    std::unique_ptr<DrawnJob> older = draw_file("examples/tolliver-bend/ashgrove.toml");
    std::unique_ptr<DrawnJob> newer = draw_file("examples/tolliver-bend/ashgrove-revision-1.toml");
    revision::ChangedMarks changed = revision::changed_marks(
        older->packet, newer->packet, house_measure(), {*older->study, *newer->study});

    /// Whether such a piece is new on sheets of that kind.
    bool tells(const std::string& content, const std::string& shows,
               const std::string& words) const {
        return std::ranges::any_of(changed.added, [&](const revision::Piece& piece) {
            return newer->packet.sheets[piece.sheet].content == content && piece.shows == shows &&
                   piece.words.starts_with(words);
        });
    }
    bool tells_anything(const std::string& content, const std::string& shows) const {
        return tells(content, shows, "");
    }
};

const Resubmittal& resubmittal() {
    static const Resubmittal once;
    return once;
}

} // namespace

TEST_CASE("a column that was split says what it said, but for the values that changed") {
    const Resubmittal& set = resubmittal();
    for (const char* value : {"20 A", "25 A", "30 A", "37 °C", "0.91", "12 AWG CU"}) {
        INFO(value);
        CHECK_FALSE(set.tells("calculations", "circuit:C8", value));
    }
    CHECK(set.tells("calculations", "circuit:C8", "8.88 A"));
    CHECK(set.tells("calculations", "circuit:C5", "35 A"));
    CHECK_FALSE(set.tells("calculations", "circuit:C7", "20 A"));
    CHECK_FALSE(set.tells_anything("calculations", "run:R2"));
    CHECK(set.tells_anything("calculations", "run:R1"));
}

TEST_CASE("words that were common to a row and now stand in its cells are not new") {
    const Resubmittal& set = resubmittal();
    for (const char* circuit : {"C1", "C9", "C10", "C14"}) {
        INFO(circuit);
        const std::string shows = std::string("circuit:") + circuit;
        CHECK_FALSE(set.tells("calculations", shows, "OVERCURRENT DEVICE"));
    }
    CHECK(set.tells("calculations", "circuit:C15", "NOTE"));
}

TEST_CASE("notes are told apart by their words, not by their numbers") {
    const Resubmittal& set = resubmittal();
    CHECK(set.tells("calculations", "", "NOTE 2: THE LARGER OF 87.93 A"));
    CHECK_FALSE(set.tells("calculations", "", "NOTE 1: 100 A IS A STANDARD RATING"));
    CHECK_FALSE(set.tells("calculations", "", "NOTE 10: 12 AWG IS NOT SMALLER"));
    CHECK_FALSE(set.tells("calculations", "", "NOTE 11: IN FREE AIR"));
}

TEST_CASE("a heading that goes on and a dash in a new row are nothing new") {
    for (const revision::Piece& piece : resubmittal().changed.added) {
        CHECK(piece.words != "(CONTINUED)");
        CHECK(piece.words != "—");
    }
}

TEST_CASE("no cloud spans a value of the conductor schedule that did not change") {
    const Resubmittal& set = resubmittal();
    Packet packet = set.newer->packet;
    Findings findings;
    const auto clouds = revision::add_clouds(packet, set.changed, {"1", packet.style.strong},
                                             house_measure(), findings);
    std::size_t seen = 0;
    for (std::size_t i = 0; i < packet.sheets.size(); ++i) {
        if (packet.sheets[i].content != "schedules") {
            continue;
        }
        for (const Mark& mark : packet.sheets[i].frame.marks) {
            const auto* text = std::get_if<Text>(&mark.item);
            const bool unchanged =
                text != nullptr && ((mark.shows == "circuit:C6" && text->text == "20") ||
                                    (mark.shows == "circuit:C15" && text->text == "100"));
            if (!unchanged) {
                continue;
            }
            ++seen;
            INFO(mark.shows << " " << text->text);
            const Point middle = text_box(*text, house_measure()).centre();
            CHECK_FALSE(std::ranges::any_of(clouds, [&](const revision::Cloud& cloud) {
                return cloud.sheet == i && cloud.box.contains(middle);
            }));
        }
    }
    CHECK(seen >= 2);
    CHECK(findings.empty());
}

TEST_CASE("the place of a module that was removed is clouded in the plans to scale") {
    const Resubmittal& set = resubmittal();
    for (const char* content : {"roof plan", "site plan"}) {
        INFO(content);
        CHECK(std::ranges::count_if(set.changed.removed, [&](const revision::Piece& piece) {
                  return set.newer->packet.sheets[piece.sheet].content == content;
              }) == 1);
    }
    for (const revision::Piece& piece : set.changed.removed) {
        UNSCOPED_INFO(piece.shows);
        CHECK(piece.shows.ends_with("PV-4"));
    }
}

TEST_CASE("clouds of neighbours join over a gap, not over what stands in it") {
    const auto at = [](int x, int y) {
        return box_at({points(x), points(y)}, {points(20), points(7)});
    };
    revision::CloudRoom room{{at(100, 100), at(150, 100)},
                             {{}, {points(400), points(400)}},
                             points(3),
                             {points(64), points(12)}};
    const std::vector<Box> changed = room.lettering;
    CHECK(revision::cloud_boxes(changed, room).size() == 1);
    room.lettering.push_back(at(125, 100));
    CHECK(revision::cloud_boxes(changed, room).size() == 2);
}
