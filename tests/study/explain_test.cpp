// How a number came about, as text.
#include "catch.h"

#include <algorithm>

#include "base/text.h"
#include "example.h"
#include "study/explain_tree.h"
#include "study/paragraphs.h"

using namespace ohmfolio;
using example::Case;

namespace {

std::size_t occurrences(const std::string& text, std::string_view part) {
    std::size_t count = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
        ++count;
    }
    return count;
}

} // namespace

TEST_CASE("a conductor is explained down to table rows and paragraphs") {
    const Case job;
    const std::string text = explain(job.system, job.study, "C5");
    for (const char* part : {"C5: JB-1 to CP-1", "I_C5 = N × I_inv = 8 × 1.42 A = 11.36 A",
                             "I_req = 1.25 × I_C5 = 1.25 × 11.36 A = 14.20 A",
                             "I_cor = I_ins × C_a × C_b = 30 A × 0.91 × 0.8 = 21.84 A",
                             "Table 310.16, 12 AWG CU, 90 °C column", "NEC 2023 705.28(B)",
                             "240.4(D)", "Table 250.122", "Wickhollow WM-340, nameplate"}) {
        INFO(part << "\n" << text);
        CHECK(text.find(part) != std::string::npos);
    }
}

TEST_CASE("a step that several results share is written once") {
    const Case job;
    const std::string text = explain(job.system, job.study, "C5");
    CHECK(occurrences(text, "I_C5 = N × I_inv") == 1);
    CHECK(text.find("Continuous current of the branch: 11.36 A (see above)") != std::string::npos);
}

TEST_CASE("everything that is listed can be explained") {
    const Case job;
    const auto ids = explainable(job.system, job.study);
    for (const char* id : {"C1", "Q2", "R3", "MSP", "PV-1", "MID-1", "GEC", "C9.current"}) {
        CHECK(std::ranges::find(ids, id) != ids.end());
    }
    for (const std::string& id : ids) {
        INFO(id);
        CHECK_FALSE(id.empty());
        CHECK_FALSE(explain(job.system, job.study, id).empty());
    }
    CHECK(explain(job.system, job.study, "C99").empty());
}

TEST_CASE("a rounded step shows both values") {
    const Case job;
    CHECK(
        explain(job.system, job.study, "Q5")
            .find("I_Q5 = next standard rating ≥ I_req = next standard rating ≥ 49.70 A = 50 A") !=
        std::string::npos);
}

TEST_CASE("a point of connection lists every rule tried") {
    const Case job;
    const std::string text = explain(job.system, job.study, "MSP");
    CHECK(text.find("Sum of breakers (NEC 2023 705.12(B)(3)): passes, and is the one used") !=
          std::string::npos);
    CHECK(text.find("(NEC 2023 705.12(B)(1)): does not hold: 289.70 A > 200 A") !=
          std::string::npos);
}

TEST_CASE("the result comes first, in a sentence with its reason") {
    const Case job;
    const auto second_line = [&](std::string_view id) {
        const std::string text = explain(job.system, job.study, id);
        const auto start = text.find('\n') + 1;
        return text.substr(start, text.find('\n', start) - start);
    };
    CHECK(second_line("C5") ==
          "Result: 2 × 12 AWG CU THWN-2, because it is the smallest size used.");
    CHECK(second_line("C10") == "Result: 2 × 8 AWG CU THWN-2 and a neutral, because the terminal "
                                "ampacity governs.");
    CHECK(second_line("Q5") == "Result: 50 A, chosen.");
    CHECK(second_line("GEC") == "Result: 4 AWG CU, because the service conductors govern.");
    CHECK(second_line("MSP").starts_with("Result: its sources connect by NEC 2023 705.12(B)(3), "
                                         "\"Sum of breakers\": 190 A ≤ 200 A;"));
}

TEST_CASE("results and checks in a line each, results before their checks") {
    const Case job;
    const std::string text = explain(job.system, job.study, "C5");
    const auto place = [&](std::string_view part) {
        INFO(part << "\n" << text);
        REQUIRE(text.find(part) != std::string::npos);
        return text.find(part);
    };
    const auto tally = place("In short: all 4 checks pass");
    const auto size = place("  - Conductor size: 12 AWG CU\n");
    const auto check =
        place("  - Ampacity at the terminations is sufficient: passes, 25 A ≥ 14.20 A");
    const auto ground = place("  - Equipment grounding conductor: 12 AWG CU\n");
    const auto how = place("How it came about");
    CHECK(tally < size);
    CHECK(size < check);
    CHECK(check < ground);
    CHECK(ground < how);
}

