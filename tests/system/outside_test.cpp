/// What a job that came from elsewhere may reach: nothing outside its folder, the house's and the
/// program's; and what stands in the way of reading or writing.
#include <array>
#include <fstream>

#include <sys/stat.h>
#include <unistd.h>

#include "odd_job.h"

using namespace ohmfolio::test;

namespace {

namespace fs = std::filesystem;

const std::string secret = "root:Larkspur-4711:0:0";

/// Every byte that the program said or wrote.
std::string all_output(const OddJob& job, const Outcome& outcome) {
    std::string all = outcome.out + outcome.err;
    if (fs::exists(job.path("out"))) {
        for (const auto& [name, bytes] : files_below(job.path("out")))
            all += name + bytes;
    }
    return all;
}

void make_pipe(const fs::path& path) {
    fs::remove_all(path);
    REQUIRE(::mkfifo(path.c_str(), 0600) == 0);
}

/// A drawing of the size of the example's logo.
std::string logo_of(const std::string& inner, const std::string& before = "") {
    return before +
           "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 42 12\" width=\"42mm\" "
           "height=\"12mm\" data-kind=\"mark\">\n<title>Larkmoor</title>\n"
           "<g data-symbol=\"logo\" fill=\"none\" stroke=\"black\" class=\"medium\" "
           "stroke-width=\"0.35\">\n" +
           inner + "\n</g></svg>\n";
}

std::string four_bytes(unsigned number) {
    std::string bytes;
    for (const unsigned shift : {24U, 16U, 8U, 0U})
        bytes += static_cast<char>(number >> shift & 0xFFU);
    return bytes;
}

/// A PNG that states a size and holds no pixels.
std::string hollow_png(unsigned width, unsigned height) {
    return "\x89PNG\r\n\x1a\n" + four_bytes(13) + "IHDR" + four_bytes(width) + four_bytes(height) +
           std::string("\x08\x02\0\0\0", 5) + four_bytes(0) + four_bytes(0) + "IEND" +
           four_bytes(0);
}

/// The folder of the packet is as it was, and the machine is blamed.
void cannot_write(const OddJob& job, const Outcome& outcome, const std::string& words) {
    CAPTURE(outcome.err);
    CHECK(outcome.exit_code == 3);
    CHECK(says(outcome.err, "ohmfolio: " + words));
    CHECK(outcome.out.empty());
    for (const std::string& name : names_in(job.folder()))
        CHECK_FALSE(name.ends_with(".part"));
}

} // namespace

TEST_CASE("outside: a name that leads out of the folder is refused, and what is there not read") {
    const OddJob job;
    write_file(job.around() / "secret", secret);
    write_file(job.around() / "secret.pdf", secret);
    write_file(job.around() / "secret.svg", secret);
    const std::string above = job.around().string();
    for (const std::string& name :
         {std::string("../secret"), above + "/secret", std::string("../../etc/passwd"),
          std::string("/etc/passwd"), std::string("/dev/zero")}) {
        job.change("\"catalogue.toml\"", "\"" + name + "\"");
        job.is_refused({"kestrel.toml:2:13: error: \"" + name + "\" is no catalogue",
                        "expected: a file that ends in .toml"});
        CHECK_FALSE(says(job.draw().err, "Larkspur"));
    }
    job.describe(job.description());
    const std::string catalogue = job.text("catalogue.toml");
    for (const std::string& name :
         {std::string("../secret.pdf"), above + "/secret.pdf", std::string("/etc/passwd")}) {
        std::string text = catalogue;
        const std::string sheet = "datasheets/sv-405m.pdf";
        job.write("catalogue.toml", text.replace(text.find(sheet), sheet.size(), name));
        job.is_refused({"catalogue.toml:7:13: error: \"" + name +
                            "\" is not within the folder of the file that names it",
                        "expected: a path such as"});
    }
    job.write("catalogue.toml", catalogue);
    job.write("house.toml", "logo = \"../secret.svg\"\n");
    job.is_refused(
        {"house.toml:1:8: error: \"../secret.svg\" does not lie in the folder of the house",
         "expected: a path within that folder"});
}

