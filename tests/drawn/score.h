/// How good a drawing of the single-line diagram is, in numbers that can be compared from one state
/// of the program to the next. Less is better in all of them. What each measures is common
/// practice in judging orthogonal layouts, no source.
#pragma once

#include <string>
#include <vector>

#include "drawn/drawn_job.h"

namespace ohmfolio::drawn {

struct Score {
    int pages = 0;
    int power_crossings = 0;   ///< of power wires with each other
    int control_crossings = 0; ///< of control wiring with power wires or itself
    int bends = 0;             ///< of power wires
    double wire = 0;           ///< length of all power wires, in
    double row_gaps = 0;       ///< unevenness of the distances between rows
    double line_gaps = 0;      ///< unevenness of the gaps between neighbors on one line
    double unused = 0;         ///< part of the drawing area without ink
    double tag_distance = 0;   ///< mean, of conductor tags from the middle of their wires, in
};

/// Over all pages of the diagram. Unevenness is the coefficient of variation: the standard
/// deviation as a part of the mean.
Score score(const DrawnJob& job);

/// Paths of all jobs under examples/, sorted, relative to the repository.
std::vector<std::string> example_jobs();

/// The table of all examples, as tests/score/scores.txt keeps it.
std::string score_table();

} // namespace ohmfolio::drawn
