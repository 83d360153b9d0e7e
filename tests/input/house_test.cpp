/// What a house states for all jobs, and how it gives way to a job.
#include <filesystem>
#include <fstream>

#include <fmt/format.h>
#include <unistd.h>

#include "catch.h"
#include "input/input.h"

using namespace ohmfolio;

namespace {

namespace fs = std::filesystem;
const fs::path examples = OHMFOLIO_SOURCE "/examples/tolliver-bend";

/// A folder with a house file, gone when the test is over.
class Desk {
  public:
    explicit Desk(const std::string& house) {
        fs::create_directories(folder_);
        write("house.toml", house);
        // What jobs and catalogues append to the set lies beside them.
        for (const char* beside : {"jobs", "shelf"}) {
            fs::create_directories(folder_ / beside);
            fs::copy(examples / "letters", folder_ / beside / "letters");
            fs::copy(examples / "datasheets", folder_ / beside / "datasheets");
        }
    }
    ~Desk() { fs::remove_all(folder_); }
    Desk(const Desk&) = delete;
    Desk& operator=(const Desk&) = delete;

    void write(const std::string& name, const std::string& text) const {
        fs::create_directories((folder_ / name).parent_path());
        std::ofstream(folder_ / name) << text;
    }
    HouseFile house() {
        return read_house(folder_ / "house.toml", "house.toml", sources, findings);
    }
    /// Ashgrove with these lines taken out or put into its [project], read within this house.
    std::optional<System> job(const std::string& without = {}, const std::string& with = {}) {
        std::ifstream in(examples / "ashgrove.toml");
        std::string text(std::istreambuf_iterator<char>(in), {});
        if (!without.empty()) {
            const auto at = text.find(without);
            REQUIRE(at != std::string::npos);
            text.erase(at, text.find('\n', at) + 1 - at);
        }
        const auto project = text.find("[project]\n");
        REQUIRE(project != std::string::npos);
        text.insert(project + 10, with);
        write("jobs/job.toml", text);
        return read_system(folder_ / "jobs" / "job.toml", {house(), examples}, sources, findings);
    }

    SourceFiles sources;
    Findings findings;

  private:
    fs::path folder_ = fs::temp_directory_path() / fmt::format("ohmfolio-house-{}", ::getpid());
};

const std::string company = "[company]\nname = \"Office\"\naddress = [\"Line 1\", \"Line 2\"]\n"
                            "phone = \"555-0142\"\nweb = \"office.example\"\n"
                            "licence = \"C-10 004417\"\n";

} // namespace

TEST_CASE("the company of the house signs a job that names no designer") {
    Desk desk(company);
    const auto system = desk.job();
    REQUIRE(system);
    CHECK(system->project.designer == "Office");
    CHECK(system->project.designer_address == "Line 1\nLine 2");
    CHECK(system->project.designer_phone == "555-0142");
    CHECK(system->project.designer_web == "office.example");
    CHECK(system->project.licence == "C-10 004417");
}

TEST_CASE("a job's own value comes before that of the house") {
    Desk desk(company);
    const auto system = desk.job({}, "licence = \"EL-7\"\n");
    REQUIRE(system);
    CHECK(system->project.licence == "EL-7");
    CHECK(system->project.designer == "Office");
}

TEST_CASE("another designer takes nothing of the company, its logo included") {
    Desk desk("logo = \"logo.svg\"\n" + company);
    desk.write("logo.svg", "<svg/>");
    CHECK(desk.job()->house.logo.has_value());
    const auto system = desk.job({}, "designer = \"Somebody else\"\n");
    REQUIRE(system);
    CHECK(system->project.designer_address.empty());
    CHECK(system->project.licence.empty());
    CHECK_FALSE(system->house.logo.has_value());
}

TEST_CASE("what a job leaves out the house states, and only that") {
    Desk desk("[defaults]\ncode = \"NEC 2017\"\nsheet = \"ansi-d\"\n[defaults.project]\n"
              "jurisdiction = \"Office default\"\n[defaults.site]\ncoldest = \"-20 C\"\n");
    const auto plain = desk.job();
    REQUIRE(plain);
    CHECK(plain->project.jurisdiction == "Vance County Building Department");
    CHECK(plain->edition == Edition::nec2023);
    CHECK(plain->sheet.value == "ansi-d");
    CHECK(plain->site.coldest.value == -9);
    CHECK(desk.job("jurisdiction =")->project.jurisdiction == "Office default");
    CHECK(desk.job("code =")->edition == Edition::nec2017);
    CHECK(desk.job("coldest =")->site.coldest.value == -20);
    CHECK(desk.findings.empty());
}

TEST_CASE("a faulty default is told once, at its place in the house file") {
    Desk desk("[defaults.site]\ncoldest = \"-20\"\n");
    CHECK_FALSE(desk.job("coldest ="));
    REQUIRE(desk.findings.size() == 1);
    CHECK(desk.findings[0].rule == "input.unit");
    CHECK(fs::path(desk.sources.name(desk.findings[0].span.file)).filename() == "house.toml");
    CHECK(desk.findings[0].span.begin.line == 2);
}

TEST_CASE("catalogues are looked for beside the job, then in the house, then with the program") {
    std::ifstream in(examples / "catalogue.toml");
    const std::string records(std::istreambuf_iterator<char>(in), {});
    Desk desk("catalogue = [\"shelf\"]\n");
    desk.write("shelf/parts.toml", records);
    const auto read_from = [&desk](const std::string& name) {
        for (int file = desk.sources.count() - 1; file >= 0; --file) {
            if (fs::path(desk.sources.name(file)).filename() == name) {
                return fs::path(desk.sources.name(file)).parent_path();
            }
        }
        return fs::path();
    };
    REQUIRE(desk.job()); // names catalogue.toml, which only the program's folder has
    CHECK(read_from("catalogue.toml") == examples);
    desk.write("shelf/catalogue.toml", records);
    REQUIRE(desk.job());
    CHECK(read_from("catalogue.toml").filename() == "shelf");
    desk.write("jobs/catalogue.toml", records);
    REQUIRE(desk.job());
    CHECK(read_from("catalogue.toml").filename() == "jobs");
    CHECK(desk.findings.empty());
}

TEST_CASE("a job that names no catalogue has all of the house") {
    std::ifstream in(examples / "catalogue.toml");
    Desk desk("catalogue = [\"shelf\"]\n");
    desk.write("shelf/parts.toml", std::string(std::istreambuf_iterator<char>(in), {}));
    const auto system = desk.job("catalogue =");
    for (const Finding& finding : desk.findings) {
        FAIL_CHECK(print(finding, desk.sources, false));
    }
    REQUIRE(system);
    CHECK(system->catalogue.find("solvane-405") != nullptr);
}

TEST_CASE("a link that leads out of the folder of the house is not followed") {
    Desk desk("logo = \"logo.svg\"\n");
    const fs::path folder =
        fs::temp_directory_path() / fmt::format("ohmfolio-house-{}", ::getpid());
    fs::create_symlink("/etc/hostname", folder / "logo.svg");
    CHECK_FALSE(desk.house().house.logo);
    REQUIRE(desk.findings.size() == 1);
    CHECK(desk.findings[0].rule == "input.path");
}
