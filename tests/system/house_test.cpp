/// The style of an office, from its file to the sheets of a packet.
#include <algorithm>

#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

namespace fs = std::filesystem;

/// Ashgrove in a folder of its own, its house beside it.
struct Office {
    TemporaryFolder folder;
    fs::path system = copied(ashgrove(), folder.path());
    fs::path house = folder.path() / "house.toml";

    void write(const std::string& name, const std::string& text) const {
        fs::create_directories((folder.path() / name).parent_path());
        write_file(folder.path() / name, text);
    }
    Outcome run(const Command& more = {}, const Circumstances& circumstances = {}) const {
        fs::remove_all(out());
        Command command{"draw", system.string(), "--out", out().string()};
        command.insert(command.end(), more.begin(), more.end());
        return run_ohmfolio(command, circumstances);
    }
    /// The text of the general sheet of a packet that has no findings.
    std::string general(const Command& more = {}, const Circumstances& circumstances = {}) const {
        const Outcome outcome = run(more, circumstances);
        CHECK(outcome.err == "");
        REQUIRE(outcome.exit_code == 0);
        return page_texts(out() / "ashgrove.pdf").front();
    }
    fs::path out() const { return folder.path() / "out"; }
};

std::string company(const std::string& name) { return "[company]\nname = \"" + name + "\"\n"; }

bool says(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

} // namespace

TEST_CASE("a house named by option comes before the environment, that before the job's folder") {
    const Office office;
    office.write("house.toml", company("Beside office"));
    office.write("a/house.toml", company("Option office"));
    office.write("b/house.toml", company("Environment office"));
    Circumstances named;
    named.environment["OHMFOLIO_HOUSE"] = (office.folder.path() / "b/house.toml").string();
    const Command option{"--house", (office.folder.path() / "a/house.toml").string()};
    CHECK(says(office.general(), "BESIDE OFFICE"));
    CHECK(says(office.general({}, named), "ENVIRONMENT OFFICE"));
    const std::string text = office.general(option, named);
    CHECK(says(text, "OPTION OFFICE"));
    CHECK_FALSE(says(text, "ENVIRONMENT OFFICE"));
    CHECK_FALSE(says(text, "BESIDE OFFICE"));
}

TEST_CASE("a house in a folder above the job's does not count") {
    const Office office;
    const fs::path below = office.folder.path() / "jobs";
    fs::create_directory(below);
    fs::rename(office.house, office.folder.path() / "keep");
    office.write("house.toml", company("Upper office"));
    fs::copy(office.system, below / "ashgrove.toml");
    for (const char* beside : {"catalogue.toml", "datasheets", "letters"})
        fs::copy(office.folder.path() / beside, below / beside, fs::copy_options::recursive);
    const auto out = office.folder.path() / "below";
    REQUIRE(run_ohmfolio({"draw", (below / "ashgrove.toml").string(), "--out", out.string()})
                .exit_code == 0);
    CHECK_FALSE(says(joined(page_texts(out / "ashgrove.pdf")), "UPPER OFFICE"));
}

TEST_CASE("a house that was named and is not there is a finding, for every command") {
    const Office office;
    const std::string missing = (office.folder.path() / "none.toml").string();
    for (const Command& command :
         {Command{"check", office.system.string(), "--house", missing},
          Command{"explain", office.system.string(), "C1", "--house", missing},
          Command{"symbols", "--out", office.out().string(), "--house", missing},
          Command{"draw", office.system.string(), "--out", office.out().string(), "--house",
                  missing}}) {
        const Outcome outcome = run_ohmfolio(command);
        CAPTURE(command.front(), outcome.out, outcome.err);
        CHECK(outcome.exit_code == 2);
        CHECK(says(outcome.out + outcome.err, "none.toml"));
    }
}

TEST_CASE("two drafters of one office get the same bytes, wherever their folders are") {
    const Office one, other;
    const fs::path deep = other.folder.path() / "home" / "someone" / "desk";
    fs::create_directories(deep);
    std::vector<fs::path> moved;
    for (const auto& entry : fs::directory_iterator(other.folder.path())) {
        if (entry.path().filename() != "home")
            moved.push_back(entry.path());
    }
    for (const fs::path& path : moved)
        fs::rename(path, deep / path.filename());
    REQUIRE(one.run().exit_code == 0);
    Circumstances elsewhere;
    elsewhere.environment["HOME"] = deep.string();
    elsewhere.environment["USER"] = "someone";
    elsewhere.folder = deep;
    REQUIRE(run_ohmfolio({"draw", "ashgrove.toml", "--out", "out"}, elsewhere).exit_code == 0);
    const auto here = files_below(one.out());
    const auto there = files_below(deep / "out");
    REQUIRE(here.size() == there.size());
    for (const auto& [name, bytes] : here) {
        CAPTURE(name);
        CHECK((there.at(name) == bytes));
        CHECK_FALSE(says(bytes, one.folder.path().string()));
    }
}

