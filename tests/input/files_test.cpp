#include <filesystem>
#include <system_error>

#include "catch.h"
#include "input/input.h"

using namespace ohmfolio;

namespace {

Findings findings_of(const std::filesystem::path& path) {
    SourceFiles sources;
    Findings findings;
    CHECK_FALSE(read_system(path, sources, findings));
    return findings;
}

} // namespace

TEST_CASE("a file that is not there is a finding with the path as written") {
    const auto findings = findings_of("no/such/job.toml");
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].rule == "input.file");
    CHECK(findings[0].message.find("\"no/such/job.toml\"") != std::string::npos);
}

TEST_CASE("a folder in place of a file is a finding") {
    const auto findings = findings_of(std::filesystem::path(OHMFOLIO_SOURCE) / "tests");
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].rule == "input.file");
    CHECK(findings[0].message.find("it is a folder") != std::string::npos);
}

TEST_CASE("a device without end is refused") {
    const auto findings = findings_of("/dev/zero");
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].message.find("larger than 16 MiB") != std::string::npos);
}

// Linux opens a process's own memory, but reading its first page fails with EIO.
TEST_CASE("an error after the file was opened is the machine's failure") {
    SourceFiles sources;
    Findings findings;
    CHECK_THROWS_AS(read_system("/proc/self/mem", sources, findings), std::system_error);
}

TEST_CASE("a lone byte order mark is an empty description") {
    SourceFiles sources;
    Findings findings;
    CHECK_FALSE(read_system_text("\xEF\xBB\xBF", "", sources, findings));
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].rule == "input.empty");
}
