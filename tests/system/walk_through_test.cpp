/// examples/walk-through.md: every command in it is run as it stands.
#include <cstdlib>

#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

/// The page as a script: its commands, and what it says to write below the description.
std::string script_of(const std::string& page) {
    std::string script =
        "set -e\ntrap 'kill $! 2>/dev/null || true' EXIT\n"; // the preview is left running
    for (std::size_t at = page.find("\n```"); at != std::string::npos;
         at = page.find("\n```", at)) {
        const std::size_t begin = page.find('\n', at + 1) + 1;
        const std::string kind = page.substr(at + 4, begin - at - 5);
        const std::size_t end = page.find("\n```", begin - 1);
        const std::string block = page.substr(begin, end + 1 - begin);
        REQUIRE((kind == "sh" || kind == "toml"));
        script += kind == "sh" ? block : "cat >>quillon.toml <<'END'\n\n" + block + "END\n";
        at = end + 4;
    }
    return script;
}

} // namespace

TEST_CASE("the walk through a job, from blank to resubmittal, does what it says") {
    const std::filesystem::path examples = std::filesystem::path(OHMFOLIO_SOURCE) / "examples";
    const std::string script = script_of(read_file(examples / "walk-through.md"));
    for (const char* command : {"start", "draw", "keys", "catalogue", "check", "explain", "schema",
                                "compare", "preview"}) {
        CHECK(script.find(std::string("\nohmfolio ") + command + " ") != std::string::npos);
    }
    const TemporaryFolder folder;
    const std::filesystem::path programs = std::filesystem::path(OHMFOLIO_BINARY).parent_path();
    const Outcome walked = run_program(
        {"sh", "-c", "PATH=" + programs.string() + ":$PATH\n" + script}, {.folder = folder.path()});
    CAPTURE(walked.out, walked.err);
    REQUIRE(walked.exit_code == 0);
    CHECK(walked.out.find("1 comment answered: packet/quillon-response.pdf") != std::string::npos);
    CHECK(walked.out.find("JB-1: conductor size 10 AWG (new)") != std::string::npos); // compare
    for (const char* file :
         {"first-look/quillon.pdf", "packet/quillon.pdf", "packet/quillon-response.pdf",
          "packet/issued/quillon-0.pdf", "description.schema.json", "catalogue.schema.json"}) {
        CAPTURE(file);
        CHECK(std::filesystem::is_regular_file(folder.path() / file));
    }
}