TEST_CASE("the logo stands on every sheet, drawn or as a picture") {
    const Office office;
    const auto svgs = [&office] {
        std::vector<std::string> texts;
        for (const auto& [name, bytes] : files_below(office.out())) {
            if (name.ends_with(".svg"))
                texts.push_back(bytes);
        }
        return texts;
    };
    CHECK(says(office.general(), "LARKMOOR SOLAR WORKS"));
    for (const std::string& svg : svgs())
        CHECK(says(svg, "<path data-shows=\"company:logo\""));

    fs::copy(OHMFOLIO_SOURCE "/tests/data/colors-4x2.png", office.folder.path() / "logo.png");
    office.write("house.toml", "logo = \"logo.png\"\n" + company("Picture office"));
    CHECK(says(office.general(), "PICTURE OFFICE"));
    for (const std::string& svg : svgs())
        CHECK(says(svg, "<image data-shows=\"company:logo\""));
    const Outcome images =
        run_program({"pdfimages", "-list", (office.out() / "ashgrove.pdf").string()});
    CHECK(says(images.out, "image       4     2  rgb"));
}

TEST_CASE("a logo that cannot be drawn is a finding with its place, and nothing is drawn") {
    const Office office;
    office.write("logo.png", "no picture at all, though it is called one");
    office.write("house.toml", company("Office") + "\n");
    office.write("house.toml", "logo = \"logo.png\"\n" + company("Office"));
    const Outcome outcome = office.run();
    CHECK(outcome.exit_code == 2);
    CHECK(says(outcome.err, "house.toml:1:8"));
    CHECK(says(outcome.err, "it is not a PNG"));
    CHECK_FALSE(fs::exists(office.out()));
}

TEST_CASE("lettering of the office too small for a city is refused where it is written") {
    const Office office;
    office.write("house.toml", company("Office") + "[lettering]\nbody = \"9 pt\"\n");
    const Outcome outcome = office.run();
    CHECK(outcome.exit_code == 2);
    CHECK(says(outcome.err, "house.toml:4:8"));
    CHECK(says(outcome.err, "capitals"));
}

TEST_CASE("layouts and symbols of the office come before those of the program") {
    const Office office;
    office.write("house.toml",
                 "layouts = \"our-layouts\"\nsymbols = \"our-symbols\"\n" + company("Office"));
    // The office's own ansi-b stands on the one that it takes the place of.
    office.write("our-layouts/ansi-b.toml",
                 "base = \"ansi-b.toml\"\n[title_block.cell.designer]\nheading = \"Drafted by\"\n");
    std::string breaker = read_file(OHMFOLIO_DATA "/symbols/circuit-breaker.svg");
    const auto title = breaker.find("<title>");
    REQUIRE(title != std::string::npos);
    breaker.replace(title + 7, breaker.find("</title>") - title - 7, "Breaker of the office");
    office.write("our-symbols/circuit-breaker.svg", breaker);
    office.general();
    const std::string text = joined(page_texts(office.out() / "ashgrove.pdf"));
    CHECK(says(text, "DRAFTED BY"));
    CHECK_FALSE(says(text, "DESIGNED BY"));
    CHECK(says(text, "BREAKER OF THE OFFICE"));
}

TEST_CASE("a faulty layout or symbol of the office is a finding with its place") {
    const Office office;
    office.write("house.toml",
                 "layouts = \"our-layouts\"\nsymbols = \"our-symbols\"\n" + company("Office"));
    office.write("our-layouts/ansi-b.toml", "base = \"ansi-b.toml\"\n[border]\nzone_pin = 3\n");
    office.write("our-symbols/circuit-breaker.svg", "<svg/>");
    const Outcome outcome = office.run();
    CHECK(outcome.exit_code == 2);
    CHECK(says(outcome.err, "ansi-b.toml:3:1"));
    CHECK(says(outcome.err, "circuit-breaker.svg:1:"));
}

TEST_CASE("numbers, titles and notes of the office are on the sheets") {
    const Office office;
    office.write("house.toml", company("Office") +
                                   "[[numbering]]\ncontent = \"general\"\nfirst = \"T-001\"\n"
                                   "title = \"Title sheet\"\n"
                                   "[[numbering]]\ncontent = \"calculations\"\nfirst = \"E-801\"\n"
                                   "[[note]]\ntext = \"Call the office before work begins.\"\n");
    const std::string text = office.general();
    CHECK(says(text, "TITLE SHEET"));
    CHECK(says(text, "CALL THE OFFICE BEFORE WORK BEGINS."));
    const auto files = names_in(office.out());
    CHECK(std::ranges::count(files, "ashgrove-T-001.svg") == 1);
    CHECK(std::ranges::count(files, "ashgrove-E-801.svg") == 1);
    CHECK(std::ranges::count(files, "ashgrove-G-001.svg") == 0);
}
