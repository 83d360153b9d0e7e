/// report.json: every quantity, derivation, finding and schedule row of a packet, for other
/// programs.
#pragma once

#include <string>

#include "base/finding.h"
#include "drawing/sheet.h"
#include "model/system.h"
#include "study/study.h"

namespace ohmfolio {

std::string report(const System& system, const Study& study, const Packet& packet,
                   const Findings& findings, const SourceFiles& sources);

} // namespace ohmfolio
