/// Resubmitting after plan check: what changed is clouded, comments are answered, issued sets stay
/// what they were.
///
/// What a resubmittal must hold is asked for by: County of Hawaii, April 2023 (changes clouded,
/// with a numbered delta); City of San Diego, Information Bulletin 118, and Osceola County,
/// revisions to a permit (mark, date and description in the title block of each changed sheet, an
/// index that tells which sheets changed, the number of the permit); City of Tucson review records
/// and the resubmittal guide of the City of Huntington Beach (a letter that answers every comment
/// by number with the sheet where; the whole set). That clouds of the round before are dropped is
/// common practice, no source.
#include <algorithm>
#include <regex>

#include <fmt/format.h>

#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

namespace fs = std::filesystem;

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

Outcome draw(const fs::path& job, const fs::path& out, const Command& more = {}) {
    Command command{"draw", job.string(), "--out", out.string()};
    command.insert(command.end(), more.begin(), more.end());
    Outcome outcome = run_ohmfolio(command);
    UNSCOPED_INFO(outcome.out << outcome.err);
    return outcome;
}

const std::string next_row = "[[revision]]\nnumber = \"1\"\ndate = \"2026-04-20\"\nby = \"JM\"\n"
                             "description = \"Plan check comments\"\n\n[site]";

/// A job in a folder of its own, drawn, and then changed.
class Round {
  public:
    /// Without plans, which are not what most of the cases are about.
    Round() : job_(copied(ashgrove(), folder_.path() / "job", {{"\n[site]", "\n[site]"}})) {
        issue();
    }

    struct WithPlans {};
    explicit Round(WithPlans) : job_(folder_.path() / "job/ashgrove.toml") {
        fs::copy(ashgrove().parent_path(), job_.parent_path(), fs::copy_options::recursive);
        issue();
    }

    void change(const Replacements& replacements) {
        std::string text = read_file(job_);
        for (const auto& [from, to] : replacements) {
            const auto at = text.find(from);
            REQUIRE(at != std::string::npos);
            text.replace(at, from.size(), to);
        }
        write_file(job_, text);
    }

    Outcome draw_since(const Command& more = {}) const {
        Command options{"--since", (first() / "ashgrove.pdf").string()};
        options.insert(options.end(), more.begin(), more.end());
        return draw(job_, second(), options);
    }

    const fs::path& job() const { return job_; }
    fs::path first() const { return folder_.path() / "first"; }
    fs::path second() const { return folder_.path() / "second"; }
    const std::string& issued() const { return issued_; }
    Json report() const { return Json::parse(read_file(second() / "report.json")); }

  private:
    void issue() {
        REQUIRE(draw(job_, first()).exit_code == 0);
        issued_ = read_file(first() / "ashgrove.pdf");
    }

    TemporaryFolder folder_;
    fs::path job_;
    std::string issued_;
};

std::string text_of(const fs::path& pdf) {
    const Outcome outcome = run_program({"pdftotext", "-layout", pdf.string(), "-"});
    REQUIRE(outcome.exit_code == 0);
    return outcome.out;
}

/// In one line, however it was broken.
std::string in_a_line(const std::string& text) {
    return std::regex_replace(text, std::regex("\\s+"), " ");
}

/// Both issues of the worked resubmittal.
Outcome draw_worked(const fs::path& folder) {
    REQUIRE(draw(ashgrove(), folder / "0").exit_code == 0);
    return draw(ashgrove().parent_path() / "ashgrove-revision-1.toml", folder / "1",
                {"--since", (folder / "0/ashgrove.pdf").string()});
}

int clouds_on(const fs::path& svg) {
    const std::string text = read_file(svg);
    static const std::regex mark("data-shows=\"revision:1\"");
    return static_cast<int>(
        std::distance(std::sregex_iterator(text.begin(), text.end(), mark), {}));
}