TEST_CASE("outside: a forbidden file is not even opened") {
    // A pipe that nobody writes to keeps whoever opens it waiting.
    const OddJob job;
    make_pipe(job.around() / "pipe.toml");
    make_pipe(job.around() / "pipe");
    job.change("\"catalogue.toml\"", "\"../pipe\"");
    job.is_refused({"\"../pipe\" is no catalogue"});
    job.change("\"catalogue.toml\"", "\"../pipe.toml\"");
    job.is_refused({"cannot read \"../pipe.toml\": it is no plain file"});
    job.describe(job.description());
    job.link("datasheets/sv-405m.pdf", job.around() / "pipe");
    job.is_refused({"catalogue.toml:7:13: error:", "is not within the folder"});
    make_pipe(job.path("datasheets/sv-405m.pdf"));
    job.is_refused({"catalogue.toml:7:13: error: cannot read", "it is no plain file"});
    job.link("logo.svg", job.around() / "pipe");
    job.is_refused({"house.toml:3:8: error: \"logo.svg\" does not lie in the folder"});
    make_pipe(job.path("logo.svg"));
    job.is_refused({"house.toml:3:8: error: cannot read \"logo.svg\": it is no plain file"});
}

TEST_CASE("outside: a link is followed within the folder, to a catalogue, and nowhere else") {
    const OddJob job;
    fs::rename(job.path("kestrel.toml"), job.path("real.toml"));
    job.link("kestrel.toml", "real.toml");
    fs::rename(job.path("catalogue.toml"), job.around() / "shared.toml");
    job.link("catalogue.toml", job.around() / "shared.toml");
    CHECK(job.draw().exit_code == 0);
    fs::remove_all(job.path("out"));
    write_file(job.around() / "secret", secret);
    job.link("catalogue.toml", job.around() / "secret");
    job.is_refused({"kestrel.toml:2:13: error: \"catalogue.toml\" is no catalogue"});
    CHECK_FALSE(says(all_output(job, job.draw()), "Larkspur"));
    job.link("catalogue.toml", "catalogue.toml");
    job.is_refused({"kestrel.toml:2:13: error: cannot read \"catalogue.toml\"", "symbolic links"});
    job.link("catalogue.toml", job.around() / "shared.toml");
    job.link("kestrel.toml", "kestrel.toml");
    job.is_refused({"cannot read \"kestrel.toml\"", "symbolic links"});
}

TEST_CASE("outside: a cut sheet that a link leads away from the folder is not bound into the set") {
    const OddJob job;
    const fs::path elsewhere = job.around() / "private.pdf";
    fs::copy_file(job.path("datasheets/wm-340.pdf"), elsewhere);
    job.link("datasheets/sv-405m.pdf", elsewhere);
    job.is_refused(
        {"catalogue.toml:7:13: error: \"datasheets/sv-405m.pdf\" is not within the folder",
         "copy the PDF beside this file"});
    job.link("datasheets/sv-405m.pdf", "wm-340.pdf");
    CHECK(job.draw().exit_code == 0);
    // A catalogue that is a link has its cut sheets where it lies.
    fs::create_directory(job.around() / "shared");
    for (const char* name : {"catalogue.toml", "datasheets"}) {
        fs::rename(job.path(name), job.around() / "shared" / name);
        job.link(name, job.around() / "shared" / name);
    }
    CHECK(job.draw({"--replace"}).exit_code == 0);
}

TEST_CASE("outside: what cannot be read is named") {
    // Permissions do not count for root, for whom a folder stands in the file's place.
    const OddJob job;
    for (const auto& [name, told] : std::vector<std::pair<std::string, std::string>>{
             {"logo.svg", "house.toml:3:8: error: cannot read \"logo.svg\""},
             {"datasheets/sv-405m.pdf", "catalogue.toml:7:13: error: cannot read"},
             {"catalogue.toml", "kestrel.toml:2:13: error: cannot read \"catalogue.toml\""},
             {"house.toml", "cannot read \"house.toml\""},
             {"kestrel.toml", "cannot read \"kestrel.toml\""}}) {
        const std::string bytes = job.text(name);
        if (::geteuid() != 0) {
            fs::permissions(job.path(name), fs::perms::none);
            job.is_refused({told, "Permission denied"});
        }
        fs::remove(job.path(name));
        fs::create_directory(job.path(name));
        job.is_refused({told, "it is a folder"});
        fs::remove(job.path(name));
        job.write(name, bytes);
    }
}

