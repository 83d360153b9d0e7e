/// Many jobs in one command, none of which stops the others.
#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

namespace fs = std::filesystem;

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

const fs::path demonstration = OHMFOLIO_SOURCE "/examples/tolliver-bend";

/// A sound job, one that the code refuses, and one that cannot be read.
class Office {
  public:
    Office() {
        copied(demonstration / "kestrel.toml", jobs());
        copied(demonstration / "tollgate.toml", jobs());
        write_file(jobs() / "broken.toml", "[project\nname = ");
        const fs::path over = copied(ashgrove(), folder_.path() / "over",
                                     {{"breaker = \"100 A\", run", "breaker = \"20 A\", run"}});
        fs::copy_file(over, jobs() / "violating.toml");
    }
    Outcome draw(const std::string& out, const std::string& at_once, const Command& more = {},
                 const Circumstances& around = {}) const {
        Command command{"draw"};
        for (const char* stem : {"kestrel", "broken", "violating", "tollgate"}) {
            command.push_back((jobs() / (std::string(stem) + ".toml")).string());
        }
        const Command rest{"--out", (folder_.path() / out).string(), "--jobs", at_once};
        command.insert(command.end(), rest.begin(), rest.end());
        command.insert(command.end(), more.begin(), more.end());
        Outcome outcome = run_ohmfolio(command, around);
        UNSCOPED_INFO(outcome.out << outcome.err);
        return outcome;
    }
    fs::path folder() const { return folder_.path(); }

  private:
    fs::path jobs() const { return folder_.path() / "jobs"; }
    TemporaryFolder folder_;
};

} // namespace

TEST_CASE("one failure does not stop the rest, and a table tells of all") {
    const Office office;
    const Outcome outcome = office.draw("packets", "2");
    CHECK(outcome.exit_code == 2);
    CHECK(fs::exists(office.folder() / "packets/kestrel/kestrel.pdf"));
    CHECK(fs::exists(office.folder() / "packets/tollgate/tollgate.pdf"));
    CHECK_FALSE(fs::exists(office.folder() / "packets/broken"));
    CHECK_FALSE(fs::exists(office.folder() / "packets/violating"));
    CHECK(says(outcome.out, "kestrel    drawn"));
    CHECK(says(outcome.out, "broken     not drawn, errors"));
    CHECK(says(outcome.out, (office.folder() / "packets/kestrel/kestrel.pdf").string()));
    CHECK(says(outcome.out, "violating  violations"));
    CHECK(says(outcome.out, "2 of 4 sets drawn"));
    // In the order of the command, each under the name of its job.
    const auto broken = outcome.err.find("broken.toml"), violating = outcome.err.find("violating");
    REQUIRE(broken != std::string::npos);
    CHECK(broken < violating);
    CHECK(says(outcome.err, "[toml.syntax]"));
}

TEST_CASE("however many at once, the same comes out") {
    const Office office;
    const Outcome one = office.draw("one", "1"), three = office.draw("three", "3");
    CHECK(one.err == three.err);
    CHECK(one.exit_code == three.exit_code);
    std::string table = three.out;
    for (auto at = table.find("/three"); at != std::string::npos; at = table.find("/three"))
        table.replace(at, 6, "/one");
    CHECK(one.out == table);
    CHECK(files_below(office.folder() / "one") == files_below(office.folder() / "three"));
}

TEST_CASE("a set drawn among others is the set drawn alone") {
    const Office office;
    REQUIRE(office.draw("packets", "2").exit_code == 2);
    const DrawnPacket alone(demonstration / "kestrel.toml");
    CHECK(files_below(office.folder() / "packets/kestrel") == files_below(alone.folder()));
}

TEST_CASE("a job that the machine fails does not stop the rest") {
    const Office office;
    fs::create_directories(office.folder() / "packets/kestrel/kestrel.pdf"); // in its way
    const Outcome outcome = office.draw("packets", "2");
    CHECK(outcome.exit_code == 3);
    CHECK(says(outcome.out, "kestrel    failed"));
    CHECK(fs::exists(office.folder() / "packets/tollgate/tollgate.pdf"));
}

TEST_CASE("a job whose process dies does not stop the rest") {
    const Office office;
    const fs::path out = office.folder() / "packets";
    Circumstances around;
    around.environment["LD_PRELOAD"] = OHMFOLIO_FAULT_SHIM;
    around.environment["OHMFOLIO_FAULT_FOLDER"] = (out / "kestrel").string();
    around.environment["OHMFOLIO_FAULT_KIND"] = "kill";
    around.environment["OHMFOLIO_FAULT_CALL"] = "1";
    around.environment["ASAN_OPTIONS"] = "verify_asan_link_order=0:detect_leaks=0";
    const Outcome outcome = office.draw("packets", "2", {}, around);
    CHECK(outcome.exit_code == 3);
    CHECK(says(outcome.out, "kestrel    stopped by signal 9"));
    CHECK(says(outcome.err, "kestrel.toml\nthe process was stopped by signal 9"));
    CHECK(fs::exists(out / "tollgate/tollgate.pdf"));
}

TEST_CASE("a set that was issued is kept in a batch as well") {
    const Office office;
    REQUIRE(office.draw("packets", "2").exit_code == 2);
    const std::string issued = read_file(office.folder() / "packets/kestrel/kestrel.pdf");
    std::string text = read_file(office.folder() / "jobs/kestrel.toml");
    const std::string name = "\nname = \"";
    text.insert(text.find(name) + name.size(), "New ");
    write_file(office.folder() / "jobs/kestrel.toml", text);
    const Outcome again = office.draw("packets", "2");
    CHECK(says(again.out, "kestrel    kept as issued"));
    CHECK(says(again.out, "tollgate   drawn"));
    CHECK(read_file(office.folder() / "packets/kestrel/kestrel.pdf") == issued);
}

TEST_CASE("two jobs of one name are refused before anything is drawn") {
    const TemporaryFolder folder;
    const fs::path first = copied(demonstration / "kestrel.toml", folder.path() / "a");
    const fs::path second = copied(demonstration / "kestrel.toml", folder.path() / "b");
    const Outcome outcome = run_ohmfolio(
        {"draw", first.string(), second.string(), "--out", (folder.path() / "out").string()});
    CHECK(outcome.exit_code == 2);
    CHECK(says(outcome.err, "would be drawn into one folder"));
    CHECK_FALSE(fs::exists(folder.path() / "out"));
}
