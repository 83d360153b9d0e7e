#include "sheet/calculation_entries.h"

#include <algorithm>

#include "base/text.h"
#include "sheet/formula.h"
#include "sheet/sheet_case.h"
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
    std::string_view verdict;
};

/// A nameplate names itself better than the word "nameplate" does.
bool source_is_place(const Derivation& line) {
    return !line.source.empty() &&
           (line.cite.section.empty() ||
            (line.cite.edition.empty() && line.source.find("nameplate") != std::string::npos &&
             line.cite.section.find("nameplate") != std::string::npos));
}

std::string remark_of(const Derivation& line) {
    std::vector<std::string> remarks;
    if (!line.source.empty() && !source_is_place(line))
        remarks.push_back(sheet_case(line.source));
    if (line.formula.empty() && !line.rounding.empty())
        remarks.push_back(sheet_case(line.rounding));
    if (!line.governs.empty())
        remarks.push_back(sheet_case(line.governs));
    return join(remarks, "; ");
}

std::string working_of(const Derivation& line) {
    std::string text = line.symbol;
    std::string last;
    // "14.20 A, next standard rating up" repeats the figures that it rounds.
    const bool rounds_figures = !line.figures.empty() && line.rounding.starts_with(line.figures);
    const std::string rounding = line.formula.empty() ? "" : sheet_case(line.rounding);
    for (const std::string& part :
         {line.formula, rounds_figures ? std::string{} : line.figures, rounding}) {
        if (part.empty() || part == line.result || part == last)
            continue;
        text += text.empty() ? part : " = " + part;
        last = part;
    }
    return text;
}

Words words_of(const Derivation& line, const TriedSteps& tried) {
    Words words;
    words.title = sheet_case(line.title);
    words.place = source_is_place(line) ? sheet_case(line.source) : printed(line.cite);
    words.remark = remark_of(line);
    words.verdict = verdict_word(line, tried);
    if (line.verdict) {
        words.working = line.formula.empty() ? "" : line.formula + ":";
        words.result = line.formula.empty() ? sheet_case(line.comparison) : line.comparison;
        return words;
    }
    words.working = working_of(line);
    const bool rounded = !line.formula.empty() && !line.rounding.empty();
    if (rounded)
        words.working += ":";
    const bool named = !words.working.empty() && !rounded && !line.result.empty();
    // A choice is a word of the trade; a value keeps the case of its unit.
    const std::string result = line.symbol.empty() ? sheet_case(line.result) : line.result;
    words.result = named ? "= " + result : result;
    return words;
}

/// Sets an entry from the top down.
class EntrySetter {
  public:
    EntrySetter(const Derivation& line, const TriedSteps& tried, Length width, const Job& job)
        : line_(line), words_(words_of(line, tried)), job_(job), width_(width) {
        if (!source_is_place(line) || measured(words_.place, body()) <= width / 2)
            return;
        words_.remark = words_.remark.empty() ? words_.place : words_.place + "; " + words_.remark;
        words_.place = printed(line.cite);
    }

    Frame set() {
        if (fits_one_line()) {
            write(words_.title, {}, body());
            write_value(measured(words_.title, body()) + gap());
            write_right(words_.place, body());
            y_ += pitch();
        } else {
            set_title();
            set_value();
            set_remark();
        }
        const bool lowered = words_.working.find('_') != std::string::npos;
        const Length below =
            job_.measure.descent(body()) + (lowered ? subscript_drop(body()) : Length{});
        frame_.size = {width_, y_ - pitch() + job_.measure.cap_height(body()) + below};
        return std::move(frame_);
    }

  private:
    const TextStyle& body() const { return job_.layout.lettering.body; }
    const TextStyle& strong() const { return job_.layout.lettering.strong; }
    Length pitch() const { return line_pitch(body()); }
    Length indent() const { return points(9); }
    Length gap() const { return points(9); }
    Length blank() const { return measured(" ", body()); }
    Length measured(std::string_view text, const TextStyle& style) const {
        return job_.measure.width(text, style);
    }
    Length verdict_width() const {
        return words_.verdict.empty() ? Length{} : measured(words_.verdict, strong()) + gap();
    }
    Length value_width() const {
        const Length working = formula_width(words_.working, body(), job_.measure);
        const Length between = words_.working.empty() ? Length{} : blank();
        return working + between + measured(words_.result, strong());
    }

