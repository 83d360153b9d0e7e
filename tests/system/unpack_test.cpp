/// The packet carries what it was drawn from, and gives it back.
#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

namespace fs = std::filesystem;

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

Outcome unpack(const fs::path& packet, const fs::path& out, const Command& more = {}) {
    Command command{"unpack", packet.string(), "--out", out.string()};
    command.insert(command.end(), more.begin(), more.end());
    Outcome outcome = run_ohmfolio(command);
    UNSCOPED_INFO(outcome.out << outcome.err);
    return outcome;
}

/// The example's packet in qpdf's open form, with one name changed for another as long.
fs::path with_name(const std::string& from, const std::string& to, const fs::path& folder) {
    REQUIRE(from.size() == to.size());
    const fs::path open = folder / "open.pdf";
    const Outcome outcome = run_program({"qpdf", "--qdf", "--object-streams=disable",
                                         example_packet().pdf().string(), open.string()});
    REQUIRE(outcome.exit_code == 0);
    std::string bytes = read_file(open);
    std::size_t changed = 0;
    for (std::size_t at = bytes.find(from); at != std::string::npos;
         at = bytes.find(from, at + to.size())) {
        bytes.replace(at, from.size(), to);
        ++changed;
    }
    REQUIRE(changed > 0);
    write_file(open, bytes);
    return open;
}

} // namespace

TEST_CASE("attached are the description, what it names, and the report, byte for byte") {
    const TemporaryFolder folder;
    const Outcome saved = run_program(
        {"pdfdetach", "-saveall", "-o", folder.path().string(), example_packet().pdf().string()});
    CAPTURE(saved.err);
    const fs::path job = ashgrove().parent_path();
    const Outcome list = run_program({"pdfdetach", "-list", example_packet().pdf().string()});
    CAPTURE(list.out);
    CHECK(says(list.out, "9 embedded files"));
    const TemporaryFolder unpacked;
    REQUIRE(unpack(example_packet().pdf(), unpacked.path()).exit_code == 0);
    const auto files = files_below(unpacked.path());
    CHECK(files.size() == 9);
    for (const char* name :
         {"ashgrove.toml", "catalogue.toml", "house.toml", "logo.svg", "datasheets/sv-405m.pdf",
          "datasheets/wm-340.pdf", "datasheets/wb-10.pdf", "letters/ashgrove-roof.pdf"}) {
        CAPTURE(name);
        CHECK(says(list.out, name));
        CHECK(files.at(name) == read_file(job / name));
    }
    CHECK(files.at("report.json") == read_file(example_packet().folder() / "report.json"));
}

TEST_CASE("other programs are told what the files are, and what language the sheets speak") {
    const TemporaryFolder folder;
    const std::string open = read_file(with_name("report.json", "report.json", folder.path()));
    CHECK(says(open, "/AFRelationship /Source"));
    CHECK(says(open, "/AFRelationship /Data"));
    CHECK(says(open, "/Lang (en-US)"));
    CHECK(says(open, "/DisplayDocTitle true"));
    CHECK(says(open, "/ID ["));
    CHECK_FALSE(says(open, OHMFOLIO_SOURCE)); // nothing of the machine
}

TEST_CASE("drawing what was unpacked gives the same packet") {
    const TemporaryFolder folder;
    const Outcome outcome = unpack(example_packet().pdf(), folder.path());
    REQUIRE(outcome.exit_code == 0);
    CHECK(says(outcome.out, (folder.path() / "datasheets/wb-10.pdf").string()));
    CHECK(says(outcome.out, "ohmfolio draw " + (folder.path() / "ashgrove.toml").string()));
    const DrawnPacket again(folder.path() / "ashgrove.toml");
    CHECK(read_file(again.pdf()) == read_file(example_packet().pdf()));
}

TEST_CASE("a catalogue beside the folder of the job is restored beside it") {
    const TemporaryFolder folder;
    const fs::path job = folder.path() / "jobs/spring/ashgrove.toml";
    fs::create_directories(job.parent_path());
    copied(ashgrove(), folder.path() / "parts");
    fs::rename(folder.path() / "parts/ashgrove.toml", job);
    fs::rename(folder.path() / "parts/letters", job.parent_path() / "letters");
    std::string text = read_file(job);
    const std::string name = "\"catalogue.toml\"";
    text.replace(text.find(name), name.size(), "\"../../parts/catalogue.toml\"");
    write_file(job, text);
    const DrawnPacket drawn(job);
    const TemporaryFolder unpacked;
    REQUIRE(unpack(drawn.pdf(), unpacked.path()).exit_code == 0);
    CHECK(fs::exists(unpacked.path() / "parts/datasheets/wb-10.pdf"));
    const DrawnPacket again(unpacked.path() / "folder/folder/ashgrove.toml");
    CHECK(read_file(again.pdf()) == read_file(drawn.pdf()));
}

