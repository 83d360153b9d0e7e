#include "sheet/calculation_entries.h"

#include <algorithm>

#include "base/drafting_case.h"
#include "base/text.h"
#include "sheet/formula.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

/// What is printed of a derivation.
struct Words {
    std::string title;
    std::string place;   ///< paragraph, or what the value was read from; at the right
    std::string working; ///< "I_req = 1.25 × I = 1.25 × 11.36 A", a formula
    std::string result;  ///< "= 14.20 A", in bold
    std::string remark;
    std::string verdict; ///< at the right edge
    std::string excuse;  ///< "NOT MET, SEE 705.12(B)(3)", after the result
};

bool names_nameplate(std::string_view text) {
    return text.find("nameplate") != std::string_view::npos;
}

std::string remark_of(const Derivation& line) {
    std::vector<std::string> remarks;
    if (!line.source.empty() && !(line.cite.edition.empty() && names_nameplate(line.source)) &&
        line.source != line.cite.section)
        remarks.push_back(drafting_case(line.source));
    if (line.formula.empty() && !line.rounding.empty())
        remarks.push_back(drafting_case(line.rounding));
    if (!line.governs.empty())
        remarks.push_back(drafting_case(line.governs));
    return join(remarks, "; ");
}

std::string working_of(const Derivation& line, const Study& study) {
    const auto [before, how] = parts_of_rounding(line);
    std::string text = line.symbol;
    std::string last;
    // "14.20 A, next standard rating up" repeats the figures that it rounds.
    const std::string figures = before == line.figures ? "" : shown_figures(line, study);
    const std::string rounding = before.empty() ? "" : before + ", " + drafting_case(how);
    for (const std::string& part : {shown_formula(line.formula), figures, rounding}) {
        if (part.empty() || part == line.result || part == last)
            continue;
        text += text.empty() ? part : " = " + part;
        last = part;
    }
    return text;
}

Words words_of(const Derivation& line, const TriedSteps& tried, const Study& study) {
    Words words;
    words.title = drafting_case(line.title);
    words.place = place_of(line);
    // A note on the sheet says what a line without a paragraph rests on.
    if (words.place == nameplate)
        words.place.clear();
    words.remark = remark_of(line);
    if (words.place == "STATED")
        words.remark = drafting_case(line.governs);
    if (line.verdict) {
        words.verdict = full_verdict(line, study, tried);
        if (words.verdict.starts_with("NOT MET"))
            std::swap(words.verdict, words.excuse);
        words.working = line.formula.empty() ? "" : line.formula + ":";
        words.result = shown_comparison(line, study);
        return words;
    }
    words.working = working_of(line, study);
    const bool rounded = !line.formula.empty() && !line.rounding.empty();
    if (rounded)
        words.working += ":";
    const bool named = !words.working.empty() && !rounded && !line.result.empty();
    words.result = (named ? "= " : "") + shown_result(line);
    return words;
}

/// Sets an entry from the top down.
class EntrySetter {
  public:
    EntrySetter(const Derivation& line, Words words, Length width, const Job& job)
        : line_(line), words_(std::move(words)), job_(job), width_(width) {}

    Frame set() {
        // The larger letter of a symbol reaches above the capitals of its line.
        y_ = job_.measure.cap_height(bearing_style(body())) - job_.measure.cap_height(body());
        if (line_.formula.empty() && !line_.verdict && !line_.symbol.empty()) {
            set_stated();
        } else {
            set_worked_out();
        }
        // A subscript at the foot hangs into the gap to the next entry.
        const Length tails = depth_ > Length{} ? Length{} : job_.measure.descent(body());
        frame_.size = {width_, bottom_ + tails};
        return std::move(frame_);
    }

  private:
    const TextStyle& body() const { return job_.layout.lettering.body; }
    const TextStyle& strong() const { return job_.layout.lettering.strong; }
    Length pitch() const { return line_pitch(body()); }
    Length indent() const { return points(9); }
    Length gap() const { return points(8); }
    Length tab() const { return inches(0.86); }
    Length blank() const { return measured(" ", body()); }
    Length measured(std::string_view text, const TextStyle& style) const {
        return formula_width(text, style, job_.measure);
    }
    Length value_width() const {
        const Length between = words_.working.empty() ? Length{} : blank();
        return measured(words_.working, body()) + between + measured(words_.result, strong());
    }
    /// Paragraph and verdict, with the gap before them.
    Length right_width() const {
        Length width{};
        if (!words_.place.empty())
            width += gap() + measured(words_.place, body());
        if (!words_.verdict.empty())
            width += gap() + measured(words_.verdict, strong());
        return width;
    }

