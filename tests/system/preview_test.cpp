/// The preview: what it answers to whom, and its page in a real browser.
#include <csignal>
#include <fstream>

#include <httplib.h>

#include "browser.h"
#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;
namespace fs = std::filesystem;

namespace {

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

void replace_first(std::string& text, const std::string& what, const std::string& with) {
    const auto at = text.find(what);
    REQUIRE(at != std::string::npos);
    text.replace(at, what.size(), with);
}

/// The preview of a copy of the example, in a folder of its own.
class Preview {
  public:
    Preview()
        : file_(copied(ashgrove(), folder_.path())),
          program_({OHMFOLIO_BINARY, "preview", file_.string(), "--port", "0"}) {
        program_.wait_until_it_says("until Ctrl+C");
        port_ = std::stoi(all_matches(program_.output(), "127\\.0\\.0\\.1:([0-9]+)/").at(0));
    }

    const fs::path& folder() const { return folder_.path(); }
    const fs::path& file() const { return file_; }
    int port() const { return port_; }
    std::string address() const { return "http://127.0.0.1:" + std::to_string(port_) + "/"; }
    RunningProgram& program() { return program_; }

    httplib::Result get(const std::string& path, const httplib::Headers& headers = {}) const {
        return httplib::Client("127.0.0.1", port_).Get(path, headers);
    }
    Json state() const { return Json::parse(get("/state.json")->body); }

  private:
    TemporaryFolder folder_;
    fs::path file_;
    RunningProgram program_;
    int port_ = 0;
};

} // namespace

TEST_CASE("preview: answers to this machine alone, and only what the page is made of") {
    const Preview preview;
    CHECK(preview.get("/")->status == 200);
    CHECK(preview.get("/page.js")->get_header_value("Content-Type") ==
          "text/javascript; charset=utf-8");
    CHECK(preview.get("/sheets/E-601.svg")->status == 200);

    const std::string own = std::to_string(preview.port());
    CHECK(preview.get("/", {{"Host", "localhost:" + own}})->status == 200);
    for (const std::string& host :
         std::vector<std::string>{"ohmfolio.example", "127.0.0.1", "127.0.0.1.example:" + own,
                                  "192.0.2.7:" + own, "localhost:1", ""}) {
        CAPTURE(host);
        CHECK(preview.get("/state.json", {{"Host", host}})->status == 403);
        CHECK(preview.get("/changes", {{"Host", host}})->status == 403);
    }
    for (const std::string& path : std::vector<std::string>{
             "/ashgrove.toml", "/catalogue.toml", "/../ashgrove.toml", "/%2e%2e/etc/passwd",
             "/sheets/../../catalogue.toml", "/sheets/E-999.svg", "/sheets/.svg",
             "/preview/page.js", "//etc/passwd", "/page.js/"}) {
        CAPTURE(path);
        CHECK(preview.get(path)->status == 404);
    }
    httplib::Client client("127.0.0.1", preview.port());
    for (const auto& answer :
         {client.Post("/state.json", "{}", "application/json"), client.Delete("/sheets/E-601.svg"),
          client.Put("/", "text", "text/plain"), client.Patch("/"), client.Options("/")}) {
        REQUIRE(answer);
        CHECK(answer->status == 405);
        CHECK(answer->get_header_value("Allow") == "GET, HEAD");
    }
    const auto page = preview.get("/");
    CHECK(says(page->get_header_value("Content-Security-Policy"), "default-src 'none'"));
    CHECK(says(page->get_header_value("Content-Security-Policy"), "frame-ancestors 'none'"));
    CHECK(page->get_header_value("Cross-Origin-Resource-Policy") == "same-origin");
    CHECK(page->get_header_value("X-Content-Type-Options") == "nosniff");
    CHECK_FALSE(page->has_header("Access-Control-Allow-Origin"));
}

