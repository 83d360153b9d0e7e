// Formulas on paper: subscripts, fractions, brackets as tall as what they hold.

#include <algorithm>

#include "sheet/formula.h"
#include "sheet/formula_parts.h"
#include "sheet/writing.h"

namespace ohmfolio::sheets {

namespace {

/// Measures a line, or sets it where there is a frame to set it into. All heights are counted from
/// the capitals of the line: `above` upward from their top, `below` downward from their foot.
class FormulaSetter {
  public:
    FormulaSetter(const TextStyle& style, const TextMeasure& measure, Frame* frame,
                  std::string shows)
        : style_(style), measure_(measure), frame_(frame), shows_(std::move(shows)) {}

    FormulaExtent set(std::string_view line, Point at) const {
        // Most lines hold no quotient; blanks of those stay as they are.
        if (line.find("÷") == std::string_view::npos)
            return set_runs(line, at);
        FormulaExtent all;
        for (const FormulaPart& part : formula_parts(line)) {
            if (all.width > Length{})
                all.width += measure_.width(" ", style_);
            add(all, part.kind == FormulaPart::Kind::fraction
                         ? set_fraction(part, {at.x + all.width, at.y})
                         : set_operand(part.source, {at.x + all.width, at.y}));
        }
        return all;
    }

  private:
    Length cap() const { return measure_.cap_height(style_); }
    Length bar_gap() const { return scaled(style_.size, 0.2); }

    static void add(FormulaExtent& all, const FormulaExtent& next) {
        all.width += next.width;
        all.above = std::max(all.above, next.above);
        all.below = std::max(all.below, next.below);
    }

    FormulaExtent set_runs(std::string_view text, Point at) const {
        const TextStyle bearing = bearing_style(style_);
        const Length higher = measure_.cap_height(bearing) - cap();
        FormulaExtent all;
        for (const FormulaRun& run : formula_runs(text)) {
            const TextStyle& look = run.bears_subscript ? bearing : style_;
            Point top{at.x + all.width, at.y};
            if (run.lowered)
                top.y += subscript_drop(style_);
            if (run.bears_subscript)
                top.y -= higher;
            if (frame_ != nullptr)
                write_line(*frame_, top, run.text, {look, Align::left, black, shows_}, measure_);
            // The larger letter of the next line reaches above its capitals: more than the drop.
            if (run.lowered)
                all.below = scaled(style_.size, 0.25);
            all.width += measure_.width(run.text, look);
        }
        return all;
    }

    FormulaExtent set_fraction(const FormulaPart& part, Point at) const {
        const FormulaSetter dry(style_, measure_, nullptr, {});
        const FormulaExtent above = dry.set(part.above, {});
        const FormulaExtent below = dry.set(part.below, {});
        const Length width = std::max(above.width, below.width) + scaled(style_.size, 0.3);
        const Length axis = cap() / 2;
        // A subscript hangs from the dividend; the divisor's letter rises above its capitals.
        const Length rise = std::max(above.below, scaled(style_.size, 0.08)) + bar_gap();
        const Length drop = below.above + bar_gap() + scaled(style_.size, 0.14);
        if (frame_ != nullptr) {
            frame_->add(polyline({{at.x, at.y + axis}, {at.x + width, at.y + axis}},
                                 {thin_pen, LineType::solid, black}),
                        Role::rule, shows_);
            set(part.above, {at.x + (width - above.width) / 2, at.y + axis - rise - cap()});
            set(part.below, {at.x + (width - below.width) / 2, at.y + axis + drop});
        }
        FormulaExtent all{width, rise + cap() + above.above - axis + scaled(style_.size, 0.14),
                          axis + drop + below.below};
        if (!part.after.empty()) {
            all.width += scaled(style_.size, 0.15); // clear of the bar
            add(all, set_runs(part.after, {at.x + all.width, at.y}));
        }
        return all;
    }

    /// "MIN(a ÷ b, c)": what stands in brackets may hold fractions.
    FormulaExtent set_operand(const std::string& text, Point at) const {
        const auto open = text.find('(');
        const auto close = text.rfind(')');
        if (text.find("÷") == std::string::npos || open == std::string::npos ||
            close == std::string::npos || close < open)
            return set_runs(text, at);
        FormulaExtent all = set_runs(text.substr(0, open), at);
        const std::string inside = text.substr(open + 1, close - open - 1);
        const FormulaExtent held = FormulaSetter(style_, measure_, nullptr, {}).set(inside, {});
        add(all, set_bracket(held, {at.x + all.width, at.y}, true));
        add(all, set(inside, {at.x + all.width, at.y}));
        add(all, set_bracket(held, {at.x + all.width, at.y}, false));
        add(all, set_runs(text.substr(close + 1), {at.x + all.width, at.y}));
        return all;
    }

    /// As tall as what it holds.
    FormulaExtent set_bracket(const FormulaExtent& held, Point at, bool opens) const {
        const Length width = scaled(style_.size, 0.36), bow = scaled(style_.size, 0.2);
        if (frame_ != nullptr) {
            const Length side =
                opens ? at.x + scaled(style_.size, 0.28) : at.x + scaled(style_.size, 0.08);
            const Length belly = opens ? side - bow : side + bow;
            const Length top = at.y - held.above, foot = at.y + cap() + held.below;
            const Length third = (foot - top) / 3;
            Path path;
            path.stroke = {medium_pen, LineType::solid, black};
            path.segments = {
                {Segment::Kind::move, {side, top}, {}, {}},
                {Segment::Kind::curve, {side, foot}, {belly, top + third}, {belly, foot - third}}};
            frame_->add(std::move(path), Role::rule, shows_);
        }
        return {width, held.above, held.below};
    }

    TextStyle style_;
    const TextMeasure& measure_;
    Frame* frame_;
    std::string shows_;
};

} // namespace

FormulaExtent formula_extent(std::string_view formula, const TextStyle& style,
                             const TextMeasure& measure) {
    return FormulaSetter(style, measure, nullptr, {}).set(formula, {});
}

Length formula_width(std::string_view formula, const TextStyle& style, const TextMeasure& measure) {
    return formula_extent(formula, style, measure).width;
}

std::size_t relation_in(std::string_view formula) {
    std::ptrdiff_t depth = 0;
    for (const std::string_view word : words_of(formula)) {
        if (depth == 0 && is_relation(word))
            return static_cast<std::size_t>(word.data() - formula.data());
        depth +=
            std::count(word.begin(), word.end(), '(') - std::count(word.begin(), word.end(), ')');
    }
    return std::string_view::npos;
}

void write_formula(Frame& frame, Point at, std::string_view line, const TextStyle& style,
                   const std::string& shows, const TextMeasure& measure) {
    FormulaSetter(style, measure, &frame, shows).set(line, at);
}

} // namespace ohmfolio::sheets
