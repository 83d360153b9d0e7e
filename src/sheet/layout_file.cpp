#include "sheet/layout_file.h"

#include <algorithm>
#include <memory>
#include <system_error>
#include <vector>

#include <fmt/format.h>

#include "base/text.h"
#include "sheet/layout.h"
#include "sheet/reading.h"

namespace ohmfolio::sheets {

using toml_text::Entry;
using toml_text::Node;
using toml_text::Table;

namespace {

constexpr std::string_view base_key = "base";

Finding fault(const Span& span, std::string rule, std::string message, std::string expected) {
    Finding finding;
    finding.rule = std::move(rule);
    finding.span = span;
    finding.message = std::move(message);
    finding.expected = std::move(expected);
    return finding;
}

/// Tables key by key; anything else of `over` takes the place of what `under` has.
Node joined(const Node& under, const Node& over) {
    const auto* low = under.as<Table>();
    const auto* high = over.as<Table>();
    if (!low || !high)
        return over;
    Node result{*low, over.span};
    auto& entries = std::get<Table>(result.value).entries;
    for (const Entry& entry : high->entries) {
        const auto known = std::ranges::find(entries, entry.key, &Entry::key);
        if (known == entries.end()) {
            entries.push_back(entry);
        } else {
            known->value = std::make_shared<Node>(joined(*known->value, *entry.value));
            known->key_span = entry.key_span;
        }
    }
    return result;
}

/// Takes the key "base" out of the table and returns it.
std::optional<Entry> taken_base(Node& node) {
    auto* table = std::get_if<Table>(&node.value);
    if (!table)
        return std::nullopt;
    const auto found = std::ranges::find(table->entries, base_key, &Entry::key);
    if (found == table->entries.end())
        return std::nullopt;
    Entry entry = *found;
    table->entries.erase(found);
    return entry;
}

/// The file that `base` names; empty, with a finding, when it names none.
std::string base_name(const Entry& base, Findings& findings) {
    const auto* name = base.value->as<std::string>();
    if (name && !name->empty() && name->find('/') == std::string::npos)
        return *name;
    findings.push_back(fault(base.value->span, "sheet.base", "the base is not the name of a file",
                             "a file in the same folder: base = \"common.toml\""));
    return {};
}

std::optional<Node> read_over_base(const std::filesystem::path& path, std::vector<std::string> seen,
                                   SourceFiles& sources, Findings& findings) {
    auto node = read_file(path, sources, findings);
    if (!node)
        return std::nullopt;
    const auto base = taken_base(*node);
    if (!base)
        return node;
    const std::string name = base_name(*base, findings);
    if (name.empty())
        return std::nullopt;
    seen.push_back(path.filename().string());
    if (std::ranges::find(seen, name) != seen.end()) {
        findings.push_back(fault(base->value->span, "sheet.base",
                                 fmt::format("the bases lead in a circle, back to {}", name),
                                 "a base that does not come back to this file"));
        return std::nullopt;
    }
    const auto path_of_base = path.parent_path() / name;
    std::error_code ignored;
    if (!std::filesystem::is_regular_file(path_of_base, ignored)) {
        findings.push_back(fault(base->value->span, "sheet.base",
                                 fmt::format("there is no file {}", path_of_base.string()),
                                 "a file in the same folder: base = \"common.toml\""));
        return std::nullopt;
    }
    const auto under = read_over_base(path_of_base, std::move(seen), sources, findings);
    if (!under)
        return std::nullopt;
    return joined(*under, *node);
}

/// A format states a paper itself; what formats share, and the callouts, do not.
bool states_a_paper(const std::filesystem::path& path) {
    SourceFiles sources;
    Findings ignored;
    const auto node = read_file(path, sources, ignored);
    const auto* table = node ? node->as<Table>() : nullptr;
    return table && table->find("paper");
}

} // namespace

std::vector<std::string> sheet_formats(const std::filesystem::path& folder) {
    std::vector<std::string> formats;
    std::error_code failed;
    for (std::filesystem::directory_iterator entry(folder, failed), end; !failed && entry != end;
         entry.increment(failed)) {
        if (entry->path().extension() == ".toml" && states_a_paper(entry->path()))
            formats.push_back(entry->path().stem().string());
    }
    std::ranges::sort(formats);
    return formats;
}

std::optional<Node> read_layout_file(const std::filesystem::path& folder,
                                     const Spanned<std::string>& format, SourceFiles& sources,
                                     Findings& findings) {
    const std::string& name = format.value;
    const auto path = folder / (name + ".toml");
    std::error_code ignored;
    if (name.find('/') == std::string::npos && std::filesystem::is_regular_file(path, ignored))
        return read_over_base(path, {}, sources, findings);
    const auto formats = sheet_formats(folder);
    Finding finding =
        fault(format.span, "sheet.format", fmt::format("no sheet format is called \"{}\"", name),
              fmt::format("one of {}, or a file {}.toml of your own in {}", join(formats, ", "),
                          name, folder.string()));
    const std::string likely = nearest(name, formats);
    finding.hint = likely.empty() ? "" : fmt::format("did you mean \"{}\"?", likely);
    findings.push_back(std::move(finding));
    return std::nullopt;
}

} // namespace ohmfolio::sheets