TEST_CASE("a house named by option is restored in a folder of its own") {
    const TemporaryFolder folder;
    const fs::path job = copied(ashgrove(), folder.path() / "job");
    fs::create_directories(folder.path() / "office");
    for (const char* name : {"house.toml", "logo.svg"}) {
        fs::remove(folder.path() / "job" / name);
        fs::copy_file(ashgrove().parent_path() / name, folder.path() / "office" / name);
    }
    const std::string house = (folder.path() / "office/house.toml").string();
    const DrawnPacket drawn(job, {"--house", house});
    const TemporaryFolder unpacked;
    REQUIRE(unpack(drawn.pdf(), unpacked.path()).exit_code == 0);
    CHECK(read_file(unpacked.path() / "house/house.toml") == read_file(house));
    const DrawnPacket again(unpacked.path() / "ashgrove.toml",
                            {"--house", (unpacked.path() / "house/house.toml").string()});
    CHECK(read_file(again.pdf()) == read_file(drawn.pdf()));
}

TEST_CASE("unpack overwrites nothing of another content unless it is told to") {
    const TemporaryFolder folder;
    REQUIRE(unpack(example_packet().pdf(), folder.path()).exit_code == 0);
    CHECK(unpack(example_packet().pdf(), folder.path()).exit_code == 0); // the same again
    write_file(folder.path() / "catalogue.toml", "mine");
    fs::remove(folder.path() / "ashgrove.toml");
    const Outcome refused = unpack(example_packet().pdf(), folder.path());
    CHECK(refused.exit_code == 2);
    CHECK(says(refused.err, "\"catalogue.toml\" is not unpacked"));
    CHECK(says(refused.err, "--force"));
    CHECK(read_file(folder.path() / "catalogue.toml") == "mine");
    CHECK_FALSE(fs::exists(folder.path() / "ashgrove.toml")); // all or nothing
    CHECK(unpack(example_packet().pdf(), folder.path(), {"--force"}).exit_code == 0);
    CHECK(read_file(folder.path() / "catalogue.toml") ==
          read_file(ashgrove().parent_path() / "catalogue.toml"));
}

TEST_CASE("unpack writes nowhere but into its folder") {
    const TemporaryFolder folder;
    for (const char* name : {"../rep.json", "/rport.json", "a\\..\\b.jso"}) {
        const std::string to = name;
        CAPTURE(to);
        const std::string from = std::string("report.json").substr(0, to.size());
        const TemporaryFolder scratch;
        const fs::path out = folder.path() / "deep/out";
        const Outcome refused = unpack(with_name(from, to, scratch.path()), out);
        CHECK(refused.exit_code == 2);
        CHECK(says(refused.err, "leads out of the folder"));
        CHECK_FALSE(fs::exists(out));
    }
    const TemporaryFolder elsewhere;
    fs::create_directories(folder.path() / "linked");
    fs::create_directory_symlink(elsewhere.path(), folder.path() / "linked/datasheets");
    const Outcome refused = unpack(example_packet().pdf(), folder.path() / "linked");
    CHECK(refused.exit_code == 2);
    CHECK(says(refused.err, "a link stands in its way"));
    CHECK(names_in(elsewhere.path()).empty());
}

TEST_CASE("unpack says what is wrong with a file that is no packet") {
    const TemporaryFolder folder;
    const fs::path out = folder.path() / "out";
    const auto refusal = [&out](const fs::path& packet) {
        const Outcome outcome = unpack(packet, out);
        CHECK(outcome.exit_code == 2);
        CHECK(outcome.out.empty());
        CHECK_FALSE(fs::exists(out));
        return outcome.err;
    };
    CHECK(says(refusal(folder.path() / "none.pdf"), "it cannot be read"));
    CHECK(says(refusal(folder.path()), "it cannot be read"));
    CHECK(says(refusal(ashgrove()), "it is not a PDF"));
    CHECK(says(refusal(ashgrove().parent_path() / "datasheets/wb-10.pdf"),
               "it carries no description"));
    const std::string whole = read_file(example_packet().pdf());
    write_file(folder.path() / "cut.pdf", whole.substr(0, whole.size() / 2));
    CHECK(says(refusal(folder.path() / "cut.pdf"), "it is damaged"));
    const fs::path locked = folder.path() / "locked.pdf";
    REQUIRE(run_program({"qpdf", "--encrypt", "open", "owner", "256", "--",
                         example_packet().pdf().string(), locked.string()})
                .exit_code == 0);
    CHECK(says(refusal(locked), "needs a password"));
}
