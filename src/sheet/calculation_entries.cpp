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

/// Where the parts of entries stand that are set one below the other.
struct EntryColumns {
    Length width;
    Length relations; ///< left end of the relation signs
    Length words;     ///< what a stated value is
    Length verdicts;  ///< width of the last column
};

/// What stands left of the relation sign, and the rest.
std::pair<std::string, std::string> sides_of(const std::string& working) {
    const auto at = relation_in(working);
    if (at == std::string::npos || at == 0)
        return {{}, working};
    return {working.substr(0, at - 1), working.substr(at)};
}

/// A value without formula and verdict: symbol, value and what it is stand on one line.
bool is_stated(const Derivation& line) {
    return line.formula.empty() && !line.verdict && !line.symbol.empty();
}

class EntryMeasure {
  public:
    EntryMeasure(Length width, const Job& job) : job_(job), columns_{width, indent(), {}, {}} {}

    Length gap() const { return points(8); }
    Length indent() const { return points(9); }
    Length blank() const { return measured(" ", body()); }
    const TextStyle& body() const { return job_.layout.lettering.body; }
    const TextStyle& strong() const { return job_.layout.lettering.strong; }
    Length measured(std::string_view text, const TextStyle& style) const {
        return formula_width(text, style, job_.measure);
    }

    EntryColumns columns(const std::vector<Derivation>& lines, const std::vector<Words>& words) {
        for (const Words& each : words) {
            if (const Length left = left_of(each); left <= columns_.width / 4)
                columns_.relations = std::max(columns_.relations, indent() + left + blank());
            columns_.verdicts = std::max(columns_.verdicts, measured(each.verdict, strong()));
        }
        for (std::size_t i = 0; i < lines.size(); ++i) {
            const Length end = columns_.relations + measured(words[i].result, strong()) + gap();
            if (is_stated(lines[i]) && end <= columns_.width / 3)
                columns_.words = std::max(columns_.words, end);
        }
        return columns_;
    }

  private:
    Length left_of(const Words& words) const {
        return measured(
            sides_of(words.working.empty() ? "" : words.working + " " + words.result).first,
            body());
    }

    const Job& job_;
    EntryColumns columns_;
};

/// Sets an entry from the top down.
class EntrySetter : private EntryMeasure {
  public:
    EntrySetter(const Derivation& line, const Words& words, const EntryColumns& columns,
                const Job& job)
        : EntryMeasure(columns.width, job), line_(line), words_(words), job_(job), to_(columns) {}

    Frame set() {
        // The larger letter of a symbol reaches above the capitals of its line.
        y_ = job_.measure.cap_height(bearing_style(body())) - job_.measure.cap_height(body());
        frame_.begin(Part::Kind::paragraph);
        if (is_stated(line_)) {
            set_stated();
        } else {
            set_worked_out();
        }
        frame_.end(Part::Kind::paragraph);
        // A subscript at the foot hangs into the gap to the next entry.
        const Length tails = depth_ > Length{} ? Length{} : job_.measure.descent(body());
        frame_.size = {to_.width, bottom_ + tails};
        return std::move(frame_);
    }

  private:
    /// Paragraph and verdict, with the gap before them.
    Length right_width() const {
        Length width{};
        if (!words_.place.empty())
            width += gap() + measured(words_.place, body());
        if (!words_.verdict.empty() || (!words_.place.empty() && to_.verdicts > Length{}))
            width += gap() + to_.verdicts;
        return width;
    }

    void write(std::string_view text, Length x, const TextStyle& style) {
        if (text.empty())
            return;
        write_formula(frame_, {x, y_}, text, style, line_.subject, job_.measure);
        const Length below = formula_extent(text, style, job_.measure).below;
        bottom_ = std::max(bottom_, y_ + job_.measure.cap_height(body()) + below);
        depth_ = std::max(depth_, below);
    }
    void next_line() {
        y_ += line_pitch(body()) + depth_;
        depth_ = {};
    }
    void write_right() {
        Length x = to_.width;
        write(words_.verdict, x - measured(words_.verdict, strong()), strong());
        if (to_.verdicts > Length{})
            x -= to_.verdicts + gap();
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
    void write_lines(const std::vector<std::string>& lines, Length x) {
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (i > 0)
                next_line();
            write(lines[i], x, body());
        }
    }

    /// Symbol and value; what it is beside them.
    void set_stated() {
        const Length end = write_left(words_.working) + measured(words_.result, strong());
        write(words_.result, end - measured(words_.result, strong()), strong());
        std::string words = words_.title;
        if (!words_.remark.empty())
            words += ", " + words_.remark;
        write_right();
        const Length text = std::max(to_.words, end + gap());
        write_lines(wrapped_beside(words, to_.width - text), text);
    }
    /// What stands left of the relation sign, up to its column; returns where the sign stands.
    Length write_left(const std::string& left) {
        const Length width = measured(left, body()) + (left.empty() ? Length{} : blank());
        const Length x = std::max(Length{}, to_.relations - width);
        write(left, x, body());
        return std::max(to_.relations, width);
    }