    bool fits_one_line() const {
        return line_.formula.empty() && words_.remark.empty() && words_.verdict.empty() &&
               measured(words_.title, body()) + gap() + value_width() + gap() +
                       measured(words_.place, body()) <=
                   width_;
    }

    void write(std::string_view text, Length x, const TextStyle& style) {
        if (!text.empty())
            write_line(frame_, {x, y_}, text, {style, Align::left, black, line_.subject},
                       job_.measure);
    }
    void write_right(std::string_view text, const TextStyle& style) {
        if (!text.empty())
            write_line(frame_, {width_, y_}, text, {style, Align::right, black, line_.subject},
                       job_.measure);
    }
    /// Working and result on this line; returns where they end.
    Length write_value(Length x) {
        if (!words_.working.empty()) {
            write_formula(frame_, {x, y_}, words_.working, body(), line_.subject, job_.measure);
            x += formula_width(words_.working, body(), job_.measure) + blank();
        }
        write(words_.result, x, strong());
        return x + measured(words_.result, strong());
    }

    void set_title() {
        const Length place = measured(words_.place, body());
        const Length room = std::max(width_ - place - gap(), width_ / 3);
        write_right(words_.place, body());
        for (const std::string& title : wrapped(words_.title, body(), room, job_.measure)) {
            write(title, {}, body());
            y_ += pitch();
        }
    }

    void set_value() {
        if (words_.working.empty() && words_.result.empty())
            return;
        const Length room = width_ - indent() - verdict_width();
        end_ = value_width() <= room ? write_value(indent()) : set_long_value(room);
        write_right(words_.verdict, strong());
        y_ += pitch();
    }

    /// Over several lines; the result stays whole where it can.
    Length set_long_value(Length room) {
        Length x = indent();
        if (!words_.working.empty()) {
            const auto lines = formula_lines(words_.working, body(), room, job_.measure);
            for (std::size_t i = 0; i < lines.size(); ++i) {
                y_ += i > 0 ? pitch() : Length{};
                write_formula(frame_, {indent(), y_}, lines[i], body(), line_.subject,
                              job_.measure);
                x = indent() + formula_width(lines[i], body(), job_.measure) + blank();
            }
            if (x + measured(words_.result, strong()) <= indent() + room) {
                write(words_.result, x, strong());
                return x + measured(words_.result, strong());
            }
            y_ += pitch();
        }
        const auto lines = wrapped(words_.result, strong(), room, job_.measure);
        for (std::size_t i = 0; i < lines.size(); ++i) {
            y_ += i > 0 ? pitch() : Length{};
            write(lines[i], indent(), strong());
            x = indent() + measured(lines[i], strong());
        }
        return x;
    }

    /// Beside the value where it fits, else below.
    void set_remark() {
        if (words_.remark.empty())
            return;
        const Length start = end_ + gap();
        if (end_ > Length{} &&
            start + measured(words_.remark, body()) + verdict_width() <= width_) {
            y_ -= pitch();
            write(words_.remark, start, body());
            y_ += pitch();
            return;
        }
        for (const std::string& line :
             wrapped(words_.remark, body(), width_ - indent(), job_.measure)) {
            write(line, indent(), body());
            y_ += pitch();
        }
    }

    const Derivation& line_;
    Words words_;
    const Job& job_;
    Length width_;
    Frame frame_;
    Length y_{};   ///< top of the next line's capitals
    Length end_{}; ///< where the value ended
};

} // namespace

TriedSteps steps_not_chosen(const Study& study) {
    TriedSteps tried;
    for (const ConnectionStudy& connection : study.connections)
        for (const ConnectionOption& option : connection.options)
            if (!option.chosen)
                tried.insert(option.steps.begin(), option.steps.end());
    return tried;
}

std::string_view verdict_word(const Derivation& line, const TriedSteps& tried) {
    if (!line.verdict)
        return {};
    if (*line.verdict == Verdict::pass)
        return "PASS";
    return tried.contains(line.id) ? "NOT MET" : "FAIL";
}

std::string printed(const Citation& citation) {
    const std::string words = sheet_case(text(citation));
    return words.empty() || !citation.unverified ? words : words + "*";
}

Frame calculation_entry(const Derivation& line, const TriedSteps& tried, Length width,
                        const Job& job) {
    return EntrySetter(line, tried, width, job).set();
}

} // namespace ohmfolio::sheets