std::string revision_of(const Json& report, const std::string& sheet) {
    for (const Json& each : report["sheets"]) {
        if (each["number"] == sheet) {
            return each["revision"];
        }
    }
    return "no such sheet";
}

} // namespace

TEST_CASE("a main breaker that changed is clouded, and sheets without it stay as issued") {
    Round round;
    round.change({{"[site]", next_row}, {"main = \"200 A\"", "main = \"175 A\""}});
    const Outcome outcome = round.draw_since();
    CHECK(outcome.exit_code == 0);
    CHECK(says(outcome.out, "clouds of revision 1"));
    CHECK(clouds_on(round.second() / "ashgrove-E-601.svg") > 0);
    CHECK(clouds_on(round.second() / "ashgrove-G-002.svg") == 0);
    const Json report = round.report();
    CHECK(revision_of(report, "E-601") == "1");
    CHECK(revision_of(report, "E-103") == "no such sheet"); // drawn without plans
    CHECK(revision_of(report, "E-701") == "0");
    CHECK(revision_of(report, "G-001") == "1"); // bears the index
    // A sheet that did not change is the same bytes, save for the rows it has not.
    CHECK(read_file(round.first() / "ashgrove-E-701.svg") ==
          read_file(round.second() / "ashgrove-E-701.svg"));
    CHECK_FALSE(fs::exists(round.second() / "ashgrove-response.pdf")); // nobody commented
}

TEST_CASE("nothing changed but the revision block: no cloud") {
    Round round;
    round.change({{"[site]", next_row}});
    const Outcome outcome = round.draw_since();
    CHECK(outcome.exit_code == 0);
    CHECK(says(outcome.out, "\n0 clouds of revision 1"));
}

TEST_CASE("clouds of an earlier revision are gone in the next, its row is kept") {
    Round round;
    round.change({{"[site]", next_row}, {"main = \"200 A\"", "main = \"175 A\""}});
    REQUIRE(round.draw_since().exit_code == 0);
    const fs::path second = round.second() / "ashgrove.pdf";
    std::string third_row = next_row;
    third_row.replace(third_row.find("number = \"1\""), 12, "number = \"2\"");
    third_row.replace(third_row.find("2026-04-20"), 10, "2026-05-11");
    round.change({{"[site]", third_row}, {"\"Kitchen\" = \"20 A\"", "\"Kitchen\" = \"15 A\""}});
    const fs::path third = round.second().parent_path() / "third";
    REQUIRE(draw(round.job(), third, {"--since", second.string()}).exit_code == 0);
    const Json report = Json::parse(read_file(third / "report.json"));
    for (const Json& sheet : report["sheets"]) {
        CHECK(clouds_on(third / ("ashgrove-" + sheet["number"].get<std::string>() + ".svg")) == 0);
    }
    const std::string diagram = read_file(third / "ashgrove-E-601.svg");
    CHECK(says(diagram, "revision:2"));
    CHECK(says(diagram, "2026-04-20"));
    CHECK(says(diagram, "2026-05-11"));
}

TEST_CASE("a row of the revision block that was issued may not be lost or altered") {
    Round round;
    round.change({{"[site]", next_row}, {"\"Issued for permit\"", "\"For permit\""}});
    const Outcome altered = round.draw_since();
    CHECK(altered.exit_code == 2);
    CHECK(says(altered.err, "the row of revision 0, 2026-03-02, is not as it was issued"));
    CHECK_FALSE(fs::exists(round.second()));
}

TEST_CASE("a resubmittal without a new row is refused") {
    Round round;
    round.change({{"main = \"200 A\"", "main = \"175 A\""}});
    const Outcome outcome = round.draw_since();
    CHECK(outcome.exit_code == 2);
    CHECK(says(outcome.err, "no revision was added since the earlier set"));
}

