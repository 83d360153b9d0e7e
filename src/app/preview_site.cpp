#include "app/preview_site.h"

#include <algorithm>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include <fmt/format.h>

#include "app/finding_json.h"
#include "app/origin.h"
#include "app/output.h"
#include "app/program_modules.h"

namespace ohmfolio {
namespace {

namespace fs = std::filesystem;

constexpr int compact = -1; ///< as nlohmann's library has it

std::string read_whole(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    std::ostringstream whole;
    whole << in.rdbuf();
    if (!in) {
        throw std::runtime_error("the preview's page is missing, reinstall it: " + file.string());
    }
    return std::move(whole).str();
}

std::map<std::string, WebAnswer> pages_of(const fs::path& data) {
    struct Page {
        const char *path, *file, *type;
    };
    constexpr Page pages[] = {
        {"/", "preview/page.html", "text/html; charset=utf-8"},
        {"/page.css", "preview/page.css", "text/css; charset=utf-8"},
        {"/page.js", "preview/page.js", "text/javascript; charset=utf-8"},
        {"/regular.ttf", "layouts/lettering/RobotoCondensed-Regular.ttf", "font/ttf"},
        {"/bold.ttf", "layouts/lettering/RobotoCondensed-Bold.ttf", "font/ttf"}};
    std::map<std::string, WebAnswer> read;
    for (const Page& page : pages) {
        read[page.path] = {page.type, read_whole(data / page.file)};
    }
    return read;
}

/// The lines of the text around a place, each with its number.
Json lines_around(const SourceFiles& sources, const Span& place) {
    constexpr int before = 1, after = 2;
    Json lines = Json::array();
    const int last = static_cast<int>(std::ranges::count(sources.text(place.file), '\n')) + 1;
    for (int line = std::max(1, place.begin.line - before);
         line <= std::min(last, place.begin.line + after); ++line) {
        lines.push_back({{"number", line}, {"text", sources.line(place.file, line)}});
    }
    return lines;
}

Json place_json(const SourceFiles& sources, const Span& place) {
    return {{"file", fs::path(sources.name(place.file)).filename().string()},
            {"line", place.begin.line},
            {"column", place.begin.column},
            {"lines", lines_around(sources, place)}};
}

} // namespace

PreviewSite::PreviewSite(const PreviewOptions& options, const Surroundings& where)
    : options_(options), where_(where), lettering_(load_lettering(where)),
      pages_(pages_of(where.data)) {}

void PreviewSite::redraw() {
    auto job = std::make_shared<DrawnJob>();
    study_job(*job, options_.system, where_);
    if (job->studied && !has(job->findings, Severity::error)) {
        const std::lock_guard holds_pen(pen_);
        SetOptions set;
        set.style = options_.style;
        set.draft = has(job->findings, Severity::violation);
        draw_job(*job, set, where_, *lettering_);
        if (!has(job->findings, Severity::error)) {
            const Findings faults = drawing_findings(*job, lettering_->measure());
            job->findings.insert(job->findings.end(), faults.begin(), faults.end());
        }
    }
    sort_for_print(job->findings);
    const std::lock_guard lock(states_);
    read_ = job;
    if (!has(job->findings, Severity::error)) {
        drawn_ = job;
    }
    ++number_;
    changed_.notify_all();
}

std::set<fs::path> PreviewSite::files() const {
    const std::lock_guard lock(states_);
    std::set<fs::path> files = {options_.system};
    for (int file = 0; file < read_->sources.count(); ++file) {
        files.insert(read_->sources.name(file));
    }
    return files;
}

std::string PreviewSite::summary() const {
    const std::lock_guard lock(states_);
    const std::size_t sheets = read_->packet.sheets.size();
    const std::string drawn = drawn_ != read_ ? "not drawn"
                              : sheets == 1   ? "1 sheet"
                                              : fmt::format("{} sheets", sheets);
    return drawn + "; " + counted(read_->findings);
}

PreviewSite::State PreviewSite::drawn() const {
    const std::lock_guard lock(states_);
    return drawn_;
}

std::optional<WebAnswer> PreviewSite::answer(const std::string& path, const std::string& of) {
    if (const auto page = pages_.find(path); page != pages_.end()) {
        return page->second;
    }
    if (path == "/state.json") {
        return WebAnswer{"application/json", state()};
    }
    if (path == "/origin.json") {
        return WebAnswer{"application/json", origin(of)};
    }
    constexpr std::string_view folder = "/sheets/", kind = ".svg";
    if (path.starts_with(folder) && path.ends_with(kind) &&
        path.size() > folder.size() + kind.size()) {
        const auto drawn =
            sheet(path.substr(folder.size(), path.size() - folder.size() - kind.size()));
        if (drawn) {
            return WebAnswer{"image/svg+xml", *drawn};
        }
    }
    return std::nullopt;
}

int PreviewSite::latest(int seen, std::chrono::milliseconds most) {
    std::unique_lock lock(states_);
    changed_.wait_for(lock, most, [&] { return number_ != seen; });
    return number_;
}

std::string PreviewSite::state() const {
    const std::lock_guard lock(states_);
    Json sheets = Json::array();
    if (drawn_) {
        for (const Sheet& sheet : drawn_->packet.sheets) {
            sheets.push_back({{"number", sheet.number}, {"title", sheet.title}});
        }
    }
    Json findings = Json::array();
    for (const Finding& finding : read_->findings) {
        Json told = finding_json(finding, read_->sources, Places::file_names);
        if (finding.span.known()) {
            told["place"] = place_json(read_->sources, finding.span);
        }
        findings.push_back(std::move(told));
    }
    return json_text({{"number", number_},
                      {"file", options_.system.filename().string()},
                      {"project", drawn_ ? drawn_->packet.info.title : ""},
                      {"current", drawn_ == read_},
                      {"sheets", std::move(sheets)},
                      {"findings", std::move(findings)}},
                     compact);
}

std::string PreviewSite::origin(const std::string& of) const {
    const State job = drawn();
    Json told{{"of", of}, {"derivation", ""}};
    if (job) {
        const Origin origin = origin_of(job->studied->system, job->studied->study, of);
        told["derivation"] = origin.derivation;
        if (origin.place.known()) {
            told["place"] = place_json(job->sources, origin.place);
        }
    }
    return json_text(told, compact);
}

std::optional<std::string> PreviewSite::sheet(const std::string& number) {
    const State job = drawn();
    if (!job) {
        return std::nullopt;
    }
    const auto& sheets = job->packet.sheets;
    const auto found = std::ranges::find(sheets, number, &Sheet::number);
    if (found == sheets.end()) {
        return std::nullopt;
    }
    const std::lock_guard holds_pen(pen_);
    return renderer().to_svg(*found, *lettering_);
}

} // namespace ohmfolio
