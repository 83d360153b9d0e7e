/// The program where it was installed, and what it tells shells and the manual.
#include <algorithm>

#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

/// What bash would offer after these words.
std::string offered(const std::string& words, int word) {
    const TemporaryFolder folder;
    const std::filesystem::path script = folder.path() / "completion";
    write_file(script, run_ohmfolio({"completion", "bash"}).out);
    const Outcome outcome = run_program(
        {"bash", "-c",
         "source " + script.string() + "; cd " + folder.path().string() + "; COMP_WORDS=(" + words +
             "); COMP_CWORD=" + std::to_string(word) + "; _ohmfolio; echo \"${COMPREPLY[*]}\""});
    CHECK(outcome.err == "");
    return outcome.out;
}

/// Commands as --help lists them.
std::vector<std::string> commands() {
    const std::string help = run_ohmfolio({"--help"}).out;
    return all_matches(help.substr(help.find("Subcommands:")), "\n  ([a-z]+) ");
}

} // namespace

#ifndef OHMFOLIO_SANITIZED // what is installed is never the sanitized program
TEST_CASE("install: it starts and draws with nothing of the source tree, and is taken away whole") {
    const TemporaryFolder folder;
    const std::filesystem::path prefix = folder.path() / "prefix";
    const Outcome installed =
        run_program({"cmake", "--install", OHMFOLIO_BUILD, "--prefix", prefix.string()});
    CAPTURE(installed.err);
    REQUIRE(installed.exit_code == 0);
    for (const auto& [name, bytes] : files_below(prefix)) {
        INFO(name);
        CHECK_FALSE(std::filesystem::is_symlink(prefix / name));
        CHECK_FALSE((name.ends_with(".toml") && says(bytes, OHMFOLIO_SOURCE)));
    }
    const std::string program = (prefix / "bin/ohmfolio").string();
    const std::filesystem::path desk = folder.path() / "desk";
    std::filesystem::create_directory(desk);
    const Circumstances there{.folder = desk};
    const Outcome started = run_program({program, "start", "backup", "--name", "Quillon house",
                                         "--address", "9 Fallow Lane", "--modules", "12"},
                                        there);
    REQUIRE(started.exit_code == 0);
    const Outcome drawn = run_program({program, "draw", "system.toml"}, there);
    CAPTURE(drawn.err);
    CHECK(drawn.exit_code == 0);
    CHECK(std::filesystem::is_regular_file(desk / "packet" / "system.pdf"));

    write_file(prefix / "bin" / "other", "not ours");
    // As the target `uninstall` does, which would run the build tool beside other tests.
    const Outcome removed =
        run_program({"cmake", std::string("-DMANIFEST=") + OHMFOLIO_BUILD + "/installed-files.txt",
                     "-P", OHMFOLIO_SOURCE "/scripts/uninstall.cmake"});
    CHECK(removed.exit_code == 0);
    const auto left = files_below(prefix);
    CHECK(left.size() == 1);
    CHECK(left.contains("bin/other"));
    CHECK_FALSE(std::filesystem::exists(prefix / "share" / "ohmfolio"));
}

TEST_CASE("install: the package names what it depends on and holds what is installed") {
    const TemporaryFolder folder;
    const Outcome packed = run_program({"cpack", "-G", "DEB", "-B", folder.path().string()},
                                       {.folder = OHMFOLIO_BUILD});
    CAPTURE(packed.out, packed.err);
    REQUIRE(packed.exit_code == 0);
    std::string package;
    for (const std::string& name : names_in(folder.path())) {
        if (name.ends_with(".deb")) {
            package = (folder.path() / name).string();
        }
    }
    REQUIRE_FALSE(package.empty());
    const std::string depends = run_program({"dpkg-deb", "-f", package, "Depends"}).out;
    // qpdf is needed by the module alone.
    for (const char* library : {"libcairo2", "libpangocairo-1.0-0", "libqpdf"}) {
        CHECK(says(depends, library));
    }
    const std::string contents = run_program({"dpkg-deb", "-c", package}).out;
    for (const char* file :
         {"/usr/bin/ohmfolio\n", "/man1/ohmfolio.1\n", "/completions/ohmfolio\n", "/_ohmfolio\n",
          "/ohmfolio.fish\n", "/starts/backup.toml\n", "/catalogues/tolliver-bend.toml\n"}) {
        CHECK(says(contents, file));
    }
}
#endif

TEST_CASE("completion: bash offers commands, options, words of a list, and files") {
    for (const std::string& command : commands()) {
        CHECK(says(offered("ohmfolio ''", 1), command));
    }
    CHECK(offered("ohmfolio dr", 1) == "draw\n");
    CHECK(offered("ohmfolio draw --reis", 2) == "--reissue\n");
    CHECK(offered("ohmfolio draw --reissue ''", 3) == "all changed\n");
    CHECK(offered("ohmfolio check --format s", 3) == "sarif\n");
    CHECK(says(offered("ohmfolio schema c", 2), "catalogue"));
    CHECK(offered("ohmfolio draw comp", 2) == "completion\n"); // a file of that folder
}

TEST_CASE("completion: the other shells take their scripts") {
    const TemporaryFolder folder;
    for (const auto& [shell, check] : Replacements{{"zsh", "-n"}, {"fish", "--no-execute"}}) {
        CAPTURE(shell);
        const std::filesystem::path script = folder.path() / shell;
        write_file(script, run_ohmfolio({"completion", shell}).out);
        const Outcome outcome = run_program({shell, check, script.string()});
        CHECK(outcome.exit_code == 0);
        CHECK(outcome.err == "");
        for (const std::string& command : commands()) {
            CHECK(says(read_file(script), command));
        }
    }
}

TEST_CASE("the manual page is sound and tells every command and option") {
    const TemporaryFolder folder;
    const std::filesystem::path page = folder.path() / "ohmfolio.1";
    write_file(page, run_ohmfolio({"manual"}).out);
    const Outcome set = run_program({"groff", "-man", "-ww", "-z", page.string()});
    CHECK(set.exit_code == 0);
    CHECK(set.err == ""); // where it has to warn, it does here
    const std::string text = read_file(page);
    for (const std::string& command : commands()) {
        CHECK(says(text, ".SS " + command + "\n"));
        const std::string help = run_ohmfolio({command, "--help"}).out;
        for (const std::string& option : all_matches(help, "\n  (--[a-z]+)")) {
            CAPTURE(command, option);
            CHECK(says(text, "\\fB\\-\\-" + option.substr(2) + "\\fR"));
        }
    }
}
