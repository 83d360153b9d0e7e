/// The chart of all graphic symbols, as a drafter keeps it beside the board: what each looks like,
/// what it is called, where wires may end on it. The order of groups stands in
/// layouts/symbol-chart.toml; symbols that it does not name follow at the end.
#pragma once

#include "base/finding.h"
#include "drawing/measure.h"
#include "drawing/sheet.h"
#include "sheet/packet.h"
#include "symbol/symbol.h"

namespace ohmfolio {

/// Sheets of the format of `options`; none, with findings, when a data file is at fault.
Packet make_symbol_chart(const SymbolSet& symbols, const PacketOptions& options,
                         const TextMeasure& measure, SourceFiles& sources, Findings& findings);

} // namespace ohmfolio
