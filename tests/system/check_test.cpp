/// check, and what draw makes of findings: exit codes, places, remedies, drafts.
#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

struct Checked {
    TemporaryFolder folder;
    std::filesystem::path system;
    Outcome outcome;

    Checked(const std::string& from, const std::string& to)
        : Checked(Replacements{std::pair(from, to)}) {}
    explicit Checked(const Replacements& changes)
        : system(copied(ashgrove(), folder.path(), changes)),
          outcome(run_ohmfolio({"check", system.string()})) {
        UNSCOPED_INFO(outcome.out << outcome.err);
    }
};

// 12 × 1.42 A × 1.25 = 21.30 A; the largest breaker of the branch is 20 A, so 11 is the most.
const Replacements twelve_inverters{{"PV-2 = { modules = 8", "PV-2 = { modules = 12"}};

/// Line and column, from 1, of the first place where `part` stands.
std::string place_of(const std::filesystem::path& file, const std::string& part) {
    const std::string text = read_file(file);
    const std::size_t at = text.find(part);
    REQUIRE(at != std::string::npos);
    const auto line = 1 + std::count(text.begin(), text.begin() + static_cast<long>(at), '\n');
    const std::size_t begin = text.rfind('\n', at) + 1; // npos + 1 is 0
    return file.string() + ":" + std::to_string(line) + ":" + std::to_string(at - begin + 1);
}

} // namespace

TEST_CASE("check: the example is clean") {
    const Checked checked(Replacements{});
    CHECK(checked.outcome.exit_code == 0);
    CHECK(says(checked.outcome.out, "0 errors, 0 violations"));
    CHECK(checked.outcome.err.empty());
    CHECK(names_in(checked.folder.path()) ==
          std::vector<std::string>{"ashgrove.toml", "catalogue.toml", "datasheets", "house.toml",
                                   "letters", "logo.svg"});
}

TEST_CASE("check: too many microinverters on a branch") {
    const Checked checked(twelve_inverters);
    const std::string& out = checked.outcome.out;
    CHECK(checked.outcome.exit_code == 1);
    CHECK(says(out, place_of(checked.system, "PV-2 = ") + ": violation: "));
    CHECK(says(out, "PV-2 has 12 microinverters"));
    CHECK(says(out, "21.30 A"));
    CHECK(says(out, "NEC 2023 "));
    CHECK(says(out, "at most 11"));
    CHECK(says(out, "11 modules on PV-2")); // the remedy
    CHECK(says(out, "1 violation, "));
}

TEST_CASE("check: a conductor stated too small") {
    // Two batteries of 16 A each are 32 A, 125 % of it 40 A, so a 40 A breaker: 12 AWG copper may
    // be protected at 20 A, 240.4(D), and 10 AWG at 30 A; 8 AWG has 50 A at 75 °C.
    const Checked checked("feeds = \"SW-2\", run = { length = \"14 ft\"",
                          "feeds = \"SW-2\", run = { length = \"14 ft\", size = \"12 AWG\"");
    const std::string& out = checked.outcome.out;
    CHECK(checked.outcome.exit_code == 1);
    CHECK(says(out, place_of(checked.system, "\"12 AWG\"") + ": violation: "));
    CHECK(says(out, "NEC 2023 240.4(D)"));
    CHECK(says(out, "8 AWG")); // what would be right
}

TEST_CASE("check: a busbar overloaded") {
    // The device of the sources is of 100 A; range, condenser and kiln are 50 A, 40 A and 60 A:
    // 250 A on a bus of 200 A, and no other rule of 705.12(B) carries more.
    const Checked checked("loads = { \"Range\"", "loads = { \"Kiln\" = \"60 A 2P\", \"Range\"");
    CHECK(checked.outcome.exit_code == 1);
    CHECK(says(checked.outcome.out, "NEC 2023 705.12(B)"));
    CHECK(says(checked.outcome.out, "250 A"));
}

TEST_CASE("check: a misspelt key is told with its place and the likely word") {
    const Checked checked("hottest = ", "hotest = ");
    CHECK(checked.outcome.exit_code == 2);
    CHECK(says(checked.outcome.out, place_of(checked.system, "hotest") + ": error: "));
    CHECK(says(checked.outcome.out, "\"hottest\""));
}

