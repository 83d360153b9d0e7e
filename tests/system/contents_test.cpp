/// What the report says is on the sheets: tags, ratings, equipment, paragraphs. Disagreement
/// between two of them is what sends most packets back.
#include <fmt/format.h>

#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

std::vector<std::string> schedules() { return example_packet().sheets_titled("SCHEDULES"); }
std::string diagram_text() { return text_of_sheets(example_packet(), {"E-601"}); }
std::string schedule_text() { return text_of_sheets(example_packet(), schedules()); }

/// A row of a schedule is read from its tag on; cells that wrap keep it within this many
/// characters.
constexpr std::size_t row_length = 200;

/// True when after some place where `tag` stands the words follow, in their order.
bool row_holds(const std::string& text, const std::string& tag,
               const std::vector<std::string>& words) {
    for (std::size_t at = find_word(text, tag); at != std::string::npos;
         at = find_word(text, tag, at + 1)) {
        const std::string row = text.substr(at + tag.size(), row_length);
        std::size_t reached = 0;
        for (const std::string& word : words) {
            reached = reached == std::string::npos ? reached : find_word(row, word, reached);
        }
        if (reached != std::string::npos) {
            return true;
        }
    }
    return false;
}

} // namespace

TEST_CASE("every conductor is tagged on the diagram and has its row in the schedule") {
    const std::string diagram = diagram_text();
    const std::string schedule = schedule_text();
    const Json& circuits = example_packet().report().at("circuits");
    REQUIRE(circuits.size() == 17); // counted in tests/input/example_test.cpp
    for (const Json& circuit : circuits) {
        const std::string tag = circuit.at("tag");
        CAPTURE(tag);
        CHECK(has_word(diagram, tag));
        std::vector<std::string> row{circuit.at("from"), circuit.at("to")};
        if (circuit.at("sized")) {
            row.push_back(circuit.at("size"));
            row.push_back(whole_number(circuit.at("length_ft")));
        }
        CHECK(row_holds(schedule, tag, row));
    }
}

TEST_CASE("every breaker stands on the diagram with its rating and has its row") {
    const std::string diagram = diagram_text();
    const std::string schedule = schedule_text();
    const Json& breakers = example_packet().report().at("breakers");
    REQUIRE(breakers.size() == 8); // four branches, PV, storage, connection, backed-up panel
    for (const Json& breaker : breakers) {
        const std::string tag = breaker.at("tag");
        const std::string rating = whole_number(breaker.at("rating_A"));
        const std::string poles = whole_number(breaker.at("poles"));
        CAPTURE(tag, rating);
        // A device added to existing equipment is marked so: "Q7 (N) 100 A 2P".
        const std::string words = " " + rating + " A " + poles + "P";
        CHECK((has_word(diagram, tag + words) || has_word(diagram, tag + " (N)" + words)));
        CHECK(row_holds(schedule, tag, {breaker.at("at"), breaker.at("circuit"), rating, poles}));
    }
}

TEST_CASE("every piece of equipment is on the diagram and in a schedule") {
    const std::string diagram = diagram_text();
    const std::string schedule = schedule_text();
    const Json& equipment = example_packet().report().at("equipment");
    REQUIRE(equipment.size() == 16); // 15 in the text and the utility
    for (const Json& piece : equipment) {
        const std::string id = piece.at("id");
        CAPTURE(id);
        CHECK(has_word(schedule, id));
        if (id != "UTILITY") { // drawn under the utility's own name
            CHECK(has_word(diagram, id));
        }
        const std::string model = piece.at("model");
        if (!model.empty()) {
            CHECK(has_word(schedule, flattened(model)));
        }
    }
    CHECK(has_word(diagram, "TOLLIVER BEND LIGHT & WATER"));
}

TEST_CASE("every raceway has its row, and its circuits name it with its trade size") {
    const std::string schedule = schedule_text();
    const Json& report = example_packet().report();
    REQUIRE(report.at("raceways").size() == 10);
    for (const Json& raceway : report.at("raceways")) {
        const std::string tag = raceway.at("tag");
        const std::string size = raceway.at("trade_size").get<std::string>() + "\" " +
                                 raceway.at("raceway").get<std::string>();
        for (const Json& circuit : report.at("circuits")) {
            if (circuit.value("run", "") == tag) {
                CAPTURE(tag, circuit.at("tag").get<std::string>());
                CHECK(row_holds(schedule, circuit.at("tag"), {size}));
                CHECK(row_holds(schedule, tag, {circuit.at("from"), circuit.at("to"), size}));
            }
        }
    }
}

TEST_CASE("every paragraph that the report cites is printed") {
    const std::string text = joined(page_texts(example_packet().pdf()));
    const auto sections = cited_sections(example_packet().report());
    REQUIRE(sections.size() > 20);
    for (const std::string& section : sections) {
        CAPTURE(section);
        CHECK(has_word(text, flattened(section)));
    }
}

TEST_CASE("schedule and calculations agree with the report on every current") {
    const DrawnPacket& packet = example_packet();
    const std::string schedule = schedule_text();
    const std::string calculations = text_of_sheets(packet, packet.sheets_titled("CALCULATIONS"));
    for (const Json& circuit : packet.report().at("circuits")) {
        if (!circuit.at("sized")) {
            continue;
        }
        const std::string tag = circuit.at("tag");
        const std::string current = fmt::format("{:.2f}", circuit.at("current_A").get<double>());
        const std::string whole = whole_number(circuit.at("current_A"));
        CAPTURE(tag, current);
        CHECK((row_holds(schedule, tag, {current}) ||
               (current == whole + ".00" && row_holds(schedule, tag, {whole}))));
        CHECK(has_word(calculations, tag));
        CHECK((has_word(calculations, current) || has_word(calculations, whole)));
    }
}

TEST_CASE("words are found whole: the search of these tests is not too kind") {
    CHECK(has_word("BY 310.15(B), THEN", "310.15(B)"));
    CHECK(has_word("BY 310.15.", "310.15"));
    CHECK_FALSE(has_word("BY 310.15(B)", "310.15"));
    CHECK_FALSE(has_word("110.90", "110.9"));
    CHECK_FALSE(has_word("C10 C21", "C1"));
    CHECK_FALSE(has_word("QC1", "C1"));
    CHECK(row_holds("C1 PV-1 JB-1 (2) 12 AWG", "C1", {"PV-1", "JB-1", "12 AWG"}));
    CHECK_FALSE(row_holds("C1 PV-1 JB-1 (2) 12 AWG", "C1", {"JB-1", "PV-1"}));
}
