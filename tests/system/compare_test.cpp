/// What changed between two issues: causes, consequences, and nothing else.
#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

namespace fs = std::filesystem;

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

Outcome compare(const fs::path& older, const fs::path& newer, const Command& more = {}) {
    Command command{"compare", older.string(), newer.string()};
    command.insert(command.end(), more.begin(), more.end());
    Outcome outcome = run_ohmfolio(command);
    UNSCOPED_INFO(outcome.out << outcome.err);
    return outcome;
}

} // namespace

TEST_CASE("an issued set against the description that it was drawn from: nothing changed") {
    const Outcome outcome = compare(example_packet().pdf(), ashgrove());
    CHECK(outcome.exit_code == 0);
    CHECK(outcome.out == "Nothing changed.\n");
}

TEST_CASE("causes come before what followed from them, with the reason") {
    const TemporaryFolder folder;
    const fs::path before = copied(ashgrove(), folder.path() / "a", {{"\n[site]", "\n[site]"}});
    const fs::path after = copied(ashgrove(), folder.path() / "b",
                                  {{"feeds = \"JB-2\", run = { length = \"22 ft\" }",
                                    "feeds = \"JB-2\", run = { length = \"60 ft\" }"},
                                   {"main = \"200 A\"", "main = \"175 A\""}});
    const Outcome outcome = compare(before, after);
    CHECK(outcome.exit_code == 0);
    const auto stated = outcome.out.find("Changed by the drafter\n");
    const auto followed = outcome.out.find("\nWhat followed\n");
    REQUIRE(stated != std::string::npos);
    REQUIRE(followed != std::string::npos);
    CHECK(stated < followed);
    CHECK(says(outcome.out, "  PV-3: length 22 ft to 60 ft\n"));
    CHECK(says(outcome.out, "  MSP: main breaker 200 A to 175 A\n"));
    CHECK(says(outcome.out,
               "C3: volt. change % 0.31 to 0.85, because one-way length 22 ft to 60 ft"));
    CHECK_FALSE(says(outcome.out, "PV-1: length"));

    const Outcome json = compare(before, after, {"--format", "json"});
    const Json tree = Json::parse(json.out);
    REQUIRE(tree["stated"].size() == 2);
    CHECK(tree["stated"][1]["path"] == "panel.MSP.main");
    CHECK(tree["stated"][1]["before"] == "200 A");
    CHECK(tree["stated"][1]["after"] == "175 A");
    CHECK_FALSE(tree["followed"].empty());
    CHECK_FALSE(tree["sheets"]["changed"].empty());
}

TEST_CASE("a larger conductor follows from a longer run, by the voltage or by what it carries") {
    const TemporaryFolder folder;
    const fs::path before = copied(ashgrove(), folder.path() / "a", {{"\n[site]", "\n[site]"}});
    const fs::path after =
        copied(ashgrove(), folder.path() / "b",
               {{"modules = 8, roof = \"South roof\"", "modules = 9, roof = \"South roof\""}});
    const Outcome outcome = compare(before, after);
    CHECK(says(outcome.out, "  PV-1: modules 8 to 9\n"));
    CHECK(says(outcome.out, "because microinverters on PV-1 8 to 9"));
}

TEST_CASE("a cause is named only where the calculation rests on it") {
    const TemporaryFolder folder;
    const fs::path before = copied(ashgrove(), folder.path() / "a", {{"\n[site]", "\n[site]"}});
    const fs::path after =
        copied(ashgrove(), folder.path() / "b",
               {{"run = { length = \"46 ft\"", "run = { size = \"10 AWG\", length = \"46 ft\""},
                {"run = { length = \"34 ft\"", "run = { length = \"60 ft\""},
                {"fault_current = \"9.2 kA\"", "fault_current = \"9.9 kA\""}});
    const Outcome outcome = compare(before, after);
    CHECK(outcome.exit_code == 0);
    // Read from another row of a table for the size, which the drafter stated.
    CHECK(says(outcome.out, "volt. change % 0.87 to 0.52, because JB-1: conductor size 10 AWG "
                            "(new); governed by"));
    CHECK(says(outcome.out, "because one-way length 34 ft to 60 ft\n"));
    CHECK_FALSE(says(outcome.out, "because available fault current"));
    CHECK_FALSE(says(outcome.out, " and "));
}

