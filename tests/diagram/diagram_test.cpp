#include <algorithm>
#include <set>

#include "catch.h"
#include "diagram/drawn.h"

using namespace ohmfolio;
using namespace ohmfolio::test;

namespace {

/// The example with each of these changes is a system of its own.
struct Variant {
    std::string what, from, to;
    std::string gone = {}; ///< what goes as well
};

const std::vector<Variant> variants = {
    {"as it is", "PV-1", "PV-1"},
    {"one branch less on the west roof",
     "PV-4 = { modules = 6, roof = \"West roof\", orientation = \"portrait\", "
     "feeds = \"JB-2\", run = { length = \"22 ft\" } }\n",
     ""},
    {"one battery",
     "ES-2 = { model = \"wickhollow-b10\", location = \"Garage, west wall\", place = \"exterior "
     "wall\", spacing = \"3 ft\", feeds = \"ES-1\", run = { "
     "length = \"4 ft\", raceway = \"EMT\" } }\n",
     "", "ES-2 = { right_of = \"ES-1\", gap = \"3 ft\", bottom = \"18 in\" }\n"},
    {"other sheet names of loads", "\"Kitchen\"", "\"Kitchen and dining room receptacles\""},
    {"another edition", "NEC 2023", "NEC 2017"},
};

std::string changed_by(const Variant& variant) {
    const std::string job = replaced(example_job(), variant.from, variant.to);
    return variant.gone.empty() ? job : replaced(job, variant.gone, "");
}

} // namespace

TEST_CASE("wires of a drawing join what the system says, and nothing else") {
    for (const Variant& variant : variants) {
        INFO(variant.what);
        Drawn drawn(changed_by(variant));
        const Diagram drawing = drawn.draw();
        INFO(said(drawn.findings));
        const Findings wiring =
            compare_netlists(read_netlist(frames_of(drawing)), intended_netlist(drawn.system));
        INFO(said(wiring));
        CHECK(wiring.empty());
    }
}

TEST_CASE("a drawing passes the drafter's checks") {
    for (const Variant& variant : variants) {
        INFO(variant.what);
        Drawn drawn(changed_by(variant));
        const Diagram drawing = drawn.draw();
        const Findings seen = faults(drawing, drawn);
        INFO(said(seen));
        CHECK(seen.empty());
    }
}

TEST_CASE("a wire pulled off its terminal is caught by the netlist") {
    Drawn drawn(example_job());
    Diagram drawing = drawn.draw();
    for (Mark& mark : drawing.pages.front().frame.marks) {
        if (mark.role == Role::wire && mark.shows == "circuit:C9") {
            std::get<Path>(mark.item).segments.back().to.x -= inches(0.2);
        }
    }
    const Findings wiring =
        compare_netlists(read_netlist(frames_of(drawing)), intended_netlist(drawn.system));
    REQUIRE_FALSE(wiring.empty());
    CHECK(wiring.front().rule == "lint.netlist");
}

TEST_CASE("power wires of a tree run straight and never cross") {
    Drawn drawn(example_job());
    const diagram::Plan plan = placed(drawn);
    for (const diagram::Wire& wire : plan.wires) {
        INFO(diagram::shown_by(plan, wire));
        CHECK(wire.points.size() == 2);
        CHECK(wire.points.front().y == wire.points.back().y);
    }
}

TEST_CASE("power reads from the sources at the left to the utility at the right") {
    Drawn drawn(example_job());
    const diagram::Plan plan = placed(drawn);
    for (const diagram::Block& child : plan.blocks) {
        if (child.parent < 0 || child.hung) {
            continue;
        }
        INFO(plan.of(child).id);
        CHECK(child.body.high.x < plan.block(child.parent).body.low.x);
    }
    // What is backed up stands beside its supply and below it.
    CHECK(block(plan, "BLP").body.low.x > block(plan, "MID-1").body.high.x);
    CHECK(block(plan, "BLP").body.low.y > block(plan, "MSP").body.high.y);
}

TEST_CASE("a combiner grows with its branches") {
    Drawn four(example_job());
    Drawn three(replaced(example_job(), variants[1].from, ""));
    const diagram::Plan with_four = placed(four);
    const diagram::Plan with_three = placed(three);
    CHECK(block(with_four, "CP-1").body.height() > block(with_three, "CP-1").body.height());
    CHECK(block(with_four, "CP-1").taps.size() == 5);
    CHECK(block(with_three, "CP-1").taps.size() == 4);
}

TEST_CASE("every sized circuit bears its tag, linked to the schedule") {
    Drawn drawn(example_job());
    const Diagram drawing = drawn.draw();
    std::set<std::string> anchors, links;
    for (const Mark& mark : drawing.pages.front().frame.marks) {
        if (const auto* anchor = std::get_if<Anchor>(&mark.item)) {
            anchors.insert(anchor->name);
        } else if (const auto* link = std::get_if<Link>(&mark.item)) {
            links.insert(link->target);
        }
    }
    for (const Circuit& circuit : drawn.system.circuits) {
        INFO(circuit.tag);
        CHECK(anchors.count("diagram:" + circuit.tag) == 1);
        CHECK(links.count("schedule:" + circuit.tag) == 1);
    }
}

TEST_CASE("a diagram too large for its sheet is a finding, not a cramped drawing") {
    Drawn drawn(example_job());
    drawn.area = {inches(2), inches(1)};
    drawn.draw();
    std::set<std::string> rules;
    for (const Finding& finding : drawn.findings) {
        rules.insert(finding.rule);
    }
    CHECK((rules.count("diagram.too_wide") == 1 || rules.count("diagram.too_high") == 1));
}

TEST_CASE("a missing symbol is named") {
    Drawn drawn(example_job());
    drawn.symbols = SymbolSet{};
    drawn.draw();
    REQUIRE_FALSE(drawn.findings.empty());
    CHECK(std::any_of(drawn.findings.begin(), drawn.findings.end(), [](const Finding& f) {
        return f.rule == "diagram.symbol_missing" &&
               f.message.find("circuit-breaker") != std::string::npos;
    }));
}

TEST_CASE("the same system gives the same plan") {
    Drawn first(example_job());
    Drawn second(example_job());
    CHECK(diagram::dump(placed(first)) == diagram::dump(placed(second)));
}

TEST_CASE("numbers of keyed notes stand in their order beside a block") {
    // The note of rapid shutdown names its disconnect, the others are shared: that of SW-2 comes
    // last in the list.
    Drawn drawn(text_of(std::string(OHMFOLIO_SOURCE) + "/examples/tolliver-bend/brickfield.toml"));
    drawn.style.notes = {{"rapid_shutdown_strings", "{id} initiates rapid shutdown."},
                         {"utility_disconnect", "For the utility."},
                         {"supply_side", "Ahead of the main."},
                         {"bonding_supply_sides", "Bonded at {bonded_service}, {bonded_sources}."}};
    const diagram::Plan plan = whole_of(drawn);
    CHECK(block(plan, "SW-1").notes == std::vector{1, 2, 3, 4});
    CHECK(block(plan, "SW-2").notes == std::vector{2, 3, 4, 5});
    CHECK(block(plan, "MSB").notes == std::vector{4});
    CHECK(plan.notes.at(3) == "BONDED AT MSB, SW-1, SW-2.");
}
