/// Every key of every file: its example is what it takes, and what it does not take is refused with
/// what would be right. The tables of keys are the reference page, so this is that page held
/// against the reader.
#include <set>

#include <fmt/format.h>

#include "catch.h"
#include "input/form.h"
#include "input/keys.h"
#include "toml/toml.h"

using namespace ohmfolio;

namespace {

void gather(const Shape& shape, std::set<const Shape*>& known) {
    if (!known.insert(&shape).second) {
        return;
    }
    for (const Key* key : shape.keys()) {
        if (key->shape != nullptr) {
            gather(*key->shape, known);
        }
    }
}

std::set<const Shape*> all_shapes() {
    std::set<const Shape*> known;
    for (const Shape* root : {&description_shape(), &catalogue_shape(), &house_shape()}) {
        gather(*root, known);
    }
    return known;
}

bool holds_tables(const Key& key) {
    return key.kind == Kind::table || key.kind == Kind::tables_by_id ||
           key.kind == Kind::table_list;
}

/// What reading `text` against the shape says of the key.
Findings said_of(const Shape& shape, const Key& key, const std::string& value) {
    SourceFiles sources;
    Findings findings;
    const std::string text = fmt::format("{} = {}\n", key.name, value);
    const int file = sources.add("keys.toml", text);
    const auto root = toml_text::parse(file, sources, findings);
    REQUIRE(root);
    read_form(*root, shape, "equipment", findings);
    std::erase_if(findings, [](const Finding& f) { return f.rule == "input.required"; });
    return findings;
}

} // namespace

TEST_CASE("every key takes its example, and has a meaning") {
    std::size_t tried = 0;
    for (const Shape* shape : all_shapes()) {
        for (const Key* key : shape->keys()) {
            INFO(shape->name << "." << key->name);
            CHECK_FALSE(key->meaning.empty());
            if (holds_tables(*key)) {
                continue;
            }
            REQUIRE_FALSE(key->example.empty());
            const Findings findings = said_of(*shape, *key, std::string(key->example));
            INFO((findings.empty() ? "" : findings.front().message));
            CHECK(findings.empty());
            ++tried;
        }
    }
    CHECK(tried > 300);
}

TEST_CASE("every key refuses what it does not take, at its place, and says what it would take") {
    for (const Shape* shape : all_shapes()) {
        for (const Key* key : shape->keys()) {
            INFO(shape->name << "." << key->name);
            // A table where none is wanted, and a number where a table is.
            const std::string wrong = holds_tables(*key) ? "17" : "{ nothing = 1 }";
            const Findings findings = said_of(*shape, *key, wrong);
            REQUIRE_FALSE(findings.empty());
            const Finding& finding = findings.front();
            CHECK(finding.severity == Severity::error);
            CHECK(finding.span.begin.line == 1);
            CHECK(finding.span.begin.column >= 1);
            CHECK(finding.message.find(key->name) != std::string::npos);
            CHECK_FALSE(finding.expected.empty());
        }
    }
}

TEST_CASE(
    "every key that is spelled with a letter too many is unknown, and the right one is named") {
    for (const Shape* shape : all_shapes()) {
        for (const Key* key : shape->keys()) {
            const std::string slip = std::string(key->name) + "x";
            if (shape->find(slip) != nullptr || key->name.size() < 4) {
                continue;
            }
            INFO(shape->name << "." << slip);
            Key misspelled = *key;
            misspelled.name = slip;
            const Findings findings = said_of(*shape, misspelled, "1");
            REQUIRE_FALSE(findings.empty());
            CHECK(
                (findings.front().hint + findings.front().expected).find(std::string(key->name)) !=
                std::string::npos);
        }
    }
}
