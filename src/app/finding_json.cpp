#include "app/finding_json.h"

#include <filesystem>

namespace ohmfolio {

Json finding_json(const Finding& f, const SourceFiles& sources, Places places) {
    Json out{{"rule", f.rule},       {"severity", name(f.severity)}, {"subject", f.subject},
             {"section", f.section}, {"message", f.message},         {"expected", f.expected},
             {"hint", f.hint},       {"derivation", f.derivation}};
    if (f.span.known()) {
        const std::string& path = sources.name(f.span.file);
        out["place"] = {{"file", places == Places::paths
                                     ? path
                                     : std::filesystem::path(path).filename().string()},
                        {"line", f.span.begin.line},
                        {"column", f.span.begin.column}};
    }
    Json remedies = Json::array();
    for (const Remedy& remedy : f.remedies) {
        remedies.push_back({{"change", remedy.change}, {"consequence", remedy.consequence}});
    }
    out["remedies"] = std::move(remedies);
    return out;
}

std::string json_text(const Json& json, int indent) {
    return json.dump(indent, ' ', false, Json::error_handler_t::replace);
}

} // namespace ohmfolio
