/// Descriptions that nobody writes by hand: too much, too long, too deep, and no text at all. Each
/// is told with its place and what was expected, soon and within the memory of a small machine.
#include "odd_job.h"

using namespace ohmfolio::test;

namespace {

constexpr int ten_million = 10'000'000;

std::string record(int number, const std::string& lines) {
    return "[module.m" + std::to_string(number) + "]\n" + lines;
}

/// The nameplate of the catalogue's module, under another key each time.
std::string many_modules(int count) {
    const std::string lines =
        "maker = \"Solvane\"\nmodel = \"SV\"\nlisting = \"UL 61730\"\npower = \"405 W\"\n"
        "voc = \"37.2 V\"\nvmp = \"31.1 V\"\nisc = \"13.85 A\"\nimp = \"13.03 A\"\n"
        "voc_temperature = \"-0.26 %/C\"\nvmp_temperature = \"-0.31 %/C\"\n"
        "series_fuse = \"25 A\"\nwidth = \"1.13 m\"\nheight = \"1.72 m\"\n";
    std::string text;
    for (int i = 0; i < count; ++i)
        text += record(i, lines);
    return text;
}

} // namespace

TEST_CASE("limits: a count that no roof has room for is told, not tried") {
    const OddJob job;
    job.change("modules = 8", "modules = 1000000000");
    job.is_refused({"kestrel.toml:39:20: error: branch.PV-1.modules: 1000000000 is out of range",
                    "expected: a whole number, such as 8", "from 1 to 10000"});
    job.change("PV-1 =", "\"INV-1 to INV-99999999\" =");
    job.is_refused({"kestrel.toml:39:1: error: \"INV-1 to INV-99999999\" is not a range of ids",
                    "expected: one name with numbers that rise"});
    job.change("raceway = \"RMC\"", "raceway = \"RMC\", sets = 100000");
    job.is_refused({"panel.MSP.run.sets: 100000 is out of range", "from 1 to 10000"});
    job.change("\"concrete-encased\"", repeated("\"ground rod\", ", 20'000) + "\"ground rod\"");
    job.is_refused({"kestrel.toml:60:14: error: panel.MSP.electrodes lists 20002 values",
                    "expected: at most 1000"});
    std::string ranges, chain;
    for (int i = 0; i < 2000; ++i)
        ranges += "\"A" + std::to_string(i) + "-1 to A" + std::to_string(i) +
                  "-1000\" = { model = \"dunmere-jb\", feeds = \"CP-1\" }\n";
    for (int i = 0; i < 5000; ++i)
        chain += "[junction_box.X-" + std::to_string(i) +
                 "]\nmodel = \"dunmere-jb\"\nfeeds = \"X-" + std::to_string((i + 1) % 5000) +
                 "\"\nrun = { length = \"3 ft\" }\n";
    job.change("[combiner]", ranges + "[combiner]"); // two million
    job.is_refused({" pieces of equipment", "expected: at most 1000 in one set"});
    job.add(chain);
    job.is_refused({"5007 pieces of equipment", "expected: at most 1000 in one set"});
}

TEST_CASE("limits: a text of megabytes is refused, and the message shows a part of it") {
    const OddJob job;
    for (const int letters : {2'001, 100'000, ten_million}) {
        job.change("Kestrel house", std::string(static_cast<std::size_t>(letters), 'x'));
        job.is_refused(
            {"kestrel.toml:6:8: error: project.name: is longer than a sheet has room for",
             "expected: text, such as", "at most 2000 letters"});
        CHECK(job.draw().err.size() < 2'000);
    }
    const std::string id(5'000, 'J');
    job.change("[meter]", "[junction_box." + id + "]\n[meter]");
    job.is_refused(
        {"kestrel.toml:73:15: error:", "cannot be an id", "expected: at most 16 letters"});
    CHECK(job.draw().err.size() < 20'000);
    job.add(std::string(ten_million / 2, 'k') + " = 1");
    job.is_refused({"kestrel.toml:76:5000004: error:", " ... kkk", "expected: "});
    CHECK(job.draw().err.size() < 5'000);
}

TEST_CASE("limits: the mark stands under its value in a line that is shown in part") {
    const OddJob job;
    job.change("parcel = \"041-333-06\"", "[x]\ny = [" + repeated("\"a\", ", 200) + "\"\\q\", " +
                                              repeated("\"b\", ", 200) + "]");
    const std::string err = job.draw().err;
    INFO(err);
    const std::size_t line = err.find("\n  ...") + 1;
    const std::size_t next = err.find('\n', line) + 1;
    REQUIRE(line != 0);
    const std::size_t mark = err.find('^', next) - next;
    CHECK(err.substr(line + mark - 1, 2) == "\\q");
    CHECK(next - line < 260);
}

TEST_CASE("limits: what is nested without end is told where it passes the limit") {
    const OddJob job;
    job.change("\"9.2 kA\"", repeated("[", 10'000) + repeated("]", 10'000));
    job.is_refused({"kestrel.toml:28:", "lists or tables nested too deep",
                    "expected: text in the TOML format"});
    job.add("x = " + repeated("{ a = ", 500) + "1" + repeated(" }", 500));
    job.is_refused({"kestrel.toml:76:", "lists or tables nested too deep"});
    job.add("a" + repeated(".b", 1'000) + " = 1");
    job.is_refused({"kestrel.toml:76:402: error: a key with too many dots"});
    job.add("[a" + repeated(".b", 1'000) + "]");
    job.is_refused({"kestrel.toml:76:403: error: a key with too many dots"});
    job.describe(repeated("[", 100'000));
    job.is_refused({"kestrel.toml:1:3: error: key:"});
}

TEST_CASE("limits: a description is neither empty nor as large as a disk") {
    const OddJob job;
    job.describe("");
    job.is_refused({"kestrel.toml:1:1: error: the description is empty", "expected: keys such as"});
    job.describe(job.description() + repeated("# a line that says nothing\n", 4'000'000));
    job.is_refused({"cannot read \"kestrel.toml\": it is larger than 16 MiB"});
    job.describe(job.description());
    job.write("logo.svg", std::string(2 * ten_million, ' '));
    job.is_refused({"house.toml:3:8: error: cannot read \"logo.svg\": it is larger than 16 MiB",
                    "expected: the path of an SVG or a PNG"});
}

TEST_CASE("limits: a catalogue of 20,000 records is read, and told when all of it is faulty") {
    const OddJob job;
    const std::string catalogue = job.text("catalogue.toml");
    job.write("catalogue.toml", catalogue + many_modules(20'000));
    CHECK(job.run({"check", "kestrel.toml"}).exit_code == 0);
    job.change("module = \"solvane-405\"", "module = \"solvane-40\"");
    job.is_refused({"kestrel.toml:35:10: error: no module record \"solvane-40\"",
                    "did you mean \"solvane-405\"?"});
    job.describe(job.description());
    std::string faulty, chain;
    for (int i = 0; i < 20'000; ++i) {
        faulty += record(i, "maker = 1\n");
        chain += record(i, "extends = \"m" + std::to_string(i + 1) + "\"\n");
    }
    job.write("catalogue.toml", catalogue + faulty);
    job.is_refused({"module.m0.maker: is a whole number", "... and ", " more\n\n200000 errors"});
    job.write("catalogue.toml", catalogue + chain);
    job.is_refused({"\"m20\" stands behind too many records",
                    "expected: at most 20 records that extend one another"});
}

TEST_CASE("limits: what feeds itself, stands there twice or is unknown has its place told") {
    const OddJob job;
    job.change("feeds = \"CP-1\"", "feeds = \"JB-1\"");
    job.is_refused({"kestrel.toml:43:65: error: JB-1 -> JB-1 feed one another in a circle",
                    "expected: each neighbor toward the utility"});
    job.add(
        "[combiner.JB-1]\nmodel = \"wickhollow-c4\"\nfeeds = \"MSP\"\nrun = { length = \"3 ft\" }");
    job.is_refused({"kestrel.toml:76:11: error: \"JB-1\" is already the id of a junction box",
                    "expected: an id of its own"});
    job.add("[junction_box.JB-1]\nmodel = \"dunmere-jb\"");
    job.is_refused(
        {"kestrel.toml:76:1: error:", "cannot redefine existing table 'junction_box.JB-1'"});
    // Two breakers in one position of a panel: positions go by the name of what they feed.
    job.change("Range = {", "Range = \"50 A 2P\"\nRange = {");
    job.is_refused({"kestrel.toml:68:9: error:", "cannot redefine existing string 'Range'"});
    job.change("feeds = \"CP-1\"", "feeds = \"NOWHERE\"");
    job.is_refused({"kestrel.toml:43:65: error: there is no equipment \"NOWHERE\"",
                    "expected: the id of equipment of this description"});
}

TEST_CASE("limits: a number that is none, endless or beyond reason is refused where it stands") {
    const OddJob job;
    for (const char* count : {"nan", "inf", "-inf", "1e308"}) {
        job.change("modules = 8", std::string("modules = ") + count);
        job.is_refused({"kestrel.toml:39:20: error: branch.PV-1.modules: is a number",
                        "expected: a whole number"});
    }
    for (const char* count : {"-5", "0", "9223372036854775807"}) {
        job.change("modules = 8", std::string("modules = ") + count);
        job.is_refused({std::string(count) + " is out of range"});
    }
    for (const char* length : {"nan ft", "inf ft", "1e999 ft", "1/0 ft"}) {
        job.change("\"28 ft\"", "\"" + std::string(length) + "\"");
        job.is_refused({"kestrel.toml:39:77: error: branch.PV-1.run.length: \"" +
                            std::string(length) + "\" is not a length",
                        "expected: a length in ft, in, m, cm or mm"});
    }
    for (const char* length : {"1e308 ft", "1/1e-308 ft", "100001 ft"}) {
        job.change("\"28 ft\"", "\"" + std::string(length) + "\"");
        job.is_refused({"\"" + std::string(length) + "\" cannot be right"});
    }
    job.change("\"28 ft\"", "\"-28 ft\"");
    job.is_refused({"\"-28 ft\" is not above 0"});
    for (const char* amount : {"nan", "-inf", "1e300", "-1"}) {
        job.change("\"9.2 kA\"", amount);
        job.is_refused({"kestrel.toml:28:17: error: site.fault_current:", "has no unit",
                        "expected: a current in A or kA"});
        CHECK_FALSE(says(job.draw().err, "if you mean")); // nobody means that
    }
}

TEST_CASE("limits: every kind of quantity has an end to both sides") {
    const OddJob job;
    for (const char* ratio : {"nan", "inf", "-inf", "-1.25", "0", "1e308"}) {
        job.add("[limits]\ndc_ac_ratio = " + std::string(ratio));
        job.is_refused({"kestrel.toml:77:15: error: limits.dc_ac_ratio: ", " is out of range",
                        "a number above 0, at most 1000"});
    }
    for (const auto& [key, last] :
         std::vector<std::pair<std::string, std::string>>{{"coldest = \"", "-9 C"},
                                                          {"fault_current = \"", "9.2 kA"},
                                                          {"floor_area = \"", "1760 ft2"},
                                                          {"power = \"", "10.4 kVA"},
                                                          {"breaker = \"", "50 A 2P"},
                                                          {"service = \"120/240 V, ", "200 A"}}) {
        const std::string unit = last.substr(last.find(' '));
        for (const char* number : {"nan", "-inf", "1e308", "-1e308", "1e999"}) {
            job.change(key + last, key + number + unit);
            job.is_refused({"kestrel.toml:", number, "expected: "});
        }
    }
}

TEST_CASE("limits: a corner of a roof that is nowhere is refused") {
    const OddJob job;
    const std::string plan = read_file(ashgrove());
    const std::string corner = "\"45.5 ft, 15 ft\"";
    for (const auto& [written, wrong] : std::vector<std::pair<std::string, std::string>>{
             {"nan ft, 0 ft", "\"nan ft\" is not a distance"},
             {"inf ft, 0 ft", "\"inf ft\" is not a distance"},
             {"1e308 ft, 0 ft", "\"1e308 ft\" cannot be right"},
             {"0 ft, -1e300 ft", "\"-1e300 ft\" cannot be right"},
             {"-1e5 ft, 1e5 ft", "reaches beyond SOUTH ROOF"}}) {
        std::string text = plan;
        job.describe(text.replace(text.find(corner), corner.size(), "\"" + written + "\""));
        job.is_refused({wrong, "kestrel.toml:15", "expected: "});
    }
}

TEST_CASE("limits: what is no text in UTF-8 is said to be none") {
    const OddJob job;
    std::string wide;
    for (const char letter : job.description())
        wide += std::string{letter, '\0'};
    job.describe("\xFF\xFE" + wide);
    job.is_refused({"kestrel.toml:1:1: error: the file is saved as UTF-16",
                    "expected: text in UTF-8", "save the file again"});
    job.describe(std::string("\xFE\xFF\0", 3) + wide);
    job.is_refused({"kestrel.toml:1:1: error: the file is saved as UTF-16"});
    job.describe(wide); // without a mark: a letter and a NUL by turns
    job.is_refused({"kestrel.toml:1:2: error:", "control characters"});
    job.change("Kestrel house", "Kestrel h\xF4tel"); // Latin-1
    job.is_refused({"kestrel.toml:6:", "a letter that is not UTF-8", "expected: text in UTF-8"});
    job.change("Kestrel house", std::string("Kestrel\0house", 13));
    job.is_refused({"kestrel.toml:6:", "control characters"});
    CHECK_FALSE(says(job.draw().err, std::string(1, '\0')));
    job.describe(std::string(1'000, '\0'));
    job.is_refused({"kestrel.toml:1:1: error:"});
    job.describe("\xEF\xBB\xBF");
    job.is_refused({"kestrel.toml:1:1: error: the description is empty"});
    job.describe("[?");
    job.is_refused({"kestrel.toml:1:2: error: key:", "expected: text in the TOML format"});
}

TEST_CASE("limits: a message never sends a terminal what moves its cursor or sets its colors") {
    const OddJob job;
    job.change("Kestrel house", "Kestrel\x1B[31mhouse");
    job.is_refused({"kestrel.toml:6:", "Kestrel [31mhouse"});
    job.change("Kestrel house", "Kestrel\\u001B[31mhouse");
    job.is_refused(
        {"kestrel.toml:6:8: error: project.name: holds a line break or another character"});
    CHECK_FALSE(says(job.draw().err, "\x1B"));
    job.add("\"\\u001B[31m\\u202Eyek\" = 1");
    const Outcome key = job.draw();
    CHECK(key.exit_code == 2);
    CHECK_FALSE(says(key.err, "\x1B"));
    CHECK_FALSE(says(key.err, "\u202E"));
}

TEST_CASE("limits: findings about a file whose name is no UTF-8 are JSON all the same") {
    const OddJob job;
    job.write("k\xE9.toml", "x = \"\\q\"\n");
    for (const char* format : {"json", "sarif"}) {
        const Outcome outcome = job.run({"check", "k\xE9.toml", "--format", format});
        CAPTURE(outcome.out, outcome.err);
        CHECK(outcome.exit_code == 2);
        CHECK(Json::accept(outcome.out));
    }
}
