/// The drawing itself, before it becomes a file: lint, netlist, links. Over every example and every
/// edition.
#include <algorithm>
#include <map>
#include <set>

#include "app/stages.h"
#include "catch.h"
#include "diagram/diagram.h"
#include "drawing/lint.h"
#include "folders.h"
#include "render/render.h"
#include "sheet/packet.h"

using namespace ohmfolio;
using namespace ohmfolio::test;

namespace {

const Lettering& house_lettering() {
    static const Lettering lettering(OHMFOLIO_DATA "/layouts/lettering");
    return lettering;
}

/// A packet as draw makes it, kept as marks.
struct Drawing {
    SourceFiles sources;
    Findings findings;
    std::optional<Studied> studied;
    Packet packet;

    explicit Drawing(const std::filesystem::path& path) {
        studied = read_and_study(path, sources, findings);
        REQUIRE(studied);
        const SymbolSet symbols = SymbolSet::load(OHMFOLIO_DATA "/symbols", sources, findings);
        PacketOptions options;
        options.layouts = OHMFOLIO_DATA "/layouts";
        options.draft = has(findings, Severity::violation);
        packet = make_packet(studied->system, studied->study, symbols, options,
                             house_lettering().measure(), sources, findings);
    }

    std::vector<std::string> worse_than_advice(const Findings& some) const {
        std::vector<std::string> texts;
        for (const Finding& finding : some) {
            if (finding.severity > Severity::advice) {
                texts.push_back(finding.subject + ": " + print(finding, sources, false));
            }
        }
        return texts;
    }

    const Sheet& sheet(const std::string& number) const {
        const auto found = std::ranges::find(packet.sheets, number, &Sheet::number);
        REQUIRE(found != packet.sheets.end());
        return *found;
    }

    std::vector<const Frame*> frames() const {
        std::vector<const Frame*> frames;
        for (const Sheet& sheet : packet.sheets) {
            frames.push_back(&sheet.frame);
        }
        return frames;
    }
};

/// What rests on a power control system does not comply before the edition that knows them.
bool complies(const std::filesystem::path& example, Edition edition) {
    return example.filename() != "tollgate.toml" || edition != Edition::nec2017;
}

/// Runs `check` on every example in each of these editions; the line of the text that names the
/// edition is exchanged in a copy.
template <class Check>
void for_all_examples(const std::vector<Edition>& editions, const Check& check) {
    REQUIRE_FALSE(example_systems().empty());
    for (const auto& example : example_systems()) {
        for (const Edition edition : editions) {
            if (!complies(example, edition))
                continue;
            const TemporaryFolder folder;
            const auto system = copied(example, folder.path());
            std::string text = read_file(system);
            const std::size_t at = text.find("code = \"NEC ");
            REQUIRE(at != std::string::npos);
            const std::size_t end = text.find('\n', at);
            write_file(system, text.replace(at, end - at, "code = \"" + name(edition) + "\""));
            CAPTURE(example.string(), name(edition));
            const Drawing drawing(system);
            REQUIRE(drawing.studied->system.edition == edition);
            check(drawing);
        }
    }
}

} // namespace

TEST_CASE("lint finds nothing on any example in any edition (at length)") {
    for_all_examples({all_editions.begin(), all_editions.end()}, [](const Drawing& drawing) {
        const Findings findings = lint(drawing.packet, house_lettering().measure());
        CHECK(drawing.worse_than_advice(findings) == std::vector<std::string>{});
        CHECK(drawing.worse_than_advice(drawing.findings) == std::vector<std::string>{});
        CHECK(drawing.packet.sheets.size() > 5);
    });
}

TEST_CASE("lint finds nothing on a draft, whose mark takes room") {
    const TemporaryFolder folder;
    const Drawing draft(
        copied(ashgrove(), folder.path(), {{"PV-2 = { modules = 8", "PV-2 = { modules = 12"}}));
    CHECK(has(draft.findings, Severity::violation));
    CHECK_FALSE(has(draft.findings, Severity::error));
    const Findings findings = lint(draft.packet, house_lettering().measure());
    CHECK(draft.worse_than_advice(findings) == std::vector<std::string>{});
}

// Wires and links are the same in every edition: one is enough for these.
TEST_CASE("the netlist read back from the marks is that of the system (at length)") {
    for_all_examples({Edition::nec2023}, [](const Drawing& drawing) {
        const Netlist intended = intended_netlist(drawing.studied->system);
        CHECK(intended.size() > 3);
        CHECK(read_netlist(drawing.frames()) == intended);
    });
}

namespace {

/// The packet after `change` of the marks of its diagram.
template <class Change> Packet with_diagram(Packet packet, const Change& change) {
    const auto found = std::ranges::find(packet.sheets, "E-601", &Sheet::number);
    REQUIRE(found != packet.sheets.end());
    change(found->frame);
    return packet;
}

std::set<std::string> rules_found(const Packet& packet) {
    std::set<std::string> rules;
    for (const Finding& finding : lint(packet, house_lettering().measure())) {
        if (finding.severity > Severity::advice) {
            rules.insert(finding.rule);
        }
    }
    return rules;
}

} // namespace

