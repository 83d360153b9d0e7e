/// A finding as data: in report.json and in what `check --format json` prints.
#pragma once

#include <nlohmann/json.hpp>

#include "base/finding.h"
#include "base/source.h"

namespace ohmfolio {

/// Keys stay in the order in which they were put.
using Json = nlohmann::ordered_json;

enum class Places {
    file_names, ///< "ashgrove.toml": the same wherever the job stands
    paths       ///< as the user named them
};

Json finding_json(const Finding& finding, const SourceFiles& sources, Places places);

} // namespace ohmfolio
