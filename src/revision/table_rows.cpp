#include "revision/table_rows.h"

#include <algorithm>
#include <initializer_list>
#include <optional>

#include "drawing/strokes.h"

namespace ohmfolio::revision {

namespace {

/// Between lettering and the rules of its row: rules further off are those of something else.
constexpr Length most_padding = points(10);

/// What stands in one part of the text.
struct Lettering {
    Part::Kind kind;
    std::optional<Box> box;
};

/// Of the parts of these kinds, none of which holds another.
std::vector<Lettering> lettering_of(std::initializer_list<Part::Kind> kinds, const Frame& frame,
                                    const TextMeasure& measure) {
    std::vector<Lettering> parts;
    bool within = false;
    for (const Mark& mark : frame.marks) {
        if (const auto* part = std::get_if<Part>(&mark.item)) {
            if (std::ranges::find(kinds, part->kind) == kinds.end())
                continue;
            within = part->begins;
            if (within)
                parts.push_back({part->kind, {}});
        } else if (const auto* text = std::get_if<Text>(&mark.item); text != nullptr && within) {
            const Box letters = letters_box(*text, measure);
            auto& box = parts.back().box;
            box = box ? united(*box, letters) : letters;
        }
    }
    return parts;
}

std::vector<Stretch> level_rules(const Frame& frame) {
    std::vector<Stretch> rules;
    for (const Outline& outline : outlines_of(frame, Role::rule)) {
        for (std::size_t i = 0; i < outline.stretches(); ++i) {
            Stretch rule = outline.stretch(i);
            if (rule.from.y != rule.to.y)
                continue;
            if (rule.from.x > rule.to.x)
                std::swap(rule.from, rule.to);
            rules.push_back(rule);
        }
    }
    return rules;
}

/// From the nearest rule above to the nearest below, when both are of one table.
std::optional<Box> between_rules(const Box& lettering, const std::vector<Stretch>& rules) {
    const Stretch* above = nullptr;
    const Stretch* below = nullptr;
    for (const Stretch& rule : rules) {
        if (rule.from.x > lettering.low.x || rule.to.x < lettering.high.x)
            continue;
        const Length y = rule.from.y;
        const bool near =
            y >= lettering.low.y - most_padding && y <= lettering.high.y + most_padding;
        if (!near)
            continue;
        if (y <= lettering.low.y && (above == nullptr || y > above->from.y))
            above = &rule;
        if (y >= lettering.high.y && (below == nullptr || y < below->from.y))
            below = &rule;
    }
    if (above == nullptr || below == nullptr || above->from.x != below->from.x ||
        above->to.x != below->to.x)
        return std::nullopt;
    return Box{above->from, below->to};
}

} // namespace

std::vector<Box> table_rows(const Frame& frame, const TextMeasure& measure) {
    const std::vector<Stretch> rules = level_rules(frame);
    std::vector<Box> rows;
    for (const Lettering& row :
         lettering_of({Part::Kind::row, Part::Kind::heading}, frame, measure)) {
        if (!row.box)
            continue;
        const auto ruled = between_rules(*row.box, rules);
        if (ruled || row.kind == Part::Kind::row)
            rows.push_back(ruled.value_or(*row.box));
    }
    return rows;
}

std::vector<Box> paragraphs(const Frame& frame, const TextMeasure& measure) {
    std::vector<Box> boxes;
    for (const Lettering& each : lettering_of({Part::Kind::paragraph}, frame, measure)) {
        if (each.box)
            boxes.push_back(*each.box);
    }
    return boxes;
}

} // namespace ohmfolio::revision
