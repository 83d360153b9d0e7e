#include "drawing/measure.h"

#include "base/line_break.h"
#include "base/text.h"

namespace ohmfolio {

namespace {

class FixedMeasure final : public TextMeasure {
  public:
    Length width(std::string_view text, const TextStyle& style) const override {
        return style.size * character_count(text) / 2;
    }
    Length cap_height(const TextStyle& style) const override { return style.size * 7 / 10; }
    Length ascent(const TextStyle& style) const override { return style.size * 9 / 10; }
    Length descent(const TextStyle& style) const override { return style.size * 2 / 10; }
    std::string missing(std::string_view, const TextStyle&) const override { return {}; }
};

/// How far the text's left end stands before its point.
Length before_point(Align align, Length width) {
    switch (align) {
    case Align::left:
        return {};
    case Align::centre:
        return width / 2;
    case Align::right:
        return width;
    }
    return {};
}

/// A line that grows word by word. Words recur, lines do not: the sum of the words' widths settles
/// most questions, and the line itself is measured only near its end.
class GrowingLine {
  public:
    GrowingLine(const TextStyle& style, const TextMeasure& measure)
        : style_(style), measure_(measure), space_(measure.width(" ", style)) {}

    bool empty() const { return text_.empty(); }
    std::string take() { return std::move(text_); }
    void start(std::string_view word) {
        text_ = word;
        sum_ = measure_.width(word, style_);
        gaps_ = 0;
    }
    /// False, and the line stays, when it would become wider.
    bool grow(std::string_view word, Length most) {
        std::string longer = text_;
        longer += ' ';
        longer += word;
        const Length sum = sum_ + space_ + measure_.width(word, style_);
        // What letters on either side of a blank may be moved by it.
        const Length doubt = style_.size * (gaps_ + 1) / 10;
        if (sum - doubt > most || (sum + doubt > most && measure_.width(longer, style_) > most)) {
            return false;
        }
        text_ = std::move(longer);
        sum_ = sum;
        ++gaps_;
        return true;
    }

  private:
    const TextStyle& style_;
    const TextMeasure& measure_;
    Length space_;
    std::string text_;
    Length sum_;
    int gaps_ = 0;
};

void wrap_paragraph(std::string_view text, const TextStyle& style, Length width,
                    const TextMeasure& measure, std::vector<std::string>& lines) {
    GrowingLine line(style, measure);
    const auto add = [&](std::string_view words) {
        if (line.empty()) {
            line.start(words);
        } else if (!line.grow(words, width)) {
            lines.push_back(line.take());
            line.start(words);
        }
    };
    for (std::string_view piece : line_pieces(text)) {
        // Lettering that runs out of its room is worse than a value on two lines.
        while (piece.find(' ') != std::string_view::npos && measure.width(piece, style) > width) {
            add(piece.substr(0, piece.find(' ')));
            piece.remove_prefix(piece.find(' ') + 1);
        }
        add(piece);
    }
    lines.push_back(line.take());
}

} // namespace

std::unique_ptr<TextMeasure> fixed_measure() { return std::make_unique<FixedMeasure>(); }

Box text_box(const Text& text, const TextMeasure& measure) {
    const Length width = measure.width(text.text, text.style);
    const Length above = measure.cap_height(text.style);
    const Length below = measure.descent(text.style);
    const Length before = before_point(text.align, width);
    if (text.turned) { // reads upward: "before" is below the point, "above" is left of it
        return {{text.at.x - above, text.at.y - (width - before)},
                {text.at.x + below, text.at.y + before}};
    }
    return {{text.at.x - before, text.at.y - above},
            {text.at.x + (width - before), text.at.y + below}};
}

Box letters_box(const Text& text, const TextMeasure& measure) {
    Box box = text_box(text, measure);
    (text.turned ? box.high.x : box.high.y) = text.turned ? text.at.x : text.at.y;
    return box;
}

std::vector<Box> boxes_of_lettering(const Frame& frame, const TextMeasure& measure,
                                    Box (*box_of)(const Text&, const TextMeasure&)) {
    std::vector<Box> boxes;
    for (const Mark& mark : frame.marks) {
        if (const auto* text = std::get_if<Text>(&mark.item))
            boxes.push_back(box_of(*text, measure));
    }
    return boxes;
}

std::vector<std::string> wrapped(std::string_view text, const TextStyle& style, Length width,
                                 const TextMeasure& measure) {
    std::vector<std::string> lines;
    for (;;) {
        const auto newline = text.find('\n');
        wrap_paragraph(text.substr(0, newline), style, width, measure, lines);
        if (newline == std::string_view::npos)
            return lines;
        text.remove_prefix(newline + 1);
    }
}

Length line_pitch(const TextStyle& style) {
    // Letters near 0.7 em high and 0.5 em between: the baselines stand 1.2 em apart, which leaves
    // 0.7 of the letter height clear, well inside what ASME Y14.2 asks.
    return style.size * 12 / 10;
}

} // namespace ohmfolio