TEST_CASE("a circuit that is only renamed is not taken for another") {
    const TemporaryFolder folder;
    const fs::path before = copied(ashgrove(), folder.path() / "a", {{"\n[site]", "\n[site]"}});
    // One branch less: the circuits after it move up by one.
    const fs::path after =
        copied(ashgrove(), folder.path() / "b",
               {{"PV-2 = { modules = 8, roof = \"South roof\", orientation = \"portrait\", feeds = "
                 "\"JB-1\", run = { length = \"28 ft\" } }\n",
                 ""}});
    const Outcome outcome = compare(before, after);
    CHECK(outcome.exit_code == 0);
    CHECK(says(outcome.out, "C3 is now C2"));
    CHECK(says(outcome.out, "C2 (earlier)") == false);
}

TEST_CASE("a record that the job does not use tells nothing, one that it uses is named") {
    const TemporaryFolder folder;
    const fs::path before = copied(ashgrove(), folder.path() / "a", {{"\n[site]", "\n[site]"}});
    const fs::path after =
        copied(ashgrove(), folder.path() / "b", {{"voc = \"37.20 V\"", "voc = \"37.40 V\""}});
    const Outcome outcome = compare(before, after);
    CHECK(says(outcome.out, "  solvane-405: voc 37.20 V to 37.40 V (catalogue)\n"));
}

TEST_CASE("over folders: which packets would change, and how") {
    const TemporaryFolder folder;
    const fs::path jobs = folder.path() / "jobs";
    copied(ashgrove(), jobs, {{"\n[site]", "\n[site]"}});
    REQUIRE(run_ohmfolio({"draw", (jobs / "ashgrove.toml").string(), "--out",
                          (folder.path() / "packets/ashgrove").string()})
                .exit_code == 0);
    const Outcome same = compare(folder.path() / "packets", jobs);
    CHECK(same.exit_code == 0);
    CHECK(says(same.out, "0 of 1 packets change."));
    // A change of the catalogue reaches every job that uses the record.
    std::string catalogue = read_file(jobs / "catalogue.toml");
    catalogue.replace(catalogue.find("37.20 V"), 7, "37.40 V");
    write_file(jobs / "catalogue.toml", catalogue);
    const Outcome changed = compare(folder.path() / "packets", jobs);
    CHECK(says(changed.out, "1 of 1 packets change."));
    CHECK(says(changed.out, "voc 37.20 V to 37.40 V"));
}

TEST_CASE("a house style that changed tells so, and what is drawn differently") {
    const TemporaryFolder folder;
    const fs::path before = copied(ashgrove(), folder.path() / "a", {{"\n[site]", "\n[site]"}});
    const fs::path after = copied(ashgrove(), folder.path() / "b",
                                  {{"name = \"Larkmoor Solar Works\"", "name = \"Larkmoor\""}});
    const Outcome outcome = compare(before, after);
    CHECK(says(outcome.out, "(house style)"));
    CHECK(says(outcome.out, "Larkmoor Solar Works to Larkmoor"));
}

TEST_CASE("what cannot be read is said, with exit code 2") {
    const TemporaryFolder folder;
    write_file(folder.path() / "no.pdf", "not a PDF");
    const Outcome pdf = compare(folder.path() / "no.pdf", ashgrove());
    CHECK(pdf.exit_code == 2);
    CHECK(says(pdf.err, "it is not a PDF"));
    const Outcome missing = compare(folder.path() / "none.toml", ashgrove());
    CHECK(missing.exit_code == 2);
    CHECK(says(missing.err, "cannot read"));
    CHECK(missing.out.empty());
}