TEST_CASE("check: a misspelt neighbour is told with its place and the likely one") {
    const Checked checked("feeds = \"JB-2\"", "feeds = \"JB-3\"");
    CHECK(checked.outcome.exit_code == 2);
    CHECK(says(checked.outcome.out, place_of(checked.system, "\"JB-3\"") + ": error: "));
}

TEST_CASE("check: a value without its unit, in the catalogue") {
    const Checked checked("voc = \"37.20 V\"", "voc = \"37.20\"");
    CHECK(checked.outcome.exit_code == 2);
    const auto catalogue = checked.folder.path() / "catalogue.toml";
    CHECK(says(checked.outcome.out, place_of(catalogue, "\"37.20\"") + ": error: "));
}

TEST_CASE("check: what is not TOML is told with its place") {
    const Checked checked("[site]", "[site");
    CHECK(checked.outcome.exit_code == 2);
    CHECK(says(checked.outcome.out, checked.system.string() + ":"));
    CHECK(says(checked.outcome.out, ": error: "));
}

TEST_CASE("check: all findings at once") {
    const Checked checked(Replacements{{"PV-2 = { modules = 8", "PV-2 = { modules = 12"},
                                       {"PV-3 = { modules = 6", "PV-3 = { modules = 12"}});
    CHECK(checked.outcome.exit_code == 1);
    CHECK(says(checked.outcome.out, "PV-2 has 12 microinverters"));
    CHECK(says(checked.outcome.out, "PV-3 has 12 microinverters"));
}

TEST_CASE("draw with a violation draws nothing") {
    const TemporaryFolder folder;
    const auto system = copied(ashgrove(), folder.path() / "job", twelve_inverters);
    const auto out = folder.path() / "out";
    const Outcome outcome = run_ohmfolio({"draw", system.string(), "--out", out.string()});
    CHECK(outcome.exit_code == 1);
    CHECK(outcome.out.empty());
    CHECK(says(outcome.err, "PV-2 has 12 microinverters"));
    CHECK(says(outcome.err, "Nothing was drawn"));
    CHECK(says(outcome.err, "--draft"));
    CHECK_FALSE(std::filesystem::exists(out));
}

TEST_CASE("a draft with a violation says so on every sheet") {
    const TemporaryFolder folder;
    const auto system = copied(ashgrove(), folder.path(), twelve_inverters);
    const DrawnPacket packet(system, {"--draft"}, 1);
    CHECK(says(packet.outcome().err, "PV-2 has 12 microinverters"));
    const auto pages = page_texts(packet.pdf());
    const auto numbers = packet.sheet_numbers();
    REQUIRE(pages.size() == numbers.size());
    for (std::size_t i = 0; i < pages.size(); ++i) {
        CAPTURE(numbers[i]);
        CHECK(has_word(pages[i], "DRAFT"));
        CHECK(says(read_file(packet.svg(numbers[i])), "DRAFT"));
    }
    CHECK(says(joined(pages), "PV-2 HAS 12 MICROINVERTERS"));
    REQUIRE_FALSE(packet.report().at("findings").empty());
    const Json& finding = packet.report().at("findings").front();
    CHECK(finding.at("severity") == "violation");
    CHECK(finding.at("subject") == "equipment:PV-2");
    CHECK(finding.at("place").at("file") == "ashgrove.toml");
    CHECK_FALSE(finding.at("remedies").empty());
}

TEST_CASE("a draft asked for on a clean system marks nothing") {
    const DrawnPacket packet(ashgrove(), {"--draft"});
    CHECK_FALSE(has_word(joined(page_texts(packet.pdf())), "DRAFT"));
}

TEST_CASE("a draft asked for does not help a description that cannot be understood") {
    const TemporaryFolder folder;
    const auto system = copied(ashgrove(), folder.path() / "job", {{"hottest = ", "hotest = "}});
    const auto out = folder.path() / "out";
    const Outcome outcome =
        run_ohmfolio({"draw", system.string(), "--draft", "--out", out.string()});
    CHECK(outcome.exit_code == 2);
    CHECK_FALSE(std::filesystem::exists(out));
}
