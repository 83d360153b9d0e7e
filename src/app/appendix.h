/// The appended PDFs between reading and binding: what they hold, and where their pages go.
#pragma once

#include <vector>

#include "base/finding.h"
#include "base/source.h"
#include "binder/binder.h"
#include "drawing/sheet.h"
#include "model/system.h"

namespace ohmfolio {

/// Finds the pages of every document of the appendix. One that is no PDF, is encrypted or damaged,
/// or lacks a page that is asked for, is a finding where the document is named.
void understand_appendix(System& system, const SourceFiles& sources, Findings& findings);

/// The places that the sheets keep for foreign pages. Points into `sources`.
std::vector<PdfPlacement> appended_pages(const Packet& packet, const System& system,
                                         const SourceFiles& sources);

} // namespace ohmfolio
