/// What is drawn once for several, and what goes on on another page: wherever the drawing is cut,
/// its wires must still join exactly what the system says.
#include <algorithm>
#include <set>

#include "catch.h"
#include "diagram/drawn.h"

using namespace ohmfolio;
using namespace ohmfolio::test;

namespace {

/// The example with all four branches alike on one roof, and more loads than a page likes.
std::string crowded_job() {
    std::string job = example_job();
    for (const char* id : {"PV-3", "PV-4"}) {
        job = replaced(
            job,
            std::string(id) + " = { modules = 6, roof = \"West roof\", orientation = "
                              "\"portrait\", feeds = \"JB-2\", run = { length = \"22 ft\" } }",
            std::string(id) + " = { modules = 8, roof = \"South roof\", orientation = "
                              "\"portrait\", feeds = \"JB-1\", run = { length = \"28 ft\" } }");
    }
    const std::size_t box = job.find("JB-2 =");
    job.erase(box, job.find('\n', box) - box);
    return replaced(
        job, "\"Kitchen\" = \"20 A\"",
        "\"Kitchen\" = \"20 A\", \"Laundry\" = \"20 A\", \"Den\" = \"15 A\", \"Hall\" = "
        "\"15 A\", \"Cellar\" = \"15 A\"");
}

std::size_t marks_named(const Diagram& drawing, const std::string& word) {
    std::size_t count = 0;
    for (const DiagramPage& page : drawing.pages) {
        for (const Mark& mark : page.frame.marks) {
            const auto* text = std::get_if<Text>(&mark.item);
            count += text != nullptr && text->text.find(word) != std::string::npos ? 1 : 0;
        }
    }
    return count;
}

Findings wiring_faults(const Diagram& drawing, const Drawn& drawn) {
    return compare_netlists(read_netlist(frames_of(drawing)), intended_netlist(drawn.system));
}

} // namespace

TEST_CASE("a page of any size divides the drawing and keeps its wiring") {
    for (const double width : {16.0, 11.0, 8.5, 6.5}) {
        for (const double height : {10.0, 6.0, 4.5}) {
            Drawn drawn(example_job());
            drawn.area = {inches(width), inches(height)};
            const Diagram drawing = drawn.draw();
            INFO(width << " by " << height << " in, " << drawing.pages.size() << " pages\n"
                       << said(drawn.findings));
            const Findings wiring = wiring_faults(drawing, drawn);
            INFO(said(wiring));
            CHECK(wiring.empty());
            const Findings seen = faults(drawing, drawn);
            INFO(said(seen));
            CHECK(seen.empty());
        }
    }
}

TEST_CASE("a smaller page takes more pages, never smaller lettering") {
    Drawn large(example_job()), small(example_job());
    small.area = {inches(9), inches(5.5)};
    const Diagram on_one = large.draw(), on_more = small.draw();
    CHECK(on_one.pages.size() == 1);
    CHECK(on_more.pages.size() > 1);
    for (const DiagramPage& page : on_more.pages) {
        for (const Mark& mark : page.frame.marks) {
            if (const auto* text = std::get_if<Text>(&mark.item)) {
                CHECK(text->style.size >= points(10));
            }
        }
    }
}

TEST_CASE("both ends of what is cut name the sheet and the zone of the other") {
    Drawn drawn(example_job());
    drawn.area = {inches(9), inches(5.5)};
    const Diagram drawing = drawn.draw();
    std::map<std::string, std::set<std::size_t>> pages_of_match;
    for (std::size_t p = 0; p < drawing.pages.size(); ++p) {
        for (const Mark& mark : drawing.pages[p].frame.marks) {
            const auto* port = std::get_if<Port>(&mark.item);
            if (port != nullptr && port->name.rfind("match:", 0) == 0 &&
                port->name.find("/control") == std::string::npos) {
                pages_of_match[port->name].insert(p);
            }
        }
    }
    CHECK_FALSE(pages_of_match.empty());
    for (const auto& [match, pages] : pages_of_match) {
        INFO(match);
        CHECK(pages.size() == 2);
    }
    for (std::size_t p = 0; p < drawing.pages.size(); ++p) {
        INFO(p);
        CHECK(marks_named(drawing, "E-60" + std::to_string(p + 1) + " B4") >= 1);
    }
}

TEST_CASE("branches that are alike fold into one, and the drawing still stands for all") {
    Drawn drawn(example_job());
    diagram::Plan whole = whole_of(drawn, diagram::Folding::equal);
    std::size_t drawn_once = 0;
    for (const diagram::Block& block : whole.blocks) {
        if (block.members.size() > 1 && whole.of(block).is<BranchArray>()) {
            ++drawn_once;
            CHECK(std::find(block.name.begin(), block.name.end(), "TYPICAL OF 2") !=
                  block.name.end());
        }
    }
    CHECK(drawn_once == 2); // one a roof
}

TEST_CASE("a crowded drawing folds before it goes on on another page") {
    Drawn drawn(crowded_job());
    drawn.area = {inches(16), inches(7)};
    const Diagram drawing = drawn.draw();
    INFO(said(drawn.findings));
    CHECK(drawing.pages.size() == 1);
    CHECK(marks_named(drawing, "TYPICAL OF 4") == 1);
    const Findings wiring = wiring_faults(drawing, drawn);
    INFO(said(wiring));
    CHECK(wiring.empty());
    // Every circuit of the system has its place on the drawing, drawn once or not.
    std::set<std::string> anchors;
    for (const Mark& mark : drawing.pages.front().frame.marks) {
        if (const auto* anchor = std::get_if<Anchor>(&mark.item)) {
            CHECK(anchors.insert(anchor->name).second);
        }
    }
    for (const Circuit& circuit : drawn.system.circuits) {
        INFO(circuit.tag);
        CHECK(anchors.count("diagram:" + circuit.tag) == 1);
    }
}

TEST_CASE("branches of different roofs or sizes are not drawn as one") {
    Drawn drawn(replaced(example_job(), "PV-2 = { modules = 8", "PV-2 = { modules = 7"));
    const diagram::Plan whole = whole_of(drawn, diagram::Folding::equal);
    for (const diagram::Block& block : whole.blocks) {
        if (whole.of(block).id == "PV-1" || whole.of(block).id == "PV-2") {
            CHECK(block.members.size() == 1);
        }
    }
}