TEST_CASE("outside: where no folder can be made, the machine's own words say so") {
    const OddJob job;
    job.write("file", "mine");
    for (const auto& [out, words] : std::vector<std::pair<std::string, std::string>>{
             {"file", "cannot make the folder file: "},
             {"file/below", "cannot make the folder file/below: Not a directory"},
             {"/dev/full", "cannot make the folder /dev/full: "},
             {"/proc/packet", "cannot make the folder /proc/packet: "},
             {"/proc", "cannot write /proc/"},
             {std::string(300, 'x'), "cannot make the folder xxx"}}) {
        const auto before = files_below(job.folder());
        cannot_write(job, job.run({"draw", "kestrel.toml", "--out", out}), words);
        CHECK(files_below(job.folder()) == before);
    }
}

TEST_CASE("outside: a full disk leaves the packet before as it was") {
    const OddJob job;
    REQUIRE(job.draw().exit_code == 0);
    const auto before = files_below(job.path("out"));
    job.change("Kestrel house", "Kestrel barn");
    constexpr unsigned long few_bytes = 20'000;
    Circumstances full;
    full.largest_file = few_bytes;
    cannot_write(job, job.draw({"--replace"}, full), "cannot write out/");
    CHECK(files_below(job.path("out")) == before);
    const Outcome record = OddJob().draw({"--record", "/dev/full"});
    CHECK(record.exit_code == 2);
    CHECK(says(record.err, "/dev/full is not understood as a record of issues"));
}

TEST_CASE("outside: nothing that a set is made from is overwritten by it") {
    const OddJob job;
    const auto before = files_below(job.folder());
    const auto keeps = [&](const Command& command, const std::string& file) {
        const Outcome outcome = job.run(command);
        INFO(outcome.err);
        CHECK(outcome.exit_code == 2);
        CHECK(says(outcome.err, "written over " + file + ", which is read for it"));
        CHECK(files_below(job.folder()) == before);
    };
    keeps({"draw", "kestrel.toml", "--out", "out", "--record", "out/kestrel.pdf"},
          "out/kestrel.pdf");
    keeps({"draw", "kestrel.toml", "--out", "out", "--record", "out/../out/kestrel-E-601.svg"},
          "out/../out/kestrel-E-601.svg");
    for (const std::string name : {"kestrel.pdf", "report.json"}) {
        const OddJob other;
        other.write(name, other.description());
        const Outcome outcome = other.run({"draw", name, "--out", "."});
        INFO(name << ": " << outcome.err);
        CHECK(outcome.exit_code == 2);
        CHECK(other.text(name) == other.description());
    }
}

TEST_CASE("outside: two runs that write one packet at a time leave a whole one of either") {
    const OddJob job;
    const auto draw = [&](const std::string& name, const std::string& out) {
        job.change("Kestrel house", name);
        REQUIRE(job.run({"draw", "kestrel.toml", "--out", out}).exit_code == 0);
        return files_below(job.path(out));
    };
    const auto house = draw("Kestrel mill", "mill");
    const auto barn = draw("Kestrel barn", "barn");
    const std::string once = "\"$0\" draw mill.d/kestrel.toml --out both --replace & \"$0\" draw "
                             "barn.d/kestrel.toml --out both --replace; "
                             "code=$?; wait $! && exit $code";
    for (const char* name : {"mill", "barn"}) {
        fs::create_directory(job.path(std::string(name) + ".d"));
        for (const auto& entry : fs::directory_iterator(job.folder())) {
            if (entry.path().extension() == ".toml" || entry.path().filename() == "datasheets" ||
                entry.path().filename() == "logo.svg") {
                fs::copy(entry.path(), job.path(std::string(name) + ".d") / entry.path().filename(),
                         fs::copy_options::recursive);
            }
        }
    }
    std::string text = job.text("mill.d/kestrel.toml");
    text.replace(text.find("Kestrel barn"), 12, "Kestrel mill");
    job.write("mill.d/kestrel.toml", text);
    for (int round = 0; round < 5; ++round) {
        fs::remove_all(job.path("both"));
        const Outcome outcome =
            run_program({"sh", "-c", once, OHMFOLIO_BINARY}, {.folder = job.folder()});
        INFO(outcome.err);
        CHECK(outcome.exit_code == 0);
        const auto both = files_below(job.path("both"));
        CHECK((both == house || both == barn));
    }
}