    void set_worked_out() {
        write_right();
        write_lines(wrapped_beside(words_.title, to_.width), {});
        next_line();
        Length x = set_value();
        x = set_words(words_.excuse, strong(), x);
        set_words(words_.remark, body(), x);
    }

    /// A stretch that is not parted unless it is wider than a line: from one relation to the next.
    struct Stretch {
        std::string text;
        TextStyle style;
    };
    std::vector<Stretch> stretches() const {
        std::vector<Stretch> all;
        std::string rest = sides_of(words_.working).second;
        if (sides_of(words_.working).first.empty() && relation_in(rest) != 0)
            rest.clear();
        while (!rest.empty()) {
            // Past the sign that it begins with.
            const auto sign = rest.find(' ');
            const auto next =
                sign == std::string::npos ? sign : relation_in(std::string_view(rest).substr(sign));
            const auto end = next == std::string::npos ? rest.size() : sign + next;
            std::string text = rest.substr(0, end);
            while (text.ends_with(' '))
                text.pop_back();
            all.push_back({std::move(text), body()});
            rest.erase(0, end);
        }
        if (!words_.result.empty())
            all.push_back({words_.result, strong()});
        return all;
    }

    /// Formula, figures and result, broken before relations and then before other operators.
    /// Returns where the last line ends.
    Length set_value() {
        const std::vector<Stretch> all = stretches();
        make_room(first_line(all));
        const auto [left, right] = sides_of(words_.working);
        const bool named = !left.empty() || right.empty() || relation_in(right) == 0;
        // What is no formula needs no column.
        const Length start =
            words_.working.empty() ? indent() : write_left(named ? left : words_.working);
        Length x = start;
        for (std::size_t i = 0; i < all.size(); ++i) {
            const Length own = measured(all[i].text, all[i].style);
            if (i > 0 && x + blank() + own > to_.width) {
                next_line();
                make_room(all[i].text);
                x = std::max(to_.relations, Length{});
            } else if (i > 0) {
                x += blank();
            }
            x = write_stretch(all[i], x);
        }
        return x;
    }
    static std::string first_line(const std::vector<Stretch>& all) {
        std::string text;
        for (const Stretch& each : all)
            text += each.text + " ";
        return text;
    }
    /// A fraction reaches above the capitals of its line.
    void make_room(std::string_view text) {
        y_ += formula_extent(text, body(), job_.measure).above;
    }
    Length write_stretch(const Stretch& stretch, Length x) {
        if (x + measured(stretch.text, stretch.style) <= to_.width) {
            write(stretch.text, x, stretch.style);
            return x + measured(stretch.text, stretch.style);
        }
        const auto lines =
            formula_lines(stretch.text, stretch.style, to_.width - x, job_.measure, indent());
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (i > 0)
                next_line();
            write(lines[i], i > 0 ? x + indent() : x, stretch.style);
        }
        const Length left = lines.size() > 1 ? x + indent() : x;
        return left + (lines.empty() ? Length{} : measured(lines.back(), stretch.style));
    }
    /// Beside what ends at `x` where it fits, else below; returns its end.
    Length set_words(const std::string& words, const TextStyle& style, Length x) {
        if (words.empty())
            return x;
        if (x + gap() + measured(words, style) <= to_.width) {
            write(words, x + gap(), style);
            return x + gap() + measured(words, style);
        }
        Length end = x;
        for (const std::string& text : wrapped(words, style, to_.width - indent(), job_.measure)) {
            next_line();
            write(text, indent(), style);
            end = indent() + measured(text, style);
        }
        return end;
    }

    const Derivation& line_;
    const Words& words_;
    const Job& job_;
    EntryColumns to_;
    Frame frame_;
    Length y_{};      ///< top of the line's capitals
    Length depth_{};  ///< what the line takes below a plain one
    Length bottom_{}; ///< of what was written, tails left out
};

} // namespace

std::vector<Frame> calculation_entries(const std::vector<Derivation>& lines,
                                       const TriedSteps& tried, Length width, const Job& job) {
    std::vector<Words> words;
    for (const Derivation& line : lines)
        words.push_back(words_of(line, tried, job.study));
    const EntryColumns columns = EntryMeasure(width, job).columns(lines, words);
    std::vector<Frame> entries;
    for (std::size_t i = 0; i < lines.size(); ++i)
        entries.push_back(EntrySetter(lines[i], words[i], columns, job).set());
    return entries;
}

} // namespace ohmfolio::sheets