TEST_CASE("where all is in order nothing is said to fail") {
    const Case job;
    REQUIRE_FALSE(has(job.study.findings, Severity::violation));
    for (const char* id : {"MSP", "MID-1", "CP-1"}) {
        INFO(id);
        const std::string text = explain(job.system, job.study, id);
        CHECK(text.find("FAIL") == std::string::npos);
    }
    const std::string text = explain(job.system, job.study, "MSP");
    const auto tried = text.find("Tried, and not used");
    REQUIRE(tried != std::string::npos);
    CHECK(text.find("Busbar carries main and sources: does not hold [MSP.bus_sum]") > tried);
}

TEST_CASE("what fails is counted, and told before the calculation") {
    const Case job{{"PV-2 = { modules = 8", "PV-2 = { modules = 12"}};
    const std::string text = explain(job.system, job.study, "PV-2");
    INFO(text);
    const auto finding = text.find("violation: PV-2 has 12 microinverters");
    const auto tally = text.find("FAIL");
    const auto how = text.find("How it came about");
    REQUIRE(how != std::string::npos);
    CHECK(finding < how);
    CHECK(tally > finding);
    CHECK(tally < how);
}

TEST_CASE("lines fit a hundred columns, and break where reading allows") {
    const Case job;
    for (const std::string& id : explainable(job.system, job.study)) {
        std::string rest = explain(job.system, job.study, id);
        while (!rest.empty()) {
            const std::string line = rest.substr(0, rest.find('\n'));
            rest.erase(0, line.size() + 1);
            INFO(id << ": " << line);
            CHECK(character_count(line) <= workings::terminal_width);
            CHECK((line.empty() || line.back() != ' '));
        }
    }
    const std::string long_text = std::string(85, 'x') + " then 100 AWG CU ≤ 200 A";
    CHECK(workings::set_in(long_text, 0) == std::string(85, 'x') + " then\n100 AWG CU ≤ 200 A\n");
    CHECK(workings::set_in(std::string(90, 'x') + " by NEC 2023 310.15", 2, 4) ==
          "  " + std::string(90, 'x') + " by\n      NEC 2023 310.15\n");
}

TEST_CASE("reasons end a sentence") {
    using workings::because;
    CHECK(because("").empty());
    CHECK(because("fill governs") == ", because the fill governs");
    CHECK(because("service conductors govern") == ", because the service conductors govern");
    CHECK(because("smallest size used") == ", because it is the smallest size used");
    CHECK(because("need not be larger to rod electrodes") ==
          ", because it need not be larger to rod electrodes");
    CHECK(because("14 AWG is the smallest for a PV circuit") ==
          ", because 14 AWG is the smallest for a PV circuit");
    CHECK(because("listed ampacity of the trunk cable") ==
          ", because of the listed ampacity of the trunk cable");
    CHECK(because("stated; 12 AWG would comply (smallest size used)") ==
          ", stated by the drafter; 12 AWG would comply (smallest size used)");
}

TEST_CASE("a dagger is explained where one stands, and only there") {
    const Case job;
    CHECK(occurrences(explain(job.system, job.study, "C5"), "\n† ") == 1);
    const std::string grounding = explain(job.system, job.study, "GEC");
    CHECK(grounding.find("†") == std::string::npos);
}

TEST_CASE("findings and their remedies follow") {
    const Case job{{"PV-2 = { modules = 8", "PV-2 = { modules = 12"}};
    const std::string text = explain(job.system, job.study, "PV-2");
    CHECK(text.find("violation: PV-2 has 12 microinverters") != std::string::npos);
    CHECK(text.find("would do: 11 modules on PV-2") != std::string::npos);
}

TEST_CASE("every paragraph that the study cites stands in the book of every edition") {
    for (const Edition edition : all_editions) {
        const CodeBook book(edition);
        for (const std::string_view rule : paragraph::rules) {
            INFO(name(edition) << " " << rule);
            CHECK_FALSE(book.cite(rule).section.empty());
        }
        for (const std::string_view number : paragraph::numbers) {
            CHECK(book.number(number) > 1);
        }
    }
}

TEST_CASE("two studies of one description are alike") {
    const Case one;
    const Case two;
    const auto& a = one.study.worksheet.all();
    const auto& b = two.study.worksheet.all();
    REQUIRE(a.size() == b.size());
    for (std::size_t i = 0; i < a.size(); ++i) {
        CHECK(a[i].id == b[i].id);
        CHECK(a[i].result == b[i].result);
    }
}
