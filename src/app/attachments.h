/// What travels inside the PDF, so that a set can be drawn again from the PDF alone.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "base/source.h"
#include "binder/binder.h"
#include "model/appendix.h"

namespace ohmfolio {

inline constexpr std::string_view report_name = "report.json";
/// By this a house file is known that stood apart from the job.
inline constexpr std::string_view description_of_house = "The house style of the set";

struct AttachedFrom {
    std::filesystem::path job; ///< the description; a house file was read before it, if any
    /// The first of the sources: house, description, catalogues, appended PDFs.
    int files_of_job = 0;
    std::filesystem::path data; ///< of the program: what was read from there stays there
    const std::vector<AppendedDocument>& appendix;
};

/// The files of the user among `sources`, the description first, and the report. Files of the job
/// are named from its folder; where one lies outside, from as many folders "folder/" up. A house
/// file that stands elsewhere, with what lies in its folder, goes under "house/". No name tells of
/// the machine.
std::vector<PdfAttachment> attachments(const SourceFiles& sources, const AttachedFrom& from,
                                       const std::string& report);

} // namespace ohmfolio
