#include "sheet/layout_file.h"

#include <algorithm>
#include <system_error>
#include <vector>

#include <fmt/format.h>

#include "base/text.h"
#include "sheet/layout.h"
#include "sheet/reading.h"
#include "toml/laid_over.h"

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

/// The file called `name` that is not one of those `seen`: the office's own, else the program's.
/// So an office's ansi-b.toml may stand on the one that it takes the place of.
std::optional<std::filesystem::path> unseen(const LayoutFolders& folders, const std::string& name,
                                            const std::vector<std::filesystem::path>& seen) {
    for (const auto& folder : {folders.own, folders.shipped}) {
        std::error_code ignored;
        const auto path = folder / name;
        if (!folder.empty() && std::filesystem::is_regular_file(path, ignored) &&
            std::ranges::find(seen, path) == seen.end())
            return path;
    }
    return std::nullopt;
}

Finding no_base(const LayoutFolders& folders, const std::string& name, const Span& span) {
    std::error_code ignored;
    const auto path = folders.file(name);
    if (std::filesystem::is_regular_file(path, ignored)) {
        return fault(span, "sheet.base",
                     fmt::format("the bases lead in a circle, back to {}", name),
                     "a base that does not come back to this file");
    }
    return fault(span, "sheet.base", fmt::format("there is no file {}", path.string()),
                 "a file in the same folder: base = \"common.toml\"");
}

std::optional<Node> read_over_base(const std::filesystem::path& path, const LayoutFolders& folders,
                                   std::vector<std::filesystem::path> seen, SourceFiles& sources,
                                   Findings& findings) {
    auto node = read_file(path, sources, findings);
    if (!node)
        return std::nullopt;
    const auto base = taken_base(*node);
    if (!base)
        return node;
    const std::string name = base_name(*base, findings);
    if (name.empty())
        return std::nullopt;
    seen.push_back(path);
    const auto path_of_base = unseen(folders, name, seen);
    if (!path_of_base) {
        findings.push_back(no_base(folders, name, base->value->span));
        return std::nullopt;
    }
    const auto under = read_over_base(*path_of_base, folders, std::move(seen), sources, findings);
    if (!under)
        return std::nullopt;
    return toml_text::laid_over(*under, *node);
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

std::optional<Node> read_layout_file(const LayoutFolders& folders,
                                     const Spanned<std::string>& format, SourceFiles& sources,
                                     Findings& findings) {
    const std::string& name = format.value;
    const auto path = folders.file(name + ".toml");
    std::error_code ignored;
    if (name.find('/') == std::string::npos && std::filesystem::is_regular_file(path, ignored))
        return read_over_base(path, folders, {}, sources, findings);
    auto formats = sheet_formats(folders.shipped);
    if (!folders.own.empty()) {
        const auto own = sheet_formats(folders.own);
        formats.insert(formats.end(), own.begin(), own.end());
    }
    const auto& where = folders.own.empty() ? folders.shipped : folders.own;
    Finding finding =
        fault(format.span, "sheet.format", fmt::format("no sheet format is called \"{}\"", name),
              fmt::format("one of {}, or a file {}.toml of your own in {}", join(formats, ", "),
                          name, where.string()));
    finding.hint = did_you_mean(name, formats);
    findings.push_back(std::move(finding));
    return std::nullopt;
}

} // namespace ohmfolio::sheets
