// The reference page as Markdown: a table for each chapter, and one of the tables.
#include "app/rules_page.h"
#include "base/text.h"

namespace ohmfolio {

namespace {

using Cells = std::vector<std::string>;

/// What would be markup in a cell is written as itself.
std::string escaped(const std::string& text) {
    std::string result;
    for (const char c : text) {
        if (std::string_view("\\|*_`<>[]").find(c) != std::string_view::npos)
            result += '\\';
        result += c;
    }
    return result;
}

/// Within code only the bar that ends a cell needs care.
std::string code(const std::string& text) {
    std::string result;
    for (const char c : text) {
        result += c == '|' ? "\\|" : std::string(1, c);
    }
    return "`" + result + "`";
}

std::string row(const Cells& cells) { return "| " + join(cells, " | ") + " |\n"; }

std::string head(const Cells& columns) { return row(columns) + row(Cells(columns.size(), "---")); }

/// `first`, a cell for each edition, `last`.
Cells around(Cells first, const Cells& editions, const Cells& last) {
    for (const Cells* part : {&editions, &last}) {
        first.insert(first.end(), part->begin(), part->end());
    }
    return first;
}

Cells escaped(const Cells& cells) {
    Cells result;
    for (const std::string& cell : cells) {
        result.push_back(escaped(cell));
    }
    return result;
}

std::string of_chapter(const RulesPage& page, const RulesPage::Chapter& chapter) {
    std::string text = "## " + chapter.title + "\n\n";
    if (!chapter.rules.empty()) {
        text += head(
            around({"Rule", "What it checks", "Formula"}, page.editions, {"Number", "Source"}));
        for (const RulesPage::Entry& rule : chapter.rules) {
            text +=
                row(around({code(rule.id), escaped(rule.checks), code(rule.formula)},
                           escaped(rule.sections), {escaped(rule.number), escaped(rule.source)}));
        }
        text += '\n';
    }
    if (!chapter.numbers.empty()) {
        text += head(around({"Number"}, page.editions, {"Source"}));
        for (const RulesPage::Number& number : chapter.numbers) {
            text += row(around({escaped(number.meaning)}, number.values, {escaped(number.source)}));
        }
        text += '\n';
    }
    return text;
}

} // namespace

std::string as_markdown(const RulesPage& page) {
    std::string text = "# Rules of the code book: " + join(page.editions, ", ") + "\n\n";
    for (const std::string& note : page.notes) {
        text += "- " + escaped(note) + '\n';
    }
    text += '\n';
    for (const RulesPage::Chapter& chapter : page.chapters) {
        text += of_chapter(page, chapter);
    }
    text += "## Tables\n\n" + head(around({"Table"}, page.editions, {"Source", "Confidence"}));
    for (const RulesPage::Table& table : page.tables) {
        text += row(around({escaped(table.title)}, escaped(table.sections),
                           {escaped(table.source), escaped(table.confidence)}));
    }
    return text;
}

} // namespace ohmfolio
