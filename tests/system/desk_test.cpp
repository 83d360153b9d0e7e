/// What helps to write a description: start, schema, keys, and findings for editors.
#include <algorithm>

#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

/// Starts a system of the kind in a folder of its own.
struct Started {
    TemporaryFolder folder;
    std::string file = (folder.path() / "system.toml").string();
    Outcome outcome;

    Started(const std::string& kind, int modules, const std::string& name = "Quillon house")
        : outcome(run_ohmfolio({"start", kind, "--name", name, "--address", "9 Fallow Lane",
                                "--modules", std::to_string(modules), "--date", "2026-11-26",
                                "--out", file})) {
        UNSCOPED_INFO(kind << " " << modules << ": " << outcome.err);
    }
};

/// An independent validator, python3-jsonschema, holds TOML files against the schema: what it says,
/// file by file, "ok" where nothing.
std::string validated(const std::string& document,
                      const std::vector<std::filesystem::path>& files) {
    static const char* const program = R"(
import json, sys, tomllib, jsonschema
schema = json.load(open(sys.argv[1]))
jsonschema.Draft7Validator.check_schema(schema)
for path in sys.argv[2:]:
    with open(path, "rb") as file:
        faults = list(jsonschema.Draft7Validator(schema).iter_errors(tomllib.load(file)))
    print(path, [fault.message[:300] for fault in faults] if faults else "ok")
)";
    const TemporaryFolder folder;
    const std::filesystem::path schema = folder.path() / "schema.json";
    const Outcome printed = run_ohmfolio({"schema", document});
    REQUIRE(printed.exit_code == 0);
    write_file(schema, printed.out);
    Command command{"/usr/bin/python3", "-W", "ignore", "-c", program, schema.string()};
    for (const std::filesystem::path& file : files) {
        command.push_back(file.string());
    }
    const Outcome outcome = run_program(command);
    REQUIRE(outcome.err == "");
    return outcome.out;
}

std::string validated_text(const std::string& document, const std::string& text) {
    const TemporaryFolder folder;
    const std::filesystem::path file = folder.path() / "file.toml";
    write_file(file, text);
    return validated(document, {file});
}

constexpr const char* kinds[] = {"pv", "storage", "backup", "generator", "strings"};

} // namespace

TEST_CASE("start: every kind is without violation at both ends of what it takes") {
    struct Range {
        const char* kind;
        std::vector<int> modules;
    };
    for (const auto& [kind, modules] :
         {Range{"pv", {1, 12, 33}}, Range{"storage", {1, 12, 22}}, Range{"backup", {1, 11, 18}},
          Range{"generator", {1, 13, 22}}, Range{"strings", {8, 9, 16, 17, 18}}}) {
        for (const int number : modules) {
            const Started started(kind, number);
            REQUIRE(started.outcome.exit_code == 0);
            const Outcome checked = run_ohmfolio({"check", started.file, "--format", "json"});
            CAPTURE(kind, number, checked.out);
            CHECK(checked.exit_code == 0);
            CHECK(Json::parse(checked.out)["count"]["warning"] == 0);
        }
    }
}

TEST_CASE("start: what it wrote draws at once, with the answers on the sheets") {
    const Started started("backup", 17, "Quillon \"North\" house");
    REQUIRE(started.outcome.exit_code == 0);
    CHECK(says(started.outcome.out, "ohmfolio draw " + started.file));
    const DrawnPacket packet(started.file);
    const std::string text = joined(page_texts(packet.pdf()));
    CHECK(says(text, "QUILLON \"NORTH\" HOUSE"));
    CHECK(says(text, "9 FALLOW LANE"));
    int modules = 0;
    for (const char* branch : {"PV-1 = { modules = 9", "PV-2 = { modules = 8"}) {
        CHECK(says(read_file(started.file), branch));
        modules += branch[std::string(branch).size() - 1] - '0';
    }
    CHECK(modules == 17);
}