TEST_CASE("a fault planted in a finished packet is caught") {
    const Drawing drawing(ashgrove());
    CHECK(rules_found(drawing.packet).empty());

    CHECK(rules_found(with_diagram(drawing.packet, [](Frame& frame) {
              const auto any = std::ranges::find(frame.marks, Role::lettering, &Mark::role);
              REQUIRE(any != frame.marks.end());
              frame.marks.push_back(Mark(*any)); // written twice
          })).contains("lint.text_over_text"));
    CHECK(rules_found(with_diagram(drawing.packet, [](Frame& frame) {
              frame.add(Text{{inches(8), inches(20)}, "OUTSIDE", {points(10.2)}}, Role::lettering);
          })).contains("lint.outside_frame"));
    CHECK(rules_found(with_diagram(drawing.packet, [](Frame& frame) {
              frame.add(Link{{{inches(1), inches(1)}, {inches(2), inches(2)}}, "schedule:C99"},
                        Role::none);
          })).contains("lint.broken_link"));

    const Packet unwired = with_diagram(drawing.packet, [](Frame& frame) {
        std::erase_if(frame.marks, [](const Mark& mark) {
            return mark.role == Role::wire && mark.shows == "circuit:C9";
        });
    });
    std::vector<const Frame*> frames;
    for (const Sheet& sheet : unwired.sheets) {
        frames.push_back(&sheet.frame);
    }
    CHECK_FALSE(
        compare_netlists(read_netlist(frames), intended_netlist(drawing.studied->system)).empty());
}

namespace {

struct Place {
    const Sheet* sheet = nullptr;
    Point at;
};

std::map<std::string, Place> anchors_of(const Packet& packet) {
    std::map<std::string, Place> anchors;
    for (const Sheet& sheet : packet.sheets) {
        for (const Mark& mark : sheet.frame.marks) {
            if (const auto* anchor = std::get_if<Anchor>(&mark.item)) {
                CAPTURE(anchor->name);
                CHECK(anchors.emplace(anchor->name, Place{&sheet, anchor->at}).second); // unique
            }
        }
    }
    return anchors;
}

/// Where a click on the lettering `tag` of this sheet leads; "Q7 (N)" and "C16 (E)" are tags too.
std::set<std::string> links_under(const Sheet& sheet, const std::string& tag) {
    std::set<std::string> targets;
    for (const Mark& lettering : sheet.frame.marks) {
        const auto* text = std::get_if<Text>(&lettering.item);
        if (text == nullptr || (text->text != tag && !text->text.starts_with(tag + " "))) {
            continue;
        }
        const Point middle = text_box(*text, house_lettering().measure()).centre();
        for (const Mark& mark : sheet.frame.marks) {
            if (const auto* link = std::get_if<Link>(&mark.item);
                link != nullptr && link->area.contains(middle)) {
                targets.insert(link->target);
            }
        }
    }
    return targets;
}

/// A click on the tag on the diagram leads to its row in a schedule; one on the tag there to the
/// calculation of `circuit`; both exist.
void check_chain(const Drawing& drawing, const std::string& tag, const std::string& circuit) {
    CAPTURE(tag);
    const auto anchors = anchors_of(drawing.packet);
    const std::string row = "schedule:" + tag;
    const std::string calculation = "calc:" + circuit;
    CHECK(links_under(drawing.sheet("E-601"), tag).contains(row));
    REQUIRE(anchors.contains(row));
    CHECK(anchors.at(row).sheet->title.starts_with("SCHEDULES"));
    CHECK(links_under(*anchors.at(row).sheet, tag).contains(calculation));
    REQUIRE(anchors.contains(calculation));
    CHECK(anchors.at(calculation).sheet->title.starts_with("CALCULATIONS"));
}

} // namespace

TEST_CASE("every link of a packet leads to an anchor (at length)") {
    for_all_examples({Edition::nec2023}, [](const Drawing& drawing) {
        const auto anchors = anchors_of(drawing.packet);
        int links = 0;
        for (const Frame* frame : drawing.frames()) {
            for (const Mark& mark : frame->marks) {
                if (const auto* link = std::get_if<Link>(&mark.item)) {
                    CAPTURE(link->target);
                    CHECK(anchors.contains(link->target));
                    ++links;
                }
            }
        }
        CHECK(links > 0);
    });
}

TEST_CASE("a conductor's tag on the diagram leads to its row and from there to its calculation") {
    const Drawing drawing(ashgrove());
    const auto& [system, study] = *drawing.studied;
    for (std::size_t i = 0; i < system.circuits.size(); ++i) {
        if (study.circuits[i].sized) {
            check_chain(drawing, system.circuits[i].tag, system.circuits[i].tag);
        }
    }
}

TEST_CASE("a breaker's tag on the diagram leads to its row and from there to its calculation") {
    const Drawing drawing(ashgrove());
    const System& system = drawing.studied->system;
    for (const Breaker& breaker : system.breakers) {
        const auto circuit = static_cast<std::size_t>(breaker.circuit);
        check_chain(drawing, breaker.tag, system.circuits[circuit].tag);
    }
}
