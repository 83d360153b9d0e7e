// Who has learned a drawing finds it again after one thing was added: what was there before stays
// nearly where it was.
#include <iostream>

#include <fmt/format.h>

#include "catch.h"
#include "drawn/displacement.h"

using namespace ohmfolio::drawn;

namespace {

/// One component more: `from` in the text of the example is replaced, `more` comes at its end.
struct Addition {
    std::string what, job, from, to, more = {};
    bool fills_sheet = false; ///< so that the diagram goes on over a second one
};

const std::string one_battery = R"(
[battery.ES-9]
model = "wickhollow-b10"
location = "Beside the others"
feeds = "ES-2"
run = { length = "4 ft", raceway = "EMT" }
)";
const std::string one_branch = R"(
[branch.PV-9]
modules = 8
roof = "South roof"
feeds = "JB-1"
run = { length = "28 ft" }
)";
const std::string one_switch = R"(
[disconnect.SW-9]
model = "brackenway-60"
feeds = "MID-1"
run = { length = "4 ft" }
)";

const std::vector<Addition> additions = {
    {"a battery", "ashgrove", "", "", one_battery, true},
    {"a backed-up load", "ashgrove", "\"Furnace\" = {", "\"Freezer\" = \"20 A\", \"Furnace\" = {"},
    {"a load of the main panel", "ashgrove", "\"Range\" = {",
     "\"Dryer\" = \"30 A 2P\", \"Range\" = {", "", true},
    {"a branch", "fernhill", "", "", one_branch, true},
    {"a battery", "fernhill", "", "", one_battery},
    {"a disconnect", "fernhill", "location = \"East yard\", feeds = \"MID-1\"",
     "location = \"East yard\", feeds = \"SW-9\"", one_switch},
    {"a load", "cinder-row", "Laundry = \"20 A\"", "Laundry = \"20 A\"\nFreezer = \"20 A\""},
    {"a branch", "highmeadow", "", "", one_branch},
    {"a battery", "highmeadow", "", "", one_battery},
    {"a load", "highmeadow", "Laundry = \"20 A\"", "Laundry = \"20 A\"\nFreezer = \"20 A\""},
    {"a branch", "tollgate", "", "", one_branch},
    {"a load", "granary", "\nRange = {", "\nFreezer = \"20 A\"\nRange = {"},
};

std::string path_of(const Addition& addition) {
    return "examples/tolliver-bend/" + addition.job + ".toml";
}

std::string changed(const Addition& addition) {
    std::string text = repository_text(path_of(addition));
    const std::size_t at = text.find(addition.from);
    if (at == std::string::npos) {
        throw std::logic_error(addition.job + " holds no text " + addition.from);
    }
    return text.replace(at, addition.from.size(), addition.to) + addition.more;
}

} // namespace

TEST_CASE("one component more leaves the rest of the drawing in place (at length)") {
    const std::string catalogue = repository_text("examples/tolliver-bend/catalogue.toml");
    std::string table = "median and farthest movement, as parts of the sheet's width\n";
    for (const Addition& addition : additions) {
        const auto before = draw_file(path_of(addition));
        const auto after = draw_job(changed(addition), catalogue);
        INFO(addition.job << ": " << addition.what);
        REQUIRE(after->system.has_value());
        const Displacement moved = displacement(*before, *after);
        table += fmt::format("{:>6.3f} {:>6.3f}  {} of {} symbols to another page  {}, {}\n",
                             moved.median, moved.farthest, moved.other_page, moved.symbols,
                             addition.job, addition.what);
        CHECK(moved.symbols >= 8);
        CHECK((moved.other_page > 0) == addition.fills_sheet);
        CHECK((moved.median <= 0.05 || addition.fills_sheet));
    }
    std::cout << table;
}