TEST_CASE("start: what cannot be is told all at once, and nothing is written") {
    const Started unknown("backupp", 4, "");
    CHECK(unknown.outcome.exit_code == 2);
    CHECK(says(unknown.outcome.err, "did you mean \"backup\"?"));
    CHECK(says(unknown.outcome.err, "--name: "));
    for (const char* kind : kinds) {
        CHECK(says(unknown.outcome.err, std::string("\n  ") + kind + " "));
    }
    CHECK(names_in(unknown.folder.path()).empty());

    const Started too_many("pv", 34);
    CHECK(too_many.outcome.exit_code == 2);
    CHECK(says(too_many.outcome.err, "takes 1 to 33"));
    const Started between("strings", 12);
    CHECK(says(between.outcome.err, "takes 8 to 9 or 16 to 18"));
}

TEST_CASE("start: a file that is there is left as it is") {
    const Started first("pv", 8);
    REQUIRE(first.outcome.exit_code == 0);
    const std::string before = read_file(first.file);
    const Outcome again = run_ohmfolio({"start", "pv", "--name", "Other", "--address", "Elsewhere",
                                        "--modules", "9", "--out", first.file});
    CHECK(again.exit_code == 2);
    CHECK(says(again.err, "is there already"));
    CHECK(read_file(first.file) == before);
}

TEST_CASE("schema: every file of the examples and of start is valid") {
    std::vector<std::filesystem::path> files = example_systems();
    const Started backup("backup", 9);
    const Started strings("strings", 16);
    files.emplace_back(backup.file);
    files.emplace_back(strings.file);
    const std::string said = validated("description", files);
    CAPTURE(said);
    CHECK(std::count(said.begin(), said.end(), '\n') == static_cast<long>(files.size()));
    CHECK(all_matches(said, "(\\[.*)").empty());
    const std::filesystem::path folder = ashgrove().parent_path();
    CHECK(validated("catalogue", {folder / "catalogue.toml"}).ends_with(" ok\n"));
    CHECK(validated("house", {folder / "house.toml"}).ends_with(" ok\n"));
}

TEST_CASE("schema: unknown keys, wrong units and words are faults") {
    const std::string sound = "[branch]\nPV-1 = { modules = 8, roof = \"South\", feeds = \"JB-1\", "
                              "run = { length = \"28 ft\" } }\n";
    const auto with = [&sound](const std::string& from, const std::string& to) {
        std::string text = sound;
        text.replace(text.find(from), from.size(), to);
        return validated_text("description", text);
    };
    CHECK(with("8", "8").find("modules") == std::string::npos);
    CHECK(says(with("28 ft", "28"), "does not match"));
    CHECK(says(with("28 ft", "28 V"), "does not match"));
    CHECK(says(with("modules = 8", "modules = 0"), "less than the minimum"));
    CHECK(says(with("roof", "rooff"), "rooff"));
    CHECK(says(with("[branch]", "code = \"NEC 2021\"\n[branch]"), "is not one of"));
}

TEST_CASE("keys: a page for each file, in text and in Markdown, or only what one asks for") {
    const Outcome markdown = run_ohmfolio({"keys", "--format", "markdown"});
    CHECK(markdown.exit_code == 0);
    for (const char* part : {"## `branch.ID`", "## `project`", "| `raceway` | one of ",
                             "| `coldest` | a temperature in C, F"}) {
        CHECK(says(markdown.out, part));
    }
    CHECK(says(run_ohmfolio({"keys", "catalogue"}).out, "module.ID\n"));
    CHECK(says(run_ohmfolio({"keys", "house"}).out, "Keys of a house style"));
    const Outcome one = run_ohmfolio({"keys", "--only", "raceway"});
    CHECK(says(one.out, "raceway (default \"EMT\")"));
    CHECK_FALSE(says(one.out, "coldest"));
    const Outcome none = run_ohmfolio({"keys", "--only", "nonesuch"});
    CHECK(none.exit_code == 2);
    CHECK(says(none.err, "nonesuch"));
}

