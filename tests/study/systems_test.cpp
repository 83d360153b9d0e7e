// The examples of single systems: each complies in every edition, and every line of its study
// stands in a group that a sheet prints. What only one of them has is checked here as well.
#include <algorithm>
#include <filesystem>
#include <set>

#include "catch.h"
#include "example.h"

using namespace ohmfolio;
using namespace ohmfolio::example;

namespace {

const std::string folder = "examples/tolliver-bend/";

/// Descriptions beside the catalogue, sorted.
std::vector<std::string> example_jobs() {
    std::vector<std::string> jobs;
    for (const auto& entry :
         std::filesystem::directory_iterator(std::string(OHMFOLIO_SOURCE) + "/" + folder)) {
        const std::string name = entry.path().filename().string();
        if (entry.path().extension() == ".toml" && name != "catalogue.toml" && name != "house.toml")
            jobs.push_back(folder + name);
    }
    std::sort(jobs.begin(), jobs.end());
    return jobs;
}

/// The 2017 edition has no power control systems (705.13 came in 2020), so what rests on one does
/// not comply there.
bool complies(const std::string& job, Edition edition) {
    return !(edition == Edition::nec2017 && job == folder + "tollgate.toml");
}

std::string message(const Findings& findings, const SourceFiles& sources) {
    std::string text;
    for (const Finding& finding : findings)
        text += print(finding, sources, false) + "\n";
    return text;
}

const std::string bellwether = folder + "bellwether.toml";
const std::string millrace = folder + "millrace.toml";
const std::string osier = folder + "osier.toml";
const std::string slatecutter = folder + "slatecutter.toml";

} // namespace

TEST_CASE("systems: each example is read and complies without a finding in every edition") {
    const auto jobs = example_jobs();
    REQUIRE(jobs.size() >= 18);
    for (const std::string& job : jobs) {
        for (const Edition edition : all_editions) {
            INFO(job << ", " << name(edition));
            SourceFiles sources;
            Findings findings;
            const auto system = read_system_text(repository_text(job), file_text("catalogue.toml"),
                                                 sources, findings, edition);
            INFO(message(findings, sources));
            REQUIRE(system);
            CHECK(findings.empty());
            const Study study = make_study(*system, CodeBook(edition));
            INFO(listed(study));
            CHECK(study.findings.empty() == complies(job, edition));
        }
    }
}

TEST_CASE("systems: what rests on power control fails where the edition knows none") {
    const Case older(folder + "tollgate.toml", {}, Edition::nec2017);
    CHECK(older.finding("control.edition") != nullptr);
    // 18 × 1.42 A + 16 A = 41.56 A, × 1.25 = 51.95 A; 200 + 51.95 > 240 A.
    CHECK(older.finding("connection.bus", "equipment:MSP") != nullptr);
}

TEST_CASE("systems: every line of a study stands in a group") {
    for (const std::string& job : example_jobs()) {
        INFO(job);
        const Case each(job);
        std::set<std::string> grouped;
        for (const CalculationGroup& group : each.study.groups)
            grouped.insert(group.steps.begin(), group.steps.end());
        for (const Derivation& line : each.study.worksheet.all()) {
            INFO(line.id);
            CHECK(grouped.contains(line.id));
        }
    }
}

TEST_CASE("systems: groups name only what the job has") {
    const auto titles = [](const std::string& job) {
        std::set<std::string> found;
        for (const CalculationGroup& group : Case(job).study.groups)
            found.insert(group.title);
        return found;
    };
    CHECK(titles(ashgrove).contains("BACKUP"));
    CHECK(titles(fernhill).contains("BACKUP AND GENERATOR"));
    CHECK(titles(millrace).contains("GENERATOR AND TRANSFER"));
    CHECK(titles(bellwether).contains("BRANCHES"));
    CHECK(titles(slatecutter).contains("STRINGS AND INVERTERS"));
    CHECK_FALSE(titles(slatecutter).contains("BRANCHES"));
}

TEST_CASE("systems: a junction box may feed a disconnect, whose breaker protects the branch") {
    const Case job(bellwether);
    // 1.42 A × 1.25 = 1.775 A; the smallest standard rating of a breaker is 15 A, and since the
    // 2023 edition 10 A (240.6(A), 210.18).
    CHECK(job.from("PV-1").current.value == Approx(1.42));
    CHECK(job.breaker_from("SW-1").rating.value == Approx(10));
    CHECK(Case(bellwether, {}, Edition::nec2020).breaker_from("SW-1").rating.value == Approx(15));
}

