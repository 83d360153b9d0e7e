// How a number came about, as text.
#include "catch.h"

#include <algorithm>

#include "example.h"
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
    CHECK(text.find("(NEC 2023 705.12(B)(1)): FAILS: 289.70 A > 200 A") != std::string::npos);
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
