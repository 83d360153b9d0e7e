#include "app/issued_pdf.h"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "app/attachments.h"
#include "app/files.h"
#include "app/program_modules.h"
#include "base/file_name.h"

namespace ohmfolio {

namespace {

namespace fs = std::filesystem;
using Json = nlohmann::json;

std::string text_at(const Json& json, const char* key) {
    const auto found = json.find(key);
    return found != json.end() && found->is_string() ? found->get<std::string>() : std::string{};
}

const Json& list_at(const Json& json, const char* key) {
    static const Json none = Json::array();
    const auto found = json.find(key);
    return found != json.end() && found->is_array() ? *found : none;
}

/// What an earlier version did not report stays empty.
IssueReport report_of(const std::string& text) {
    IssueReport report;
    const Json json = Json::parse(text, nullptr, false);
    if (!json.is_object()) {
        return report;
    }
    report.format = text_at(json, "sheet_format");
    report.content = text_at(json, "content");
    report.draft = json.contains("draft") && json["draft"] == true;
    for (const Json& row : list_at(json, "revisions")) {
        report.revisions.push_back(text_at(row, "number"));
    }
    for (const Json& sheet : list_at(json, "sheets")) {
        report.sheets.push_back(
            {text_at(sheet, "number"), text_at(sheet, "revision"), text_at(sheet, "digest")});
    }
    return report;
}

} // namespace

std::string bytes_of(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    if (!in || fs::is_directory(path)) {
        throw std::runtime_error("it cannot be read");
    }
    std::string bytes{std::istreambuf_iterator<char>(in), {}};
    if (in.bad()) {
        throw std::runtime_error("it cannot be read");
    }
    return bytes;
}

IssuedPdf read_issued(const fs::path& pdf) {
    IssuedPdf issued;
    issued.bytes = bytes_of(pdf);
    auto files = binder().attachments(issued.bytes);
    if (!files || files->empty()) {
        throw std::runtime_error("it carries no description: no set drawn by ohmfolio");
    }
    issued.files = std::move(*files);
    const auto report = std::ranges::find(issued.files, report_name, &PdfAttachment::name);
    if (report != issued.files.end()) {
        issued.report = report_of(report->bytes);
    }
    return issued;
}

std::optional<IssuedPdf> find_issued(const fs::path& pdf) {
    std::error_code ignored;
    if (!fs::exists(pdf, ignored)) {
        return std::nullopt;
    }
    try {
        return read_issued(pdf);
    } catch (const std::runtime_error&) {
        return std::nullopt;
    }
}

UnpackedIssue unpack_into(const fs::path& folder, const IssuedPdf& issued) {
    std::vector<OutputFile> files;
    UnpackedIssue unpacked{folder / issued.files.front().name, {}};
    for (const PdfAttachment& file : issued.files) {
        if (!stays_in_folder(file.name)) {
            throw std::runtime_error(fmt::format("the name of \"{}\" leads out of it", file.name));
        }
        if (file.description == description_of_house) {
            unpacked.house = folder / file.name;
        }
        files.push_back({file.name, file.bytes});
    }
    write_all(folder, files);
    return unpacked;
}

} // namespace ohmfolio
