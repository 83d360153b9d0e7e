// The reference page for a terminal: for each rule its paragraphs side by side, the rest beneath.
#include <algorithm>

#include "app/rules_page.h"
#include "base/text.h"

namespace ohmfolio {

namespace {

constexpr int page_width = 100;
constexpr int name_width = 30;
constexpr int indent = 4;

std::string padded(const std::string& text, int width) {
    return text +
           std::string(static_cast<std::size_t>(std::max(0, width - character_count(text))), ' ');
}

std::string without_trailing_blanks(std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    return line;
}

class Text {
  public:
    explicit Text(const RulesPage& page)
        : editions_(page.editions),
          cell_width_((page_width - name_width) / static_cast<int>(page.editions.size()) - 1) {}

    void heading(const std::string& title, char underline) {
        text_ += title + '\n' +
                 std::string(static_cast<std::size_t>(character_count(title)), underline) + "\n\n";
    }
    void editions(const std::string& of_what) { row(of_what, editions_); }
    /// A name and a cell for each edition, in as many lines as they need.
    void row(const std::string& name, const RulesPage::ByEdition& cells) {
        std::vector<std::vector<std::string>> columns{wrapped(name, name_width)};
        for (const std::string& cell : cells) {
            columns.push_back(wrapped(cell, cell_width_));
        }
        std::size_t lines = 0;
        for (const auto& column : columns) {
            lines = std::max(lines, column.size());
        }
        for (std::size_t line = 0; line < lines; ++line) {
            std::string all;
            for (std::size_t i = 0; i < columns.size(); ++i) {
                const std::string part = line < columns[i].size() ? columns[i][line] : "";
                all += padded(part, i == 0 ? name_width : cell_width_) + ' ';
            }
            text_ += without_trailing_blanks(all) + '\n';
        }
    }
    /// The same for an id, which is never broken: a long one stands alone above its cells.
    void row_of(const std::string& id, const RulesPage::ByEdition& cells) {
        const bool fits = character_count(id) <= name_width;
        if (!fits)
            text_ += id + '\n';
        row(fits ? id : std::string{}, cells);
    }
    void beneath(const std::string& label, const std::string& what) {
        if (!what.empty())
            paragraph(label + what, indent);
    }
    void paragraph(const std::string& what, int blanks = 0) {
        for (const std::string& line : wrapped(what, page_width - blanks)) {
            text_ += std::string(static_cast<std::size_t>(blanks), ' ') + line + '\n';
        }
    }
    void gap() { text_ += '\n'; }
    std::string text() const { return text_; }

  private:
    std::vector<std::string> editions_;
    int cell_width_;
    std::string text_;
};

void write_chapter(Text& text, const RulesPage::Chapter& chapter) {
    text.heading(chapter.title, '-');
    if (!chapter.rules.empty())
        text.editions("rule");
    for (const RulesPage::Entry& rule : chapter.rules) {
        text.row_of(rule.id, rule.sections);
        text.beneath("", rule.checks);
        text.beneath("", rule.formula);
        text.beneath("number: ", rule.number);
        text.beneath("source: ", rule.source);
        text.gap();
    }
    if (!chapter.numbers.empty())
        text.editions("number");
    for (const RulesPage::Number& number : chapter.numbers) {
        text.row(number.meaning, number.values);
        text.beneath("source: ", number.source);
        text.gap();
    }
}

} // namespace

std::string as_text(const RulesPage& page) {
    Text text(page);
    text.heading("Rules of the code book: " + join(page.editions, ", "), '=');
    for (const std::string& note : page.notes) {
        text.paragraph(note);
    }
    text.gap();
    for (const RulesPage::Chapter& chapter : page.chapters) {
        write_chapter(text, chapter);
    }
    text.heading("Tables", '-');
    text.editions("table");
    for (const RulesPage::Table& table : page.tables) {
        text.row(table.title, table.sections);
        text.beneath("source: ", table.source);
        text.beneath("confidence: ", table.confidence);
        text.gap();
    }
    std::string result = text.text();
    result.erase(result.find_last_not_of('\n') + 1);
    return result + '\n';
}

} // namespace ohmfolio
