/// Clouds around what was changed on a sheet, each with its delta.
#pragma once

#include <string>
#include <vector>

#include "base/finding.h"
#include "drawing/measure.h"
#include "drawing/sheet.h"
#include "revision/changed_marks.h"

namespace ohmfolio::revision {

struct Cloud {
    std::size_t sheet = 0;          ///< index in the packet
    Box box;                        ///< what its arcs stand on
    std::string zone;               ///< of its middle
    std::vector<std::string> shows; ///< what the changed marks in it show, each once
};

struct CloudOptions {
    std::string revision; ///< number in the deltas
    TextStyle lettering;
};

/// Draws clouds and deltas onto the sheets of `packet`, whose changed marks are `changed`. Each
/// changed mark is within one; those that are close share one. No cloud and no delta runs through
/// lettering: a cloud that would grows until it holds the lettering whole. A delta in a table
/// stands in a row of its cloud, and may serve other clouds of the row; elsewhere one that finds no
/// room beside its cloud stands at the end of a leader. None at all is a finding
/// ("revision.no_room").
std::vector<Cloud> add_clouds(Packet& packet, const ChangedMarks& changed,
                              const CloudOptions& options, const TextMeasure& measure,
                              Findings& findings);

} // namespace ohmfolio::revision
