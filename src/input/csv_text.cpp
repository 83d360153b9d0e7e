#include "input/csv_text.h"

#include <algorithm>
#include <string_view>

#include "input/faults.h"

namespace ohmfolio {
namespace {

std::string trimmed_cell(std::string_view cell) {
    constexpr std::string_view blank = " \t\r";
    const auto first = cell.find_first_not_of(blank);
    if (first == std::string_view::npos) {
        return {};
    }
    return std::string(cell.substr(first, cell.find_last_not_of(blank) - first + 1));
}

/// What parts the cells: whichever the heading has most of.
char separator_of(std::string_view text) {
    const std::string_view heading = text.substr(0, text.find('\n'));
    char best = ',';
    for (const char c : {';', '\t'}) {
        if (std::ranges::count(heading, c) > std::ranges::count(heading, best)) {
            best = c;
        }
    }
    return best;
}

class Reader {
  public:
    explicit Reader(std::string_view text) : text_(text), separator_(separator_of(text)) {}

    std::vector<CsvRow> rows() {
        std::vector<CsvRow> rows;
        while (at_ < text_.size()) {
            CsvRow row{line_, {}};
            do {
                row.cells.push_back(cell());
            } while (ended_by(separator_));
            ended_by('\n');
            if (std::ranges::any_of(row.cells, [](const auto& cell) { return !cell.empty(); })) {
                rows.push_back(std::move(row));
            }
        }
        return rows;
    }
    /// The line on which a quotation was opened that nothing closes.
    std::optional<int> unclosed() const { return unclosed_; }

  private:
    bool ended_by(char c) {
        const bool ended = at_ < text_.size() && text_[at_] == c;
        if (ended) {
            ++at_;
            line_ += c == '\n' ? 1 : 0;
        }
        return ended;
    }

    std::string cell() {
        const auto begin = text_.find_first_not_of(' ', at_);
        if (begin != std::string_view::npos && text_[begin] == '"') {
            at_ = begin + 1;
            const std::string inside = quoted();
            return trimmed_cell(inside + plain()); // what follows the quotation belongs to no one
        }
        return trimmed_cell(plain());
    }

    std::string plain() {
        const auto end = std::min(text_.find('\n', at_), text_.find(separator_, at_));
        const std::string_view cell = text_.substr(at_, end - at_);
        at_ = std::min(end, text_.size());
        return std::string(cell);
    }

    /// Up to the closing quote; two of them stand for one.
    std::string quoted() {
        std::string inside;
        const int opened = line_;
        while (at_ < text_.size()) {
            const char c = text_[at_++];
            line_ += c == '\n' ? 1 : 0;
            if (c != '"') {
                inside += c;
            } else if (at_ < text_.size() && text_[at_] == '"') {
                inside += text_[at_++];
            } else {
                return inside;
            }
        }
        unclosed_ = opened;
        return inside;
    }

    std::string_view text_;
    char separator_;
    std::size_t at_ = 0;
    int line_ = 1;
    std::optional<int> unclosed_;
};

} // namespace

std::optional<CsvTable> read_csv(int file, const SourceFiles& sources, Findings& findings) {
    const std::string_view text = without_byte_order_mark(sources.text(file));
    const auto at_line = [file](int line) { return Span{file, {line, 1}, {line, 1}}; };
    Reader reader(text);
    std::vector<CsvRow> rows = reader.rows();
    if (const auto line = reader.unclosed()) {
        findings.push_back(input_fault("csv.quote", at_line(*line), "",
                                       "a quotation that begins on this line is never closed",
                                       {"a second \" at the end of the cell", ""}));
        return std::nullopt;
    }
    if (rows.size() < 2) {
        findings.push_back(input_fault("csv.empty", at_line(1), "", "the table has no rows",
                                       {"a line of headings, and a line for each product", ""}));
        return std::nullopt;
    }
    CsvTable table{file, std::move(rows.front().cells), {}};
    for (auto row = rows.begin() + 1; row != rows.end(); ++row) {
        if (row->cells.size() == table.headings.size()) {
            table.rows.push_back(std::move(*row));
            continue;
        }
        findings.push_back(input_warning(
            "csv.cells", at_line(row->line), "",
            fmt::format("the row has {} cells under {} headings, and is left out",
                        row->cells.size(), table.headings.size()),
            {"as many cells as headings", "put a cell that holds a separator in quotes"}));
    }
    return table;
}

} // namespace ohmfolio
