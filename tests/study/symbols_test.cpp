// Symbols: each that stands in a formula is defined by a line that the formula rests on, and means
// one thing.
#include "catch.h"

#include <algorithm>
#include <set>

#include "example.h"

using namespace ohmfolio;
using example::Case;

namespace {

/// Words between blanks; brackets and signs of operation each become a bar.
std::vector<std::string> words_of(std::string formula) {
    for (const std::string sign : {"×", "÷", "+", "−", "(", ")", "≤", "≥", "<", "√"}) {
        for (auto at = formula.find(sign); at != std::string::npos; at = formula.find(sign, at)) {
            formula.replace(at, sign.size(), " | ");
        }
    }
    std::istringstream stream(formula);
    std::vector<std::string> words;
    for (std::string word; stream >> word;) {
        words.push_back(word);
    }
    return words;
}

/// Symbols among them: no numbers, no units after a number, no plain words.
std::vector<std::string> symbols_of(const std::string& formula) {
    static const std::set<std::string> plain = {
        "lesser", "of", "and", "next", "standard", "rating", "smallest", "offered", "larger"};
    std::vector<std::string> symbols;
    bool after_number = false;
    for (const std::string& word : words_of(formula)) {
        const bool number = word.find_first_not_of("0123456789.") == std::string::npos;
        if (word != "|" && !number && !after_number && !plain.contains(word))
            symbols.push_back(word);
        after_number = number;
    }
    return symbols;
}

void collect_symbols(const Study& study, const std::string& id, std::set<std::string>& symbols) {
    for (const std::string& from : study.derivation(id).from) {
        symbols.insert(study.derivation(from).symbol);
        collect_symbols(study, from, symbols);
    }
}

void check_defined(const Study& study) {
    for (const Derivation& line : study.worksheet.all()) {
        std::set<std::string> defined;
        collect_symbols(study, line.id, defined);
        for (const Leaf& given : line.givens) {
            INFO(line.id << ": " << given.symbol);
            CHECK_FALSE(given.meaning.empty());
            defined.insert(given.symbol);
        }
        for (const std::string& symbol : symbols_of(line.formula)) {
            INFO(line.id << ": " << line.formula << ": " << symbol);
            CHECK(defined.contains(symbol));
        }
    }
}

} // namespace

TEST_CASE("the reader of formulas finds symbols and nothing else") {
    CHECK(symbols_of("V_oc × (1 + β × (T_cold − 25 °C))") ==
          std::vector<std::string>{"V_oc", "β", "T_cold"});
    CHECK(symbols_of("smallest offered ≥ I_req") == std::vector<std::string>{"I_req"});
    CHECK(symbols_of("50 A + 40 A").empty());
    CHECK(symbols_of("2 × I_C1 × R × L") == std::vector<std::string>{"I_C1", "R", "L"});
}

TEST_CASE("every symbol of a formula is defined by a line that it rests on") {
    for (const Edition edition : all_editions) {
        check_defined(Case(example::cinder_row, {}, edition).study);
        check_defined(Case(example::fernhill, {}, edition).study);
        check_defined(Case(edition).study);
    }
    SECTION("under the rooftop adder, with sizes stated and grounds increased") {
        check_defined(Case{{"above_roof = \"1 in\"", "above_roof = \"0.5 in\""}}.study);
        check_defined(Case{{"above_roof = \"1 in\"",
                            "above_roof = \"0.5 in\", ambient = \"40 C\", size = \"8 AWG\""}}
                          .study);
        check_defined(
            Case{{"breaker = \"100 A\", run = {", "breaker = \"100 A\", run = { size = \"1 AWG\","}}
                .study);
    }
    SECTION("where breakers do not fit") {
        check_defined(Case{{"PV-2 = { modules = 8", "PV-2 = { modules = 12"}}.study);
        check_defined(Case{{"breaker = \"100 A\", run = {", "breaker = \"80 A\", run = {"}}.study);
    }
}

TEST_CASE("a symbol means one thing") {
    const Case job;
    // In one group of the calculation sheet a symbol has one value, but for the branches and
    // circuits that share N, I_req and the like, each under its own subject.
    for (const Derivation& a : job.study.worksheet.all()) {
        for (const Derivation& b : job.study.worksheet.all()) {
            if (a.symbol.empty() || a.symbol != b.symbol || a.subject != b.subject)
                continue;
            INFO(a.id << " and " << b.id << " are both " << a.symbol);
            const bool alike = a.id == b.id || a.value == b.value || a.symbol == "I_bus.total" ||
                               a.symbol == "I_bus.limit";
            CHECK(alike);
        }
    }
    CHECK(job.study.derivation("rise.total").formula ==
          "V_d,C1 + V_d,C5 + V_d,C9 + V_d,C10 + V_d,C14");
    CHECK(job.study.derivation("C5.voltage_change").symbol == "V_d,C5");
    const std::string pair = "solvane-405+wickhollow-340.";
    CHECK(job.study.derivation(pair + "cold_power_point").formula ==
          "V_mp × (1 + β_mp × (T_cold − 25 °C))");
    CHECK(job.study.derivation(pair + "hot_power_point").formula ==
          "V_mp × (1 + β_mp × (T_cell.hot − 25 °C))");
}