TEST_CASE("preview: listens on the loopback address, and writes nothing") {
    Preview preview;
    // The kernel's own list: addresses as hexadecimal, low byte first.
    char wanted[32];
    std::snprintf(wanted, sizeof wanted, "0100007F:%04X 00000000:0000 0A", preview.port());
    CHECK(says(read_file("/proc/net/tcp"), wanted));
    char anywhere[16];
    std::snprintf(anywhere, sizeof anywhere, ":%04X 0000", preview.port());
    CHECK_FALSE(says(read_file("/proc/net/tcp"), "00000000" + std::string(anywhere)));
    if (fs::exists("/proc/net/tcp6")) {
        CHECK_FALSE(says(read_file("/proc/net/tcp6"), anywhere));
    }

    const auto before = names_in(preview.folder());
    CHECK(preview.state().at("sheets").size() > 10);
    CHECK(preview.get("/origin.json?of=circuit:C1")->status == 200);
    CHECK(names_in(preview.folder()) == before);
    CHECK(preview.program().end(SIGINT) == 0);
}

TEST_CASE("preview: a port that is taken, and a file that is not there") {
    const Preview preview;
    const Outcome taken = run_ohmfolio(
        {"preview", preview.file().string(), "--port", std::to_string(preview.port())});
    CHECK(taken.exit_code == 2);
    CHECK(says(taken.err, "port " + std::to_string(preview.port()) + " is taken"));
    const Outcome missing = run_ohmfolio({"preview", "nowhere.toml"});
    CHECK(missing.exit_code == 2);
    CHECK(says(missing.err, "there is no file nowhere.toml"));
    CHECK(run_ohmfolio({"preview", preview.file().string(), "--port", "65536"}).exit_code == 2);
}

TEST_CASE("preview: the same sheets, findings and derivations as the other commands tell") {
    const Preview preview;
    const DrawnPacket packet(preview.file());
    const Json state = preview.state();
    std::vector<std::string> numbers;
    for (const Json& sheet : state.at("sheets")) {
        numbers.push_back(sheet.at("number"));
    }
    CHECK(numbers == packet.sheet_numbers());
    CHECK(preview.get("/sheets/E-601.svg")->body == read_file(packet.svg("E-601")));
    CHECK(state.at("findings").size() == packet.report().at("findings").size());
    const Json origin = Json::parse(preview.get("/origin.json?of=circuit:C5")->body);
    CHECK(origin.at("derivation") == run_ohmfolio({"explain", preview.file().string(), "C5"}).out);
    const Json place = origin.at("place");
    CHECK(place.at("file") == "ashgrove.toml");
    const Json nothing = Json::parse(preview.get("/origin.json?of=no%22thing")->body);
    CHECK(nothing.at("derivation") == "");
    CHECK_FALSE(nothing.contains("place"));
}