TEST_CASE("the earlier set of another house is pointed out") {
    Round round;
    round.change(
        {{"[site]", next_row}, {"name = \"Ashgrove residence\"", "name = \"Mill cottage\""}});
    CHECK_FALSE(says(round.draw_since().err, "of another project")); // renamed only
    round.change({{"address = \"27 Sorrel Lane", "address = \"4 Weir Lane"}});
    const Outcome outcome = round.draw_since({"--replace"});
    CHECK(
        says(outcome.err, "the earlier set is of another project: Ashgrove residence, 27 Sorrel"));
}

TEST_CASE("the earlier set has to be one of ours, and what it is instead is said") {
    Round round;
    round.change({{"[site]", next_row}});
    const Outcome outcome =
        draw(round.job(), round.second(),
             {"--since", (round.job().parent_path() / "datasheets/wb-10.pdf").string()});
    CHECK(outcome.exit_code == 2);
    CHECK(says(outcome.err, "is no earlier set: it carries no description"));
}

TEST_CASE("a comment without a response stops the set, and is marked in a draft") {
    Round round;
    round.change({{"[site]", "[[comment]]\nnumber = \"3\"\ntext = \"Too large.\"\n\n" + next_row},
                  {"main = \"200 A\"", "main = \"175 A\""}});
    const Outcome outcome = round.draw_since();
    CHECK(outcome.exit_code == 1);
    CHECK(says(outcome.err, "comment 3 has no response"));
    CHECK_FALSE(fs::exists(round.second()));
    CHECK(round.draw_since({"--draft"}).exit_code == 1);
    CHECK(says(read_file(round.second() / "ashgrove-E-601.svg"), "DRAFT"));
}

TEST_CASE("a comment whose ids did not change, or are not there, is a violation") {
    const auto refused = [](const std::string& concerns, const std::string& why) {
        Round round;
        round.change({{"[site]", "[[comment]]\nnumber = \"3\"\ntext = \"Too large.\"\n"
                                 "response = \"Changed.\"\nconcerns = [\"" +
                                     concerns + "\"]\n\n" + next_row},
                      {"main = \"200 A\"", "main = \"175 A\""}});
        const Outcome outcome = round.draw_since();
        CAPTURE(outcome.err);
        CHECK(outcome.exit_code == 1);
        CHECK(says(outcome.err, why));
        CHECK_FALSE(fs::exists(round.second()));
    };
    refused("ES-1", "comment 3 is said to have changed ES-1, and nothing about it did");
    refused("MSB", "comment 3 names MSB, which no sheet shows");
}

TEST_CASE("an issued set is drawn over only by itself or by a later revision") {
    Round round;
    const fs::path pdf = round.first() / "ashgrove.pdf";
    SECTION("the same again") {
        CHECK(draw(round.job(), round.first()).exit_code == 0);
        CHECK(read_file(pdf) == round.issued());
    }
    SECTION("another content") {
        round.change({{"main = \"200 A\"", "main = \"175 A\""}});
        const Outcome outcome = draw(round.job(), round.first());
        CHECK(outcome.exit_code == 2);
        CHECK(says(outcome.err, "was issued as revision 0, and this set differs from it"));
        CHECK(read_file(pdf) == round.issued());
        // Not even by a draft.
        CHECK(draw(round.job(), round.first(), {"--draft"}).exit_code == 2);
        CHECK(read_file(pdf) == round.issued());
        CHECK(draw(round.job(), round.first(), {"--replace"}).exit_code == 0);
        CHECK(read_file(pdf) != round.issued());
    }
    SECTION("a later revision, and the earlier one is kept") {
        round.change({{"[site]", next_row}, {"main = \"200 A\"", "main = \"175 A\""}});
        CHECK(draw(round.job(), round.first(), {"--since", pdf.string()}).exit_code == 0);
        CHECK(read_file(pdf) != round.issued());
        CHECK(read_file(round.first() / "issued/ashgrove-0.pdf") == round.issued());
    }
}

