/// The letter that goes with a resubmittal: each comment, its answer, where the change is, what
/// else changed, and which sheets are issued.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>

#include "base/finding.h"
#include "drawing/measure.h"
#include "drawing/sheet.h"
#include "revision/answers.h"

namespace ohmfolio::revision {

/// Wording by the keys of texts/response.toml.
using LetterTexts = std::map<std::string, std::string, std::less<>>;
/// Nothing when a text is missing, which is a finding.
std::optional<LetterTexts> read_letter_texts(const std::filesystem::path& texts,
                                             SourceFiles& sources, Findings& findings);

struct LetterContents {
    const System& system;
    const Study& study;
    const Packet& packet; ///< the set that the letter goes with
    const std::vector<Answer>& answers;
    const Comparison& comparison;
    const std::vector<SheetChange>& sheets; ///< parallel to those of the packet
};

/// Pages of US letter paper, 8 1/2 by 11 in. A slot of the texts that no fact fills is a finding.
Packet response_letter(const LetterContents& contents, const LetterTexts& texts,
                       const TextMeasure& measure, Findings& findings);

} // namespace ohmfolio::revision