TEST_CASE("systems: the load side of a transfer switch is protected on both of its ways in") {
    // The generator's own device is 80 A: a 60 A breaker on the utility's side protects the
    // conductors to the panel on that way alone (240.4, 240.21).
    const Case job(millrace, {{"breaker = \"80 A\"", "breaker = \"60 A\""}});
    CHECK(job.from("TS-1").overcurrent.value == Approx(60));
    CHECK(job.from("SBP").overcurrent.value == Approx(80));
    CHECK(job.finding("panel.bus") == nullptr); // a 125 A bus behind 80 A
    const Case small(millrace, {{"enclosure = \"NEMA 1\"\nterminals = \"75 C\"\nbus = \"125 A\"\n"
                                 "main_limit = \"125 A\"",
                                 "enclosure = \"NEMA 1\"\nterminals = \"75 C\"\nbus = \"70 A\"\n"
                                 "main_limit = \"70 A\""}});
    CHECK(small.finding("panel.bus", "equipment:SBP") != nullptr);
}

TEST_CASE("systems: the fuses of a service disconnect protect the service conductors") {
    // Fuses of 125 A in a switch of 200 A, at a service rated 200 A.
    const Case job(folder + "highmeadow.toml");
    CHECK(job.from("SD-1").overcurrent.value == Approx(125));
    CHECK(job.breaker_from("SD-1").rating.value == Approx(125));
}

TEST_CASE("systems: a panel on feed-through lugs is protected by the main ahead of it") {
    // The main of the service panel is 150 A.
    const Change lighter{"[panel.LP]\ntitle = \"Load panel\"\nexisting = true\n"
                         "model = \"dunmere-200\"",
                         "[panel.LP]\ntitle = \"Load panel\"\nexisting = true\n"
                         "model = \"dunmere-125\""};
    const Case job(osier, {lighter});
    const Finding* finding = job.finding("panel.bus", "equipment:LP");
    REQUIRE(finding != nullptr);
    CHECK(finding->message.find("150 A") != std::string::npos);
}

TEST_CASE("systems: converters at the modules set voltage and current of their string") {
    // 690.7(B): the voltage that their instructions state; 690.8(A): their continuous output, and
    // 690.8(B): 125 % of it, 1.25 × 15 A = 18.75 A.
    const Case job(slatecutter);
    CHECK(job.study.derivation("ST-1.converter_voltage").value == Approx(480));
    CHECK(job.from("ST-1").current.value == Approx(15));
    CHECK(job.from("ST-1").required.value == Approx(18.75));
    CHECK(job.from("ST-1").overcurrent.value == 0); // no device in the string
}

TEST_CASE("systems: converters stand in series as their instructions say") {
    const auto of = [](int modules) {
        return Case(slatecutter,
                    {{"ST-1 = { modules = 8", "ST-1 = { modules = " + std::to_string(modules)}});
    };
    const Case few = of(7); // 8 at least
    const Finding* finding = few.finding("string.converters", "equipment:ST-1");
    REQUIRE(finding != nullptr);
    CHECK(finding->expected == "8 to 20 converters in series");
    CHECK(few.study.derivation("ST-1.converters_kept").result == "7 stand in series, of 8 to 20");
    // 5.7 kW in a string at most: 14 × 405 W = 5.67 kW, 15 × 405 W = 6.075 kW.
    CHECK(of(14).finding("string.converters") == nullptr);
    CHECK(of(15).finding("string.converters", "equipment:ST-1") != nullptr);
}

TEST_CASE("systems: a module must suit the electronics it stands on") {
    const auto limited = [](const std::string& from, const std::string& to) {
        return Case(slatecutter, {{from, to}}).finding("string.electronics", "equipment:ST-1");
    };
    // 37.2 V × (1 + 0.0026 × 34) = 40.49 V; 13.85 A; 405 W.
    const std::string head = "enclosure = \"NEMA 6P\"\ninput_limit = ";
    CHECK(limited(head + "\"60 V\"", head + "\"40 V\"") != nullptr);
    CHECK(limited(head + "\"60 V\"", head + "\"41 V\"") == nullptr);
    CHECK(limited("input_current_limit = \"15 A\"\npower",
                  "input_current_limit = \"13 A\"\npower") != nullptr);
    CHECK(limited("power = \"500 W\"", "power = \"400 W\"") != nullptr);
    CHECK(limited("power = \"500 W\"", "power = \"405 W\"") == nullptr);
}

TEST_CASE("systems: strings on a building need a switch that starts rapid shutdown") {
    const Case job(cinder_row, {{"\"rapid shutdown\", ", ""}});
    CHECK(job.finding("shutdown.initiator") != nullptr);
    CHECK(Case(cinder_row).finding("shutdown.initiator") == nullptr);
}

TEST_CASE("systems: electronics that do not shut down leave the roof energized") {
    const Case job(slatecutter, {{"shutdown = true\nshutdown_voltage", "shutdown_voltage"}});
    CHECK(job.study.findings.size() >= 2); // one for each string
    CHECK(std::ranges::all_of(job.study.findings, [](const Finding& finding) {
        return finding.subject.starts_with("equipment:ST-");
    }));
}
