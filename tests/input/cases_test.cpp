// Each description in cases/ bears its expected findings beside the faulty line:
//     length = "28 A" #~ error[input.unit] "28 A" is a current
// Severity, rule and line must agree, the message must hold the words given, and nothing else may
// be found. A remark on the first line of a file stands for the file as a whole.
#include <algorithm>
#include <filesystem>
#include <set>

#include "catch.h"
#include "input/house.h"
#include "input/input.h"

using namespace ohmfolio;

namespace {

const std::filesystem::path cases = std::filesystem::path(OHMFOLIO_SOURCE) / "tests/input/cases";

struct Expected {
    std::string place; ///< "parts.toml:7 error[input.unit]"
    std::string words;
};

std::string place(const SourceFiles& sources, int file, int line, std::string_view what) {
    return std::filesystem::path(sources.name(file)).filename().string() + ":" +
           std::to_string(line) + " " + std::string(what);
}

std::string trimmed_end(std::string text) {
    text.erase(text.find_last_not_of(' ') + 1);
    return text;
}

void append_expected(const SourceFiles& sources, int file, int number, std::vector<Expected>& all) {
    constexpr std::string_view mark = "#~ ";
    std::string line(sources.line(file, number));
    for (auto at = line.find(mark); at != std::string::npos; at = line.find(mark)) {
        line.erase(0, at + mark.size());
        const auto end = line.find(']') + 1;
        REQUIRE(end != 0);
        const std::string words = line.substr(end, line.find(mark) - end);
        const auto first = words.find_first_not_of(' ');
        all.push_back({place(sources, file, number, line.substr(0, end)),
                       first == std::string::npos ? "" : trimmed_end(words.substr(first))});
    }
}

std::vector<Expected> expected_in(const SourceFiles& sources) {
    std::vector<Expected> all;
    for (int file = 0; file < sources.count(); ++file) {
        const auto lines = std::ranges::count(sources.text(file), '\n') + 1;
        for (int number = 1; number <= lines; ++number) {
            append_expected(sources, file, number, all);
        }
    }
    return all;
}

std::string place(const SourceFiles& sources, const Finding& finding) {
    const std::string what = std::string(name(finding.severity)) + "[" + finding.rule + "]";
    return place(sources, finding.span.file, finding.span.begin.line, what);
}

void check_findings(const SourceFiles& sources, const Findings& findings) {
    std::vector<Expected> missed = expected_in(sources);
    for (const Finding& finding : findings) {
        INFO(print(finding, sources, false));
        REQUIRE(finding.span.known());
        const auto met = std::ranges::find_if(missed, [&](const Expected& e) {
            return e.place == place(sources, finding) &&
                   finding.message.find(e.words) != std::string::npos;
        });
        CHECK(met != missed.end());
        if (met != missed.end()) {
            missed.erase(met);
        }
        CHECK_FALSE(finding.expected.empty());
    }
    for (const Expected& e : missed) {
        FAIL_CHECK("not found: " << e.place << " " << e.words);
    }
}

void check_case(const std::filesystem::path& path) {
    SourceFiles sources;
    Findings findings;
    const auto system = read_system(path, sources, findings);
    CHECK(system.has_value() == !has(findings, Severity::error));
    check_findings(sources, findings);
}

std::vector<std::filesystem::path> case_files(const std::filesystem::path& folder = cases) {
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        if (entry.path().extension() == ".toml") {
            files.push_back(entry.path());
        }
    }
    std::ranges::sort(files);
    return files;
}

} // namespace

TEST_CASE("every case has the findings written in it, and no others") {
    for (const auto& path : case_files()) {
        INFO(path.filename().string());
        check_case(path);
    }
}

TEST_CASE("every case of a house file has the findings written in it, and no others") {
    const auto files = case_files(cases / "house");
    CHECK(files.size() >= 3);
    for (const auto& path : files) {
        INFO(path.filename().string());
        SourceFiles sources;
        Findings findings;
        (void)read_house(path, path.string(), sources, findings);
        check_findings(sources, findings);
    }
}

TEST_CASE("every rule of the reader has a case") {
    const std::set<std::string> rules = {
        "comment.response",   "toml.syntax",          "input.circle",   "input.confusable_ids",
        "input.duplicate_id", "input.empty",          "input.file",     "input.grounding",
        "input.id",           "input.nameplate",      "input.no_place", "input.nothing_behind",
        "input.overlap",      "input.path",           "input.phases",   "input.range",
        "input.reference",    "input.reference_kind", "input.required", "input.root",
        "input.terminal",     "input.type",           "input.unfed",    "input.unit",
        "input.unknown_key",  "input.value",          "input.voltage"};
    std::set<std::string> met;
    std::size_t faults = 0;
    for (const auto& path : case_files()) {
        SourceFiles sources;
        Findings findings;
        (void)read_system(path, sources, findings);
        faults += findings.size();
        for (const Finding& finding : findings) {
            met.insert(finding.rule);
        }
    }
    CHECK(met == rules);
    CHECK(faults >= 30);
}
