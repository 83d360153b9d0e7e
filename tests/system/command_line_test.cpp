/// Usage, help, colour, and what happens when the machine fails.
#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}
bool coloured(const std::string& text) { return says(text, "\x1b["); }

/// The example with a violation, for messages that could bear colour.
struct Faulty {
    TemporaryFolder folder;
    std::string system =
        copied(ashgrove(), folder.path(), {{"PV-2 = { modules = 8", "PV-2 = { modules = 12"}})
            .string();
};

Circumstances at_terminal(std::optional<std::string> no_color) {
    return {.environment = {{"NO_COLOR", std::move(no_color)}, {"TERM", "xterm-256color"}},
            .output_at_terminal = true,
            .errors_at_terminal = true};
}

} // namespace

TEST_CASE("help of every command tells its arguments") {
    const Outcome help = run_ohmfolio({"--help"});
    CHECK(help.exit_code == 0);
    CHECK(help.err.empty());
    for (const char* command : {"draw", "check", "explain"}) {
        CAPTURE(command);
        CHECK(says(help.out, command));
        const Outcome outcome = run_ohmfolio({command, "--help"});
        CHECK(outcome.exit_code == 0);
        CHECK(outcome.err.empty());
        CHECK(says(outcome.out, "SYSTEM.toml"));
    }
    const std::string draw = run_ohmfolio({"draw", "--help"}).out;
    CHECK(says(draw, "--out"));
    CHECK(says(draw, "--draft"));
    CHECK(says(run_ohmfolio({"explain", "--help"}).out, "ID"));
    for (const char* code : {"0 clean", "1 violations", "2 usage", "3 machine"}) {
        CHECK(says(help.out, code));
    }
}

TEST_CASE("the version names the code editions") {
    const Outcome version = run_ohmfolio({"--version"});
    CHECK(version.exit_code == 0);
    for (const char* edition : {"NEC 2017", "NEC 2020", "NEC 2023"}) {
        CHECK(says(version.out, edition));
    }
}

#ifndef OHMFOLIO_SANITIZED // the sanitizers load libraries of their own
TEST_CASE("a command that draws nothing loads nothing that draws") {
    const Circumstances told{.environment = {{"LD_DEBUG", "files"}}};
    const Outcome check = run_ohmfolio({"check", ashgrove().string()}, told);
    const Outcome rules = run_ohmfolio({"rules"}, told);
    for (const Outcome* each : {&check, &rules}) {
        REQUIRE(each->exit_code == 0);
        CHECK(says(each->err, "libtomlplusplus"));
        CHECK_FALSE(says(each->err, "libcairo"));
        CHECK_FALSE(says(each->err, "libpango"));
        CHECK_FALSE(says(each->err, "libfontconfig"));
    }
    CHECK(says(check.err, "libqpdf")); // it has cut sheets to read
    CHECK_FALSE(says(rules.err, "libqpdf"));
}
#endif

TEST_CASE("wrong usage") {
    const std::string system = ashgrove().string();
    const TemporaryFolder folder;
    for (const Command& arguments :
         {Command{}, Command{"draw"}, Command{"check"}, Command{"explain", system},
          Command{"drew", system}, Command{"check", system, "extra"},
          Command{"draw", system, "--output", "x"}, Command{"draw", system, "--out"}}) {
        const Outcome outcome = run_ohmfolio(arguments, {.folder = folder.path()});
        CAPTURE(arguments, outcome.out);
        CHECK(outcome.exit_code == 2);
        CHECK(outcome.out.empty());
        CHECK_FALSE(outcome.err.empty());
    }
    CHECK(names_in(folder.path()).empty());
}

TEST_CASE("a description that is not there, or is a folder") {
    const TemporaryFolder folder;
    const auto missing = folder.path() / "nothing.toml";
    const auto out = folder.path() / "out";
    for (const auto& system : {missing, folder.path()}) {
        for (const Command& arguments :
             {Command{"draw", system.string(), "--out", out.string()},
              Command{"check", system.string()}, Command{"explain", system.string(), "C3"}}) {
            const Outcome outcome = run_ohmfolio(arguments);
            CAPTURE(arguments, outcome.out, outcome.err);
            CHECK(outcome.exit_code == 2);
            CHECK(says(outcome.out + outcome.err, system.string()));
        }
    }
    CHECK(names_in(folder.path()).empty());
}

TEST_CASE("a catalogue that is not there") {
    const TemporaryFolder folder;
    const auto system = copied(ashgrove(), folder.path(),
                               {{"catalogue = \"catalogue.toml\"", "catalogue = \"parts.toml\""}});
    const Outcome outcome = run_ohmfolio({"check", system.string()});
    CAPTURE(outcome.out);
    CHECK(outcome.exit_code == 2);
    CHECK(says(outcome.out, system.string() + ":1:"));
    CHECK(says(outcome.out, "parts.toml"));
}