TEST_CASE("the record lists issues with their digests, and none is issued twice differently") {
    Round round;
    const fs::path record = round.first().parent_path() / "issues.toml";
    const Command recorded{"--record", record.string()};
    REQUIRE(draw(round.job(), round.first(), recorded).exit_code == 0);
    const std::string text = read_file(record);
    CHECK(says(text, "job = \"ashgrove\""));
    CHECK(says(text, "revision = \"0\""));
    // Another program knows the file by the digest.
    const Outcome sum = run_program({"sha256sum", (round.first() / "ashgrove.pdf").string()});
    CHECK(says(text, "sha256 = \"" + sum.out.substr(0, 64) + "\""));
    // Once more changes nothing.
    REQUIRE(draw(round.job(), round.first(), recorded).exit_code == 0);
    CHECK(read_file(record) == text);
    // Elsewhere, the same revision with other content is refused.
    round.change({{"main = \"200 A\"", "main = \"175 A\""}});
    const Outcome other = draw(round.job(), round.second(), recorded);
    CHECK(other.exit_code == 2);
    CHECK(says(other.err, "has revision 0 of ashgrove with other content"));
    CHECK_FALSE(fs::exists(round.second()));
    CHECK(read_file(record) == text);
    // A record that is none is not written over.
    write_file(record, "not a record");
    CHECK(draw(round.job(), round.second(), recorded).exit_code == 2);
    CHECK(read_file(record) == "not a record");
}

TEST_CASE("only the sheets that changed are handed in where that is asked for") {
    Round round;
    round.change({{"[site]", next_row}, {"main = \"200 A\"", "main = \"175 A\""}});
    REQUIRE(round.draw_since({"--reissue", "changed"}).exit_code == 0);
    const Json report = round.report();
    std::size_t changed = 0;
    for (const Json& sheet : report["sheets"]) {
        const bool now = sheet["revision"] == "1";
        changed += now ? 1 : 0;
        CHECK(fs::exists(round.second() /
                         ("ashgrove-" + sheet["number"].get<std::string>() + ".svg")) == now);
    }
    CHECK(changed > 0);
    CHECK(changed < report["sheets"].size());
    const Outcome info = run_program({"pdfinfo", (round.second() / "ashgrove.pdf").string()});
    CHECK(std::regex_search(info.out, std::regex("Pages: +" + std::to_string(changed) + "\n")));
    // The set is whole in what it carries: the next round goes on from it.
    const Outcome next =
        run_ohmfolio({"compare", (round.second() / "ashgrove.pdf").string(), round.job().string()});
    CHECK(next.exit_code == 0);
    CHECK(next.out == "Nothing changed.\n");
}

TEST_CASE("the worked resubmittal answers eight comments, each with its place") {
    const TemporaryFolder folder;
    const Outcome outcome = draw_worked(folder.path());
    REQUIRE(outcome.exit_code == 0);
    CHECK(says(outcome.out, "8 comments answered"));
    CHECK_FALSE(says(outcome.err, "warning:"));
    const std::string letter = text_of(folder.path() / "1/ashgrove-revision-1-response.pdf");
    for (int comment = 1; comment <= 8; ++comment) {
        CHECK(says(letter, "Comment " + std::to_string(comment) + " "));
    }
    CHECK(says(letter, "B26-0417"));
    CHECK(says(letter, "main breaker 200 A to 175 A"));
    // What a program finds by itself is where the mark is: the zone of the main on the diagram.
    CHECK(std::regex_search(letter, std::regex("E-601 zones? [A-D][1-8]")));
    CHECK(says(letter, "because microinverters on PV-4 6 to 5"));
    CHECK(says(letter, "implies no approval"));
    CHECK_FALSE(says(outcome.err, "appendix.unrevised")); // its author wrote anew
}

