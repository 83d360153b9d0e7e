/// The same input gives the same bytes, whoever runs the program, where and when.
#include <clocale>
#include <locale>
#include <sstream>

#include "app/commands.h"
#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

constexpr const char* german = "de_DE.UTF-8"; // writes 1.234,5 for 1,234.5

/// Files of the packet of `system`, drawn in these circumstances into a new folder.
std::map<std::string, std::string> drawn(const std::filesystem::path& system,
                                         const Circumstances& circumstances = {}) {
    const TemporaryFolder folder;
    const auto out = folder.path() / "p";
    const Outcome outcome =
        run_ohmfolio({"draw", system.string(), "--out", out.string()}, circumstances);
    CAPTURE(outcome.err);
    REQUIRE(outcome.exit_code == 0);
    return files_below(out);
}

void check_same(const std::map<std::string, std::string>& a,
                const std::map<std::string, std::string>& b) {
    REQUIRE(a.size() == b.size());
    for (const auto& [name, bytes] : a) {
        CAPTURE(name);
        REQUIRE(b.contains(name));
        CHECK((b.at(name) == bytes)); // in brackets: no one wants to read it
    }
}

const std::map<std::string, std::string>& reference() {
    static const auto files = files_below(example_packet().folder());
    return files;
}

bool installed(const std::string& locale) {
    const std::string before = std::setlocale(LC_ALL, nullptr);
    const bool found = std::setlocale(LC_ALL, locale.c_str()) != nullptr;
    std::setlocale(LC_ALL, before.c_str());
    return found;
}

/// Decimal commas for every C++ stream, on machines without any locale installed.
struct CommaDecimals : std::numpunct<char> {
    char do_decimal_point() const override { return ','; }
    char do_thousands_sep() const override { return '.'; }
    std::string do_grouping() const override { return "\3"; }
};

/// Both the C and the C++ locale, for as long as this lives.
class GlobalLocale {
  public:
    GlobalLocale(const std::string& c_name, const std::locale& streams)
        : before_(std::locale::global(streams)) {
        std::setlocale(LC_ALL, c_name.c_str());
    }
    ~GlobalLocale() {
        std::locale::global(before_);
        std::setlocale(LC_ALL, "C");
    }
    GlobalLocale(const GlobalLocale&) = delete;
    GlobalLocale& operator=(const GlobalLocale&) = delete;

  private:
    std::locale before_;
};

/// The same, by the program's own entry within this process, whose locale the test has set.
std::map<std::string, std::string> drawn_within() {
    const TemporaryFolder folder;
    const std::string out = (folder.path() / "p").string();
    const std::string system = ashgrove().string();
    const std::vector<const char*> words{"ohmfolio",     "--data", OHMFOLIO_DATA, "draw",
                                         system.c_str(), "--out",  out.c_str()};
    std::ostringstream output, errors;
    const int code = ohmfolio::run(static_cast<int>(words.size()), words.data(), output, errors);
    CAPTURE(errors.str());
    REQUIRE(code == 0);
    return files_below(out);
}

} // namespace

TEST_CASE("a second run writes the same bytes") { check_same(reference(), drawn(ashgrove())); }

TEST_CASE("time zone, language, home and terminal width change nothing") {
    check_same(reference(),
               drawn(ashgrove(), {.environment = {{"TZ", "Pacific/Auckland"},
                                                  {"LANGUAGE", "tr"},
                                                  {"HOME", "/nonexistent"},
                                                  {"COLUMNS", "40"},
                                                  {"SOURCE_DATE_EPOCH", "1"},
                                                  {"FONTCONFIG_FILE", "/nonexistent"}}}));
    check_same(reference(), drawn(ashgrove(), {.environment = {{"TZ", "America/Denver"},
                                                               {"LC_ALL", "C"},
                                                               {"HOME", std::nullopt}}}));
}

TEST_CASE("another working folder and a copy of the example change nothing") {
    const TemporaryFolder folder;
    const auto system = copied(ashgrove(), folder.path() / "a folder with spaces");
    check_same(reference(), drawn(system, {.folder = folder.path()}));
    check_same(reference(), drawn("ashgrove.toml", {.folder = system.parent_path()}));
}

TEST_CASE("a locale with a decimal comma changes nothing") {
    if (!installed(german)) {
        WARN(german << " is not installed: only streams were tested, not the C library");
    } else {
        check_same(reference(),
                   drawn(ashgrove(), {.environment = {{"LC_ALL", german}, {"LANG", german}}}));
    }
    const GlobalLocale comma(installed(german) ? german : "C",
                             std::locale(std::locale::classic(), new CommaDecimals));
    std::ostringstream probe;
    probe << 1234.5;
    REQUIRE(probe.str() == "1.234,5");
    check_same(reference(), drawn_within());
}