TEST_CASE("a folder that cannot be written") {
    // Below a file, since tests may run as root, whom permissions do not stop.
    const TemporaryFolder folder;
    write_file(folder.path() / "file", "in the way");
    const std::string out = (folder.path() / "file" / "packet").string();
    const Outcome outcome = run_ohmfolio({"draw", ashgrove().string(), "--out", out});
    CHECK(outcome.exit_code == 3);
    CHECK(outcome.out.empty());
    CHECK(says(outcome.err, out));
    CHECK(names_in(folder.path()) == std::vector<std::string>{"file"});
    CHECK(read_file(folder.path() / "file") == "in the way");
}

TEST_CASE("a disk that is full leaves nothing half written, and the last issue whole") {
    const TemporaryFolder folder;
    const auto out = folder.path() / "packet";
    write_file(out / "ashgrove.pdf", "the last issue");
    const Outcome outcome =
        run_ohmfolio({"draw", ashgrove().string(), "--out", out.string()}, {.largest_file = 60000});
    CAPTURE(outcome.err);
    CHECK(outcome.exit_code == 3);
    CHECK(outcome.out.empty());
    CHECK(says(outcome.err, "cannot write"));
    CHECK(names_in(out) == std::vector<std::string>{"ashgrove.pdf"});
    CHECK(read_file(out / "ashgrove.pdf") == "the last issue");
}

TEST_CASE("a folder where a file of the packet should be leaves nothing half written") {
    const TemporaryFolder folder;
    const auto out = folder.path() / "packet";
    std::filesystem::create_directories(out / "report.json");
    const Outcome outcome = run_ohmfolio({"draw", ashgrove().string(), "--out", out.string()});
    CAPTURE(outcome.err);
    CHECK(outcome.exit_code == 3);
    CHECK(outcome.out.empty());
    CHECK(says(outcome.err, "report.json"));
    CHECK(names_in(out) == std::vector<std::string>{"report.json"});
}

TEST_CASE("data of the program that is not there is the machine's failure") {
    const TemporaryFolder folder;
    const auto out = folder.path() / "packet";
    const Outcome outcome = run_ohmfolio({"--data", (folder.path() / "nowhere").string(), "draw",
                                          ashgrove().string(), "--out", out.string()});
    CAPTURE(outcome.out, outcome.err);
    CHECK(outcome.exit_code == 3);
    CHECK(says(outcome.err, "nowhere"));
    CHECK_FALSE(std::filesystem::exists(out));
}

TEST_CASE("no colour away from a terminal") {
    const Faulty faulty;
    const Outcome checked =
        run_ohmfolio({"check", faulty.system}, {.environment = {{"NO_COLOR", std::nullopt}}});
    CHECK(checked.exit_code == 1);
    CHECK_FALSE(coloured(checked.out + checked.err));
}

TEST_CASE("colour at a terminal, and none where NO_COLOR is set") {
    if (!has_terminals()) {
        WARN("no pseudo-terminals on this machine: colour was not tested");
        return;
    }
    // no-color.org: present and not empty, regardless of its value.
    const Faulty faulty;
    for (const Command& arguments :
         {Command{"check", faulty.system}, Command{"draw", faulty.system}}) {
        CAPTURE(arguments);
        const auto told = [&](std::optional<std::string> no_color) {
            const Outcome outcome = run_ohmfolio(arguments, at_terminal(std::move(no_color)));
            CHECK(outcome.exit_code == 1);
            CHECK(says(outcome.out + outcome.err, "microinverters"));
            return outcome.out + outcome.err;
        };
        CHECK(coloured(told(std::nullopt)));
        CHECK(coloured(told("")));
        CHECK_FALSE(coloured(told("1")));
        CHECK_FALSE(coloured(told("0")));
    }
}

TEST_CASE("colour goes by the stream that is written to") {
    if (!has_terminals()) {
        WARN("no pseudo-terminals on this machine: colour was not tested");
        return;
    }
    // check > findings.txt at a terminal: the file must stay plain.
    const Faulty faulty;
    Circumstances circumstances = at_terminal(std::nullopt);
    circumstances.output_at_terminal = false;
    CHECK_FALSE(coloured(run_ohmfolio({"check", faulty.system}, circumstances).out));
    circumstances.output_at_terminal = true;
    circumstances.errors_at_terminal = false;
    CHECK(coloured(run_ohmfolio({"check", faulty.system}, circumstances).out));
    CHECK_FALSE(coloured(run_ohmfolio({"draw", faulty.system}, circumstances).err));
}