TEST_CASE("outside: what is told to a full disk is an error of the machine") {
    const OddJob job;
    const std::vector<std::string> commands{"check kestrel.toml", "explain kestrel.toml C1", "keys",
                                            "schema", "draw kestrel.toml --out out"};
    for (const std::string& command : commands) {
        for (const std::string where : {">/dev/full", ">&-"}) {
            const Outcome outcome =
                run_program({"sh", "-c", "\"$0\" " + command + " " + where, OHMFOLIO_BINARY},
                            {.folder = job.folder()});
            INFO(command << where << ": " << outcome.err);
            CHECK(outcome.exit_code == 3);
            CHECK(says(outcome.err, "cannot write the standard output"));
        }
    }
}

TEST_CASE("outside: a file larger than the system allows is told, and leaves nothing behind") {
    const OddJob job;
    const Outcome outcome = run_program(
        {"sh", "-c", "ulimit -f 40; \"$0\" draw kestrel.toml --out out", OHMFOLIO_BINARY},
        {.folder = job.folder()});
    cannot_write(job, outcome, "cannot write out/.kestrel.pdf.part: File too large");
    CHECK(files_below(job.path("out")).empty());
}

TEST_CASE(
    "outside: a link in the place of a sheet is replaced, one in that of a temporary refused") {
    const OddJob job;
    const fs::path other = job.around() / "other";
    write_file(other, "of somebody else");
    fs::create_directory(job.path("out"));
    job.link("out/kestrel.pdf", other);
    CHECK(job.draw().exit_code == 0);
    CHECK_FALSE(fs::is_symlink(job.path("out/kestrel.pdf")));
    CHECK(read_file(other) == "of somebody else");
    const auto before = files_below(job.path("out"));
    job.link("out/.kestrel.pdf.part", other);
    cannot_write(job, job.draw(), "cannot write out/.kestrel.pdf.part: ");
    CHECK(read_file(other) == "of somebody else");
    CHECK(files_below(job.path("out")) == before);
}

TEST_CASE("outside: an output folder that is a link is the folder it leads to, if there is one") {
    const OddJob job;
    fs::create_directory(job.around() / "server");
    job.link("out", job.around() / "server");
    CHECK(job.draw().exit_code == 0);
    CHECK(fs::exists(job.around() / "server/kestrel.pdf"));
    for (const char* target : {"nowhere", "out"}) {
        job.link("out", target);
        cannot_write(job, job.draw(), "cannot make the folder out: ");
        CHECK_FALSE(fs::exists(job.path("nowhere")));
    }
}