TEST_CASE("check: findings as JSON and as SARIF say what the text says") {
    const TemporaryFolder folder;
    const std::string system =
        copied(ashgrove(), folder.path(), {{"PV-2 = { modules = 8", "PV-2 = { modules = 12"}})
            .string();
    const Outcome text = run_ohmfolio({"check", system});
    const Outcome json = run_ohmfolio({"check", system, "--format", "json"});
    const Outcome sarif = run_ohmfolio({"check", system, "--format", "sarif"});
    CHECK(json.exit_code == text.exit_code);
    CHECK(sarif.exit_code == text.exit_code);

    const Json findings = Json::parse(json.out)["findings"];
    const Json run = Json::parse(sarif.out)["runs"][0];
    const Json results = run["results"];
    REQUIRE(findings.size() > 0);
    REQUIRE(results.size() == findings.size());
    for (std::size_t i = 0; i < findings.size(); ++i) {
        const Json& finding = findings[i];
        CHECK(says(text.out, finding["message"].get<std::string>()));
        // OASIS, SARIF 2.1.0: 3.27.5 ruleId, 3.27.11 message, 3.29.3 physicalLocation, 3.30 region.
        CHECK(results[i]["ruleId"] == finding["rule"]);
        CHECK(says(results[i]["message"]["text"], finding["message"]));
        if (finding.contains("place")) {
            const Json place = results[i]["locations"][0]["physicalLocation"];
            CHECK(place["artifactLocation"]["uri"] == finding["place"]["file"]);
            CHECK(place["region"]["startLine"] == finding["place"]["line"]);
            CHECK(place["region"]["startColumn"] == finding["place"]["column"]);
        }
    }
    CHECK(Json::parse(sarif.out)["version"] == "2.1.0");
    for (const Json& rule : run["tool"]["driver"]["rules"]) {
        CHECK(rule.contains("id"));
    }
    CHECK(run_ohmfolio({"check", system, "--format", "xml"}).exit_code == 2);
}

TEST_CASE("catalogue: records by kind, those of the program where none are named") {
    const Outcome all = run_ohmfolio({"catalogue"});
    CHECK(all.exit_code == 0);
    CHECK(all.err.empty());
    // Independently: the tables of two names in the catalogue of the example.
    const std::string text = read_file(ashgrove().parent_path() / "catalogue.toml");
    const auto records = all_matches(text, "(?:^|\n)\\[[a-z_]+\\.([^\\]\n]+)\\]");
    CHECK(says(all.out, "\n" + std::to_string(records.size()) + " records\n"));
    for (const std::string& record : records) {
        CHECK(says(all.out, "\n  " + record + " "));
    }
}

TEST_CASE("catalogue: conditions in any unit, words, and a kind narrow the list") {
    const std::string own = (ashgrove().parent_path() / "catalogue.toml").string();
    const auto listed = [&own](Command options) {
        options.insert(options.begin(), {"catalogue", own});
        return run_ohmfolio(options).out;
    };
    // The module of the example: 405 W, 1.13 m wide.
    CHECK(says(listed({"--kind", "module", "--with", "power >= 0.405 kW"}), "solvane-405"));
    CHECK(listed({"--kind", "module", "--with", "power > 405 W"}) == "0 records\n");
    CHECK(says(listed({"--kind", "module", "--with", "width < 4 ft"}), "\n1 record\n"));
    CHECK(listed({"--kind", "module", "--with", "width < 3 ft"}) == "0 records\n");
    CHECK(says(listed({"--with", "branch_inputs = 4", "--text", "wICK"}), "wickhollow-c4"));
    CHECK(says(listed({"--with", "trunk_size = 12 AWG"}), "wickhollow-340-208"));
    CHECK_FALSE(says(listed({"--with", "gateway = true"}), "dunmere-jb"));

    const Outcome wrong = run_ohmfolio({"catalogue", "--with", "powr > 1 W", "--with", "power > 9",
                                        "--with", "power", "--kind", "module"});
    CHECK(wrong.exit_code == 2);
    CHECK(wrong.out.empty());
    CHECK(says(wrong.err, "did you mean \"power\"?"));
    CHECK(says(wrong.err, "\"9\" has no unit"));
    CHECK(says(wrong.err, "\"power\" is no condition"));
    CHECK(says(run_ohmfolio({"catalogue", "--kind", "modul"}).err, "the kinds are module, "));
}

