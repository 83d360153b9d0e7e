/// How wide lettering is. Layout asks through this interface, so that it does not know the
/// renderer, and its tests need no fonts.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "drawing/frame.h"

namespace ohmfolio {

class TextMeasure {
  public:
    virtual ~TextMeasure() = default;
    virtual Length width(std::string_view text, const TextStyle& style) const = 0;
    /// Height of a capital letter above the baseline.
    virtual Length cap_height(const TextStyle& style) const = 0;
    /// Ascent and descent: how far the ink may reach from the baseline.
    virtual Length ascent(const TextStyle& style) const = 0;
    virtual Length descent(const TextStyle& style) const = 0;
    /// The characters of `text` that the face has no glyph for; empty when all can be set.
    virtual std::string missing(std::string_view text, const TextStyle& style) const = 0;
};

/// A measure for tests: every character 0.5 em wide, capitals 0.7 em high.
std::unique_ptr<TextMeasure> fixed_measure();

/// The area that the ink of a text may touch: from cap height (or ascent) to descent.
Box text_box(const Text& text, const TextMeasure& measure);
/// The part of it above the baseline: where an underline does not reach.
Box letters_box(const Text& text, const TextMeasure& measure);
/// Either of them, of all lettering of a frame.
std::vector<Box> boxes_of_lettering(const Frame& frame, const TextMeasure& measure,
                                    Box (*box_of)(const Text&, const TextMeasure&));
/// Breaks `text` at spaces into lines no wider than `width`; a single longer word stays whole.
/// A newline in `text` always breaks.
std::vector<std::string> wrapped(std::string_view text, const TextStyle& style, Length width,
                                 const TextMeasure& measure);
/// Distance between the baselines of successive lines: the letter height plus 0.5 to 1.0 of it, as
/// ASME Y14.2 asks.
Length line_pitch(const TextStyle& style);

} // namespace ohmfolio
