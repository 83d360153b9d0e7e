#include "revision/clouds.h"

#include <algorithm>

#include <fmt/format.h>

#include "drawing/revision_marks.h"
#include "revision/cloud_boxes.h"
#include "revision/delta_places.h"

namespace ohmfolio::revision {

namespace {

/// What stands closer than this may share a cloud: cells of a row stand further apart than lines.
constexpr Size near{points(64), points(12)};
/// Between arcs and the lettering that they pass.
constexpr Length apart = points(0.3);

class SheetClouds {
  public:
    SheetClouds(Sheet& sheet, std::size_t index, const CloudOptions& options,
                const TextMeasure& measure, Findings& findings)
        : sheet_(sheet), index_(index), options_(options), measure_(measure), findings_(findings) {}

    void add(const std::vector<const Piece*>& changed, std::vector<Cloud>& clouds) {
        // What stands in the title block is no part of the drawing beside it.
        std::vector<Box> drawing, title;
        for (const Piece* piece : changed) {
            for (const Box& ink : piece->ink)
                (sheet_.drawing_area.contains(ink.centre()) ? drawing : title).push_back(ink);
        }
        const CloudRoom room{boxes_of_lettering(sheet_.frame, measure_, letters_box), sheet_.border,
                             reach() + apart, near};
        std::vector<Box> boxes = cloud_boxes(drawing, room);
        const std::vector<Box> others = cloud_boxes(title, room);
        boxes.insert(boxes.end(), others.begin(), others.end());
        draw(boxes);
        for (const Box& box : boxes)
            clouds.push_back(
                {index_, box, zone_at(sheet_.zones, box.centre()), shown_in(box, changed)});
    }

  private:
    Length reach() const { return style_.bulge + style_.stroke.width / 2; }
    std::string shows() const { return std::string(a_revision) + options_.revision; }

    static std::vector<std::string> shown_in(const Box& box,
                                             const std::vector<const Piece*>& changed) {
        std::vector<std::string> all;
        for (const Piece* piece : changed) {
            const bool within = std::ranges::any_of(
                piece->ink, [&](const Box& ink) { return box.contains(ink.centre()); });
            if (within && !piece->shows.empty() &&
                std::ranges::find(all, piece->shows) == all.end())
                all.push_back(piece->shows);
        }
        return all;
    }

    /// All clouds are taken into account before the first delta finds its place.
    void draw(const std::vector<Box>& boxes) {
        std::vector<Box> reach;
        for (const Box& box : boxes)
            reach.push_back(box.grown(this->reach()));
        DeltaPlaces places(sheet_, reach, measure_);
        for (const Box& box : boxes)
            sheet_.frame.add(cloud(box, style_), Role::revision, shows());
        const Size size = delta_size(options_.revision, options_.lettering, measure_);
        const DeltasOfSheet deltas = places.place_all(size);
        for (const DeltaPlace& place : deltas.places)
            draw(place);
        for (const std::size_t i : deltas.without)
            tell_no_room(boxes[i]);
    }

    void draw(const DeltaPlace& place) {
        if (place.leader_from != place.leader_to)
            sheet_.frame.add(polyline({place.leader_from, place.leader_to}, {thin_pen}),
                             Role::revision, shows());
        sheet_.frame.add(delta(options_.revision, options_.lettering, shows(), measure_),
                         place.box.low);
    }

    void tell_no_room(const Box& box) {
        Finding finding;
        finding.rule = "revision.no_room";
        finding.severity = Severity::warning;
        finding.subject = "sheet:" + sheet_.number;
        finding.message = fmt::format("no room for a delta at the cloud in zone {} of sheet {}",
                                      zone_at(sheet_.zones, box.centre()), sheet_.number);
        finding.expected = "room beside each cloud";
        finding.hint = "draw on a larger sheet format";
        findings_.push_back(std::move(finding));
    }

    Sheet& sheet_;
    std::size_t index_;
    const CloudOptions& options_;
    const TextMeasure& measure_;
    Findings& findings_;
    CloudStyle style_;
};

} // namespace

std::vector<Cloud> add_clouds(Packet& packet, const ChangedMarks& changed,
                              const CloudOptions& options, const TextMeasure& measure,
                              Findings& findings) {
    std::vector<std::vector<const Piece*>> by_sheet(packet.sheets.size());
    for (const auto* pieces : {&changed.added, &changed.removed}) {
        for (const Piece& piece : *pieces)
            by_sheet.at(piece.sheet).push_back(&piece);
    }
    std::vector<Cloud> clouds;
    for (std::size_t i = 0; i < by_sheet.size(); ++i) {
        if (!by_sheet[i].empty())
            SheetClouds(packet.sheets[i], i, options, measure, findings).add(by_sheet[i], clouds);
    }
    return clouds;
}

} // namespace ohmfolio::revision
