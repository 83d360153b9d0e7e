/// The repository itself: which room includes which, and whether the README tells the truth.

#include "catch.h"
#include "folders.h"
#include "packet.h"
#include "run_program.h"

using namespace ohmfolio::test;

namespace {

const std::filesystem::path repository = OHMFOLIO_SOURCE;

Outcome check_includes(const std::filesystem::path& source) {
    return run_program({(repository / "scripts" / "check-includes").string(), source.string()});
}

/// Runs the check on a small tree of one file.
Outcome check_file(const std::string& path, const std::string& text) {
    const TemporaryFolder folder;
    write_file(folder.path() / "src" / path, text);
    return check_includes(folder.path() / "src");
}

void check_refused(const std::string& path, const std::string& text, int line) {
    CAPTURE(path, text);
    const Outcome outcome = check_file(path, text);
    CHECK(outcome.exit_code == 1);
    CHECK(outcome.out.find("/" + path + ":" + std::to_string(line) + ": ") != std::string::npos);
    CHECK(outcome.out.find("in order") == std::string::npos);
}

} // namespace

TEST_CASE("every room includes only what it may") {
    const Outcome outcome = check_includes(repository / "src");
    CAPTURE(outcome.out, outcome.err);
    CHECK(outcome.exit_code == 0);
}

TEST_CASE("an include against the street is refused, with its place") {
    CHECK(check_file("code/a.cpp", "#include \"base/quantity.h\"\n#include <vector>\n").exit_code ==
          0);
    check_refused("code/a.cpp", "// rules\n#include \"model/system.h\"\n", 2);
    check_refused("render/a.cpp", "#include \"study/study.h\"\n", 1);
    check_refused("base/a.h", "#include \"drawing/frame.h\"\n", 1);
    check_refused("model/a.h", "  #  include \"input/keys.h\"\n", 1);
    check_refused("sheet/a.cpp", "#include \"code/rules.h\"\n", 1); // results only
    check_refused("diagram/a.cpp", "#include <cairo.h>\n", 1);
    check_refused("study/a.cpp", "#include <toml++/toml.h>\n", 1);
    check_refused("sheet/a.cpp", "#include <nlohmann/json.hpp>\n", 1);
    check_refused("sheet/a.cpp", "#include \"packet.h\"\n", 1); // without its room
    check_refused("cellar/a.cpp", "#include \"base/text.h\"\n", 1);
}

TEST_CASE("the README's commands of the program exist") {
    const std::string readme = read_file(repository / "README.md");
    const auto commands = all_matches(readme, "(?:^|\n)ohmfolio ([a-z]+) ");
    CHECK(commands.size() >= 3);
    for (const std::string& command : commands) {
        CAPTURE(command);
        CHECK(run_ohmfolio({command, "--help"}).exit_code == 0);
    }
    for (const std::string& option : all_matches(readme, "ohmfolio draw [^\n]*(--[a-z]+)")) {
        CAPTURE(option);
        CHECK(run_ohmfolio({"draw", "--help"}).out.find(option) != std::string::npos);
    }
}

TEST_CASE("the files that README and DEVELOPERS name are there") {
    for (const char* document : {"README.md", "DEVELOPERS.md"}) {
        const std::string text = read_file(repository / document);
        auto named = all_matches(text, "\\]\\(([^)#:]+)\\)");
        const auto quoted = all_matches(
            text, "`((?:scripts|src|tests|examples|layouts|symbols)/[A-Za-z0-9_./-]*)`");
        named.insert(named.end(), quoted.begin(), quoted.end());
        const auto commands = all_matches(text, "(?:^|\n)(scripts/[a-z-]+)");
        named.insert(named.end(), commands.begin(), commands.end());
        CHECK(named.size() > 3);
        for (const std::string& path : named) {
            CAPTURE(document, path);
            const bool is_form =
                path.find("NAME") != std::string::npos; // "src/sheet/NAME_sheet.cpp"
            CHECK((is_form || std::filesystem::exists(repository / path)));
        }
    }
}
