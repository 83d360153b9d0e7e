/// A finding as data: in report.json and in what `check --format json` prints.
#pragma once

#include <string>

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

/// As text in UTF-8. The name of a file may be none; its bytes become the sign for that.
std::string json_text(const Json& json, int indent);

} // namespace ohmfolio