TEST_CASE("the letter tells every value that followed, under its true cause") {
    const TemporaryFolder folder;
    REQUIRE(draw_worked(folder.path()).exit_code == 0);
    const std::string letter =
        in_a_line(text_of(folder.path() / "1/ashgrove-revision-1-response.pdf"));
    // Of comments 3 and 8 as well: no line under them says it. What changed alike is in one line.
    CHECK(says(letter, "C5, C6: ungrounded conductors"));
    CHECK(says(letter, "EGC (1) 8 AWG to (1) 6 AWG"));
    CHECK(says(letter, "C16 (E): volt. change % 0.08 to 0.07, because main breaker of MSP 200 A to "
                       "175 A;"));
    CHECK(says(letter, "R1: conductors in² 0.0665 to 0.0977; fill % 21.9 to 32.1, because JB-1: "
                       "conductor size 10 AWG (new) R9: raceway"));
    CHECK(says(letter, "fill % 38.0 to 26.6, because MID-1: conductor size to the backed-up panel "
                       "2 AWG (new) Q4:"));
    // The longer raceway and its larger conductors both move the voltage.
    CHECK(says(letter, "volt. change % 0.87 to 0.66, because JB-1: conductor size 10 AWG (new) and "
                       "one-way length 46 ft to 58 ft;"));
    // What a switch has to carry does not come of the fault current.
    CHECK(says(letter, "Q5, SW-1: required A 49.70 to 47.93, because microinverters on PV-4 6 to 5 "
                       "Q7:"));
    const Outcome compared =
        run_ohmfolio({"compare", (folder.path() / "0/ashgrove.pdf").string(),
                      (folder.path() / "1/ashgrove-revision-1.pdf").string(), "--format", "json"});
    for (const Json& row : Json::parse(compared.out)["followed"]) {
        if (row["schedule"] != "material") {
            CHECK(says(letter, row["row"].get<std::string>()));
        }
        for (const Json& cell : row["cells"]) {
            CHECK(
                (row["schedule"] == "material" || says(letter, cell["before"].get<std::string>())));
        }
    }
}

TEST_CASE("an answer leads from the changed fact to the calculations and checks that use it") {
    const TemporaryFolder folder;
    REQUIRE(draw_worked(folder.path()).exit_code == 0);
    const std::string letter =
        in_a_line(text_of(folder.path() / "1/ashgrove-revision-1-response.pdf"));
    const auto answer_to = [&](int comment) {
        const auto begin = letter.find(fmt::format("Comment {} ", comment));
        return letter.substr(begin, letter.find(fmt::format("Comment {} ", comment + 1)) - begin);
    };
    // The table of fault currents, and each interrupting rating that was held against it.
    CHECK(std::regex_search(
        answer_to(4), std::regex("Changed at E-601 zone [A-D][1-8] Followed at E-605 zones? .*"
                                 "E-607 zones? .*; E-608 zones? ")));
    // The sheet that the comment is about comes first.
    CHECK(says(answer_to(2), "Changed at E-102 zones"));
    // Of all that changed on the general sheets the one place with the wind.
    CHECK(std::regex_search(answer_to(5), std::regex("Changed at G-001 zone [A-D][1-8] $")));
}