    void write(std::string_view text, Length x, const TextStyle& style) {
        if (text.empty())
            return;
        write_formula(frame_, {x, y_}, text, style, line_.subject, job_.measure);
        reach(formula_depth(text, style));
    }
    void reach(Length depth) {
        bottom_ = std::max(bottom_, y_ + job_.measure.cap_height(body()) + depth);
        depth_ = std::max(depth_, depth);
    }
    void next_line() {
        y_ += pitch() + depth_;
        depth_ = {};
    }
    void write_right() {
        Length x = width_;
        if (!words_.verdict.empty()) {
            x -= measured(words_.verdict, strong());
            write(words_.verdict, x, strong());
            x -= gap();
        }
        write(words_.place, x - measured(words_.place, body()), body());
    }
    /// Lines of which the first leaves room for paragraph and verdict.
    std::vector<std::string> wrapped_beside(const std::string& words, Length width) const {
        auto lines = wrapped(words, body(), width - right_width(), job_.measure);
        if (lines.size() < 2)
            return lines;
        const std::string rest = words.substr(std::min(lines.front().size() + 1, words.size()));
        lines.resize(1);
        for (std::string& line : wrapped(rest, body(), width, job_.measure))
            lines.push_back(std::move(line));
        return lines;
    }
    /// Working and result on this line; returns where they end.
    Length write_value(Length x) {
        if (!words_.working.empty()) {
            write(words_.working, x, body());
            x += measured(words_.working, body()) + blank();
        }
        write(words_.result, x, strong());
        return x + measured(words_.result, strong());
    }

    /// Symbol and value; what it is beside them.
    void set_stated() {
        write_value({});
        std::string words = words_.title;
        if (!words_.remark.empty())
            words += ", " + words_.remark;
        write_right();
        const Length after_value = value_width() + gap();
        const bool needs_all =
            std::max(tab(), after_value) + measured(words, body()) > width_ - right_width();
        const Length text = needs_all ? after_value : std::max(tab(), after_value);
        const auto lines = wrapped_beside(words, width_ - text);
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (i > 0)
                next_line();
            write(lines[i], text, body());
        }
    }

    void set_worked_out() {
        const Length after =
            words_.remark.empty() ? Length{} : gap() + measured(words_.remark, body());
        const Length excuse =
            words_.excuse.empty() ? Length{} : gap() + measured(words_.excuse, strong());
        write_right();
        const auto titles = wrapped_beside(words_.title, width_);
        const Length used = measured(titles.back(), body()) + gap();
        // The paragraph stands on the first line only.
        const Length free = width_ - (titles.size() == 1 ? right_width() : Length{});
        for (std::size_t i = 0; i < titles.size(); ++i) {
            if (i > 0)
                next_line();
            write(titles[i], {}, body());
        }
        if (used + value_width() + after + excuse <= free) {
            set_end(write_value(used), after, excuse);
            return;
        }
        next_line();
        set_value();
    }
    void set_end(Length x, Length after, Length excuse) {
        if (after > Length{})
            write(words_.remark, x + gap(), body());
        if (excuse > Length{})
            write(words_.excuse, x + after + gap(), strong());
    }

    /// Working, broken before operators, then the result where it still fits, then what is to be
    /// said of it.
    void set_value() {
        Length x = indent();
        const auto lines =
            formula_lines(words_.working, body(), width_ - indent(), job_.measure, indent());
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (i > 0)
                next_line();
            const Length left = i > 0 ? indent() * 2 : indent();
            write(lines[i], left, body());
            x = left + measured(lines[i], body()) + blank();
        }
        const Length left = indent() * (lines.empty() ? 1 : 2);
        if (lines.empty()) {
            x = left;
        } else if (x + measured(words_.result, strong()) > width_) {
            next_line();
            x = left;
        }
        const auto results = wrapped(words_.result, strong(), width_ - left, job_.measure);
        for (std::size_t i = 0; i < results.size(); ++i) {
            if (i > 0) {
                next_line();
                x = left;
            }
            write(results[i], x, strong());
            x += measured(results[i], strong());
        }
        x = set_words(words_.excuse, strong(), x);
        set_words(words_.remark, body(), x);
    }
    /// Beside what ends at `x` where it fits, else below; returns its end.
    Length set_words(const std::string& words, const TextStyle& style, Length x) {
        if (words.empty())
            return x;
        if (x + gap() + measured(words, style) <= width_) {
            write(words, x + gap(), style);
            return x + gap() + measured(words, style);
        }
        Length end = x;
        for (const std::string& text : wrapped(words, style, width_ - indent(), job_.measure)) {
            next_line();
            write(text, indent(), style);
            end = indent() + measured(text, style);
        }
        return end;
    }

    const Derivation& line_;
    Words words_;
    const Job& job_;
    Length width_;
    Frame frame_;
    Length y_{};      ///< top of the line's capitals
    Length depth_{};  ///< what the line takes below a plain one
    Length bottom_{}; ///< of what was written, tails left out
};

} // namespace

Frame calculation_entry(const Derivation& line, const TriedSteps& tried, Length width,
                        const Job& job) {
    return EntrySetter(line, words_of(line, tried, job.study), width, job).set();
}

} // namespace ohmfolio::sheets
