#include "case_runner.h"

#include <charconv>
#include <cmath>
#include <fstream>
#include <sstream>

#include "base/text.h"
#include "catch.h"

namespace ohmfolio {

double Given::number(std::string_view key) const {
    INFO(key);
    REQUIRE(has(key));
    const auto value = table_.find(key)->value->number();
    REQUIRE(value);
    return *value;
}

std::string Given::text(std::string_view key) const {
    INFO(key);
    REQUIRE(has(key));
    const auto* value = table_.find(key)->value->as<std::string>();
    REQUIRE(value);
    return *value;
}

bool Given::flag(std::string_view key) const {
    const bool* value = has(key) ? table_.find(key)->value->as<bool>() : nullptr;
    return value != nullptr && *value;
}

std::vector<double> Given::numbers(std::string_view key) const {
    std::vector<double> result;
    if (has(key))
        for (const toml_text::Node& item : table_.find(key)->value->as<toml_text::Array>()->items)
            result.push_back(*item.number());
    return result;
}

std::vector<std::string> Given::texts(std::string_view key) const {
    std::vector<std::string> result;
    if (has(key))
        for (const toml_text::Node& item : table_.find(key)->value->as<toml_text::Array>()->items)
            result.push_back(*item.as<std::string>());
    return result;
}

WireSize Given::wire(std::string_view key) const {
    const auto size = parse_wire_size(text(key));
    REQUIRE(size);
    return *size;
}

namespace {

/// "44.4" agrees with 44.37: a difference of up to half of the last digit published.
bool agrees(const Answer& ours, const std::string& published) {
    if (const auto* text = std::get_if<std::string>(&ours))
        return *text == published;
    double value = 0;
    const char* end = published.data() + published.size();
    const auto parsed = std::from_chars(published.data(), end, value);
    REQUIRE(parsed.ptr == end);
    const auto point = published.find('.');
    const auto decimals = point == std::string::npos ? 0 : published.size() - point - 1;
    const double half = 0.5 * std::pow(10.0, -static_cast<double>(decimals));
    return std::abs(std::get<double>(ours) - value) <= half * (1 + 1e-9);
}

std::string print(const Answer& answer) {
    if (const auto* text = std::get_if<std::string>(&answer))
        return *text;
    return trimmed(std::get<double>(answer), 6);
}

const toml_text::Table& table_at(const toml_text::Table& parent, std::string_view key) {
    REQUIRE(parent.find(key));
    const auto* table = parent.find(key)->value->as<toml_text::Table>();
    REQUIRE(table);
    return *table;
}

void compare(const Answers& ours, const toml_text::Table& published, bool should_agree) {
    for (const toml_text::Entry& entry : published.entries) {
        const auto* text = entry.value->as<std::string>();
        REQUIRE(text);
        REQUIRE(ours.contains(entry.key));
        INFO(entry.key << ": published " << *text << ", ours " << print(ours.at(entry.key)));
        CHECK(agrees(ours.at(entry.key), *text) == should_agree);
    }
}

void run_case(const toml_text::Table& one, const Procedures& procedures) {
    const Given head(one);
    INFO(head.text("name"));
    REQUIRE_FALSE(head.text("source").empty());
    REQUIRE(procedures.contains(head.text("procedure")));
    const auto edition = parse_edition(head.text("edition"));
    REQUIRE(edition);
    const CodeBook book(*edition);
    Worksheet sheet;
    const Given given_values(table_at(one, "given"));
    const Answers ours =
        procedures.at(head.text("procedure"))({sheet, book, "case:X"}, given_values);
    compare(ours, table_at(one, "expect"), true);
    if (head.has("refused")) {
        REQUIRE_FALSE(head.text("why").empty());
        compare(ours, table_at(one, "refused"), false);
    }
}

} // namespace

int run_cases(const std::string& chapter, const Procedures& procedures) {
    const std::string path =
        std::string(OHMFOLIO_SOURCE) + "/tests/code/cases/" + chapter + ".toml";
    INFO(path);
    std::ifstream stream(path);
    REQUIRE(stream);
    std::stringstream text;
    text << stream.rdbuf();
    SourceFiles sources;
    Findings findings;
    const auto tree = toml_text::parse(sources.add(path, text.str()), sources, findings);
    REQUIRE(tree);
    const auto* entry = tree->as<toml_text::Table>()->find("case");
    REQUIRE(entry);
    int count = 0;
    for (const toml_text::Node& one : entry->value->as<toml_text::Array>()->items) {
        run_case(*one.as<toml_text::Table>(), procedures);
        ++count;
    }
    return count;
}

} // namespace ohmfolio
