/// What the commands that draw have in common: symbols in, files out.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "app/commands.h"
#include "app/files.h"
#include "base/finding.h"
#include "drawing/sheet.h"
#include "model/house.h"
#include "render/render.h"
#include "symbol/symbol.h"

namespace ohmfolio {

/// The symbols of the program with those of the house and then the drafter's own laid over them.
SymbolSet load_symbols(const Surroundings& where, const House& house, const Style& style,
                       SourceFiles& sources, Findings& findings);

/// The lettering of the house, for measuring and drawing.
std::unique_ptr<Lettering> load_lettering(const Surroundings& where);

/// The lint of all sheets without its advice (control wiring that crosses a power wire), which is
/// for those who tend the layout.
Findings drafting_faults(const Packet& packet, const TextMeasure& measure);

/// Links to sheets that are not handed in lead nowhere.
void remove_dangling_links(Packet& packet);

/// One PDF, an SVG of each sheet and a CSV of each schedule, named after `stem`.
std::vector<OutputFile> rendered(const Packet& packet, const Lettering& lettering,
                                 const std::string& stem);

} // namespace ohmfolio
