#include "drawing/csv.h"

#include <algorithm>
#include <string_view>

namespace ohmfolio {

namespace {

constexpr std::string_view nothing = "\u2014"; ///< an em dash
constexpr std::string_view line_end = "\r\n";

bool is_number(std::string_view text) {
    if (text.starts_with('-') || text.starts_with('+'))
        text.remove_prefix(1);
    return !text.empty() && text.find_first_not_of("0123456789.") == std::string_view::npos &&
           std::ranges::count(text, '.') <= 1 && text != ".";
}

bool looks_like_formula(std::string_view text) {
    return !text.empty() &&
           std::string_view("=+-@\t\r").find(text.front()) != std::string_view::npos &&
           !is_number(text);
}

std::string field(std::string_view words) {
    std::string text(words == nothing ? std::string_view{} : words);
    std::ranges::replace(text, '\n', ' '); // a heading broken to be narrow
    if (looks_like_formula(text))
        text.insert(text.begin(), '\'');
    if (text.find_first_of(",\"\r\n") == std::string::npos)
        return text;
    std::string quoted = "\"";
    for (const char c : text)
        quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
    return quoted + '"';
}

std::string_view words_of(const Cell& cell) { return cell.words.empty() ? cell.text : cell.words; }

std::string_view words_of(const Column& column) {
    return column.words.empty() ? column.heading : column.words;
}

class CsvWriter {
  public:
    void add(std::string_view words) {
        if (!first_)
            text_ += ',';
        text_ += field(words);
        first_ = false;
    }
    void end_line() {
        text_ += line_end;
        first_ = true;
    }
    std::string text() && { return std::move(text_); }

  private:
    std::string text_;
    bool first_ = true;
};

} // namespace

std::string to_csv(const Table& table) {
    const bool grouped = std::ranges::any_of(table.rows, &Row::heading);
    CsvWriter csv;
    if (grouped)
        csv.add("Group");
    for (const Column& column : table.columns)
        csv.add(words_of(column));
    csv.end_line();
    std::string_view group;
    for (const Row& row : table.rows) {
        if (row.heading) {
            group = row.cells.empty() ? std::string_view{} : words_of(row.cells.front());
            continue;
        }
        if (grouped)
            csv.add(group);
        for (std::size_t i = 0; i < table.columns.size(); ++i)
            csv.add(i < row.cells.size() ? words_of(row.cells[i]) : std::string_view{});
        csv.end_line();
    }
    return std::move(csv).text();
}

} // namespace ohmfolio
