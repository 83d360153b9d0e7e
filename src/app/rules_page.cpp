// What the reference page says, gathered from the books of its editions.
#include "app/rules_page.h"

#include <algorithm>

#include "base/text.h"
#include "code/code_book.h"

namespace ohmfolio {

namespace {

using ByEdition = RulesPage::ByEdition;
using Books = std::vector<CodeBook>;

constexpr int most_decimals = 6;

const std::vector<std::string> notes = {
    "What each rule checks is told in our own words; the adopted text of NFPA 70, with its local "
    "amendments, decides.",
    "A dagger, †: one page, or memory, alone speaks for this paragraph or its number. Look it up.",
    "A dash, -: this edition has no such rule or number.",
};

/// Every edition's book lists the same rules in the same order: `what` picks one of them.
template <class What> ByEdition in_each(const Books& books, What what) {
    ByEdition cells;
    for (const CodeBook& book : books) {
        cells.push_back(what(book));
    }
    return cells;
}

std::string marked(const Citation& cite) {
    return cite.unverified ? cite.section + " †" : cite.section;
}

std::string section_of(const Rule& rule) { return rule.exists ? marked(rule.cite) : "-"; }

/// "1.25"; where editions differ "NEC 2017 0.875, NEC 2023 0.75".
std::string number_of(const Books& books, const std::string& id) {
    const ByEdition values = in_each(books, [&](const CodeBook& book) {
        const Rule& rule = book.rule(id);
        return rule.number.empty() || !rule.exists
                   ? std::string{}
                   : trimmed(book.number(rule.number), most_decimals);
    });
    if (std::ranges::all_of(values, [&](const std::string& v) { return v == values.front(); }))
        return values.front();
    std::vector<std::string> parts;
    for (std::size_t i = 0; i < books.size(); ++i) {
        if (!values[i].empty())
            parts.push_back(name(books[i].edition()) + " " + values[i]);
    }
    return join(parts, ", ");
}

RulesPage::Chapter& chapter_of(RulesPage& page, const std::string& title) {
    const auto found = std::ranges::find(page.chapters, title, &RulesPage::Chapter::title);
    return found == page.chapters.end()
               ? page.chapters.emplace_back(RulesPage::Chapter{title, {}, {}})
               : *found;
}

void gather_rules(const Books& books, RulesPage& page) {
    const std::vector<Rule>& rules = books.front().rules();
    for (std::size_t i = 0; i < rules.size(); ++i) {
        const Rule& rule = rules[i];
        chapter_of(page, rule.chapter)
            .rules.push_back(
                {rule.id, rule.checks, rule.formula,
                 in_each(books, [i](const CodeBook& book) { return section_of(book.rules()[i]); }),
                 number_of(books, rule.id), rule.source});
    }
}

/// Whether the edition reads the number: some rule of it does, or no rule of any, as where a rule
/// that has one number reads a second.
bool in_use(const CodeBook& book, const std::string& number) {
    bool by_no_rule = true;
    for (const Rule& rule : book.rules()) {
        if (rule.number != number)
            continue;
        if (rule.exists)
            return true;
        by_no_rule = false;
    }
    return by_no_rule;
}

std::string value_of(const CodeBook& book, const std::string& number) {
    const auto found = std::ranges::find(book.numbers(), number, &BookNumber::id);
    if (found == book.numbers().end() || !in_use(book, number))
        return "-";
    return trimmed(found->value, most_decimals);
}

/// An edition lists its own numbers and those of the editions before it: the last has them all.
void gather_numbers(const Books& books, RulesPage& page) {
    for (const BookNumber& number : books.back().numbers()) {
        const ByEdition values =
            in_each(books, [&](const CodeBook& book) { return value_of(book, number.id); });
        if (std::ranges::all_of(values, [](const std::string& value) { return value == "-"; }))
            continue;
        chapter_of(page, number.chapter).numbers.push_back({number.meaning, values, number.source});
    }
}

void gather_tables(const Books& books, RulesPage& page) {
    std::vector<std::vector<BookTable>> of_books;
    for (const CodeBook& book : books) {
        of_books.push_back(book.tables());
    }
    for (std::size_t i = 0; i < of_books.front().size(); ++i) {
        const BookTable& table = of_books.front()[i];
        ByEdition sections;
        for (const std::vector<BookTable>& tables : of_books) {
            sections.push_back(marked(tables[i].cite));
        }
        page.tables.push_back({table.title, std::move(sections), table.source, table.confidence});
    }
}

} // namespace

RulesPage rules_page(const std::vector<Edition>& editions) {
    RulesPage page;
    page.notes = notes;
    Books books;
    for (const Edition edition : editions) {
        books.emplace_back(edition);
        page.editions.push_back(name(edition));
    }
    gather_rules(books, page);
    gather_numbers(books, page);
    gather_tables(books, page);
    return page;
}

} // namespace ohmfolio
