#include "app/issue_record.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
#include "input/files.h"
#include "sheet/reading.h"
#include "toml/toml.h"

namespace ohmfolio {

namespace {

constexpr std::string_view heading = "# Sets that were issued, oldest first, written by ohmfolio. "
                                     "\"content\" is the digest of what is\n"
                                     "# drawn, \"sha256\" that of the PDF file.\n";

std::string in_quotes(std::string_view text) {
    std::string result = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') {
            result += '\\';
        }
        if (static_cast<unsigned char>(c) < 0x20) {
            result += fmt::format("\\u{:04X}", static_cast<int>(c));
        } else {
            result += c;
        }
    }
    return result + '"';
}

RecordedIssue read_entry(sheets::TableReader& entry) {
    RecordedIssue issue;
    issue.job = entry.text("job");
    issue.revision = entry.text("revision");
    issue.date = entry.text("date");
    issue.description = entry.text("description");
    issue.content = entry.text("content");
    issue.file = entry.text("file");
    issue.digest = entry.text("sha256");
    issue.sheets = entry.texts("sheets");
    entry.finish();
    return issue;
}

std::string entry_text(const RecordedIssue& issue) {
    std::vector<std::string> sheets;
    for (const std::string& sheet : issue.sheets) {
        sheets.push_back(in_quotes(sheet));
    }
    return fmt::format("\n[[issue]]\njob = {}\nrevision = {}\ndate = {}\ndescription = {}\n"
                       "content = {}\nfile = {}\nsha256 = {}\nsheets = [{}]\n",
                       in_quotes(issue.job), in_quotes(issue.revision), in_quotes(issue.date),
                       in_quotes(issue.description), in_quotes(issue.content),
                       in_quotes(issue.file), in_quotes(issue.digest), join(sheets, ", "));
}

} // namespace

std::optional<IssueRecord> IssueRecord::read(const std::filesystem::path& path,
                                             SourceFiles& sources, Findings& findings) {
    IssueRecord record;
    std::error_code ignored;
    if (!std::filesystem::exists(path, ignored)) {
        return record;
    }
    const std::size_t before = findings.size();
    const auto file = read_source(path, path.string(), {}, sources, findings);
    const auto tree = file ? toml_text::parse(*file, sources, findings) : std::nullopt;
    if (!tree) {
        return std::nullopt;
    }
    sheets::TableReader reader(*tree, "record", findings);
    if (reader.has("issue")) {
        for (sheets::TableReader& entry : reader.tables("issue")) {
            record.issues_.push_back(read_entry(entry));
        }
    }
    reader.finish();
    if (findings.size() > before) {
        return std::nullopt;
    }
    return record;
}

const RecordedIssue* IssueRecord::find(const std::string& job, const std::string& revision) const {
    const auto found = std::ranges::find_if(issues_, [&](const RecordedIssue& issue) {
        return issue.job == job && issue.revision == revision;
    });
    return found == issues_.end() ? nullptr : &*found;
}

void IssueRecord::set(RecordedIssue issue) {
    for (RecordedIssue& each : issues_) {
        if (each.job == issue.job && each.revision == issue.revision) {
            each = std::move(issue);
            return;
        }
    }
    issues_.push_back(std::move(issue));
}

std::string IssueRecord::text() const {
    std::string text(heading);
    for (const RecordedIssue& issue : issues_) {
        text += entry_text(issue);
    }
    return text;
}

} // namespace ohmfolio
