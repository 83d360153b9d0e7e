/// Draft and final: what is unresolved is told on the first sheet, and every sheet says so.
#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

/// Ashgrove with far too small conductors and far too many modules.
std::filesystem::path faulty(const TemporaryFolder& folder) {
    const std::string raceway = ", raceway = \"EMT\"";
    const std::string small = raceway + ", size = \"14 AWG\"";
    return copied(ashgrove(), folder.path(),
                  {{"PV-1 = { modules = 8", "PV-1 = { modules = 18"},
                   {"PV-2 = { modules = 8", "PV-2 = { modules = 18"},
                   {"length = \"46 ft\"" + raceway, "length = \"46 ft\"" + small},
                   {"length = \"34 ft\"" + raceway, "length = \"34 ft\"" + small},
                   {"length = \"14 ft\"" + raceway, "length = \"14 ft\"" + small},
                   {"length = \"10 ft\"" + raceway, "length = \"10 ft\"" + small},
                   {"size = \"3/0 AWG\"", "size = \"8 AWG\""}});
}

std::size_t count(const std::string& text, const std::string& words) {
    std::size_t found = 0;
    for (auto at = text.find(words); at != std::string::npos; at = text.find(words, at + 1))
        ++found;
    return found;
}

} // namespace

TEST_CASE("with unresolved violations only a draft is drawn") {
    const TemporaryFolder folder;
    const auto system = faulty(folder);
    const auto out = folder.path() / "out";
    const Outcome outcome = run_ohmfolio({"draw", system.string(), "--out", out.string()});
    CHECK(outcome.exit_code == 1);
    CHECK_FALSE(std::filesystem::exists(out));
}

TEST_CASE("a draft lists every violation with its paragraph and place, however many there are") {
    const TemporaryFolder folder;
    const auto system = faulty(folder);
    const DrawnPacket packet(system, {"--draft"}, 1);
    const auto pages = page_texts(packet.pdf());
    for (const std::string& page : pages)
        CHECK(page.find("DRAFT - NOT FOR CONSTRUCTION") != std::string::npos);

    std::string general;
    for (std::size_t i = 0; i < pages.size() && packet.sheet_numbers()[i].starts_with("G-"); ++i)
        general += pages[i] + " ";
    CHECK(pages.front().find("UNRESOLVED VIOLATIONS") != std::string::npos);
    CHECK(pages.front().find("FOLLOW ON THE NEXT SHEET") != std::string::npos);
    CHECK(pages.front().find("SCOPE OF WORK") != std::string::npos);
    std::size_t violations = 0;
    for (const Json& finding : packet.report()["findings"]) {
        if (finding["severity"] != "violation")
            continue;
        ++violations;
        const std::string subject = finding["message"].get<std::string>().substr(0, 18);
        CAPTURE(subject);
        CHECK(general.find(flattened(subject)) != std::string::npos);
    }
    CHECK(violations > 15);
    CHECK(count(general, "ASHGROVE.TOML, LINE ") == violations);
    // The first is that of PV-1, with the paragraph that the report cites.
    CHECK(general.find("NEC 2023 705.30(B); ASHGROVE.TOML, LINE ") != std::string::npos);
}