TEST_CASE("catalogue: a record that extends another of the shipped ones draws") {
    const Started started("pv", 9);
    const std::filesystem::path folder = started.folder.path();
    write_file(folder / "own.toml", "[module.solvane-400]\nextends = \"solvane-405\"\n"
                                    "model = \"SV-400M\"\npower = \"400 W\"\n"
                                    "voc = \"37.05 V\"\nimp = \"12.87 A\"\n");
    std::string text = read_file(started.file);
    for (const auto& [from, to] :
         Replacements{{"catalogue = \"tolliver-bend.toml\"",
                       "catalogue = [\"own.toml\", \"tolliver-bend.toml\"]"},
                      {"module = \"solvane-405\"", "module = \"solvane-400\""}}) {
        REQUIRE(says(text, from));
        text.replace(text.find(from), from.size(), to);
    }
    write_file(started.file, text);
    const DrawnPacket packet(started.file);
    CHECK(says(joined(page_texts(packet.pdf())), "SV-400M"));

    write_file(folder / "own.toml", "[module.solvane-400]\nextends = \"solvane-45\"\n");
    const Outcome wrong = run_ohmfolio({"check", started.file});
    CHECK(wrong.exit_code == 2);
    CHECK(says(wrong.out, "own.toml:2:11: error: "));
    CHECK(says(wrong.out, "did you mean \"solvane-405\"?"));
    CHECK(says(wrong.out, "1 error, "));
    const Outcome by_itself = run_ohmfolio({"catalogue", (folder / "own.toml").string()});
    CHECK(by_itself.exit_code == 2);
    CHECK(says(by_itself.err, "own.toml:2:11"));
}

TEST_CASE("start: asks at a terminal for what is not given") {
    if (!has_terminals()) {
        WARN("this machine gives out no terminals");
        return;
    }
    const TemporaryFolder folder;
    Circumstances typing;
    typing.folder = folder.path();
    typing.typed = "storage\nQuillon house\n9 Fallow Lane\n14\n";
    const Outcome outcome = run_ohmfolio({"start", "--date", "2026-11-26"}, typing);
    INFO(outcome.out << outcome.err);
    REQUIRE(outcome.exit_code == 0);
    for (const char* asked : {"Kind", "Name", "Address", "modules"}) {
        CHECK(says(outcome.out + outcome.err, asked));
    }
    const std::string text = read_file(folder.path() / "system.toml");
    CHECK(says(text, "Quillon house"));
    CHECK(says(text, "9 Fallow Lane"));
    CHECK(run_ohmfolio({"check", (folder.path() / "system.toml").string()}).exit_code == 0);
}

TEST_CASE("import: the example's table becomes a catalogue that the program lists") {
    const std::filesystem::path tables =
        std::filesystem::path(OHMFOLIO_SOURCE) / "examples" / "tables";
    const TemporaryFolder folder;
    const std::string made = (folder.path() / "modules.toml").string();
    const Command command = {"import", (tables / "modules.csv").string(),
                             "--map",  (tables / "modules-map.toml").string(),
                             "--out",  made};
    const Outcome outcome = run_ohmfolio(command);
    CHECK(outcome.err == "");
    REQUIRE(outcome.exit_code == 0);
    CHECK(says(outcome.out, "3 records: "));
    CHECK(says(outcome.out, "1 rows passed over"));
    const Outcome listed = run_ohmfolio({"catalogue", made, "--with", "power >= 400 W"});
    CHECK(listed.exit_code == 0);
    CHECK(says(listed.out, "solvane-sv-430m-night"));
    CHECK(says(listed.out, "2 records"));
    CHECK(validated("catalogue", {made}) == made + " ok\n");

    const Outcome again = run_ohmfolio(command);
    CHECK(again.exit_code == 2);
    CHECK(says(again.err, "is there already"));
    const Outcome missing =
        run_ohmfolio({"import", "none.csv", "--map", "none.toml", "--out", made + "2"});
    CHECK(missing.exit_code == 2);
    CHECK(says(missing.err, "Nothing was written."));
    CHECK(names_in(folder.path()) == std::vector<std::string>{"modules.toml"});
}
