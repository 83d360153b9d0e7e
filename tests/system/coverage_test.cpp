/// What public checklists ask a packet to show, and where the example shows it. The items and their
/// sources stand in tests/data/packet_checklist.toml. The table is printed: `ctest -V -R
/// checklist`.
#include <algorithm>
#include <iostream>
#include <sstream>

#include <toml++/toml.h>

#include "catch.h"
#include "packet.h"

using namespace ohmfolio::test;

namespace {

/// What the packet is, as text, sheet by sheet.
struct Shown {
    std::vector<std::string> numbers, pages; ///< parallel
    std::string properties;                  ///< of the PDF, by poppler
    double smallest_lettering = 1000;        ///< points
};

Shown shown_by(const DrawnPacket& packet) {
    Shown shown{packet.sheet_numbers(), page_texts(packet.pdf()),
                run_program({"pdfinfo", packet.pdf().string()}).out};
    for (const std::string& number : shown.numbers) {
        for (const std::string& size :
             all_matches(read_file(packet.svg(number)), "font-size=\"([0-9.]+)")) {
            shown.smallest_lettering = std::min(shown.smallest_lettering, std::stod(size));
        }
    }
    return shown;
}

std::vector<std::string> texts_of(const toml::table& table, std::string_view key) {
    std::vector<std::string> texts;
    if (const toml::array* list = table[key].as_array()) {
        for (const toml::node& each : *list) {
            texts.push_back(each.value<std::string>().value());
        }
    }
    return texts;
}

/// Where one group of words stands, and those of it that are on no such sheet together.
struct Found {
    std::string sheet;
    std::vector<std::string> missing;
};

Found find_words(const toml::table& group, const Shown& shown) {
    const std::string sheet = group["sheet"].value<std::string>().value();
    const std::vector<std::string> words = texts_of(group, "words");
    Found best{{}, words};
    for (std::size_t i = 0; i < shown.numbers.size(); ++i) {
        if (!shown.numbers[i].starts_with(sheet)) {
            continue;
        }
        Found here{shown.numbers[i], {}};
        for (const std::string& word : words) {
            if (!has_word(shown.pages.at(i), word)) {
                here.missing.push_back(word);
            }
        }
        if (best.sheet.empty() || here.missing.size() < best.missing.size()) {
            best = here;
        }
    }
    return best;
}

/// How an item is met: by words on sheets, by a property of the packet, or not, with a reason.
struct Answer {
    bool met = false, excused = false;
    std::string where, how;
};

Answer by_words(const toml::array& groups, const Shown& shown) {
    Answer answer{true, false, {}, {}};
    for (const toml::node& each : groups) {
        const toml::table& group = *each.as_table();
        const Found found = find_words(group, shown);
        answer.met = answer.met && found.missing.empty() && !texts_of(group, "words").empty();
        answer.where += (answer.where.empty() ? "" : ", ") +
                        (found.sheet.empty() ? std::string("no sheet") : found.sheet);
        if (!found.missing.empty()) {
            answer.how += " MISSING";
            for (const std::string& word : found.missing) {
                answer.how += " \"" + word + "\"";
            }
        } else if (answer.how.empty()) {
            answer.how = "\"" + texts_of(group, "words").back() + "\"";
        }
    }
    return answer;
}

Answer answer_to(const toml::table& item, const Shown& shown) {
    if (const toml::array* groups = item["shown"].as_array()) {
        return by_words(*groups, shown);
    }
    if (const auto least = item["least_lettering"].value<double>()) {
        std::ostringstream how;
        how << "smallest " << shown.smallest_lettering << " pt";
        return {shown.smallest_lettering >= *least, false, "all", how.str()};
    }
    if (const toml::array* paper = item["paper"].as_array()) {
        std::ostringstream size;
        size << "Page size:       " << paper->get(0)->value<double>().value() * 72 << " x "
             << paper->get(1)->value<double>().value() * 72 << " pts";
        return {shown.properties.find(size.str()) != std::string::npos, false, "all", size.str()};
    }
    if (item["unlocked"].value_or(false)) {
        return {shown.properties.find("Encrypted:       no") != std::string::npos, false, "all",
                "not encrypted"};
    }
    const std::string reason = item["reason"].value_or(std::string{});
    return {false, !reason.empty(), "-", reason};
}

} // namespace

TEST_CASE("every electrical item of the published checklists is on a sheet") {
    const toml::table list =
        toml::parse_file(std::string(OHMFOLIO_SOURCE) + "/tests/data/packet_checklist.toml");
    const Shown shown = shown_by(example_packet());
    const toml::array& items = *list["item"].as_array();
    REQUIRE(items.size() > 40);
    int electrical = 0, met = 0;
    std::ostringstream table;
    for (const toml::node& each : items) {
        const toml::table& item = *each.as_table();
        const std::string asks = item["asks"].value<std::string>().value();
        const bool is_electrical = item["electrical"].value_or(true);
        const Answer answer = answer_to(item, shown);
        table << (answer.met       ? "shown   "
                  : answer.excused ? "excused "
                                   : "MISSING ")
              << asks << " | " << answer.where << " | " << answer.how << '\n';
        electrical += is_electrical ? 1 : 0;
        met += is_electrical && answer.met ? 1 : 0;
        INFO(asks << ": " << answer.where << answer.how);
        CHECK((answer.met || (!is_electrical && answer.excused)));
    }
    std::cout << table.str() << met << " of " << electrical << " electrical items shown\n";
    CHECK(met == electrical);
}

TEST_CASE("an item that no sheet shows is seen") {
    Shown shown = shown_by(example_packet());
    const toml::table group =
        toml::parse("sheet = \"E-6\"\nwords = [\"SINGLE-LINE DIAGRAM\", \"NO SUCH WORDS\"]");
    CHECK(find_words(group, shown).missing == std::vector<std::string>{"NO SUCH WORDS"});
    CHECK(find_words(toml::parse("sheet = \"Q-9\"\nwords = [\"PV\"]"), shown).sheet.empty());
}