TEST_CASE("outside: a logo too large to draw is refused before it is drawn") {
    const OddJob job;
    const std::string line = "<line x1=\"1\" y1=\"1\" x2=\"5\" y2=\"5\"/>";
    for (const std::string& inner : {repeated("<a/>", 1'000'000), repeated(line, 20'000),
                                     repeated("<g>", 10'000) + line + repeated("</g>", 10'000)}) {
        job.write("logo.svg", logo_of(inner));
        job.is_refused(
            {"logo.svg:1:1: error: the drawing has too many elements", "expected: at most 1000"});
    }
    job.write("logo.svg", logo_of("<path d=\"M1 1" + repeated(" L5 5 L1 1", 500'000) + "\"/>"));
    job.is_refused({"logo.svg:1:2: error: the outlines have too many corners",
                    "expected: at most 20000 in all"});
    job.write("logo.svg", repeated("<g>", 1'000'000));
    job.is_refused({"logo.svg:1:3000000: error: not well-formed XML"});
    job.write("house.toml", "logo = \"logo.png\"\n");
    job.write("logo.png", hollow_png(60'000, 60'000));
    job.is_refused({"house.toml:1:8: error: the logo cannot be drawn: it has 60000 x 60000 pixels",
                    "expected: a PNG of at most 4000 pixels a side"});
    job.write("logo.png", hollow_png(100, 100));
    job.is_refused({"house.toml:1:8: error: the logo cannot be drawn: its pixels cannot be read"});
}

TEST_CASE("outside: a logo that refers to something else is refused, and nothing is fetched") {
    const OddJob job;
    write_file(job.around() / "secret.svg", secret);
    make_pipe(job.around() / "pipe.svg");
    for (const std::string& target :
         {(job.around() / "secret.svg").string(), (job.around() / "pipe.svg").string(),
          std::string("http://127.0.0.1:9/x.svg")}) {
        for (const std::string& element :
             {"<image href=\"" + target + "\" width=\"5\" height=\"5\"/>",
              "<use href=\"" + target + "#a\"/>", "<style>@import url(" + target + ")</style>",
              std::string("<script>0</script>")}) {
            job.write("logo.svg", logo_of(element));
            job.is_refused(
                {"logo.svg:4:2: error: <", "> cannot stand here", "expected: one of line"});
        }
        job.write("logo.svg", logo_of("<line x1=\"1\" y1=\"1\" x2=\"5\" y2=\"5\" stroke=\"url(" +
                                      target + "#a)\" href=\"" + target + "\"/>"));
        job.is_refused({"logo.svg:4:", "<line> has unknown attribute \"href\""});
        CHECK_FALSE(says(all_output(job, job.draw()), "Larkspur"));
    }
}

TEST_CASE("outside: a symbol that refers to something else or declares entities is refused") {
    const OddJob job;
    const fs::path file = OHMFOLIO_SOURCE "/symbols/ground.svg";
    std::string symbol = read_file(file);
    symbol.insert(symbol.find("</g>"), "<image href=\"/etc/passwd\"/>");
    job.write("own/ground.svg", symbol);
    Outcome outcome = job.draw({"--symbols", "own"});
    CHECK(outcome.exit_code == 2);
    CHECK(says(outcome.err, "<image> cannot stand here"));
    job.write("own/ground.svg", "<!DOCTYPE svg [<!ENTITY a \"b\">]>" + read_file(file));
    outcome = job.draw({"--symbols", "own"});
    CHECK(outcome.exit_code == 2);
    CHECK(says(outcome.err, "ground.svg:1:11: error: a document type is not understood"));
    job.link("own/ground.svg", "/dev/zero");
    outcome = job.draw({"--symbols", "own"});
    CHECK(outcome.exit_code == 2);
    CHECK(says(outcome.err, "cannot read own/ground.svg"));
    CHECK_FALSE(fs::exists(job.path("out")));
}

TEST_CASE("outside: entities of a logo are neither read from a file nor multiplied") {
    const OddJob job;
    write_file(job.around() / "secret", secret);
    const std::string use =
        "<line x1=\"1\" y1=\"1\" x2=\"&a9;\" y2=\"5\"/><text x=\"1\" y=\"5\">&a9;</text>";
    const std::string outer = "<!DOCTYPE svg [<!ENTITY a9 SYSTEM \"file://" +
                              (job.around() / "secret").string() + "\">]>";
    std::string laughs = "<!DOCTYPE svg [<!ENTITY a0 \"ha\">";
    for (int i = 1; i < 10; ++i)
        laughs += "<!ENTITY a" + std::to_string(i) + " \"" +
                  repeated("&a" + std::to_string(i - 1) + ";", 10) + "\">";
    for (const std::string& before :
         {outer, laughs + "]>",
          std::string("<!DOCTYPE svg SYSTEM \"http://127.0.0.1:9/svg11.dtd\">")}) {
        job.write("logo.svg", logo_of(use, before));
        job.is_refused({"logo.svg:1:11: error: a document type is not understood",
                        "expected: a file that begins with <svg>"});
        CHECK_FALSE(says(all_output(job, job.draw()), "Larkspur"));
    }
}
