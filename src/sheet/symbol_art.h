/// A symbol as it is shown in a legend or a chart: at true size where there is room.
#pragma once

#include "drawing/frame.h"
#include "drawing/measure.h"
#include "symbol/symbol.h"

namespace ohmfolio::sheets {

/// 1 where the symbol goes into `room`, else how much smaller it has to be.
double symbol_scale(const Symbol& symbol, const Size& room);
/// The art of the symbol, its outlines no larger than `room`; letters keep their size about their
/// middle, since smaller ones could not be read.
Frame symbol_art(const Symbol& symbol, const Size& room, const TextMeasure& measure);

Point scaled(Point at, double factor);

} // namespace ohmfolio::sheets