TEST_CASE("preview: the page turns sheets, comes nearer, and tells where a mark comes from") {
    const Preview preview;
    Browser browser(1500, 950);
    browser.open(preview.address() + "#E-601");
    browser.wait_until("document.querySelector('#board svg')");
    CHECK(browser.run("return document.querySelector('#sheets [aria-current] b').textContent") ==
          "E-601");
    CHECK(browser.run("return document.fonts.check('12px \"Roboto Condensed\"')") == true);
    const std::string in_sight =
        "return document.querySelector('#board svg').getAttribute('viewBox')";
    const auto whole = browser.run(in_sight);

    SECTION("by mouse") {
        const auto at = browser.run("const e = document.querySelector('#board text[data-shows="
                                    "\"circuit:C5\"]').getBoundingClientRect();"
                                    "return [e.x + e.width / 2, e.y + e.height / 2]");
        browser.click(at[0], at[1]);
        browser.wait_until("document.querySelector('#derivation').textContent.startsWith('C5:')");
        CHECK(browser.run("return document.querySelectorAll('#board .chosen').length") > 1);
        CHECK(browser.run("return document.querySelector('.source .here td').textContent") ==
              std::to_string(
                  Json::parse(preview.get("/origin.json?of=circuit:C5")->body)["place"]["line"]
                      .get<int>()));
        browser.drag(600, 400, 80, 30);
        CHECK(browser.run(in_sight) != whole);
        browser.run("document.querySelector('#whole').click()");
        CHECK(browser.run(in_sight) == whole);
    }
    SECTION("by keys alone") {
        browser.press(page_down_key);
        browser.wait_until("document.querySelector('#board svg').ariaLabel.startsWith('E-602')");
        browser.press(page_up_key);
        browser.wait_until("document.querySelector('#board svg').ariaLabel.startsWith('E-601')");
        browser.press("++");
        const auto near = browser.run(in_sight);
        CHECK(near != whole);
        // From the list of sheets by tabulator to the sheet, and on to the choice of marks.
        bool reached_board = false;
        for (int steps = 0; steps < 60 && !reached_board; ++steps) {
            browser.press(tab_key);
            reached_board = browser.run("return document.activeElement.id") == "board";
        }
        REQUIRE(reached_board);
        browser.press(right_key);
        CHECK(browser.run(in_sight) != near);
        browser.press("0");
        CHECK(browser.run(in_sight) == whole);
        bool reached_marks = false;
        for (int steps = 0; steps < 10 && !reached_marks; ++steps) {
            browser.press(tab_key);
            reached_marks = browser.run("return document.activeElement.id") == "marks";
        }
        REQUIRE(reached_marks);
        browser.press("circuit C5");
        browser.press(enter_key);
        browser.wait_until("document.querySelector('#derivation').textContent.startsWith('C5:')");
    }
    SECTION("every control has a name") {
        CHECK(browser.run(
                  "return [...document.querySelectorAll('button, select')].filter("
                  "(e) => !(e.ariaLabel || e.textContent.trim() || e.labels?.length)).length") ==
              0);
    }
    SECTION("light and dark") {
        const std::string desk = "return getComputedStyle(document.body).backgroundColor";
        const auto first = browser.run(desk);
        browser.press("l");
        CHECK(browser.run(desk) != first);
        browser.press("l");
        CHECK(browser.run(desk) == first);
    }
    CHECK(browser.complaints() == "");
}

TEST_CASE("preview: follows what is saved, and keeps the sheets of a file that cannot be read") {
    const Preview preview;
    Browser browser(1500, 950);
    browser.open(preview.address() + "#G-001");
    const std::string lettered = "document.querySelector('#board svg')?.textContent";
    browser.wait_until(lettered + ".includes('27 SORREL')", lettered);
    const std::string original = read_file(preview.file());

    // In place, as some editors write; and a new file put into its place, as others do.
    std::string text = original;
    replace_first(text, "27 Sorrel", "41 Sorrel");
    write_file(preview.file(), text);
    browser.wait_until(lettered + ".includes('41 SORREL')", lettered);
    replace_first(text, "41 Sorrel", "42 Sorrel");
    write_file(preview.folder() / ".draft", text);
    fs::rename(preview.folder() / ".draft", preview.file());
    browser.wait_until(lettered + ".includes('42 SORREL')", lettered);
    CHECK(browser.run("return document.querySelector('#board').classList.contains('old')") ==
          false);

    write_file(preview.file(), text + "\n[no_such_table]\n");
    browser.wait_until("document.querySelector('#list .error')");
    CHECK(browser.run("return document.querySelector('#board').classList.contains('old')") == true);
    CHECK(browser.run("return " + lettered + ".includes('42 SORREL')") == true);
    CHECK(says(browser.run("return document.querySelector('#status').textContent"),
               "The sheets shown are those of before"));
    browser.run("document.querySelector('#list .error').click()");
    browser.wait_until("document.querySelector('.source .here')?.textContent.includes("
                       "'[no_such_table]')");

    write_file(preview.file(), original);
    browser.wait_until(lettered + ".includes('27 SORREL')", lettered);
    CHECK(browser.run("return document.querySelector('#list .error')") == nullptr);

    // A catalogue is part of the job as well.
    const fs::path catalogue = preview.folder() / "catalogue.toml";
    write_file(catalogue, read_file(catalogue) + "\n[module.nonesuch]\n");
    browser.wait_until("document.querySelector('#list .error')");
    CHECK(browser.complaints() == "");
}

TEST_CASE("preview: says that it has ended") {
    Preview preview;
    Browser browser(1200, 800);
    browser.open(preview.address());
    browser.wait_until("document.querySelector('#board svg')");
    CHECK(preview.program().end(SIGTERM) == 0);
    browser.wait_until("document.querySelector('#status.gone')");
}