TEST_CASE("a sheet that moved to another number is the same sheet, and says what it was") {
    Round round{Round::WithPlans{}};
    // More to calculate: one sheet of calculations more, before the material list and the placards.
    round.change({{"[site]", "[[comment]]\nnumber = \"1\"\nsheet = \"E-612\"\ntext = \"Longer.\"\n"
                             "response = \"Made so.\"\nconcerns = [\"JB-2\"]\n\n" +
                                 next_row},
                  {"run = { length = \"46 ft\"", "run = { size = \"10 AWG\", length = \"46 ft\""},
                  {"run = { length = \"34 ft\"", "run = { length = \"160 ft\""},
                  {"fault_current = \"9.2 kA\"", "fault_current = \"9.9 kA\""}});
    REQUIRE(round.draw_since().exit_code == 0);
    const std::string letter = in_a_line(text_of(round.second() / "ashgrove-response.pdf"));
    CHECK(says(letter, "CALCULATIONS, 7 OF 7 new"));
    CHECK(says(letter, "E-611 MATERIAL LIST, 1 OF 2 changed, was E-610"));
    CHECK(says(letter, "E-613 PLACARDS, 1 OF 2 as before, was E-612"));
    CHECK(says(letter, "E-614 PLACARDS, 2 OF 2 as before, was E-613"));
    CHECK_FALSE(says(letter, "withdrawn"));
    // The comment was written on the first set.
    CHECK(says(letter, "sheet E-612 (now E-613)"));
    CHECK(clouds_on(round.second() / "ashgrove-E-614.svg") == 0);
    // Issued under its number for the first time.
    CHECK(revision_of(round.report(), "E-614") == "1");
    CHECK(revision_of(round.report(), "E-701") == "0");
    CHECK(says(in_a_line(text_of(round.second() / "ashgrove.pdf")), "PLACARDS, 2 OF 2 WAS E-613"));

    const std::string compared = run_ohmfolio({"compare", (round.first() / "ashgrove.pdf").string(),
                                               (round.second() / "ashgrove.pdf").string()})
                                     .out;
    CHECK(says(compared, "E-611 (was E-610)"));
    CHECK(says(compared, "\n  new: E-610\n"));
    CHECK(says(compared, "\n  same contents: "));
    // What it was is no part of what was designed: the set is drawn again as it is.
    CHECK(
        run_ohmfolio({"compare", (round.second() / "ashgrove.pdf").string(), round.job().string()})
            .out == "Nothing changed.\n");
}

TEST_CASE("an appended letter that stays although its grounds changed is pointed out") {
    Round round{Round::WithPlans{}};
    SECTION("wind and snow") {
        round.change({{"[site]", next_row},
                      {"wind = \"110 mph", "wind = \"115 mph"},
                      {"snow = \"25 psf\"", "snow = \"30 psf\""}});
        const Outcome outcome = round.draw_since();
        CHECK(outcome.exit_code == 0);
        CHECK(says(in_a_line(outcome.err),
                   "advice: \"letters/ashgrove-roof.pdf\" is as it was issued, although this "
                   "changed: wind 110 mph, exposure B, risk category II to 115 mph, exposure B, "
                   "risk category II; snow 25 psf to 30 psf [appendix.unrevised]"));
    }
    SECTION("modules") {
        round.change({{"[site]", next_row},
                      {"PV-4 = { modules = 6", "PV-4 = { modules = 5"},
                      {"\"6 PV-4\"", "\"5 PV-4\""}});
        CHECK(says(round.draw_since().err, "although this changed: modules 28 to 27"));
    }
    SECTION("another letter") {
        round.change({{"[site]", next_row},
                      {"wind = \"110 mph", "wind = \"115 mph"},
                      {"letters/ashgrove-roof.pdf", "letters/ashgrove-roof-1.pdf"}});
        CHECK_FALSE(says(round.draw_since().err, "appendix.unrevised"));
        const Outcome compared = run_ohmfolio({"compare", (round.first() / "ashgrove.pdf").string(),
                                               (round.second() / "ashgrove.pdf").string()});
        CHECK(says(compared.out, "  appendix 1: file letters/ashgrove-roof.pdf to "
                                 "letters/ashgrove-roof-1.pdf\n"));
        CHECK(says(compared.out, "  file ashgrove-roof-1.pdf (new)\n"));
        CHECK(says(compared.out, "  file ashgrove-roof.pdf (left out)\n"));
    }
    SECTION("what a structural engineer does not look at") {
        round.change({{"[site]", next_row}, {"main = \"200 A\"", "main = \"175 A\""}});
        CHECK_FALSE(says(round.draw_since().err, "appendix.unrevised"));
    }
}
