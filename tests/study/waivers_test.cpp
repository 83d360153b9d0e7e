// Findings accepted with a written reason.
#include "catch.h"

#include "example.h"

using namespace ohmfolio;
using example::Case;

namespace {

example::Change waiver(const std::string& rule, const std::string& subject) {
    return {"catalogue = \"catalogue.toml\"\n",
            "catalogue = \"catalogue.toml\"\nwaiver = [{ rule = \"" + rule + "\", subject = \"" +
                subject +
                "\", reason = \"agreed on site\", by = \"Vance County, plan review\" }]\n"};
}

} // namespace

TEST_CASE("a waived violation becomes advice that gives the reason") {
    const Case job{{"rating = \"60 A\"", "rating = \"45 A\""},
                   waiver("disconnect.rating", "equipment:SW-1")};
    REQUIRE(job.study.findings.size() == 1);
    const Finding& found = job.study.findings.front();
    CHECK(found.rule == "disconnect.rating");
    CHECK(found.severity == Severity::advice);
    CHECK(found.message.find("(accepted by Vance County, plan review: agreed on site)") !=
          std::string::npos);
    CHECK(found.section == "equipment nameplate");
    CHECK(found.remedies.empty());
    // The sheet prints what was waived as it was found, with the reason and who ruled.
    REQUIRE(job.study.waived.size() == 1);
    const WaivedFinding& waived = job.study.waived.front();
    CHECK(waived.finding.severity == Severity::violation);
    CHECK(waived.finding.section == "equipment nameplate");
    CHECK(waived.finding.message == "SW-1: a 45 A disconnect on a circuit that needs 49.70 A");
    CHECK(waived.reason == "agreed on site");
    CHECK(waived.by == "Vance County, plan review");
}

TEST_CASE("the subject may be written as the drafter sees it") {
    const Case job{{"rating = \"60 A\"", "rating = \"45 A\""}, waiver("disconnect.rating", "SW-1")};
    REQUIRE(job.study.findings.size() == 1);
    CHECK(job.study.findings.front().severity == Severity::advice);
}

TEST_CASE("a waiver that matches nothing is a finding") {
    for (const auto& [rule, subject] :
         {std::pair{"combiner.inputs", "CP-1"}, std::pair{"combiner.input", "equipment:CP-1"}}) {
        const Case job{waiver(rule, subject)};
        REQUIRE(job.study.findings.size() == 1);
        CHECK(job.study.findings.front().rule == "waiver.unused");
        CHECK(job.study.findings.front().severity == Severity::warning);
        CHECK(job.study.findings.front().span.known());
    }
}

TEST_CASE("a waiver leaves other findings of the same rule alone") {
    const Case job{{"rating = \"60 A\"", "rating = \"35 A\""}, waiver("disconnect.rating", "SW-1")};
    REQUIRE(job.finding("disconnect.rating", "equipment:SW-1") != nullptr);
    CHECK(job.finding("disconnect.rating", "equipment:SW-1")->severity == Severity::advice);
    REQUIRE(job.finding("disconnect.rating", "equipment:SW-2") != nullptr);
    CHECK(job.finding("disconnect.rating", "equipment:SW-2")->severity == Severity::violation);
}
