#include "app/findings_output.h"

#include <algorithm>
#include <sstream>

#include "app/finding_json.h"
#include "app/stages.h"

namespace ohmfolio {
namespace {

std::string as_json(const Findings& findings, const SourceFiles& sources) {
    Json out{{"findings", Json::array()}, {"count", Json::object()}};
    for (const Severity severity :
         {Severity::error, Severity::violation, Severity::warning, Severity::advice}) {
        out["count"][name(severity)] = std::ranges::count(findings, severity, &Finding::severity);
    }
    for (const Finding& finding : findings) {
        out["findings"].push_back(finding_json(finding, sources, Places::paths));
    }
    return json_text(out, 2) + "\n";
}

// ---- SARIF --------------------------------------------------------------------------------------

/// Section 3.27.10 of the standard knows four levels; what stops a packet is an error.
std::string_view level(Severity severity) {
    switch (severity) {
    case Severity::error:
    case Severity::violation:
        return "error";
    case Severity::warning:
        return "warning";
    default:
        return "note";
    }
}

/// What a reader of one line has to know: the message, the section, what was expected, the fix.
std::string told(const Finding& finding) {
    std::string text = finding.message;
    if (!finding.section.empty()) {
        text += " (" + finding.section + ")";
    }
    if (!finding.expected.empty()) {
        text += "; expected: " + finding.expected;
    }
    if (!finding.hint.empty()) {
        text += "; " + finding.hint;
    }
    for (const Remedy& remedy : finding.remedies) {
        text += "; possible: " + remedy.change;
    }
    return text;
}

/// Characters that may stand in a path of a URI, RFC 3986; the rest is escaped byte by byte.
std::string as_uri(const std::string& path) {
    static constexpr std::string_view plain = "-._~/!$&'()*+,;=@";
    std::ostringstream out;
    out << std::uppercase << std::hex;
    for (const char c : path) {
        const auto byte = static_cast<unsigned char>(c);
        const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        if (letter || (c >= '0' && c <= '9') || plain.find(c) != std::string_view::npos) {
            out << c;
        } else {
            out << '%' << (byte < 16 ? "0" : "") << static_cast<int>(byte);
        }
    }
    return out.str();
}

Json region(const Span& span) {
    Json out{{"startLine", span.begin.line}, {"startColumn", std::max(span.begin.column, 1)}};
    if (span.end > span.begin && span.end.column > 0) {
        out["endLine"] = span.end.line;
        out["endColumn"] = span.end.column;
    }
    return out;
}

Json sarif_result(const Finding& finding, const SourceFiles& sources) {
    Json out{{"ruleId", finding.rule},
             {"level", level(finding.severity)},
             {"message", {{"text", told(finding)}}}};
    if (finding.span.known()) {
        const Json file = {{"uri", as_uri(sources.name(finding.span.file))}};
        out["locations"] = {
            {{"physicalLocation", {{"artifactLocation", file}, {"region", region(finding.span)}}}}};
    }
    out["properties"] = {{"severity", name(finding.severity)}, {"subject", finding.subject}};
    return out;
}

std::string as_sarif(const Findings& findings, const SourceFiles& sources) {
    Json results = Json::array();
    std::vector<std::string> ids;
    for (const Finding& finding : findings) {
        results.push_back(sarif_result(finding, sources));
        if (std::ranges::find(ids, finding.rule) == ids.end()) {
            ids.push_back(finding.rule);
        }
    }
    Json rules = Json::array();
    for (const std::string& id : ids) {
        rules.push_back({{"id", id}});
    }
    Json driver{{"name", "ohmfolio"}, {"version", OHMFOLIO_VERSION}, {"rules", std::move(rules)}};
    // Columns count characters, not bytes or UTF-16 units.
    Json run{{"tool", {{"driver", std::move(driver)}}},
             {"columnKind", "unicodeCodePoints"},
             {"results", std::move(results)}};
    const Json out{{"$schema", "https://json.schemastore.org/sarif-2.1.0.json"},
                   {"version", "2.1.0"},
                   {"runs", Json::array({std::move(run)})}};
    return json_text(out, 2) + "\n";
}

} // namespace

std::string written(Findings findings, const SourceFiles& sources, FindingsFormat format,
                    bool colour) {
    if (format == FindingsFormat::text) {
        std::ostringstream out;
        print_findings(std::move(findings), sources, colour, out);
        return out.str();
    }
    sort_for_print(findings);
    return format == FindingsFormat::json ? as_json(findings, sources)
                                          : as_sarif(findings, sources);
}

} // namespace ohmfolio
