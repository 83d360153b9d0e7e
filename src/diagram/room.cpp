/// How much room a block's inside and its lettering take, before it is placed.
#include <algorithm>

#include "diagram/interior.h"

namespace ohmfolio::diagram {

namespace {

Length widest(const std::vector<std::string>& lines, const TextStyle& style,
              const TextMeasure& measure) {
    Length width{};
    for (const std::string& line : lines) {
        width = std::max(width, measure.width(line, style));
    }
    return width;
}

/// Room from the bus to the edge of the enclosure that this tap asks for.
Length zone_of(const Plan& plan, const Tap& tap) {
    const Spacing& s = plan.spacing;
    Length width = s.lead * 2 + s.body_pad;
    const Length symbol = device_width(plan, tap);
    if (tap.device == Device::load) {
        return width + symbol + symbol_of(plan, "load-arrow").size.width + s.text_gap +
               plan.measure.width(tap.load, plan.style.note);
    }
    width += std::max(symbol, plan.measure.width(tap.label, plan.style.note));
    if (!tap.transformer.empty()) {
        width += symbol_of(plan, "current-transformer").size.width + s.lead * 2;
    }
    return width;
}

/// From the right edge of a block to the lettering that keeps clear of its control wiring.
Length control_room(const Plan& plan, const Block& block) {
    const Length to_wiring =
        has_transformer(block) ? transformer_offset(plan, block) : plan.spacing.control_clear;
    return to_wiring + plan.spacing.control_clear;
}

/// Lettering is broken at blanks only: no enclosure is narrower than a word of its name.
Length longest_word(const Plan& plan, const Block& block) {
    Length longest{};
    for (const std::string& line : block.name) {
        for (std::size_t begin = 0; begin < line.size();) {
            const std::size_t end = std::min(line.find(' ', begin), line.size());
            longest = std::max(
                longest, plan.measure.width(line.substr(begin, end - begin), plan.style.name));
            begin = end + 1;
        }
    }
    return longest;
}

void measure_bus(const Plan& plan, Block& block) {
    const Spacing& s = plan.spacing;
    block.left_zone = block.right_zone = s.body_pad + s.lead * 2;
    for (const Tap& tap : block.taps) {
        Length& zone = tap.side == Side::left ? block.left_zone : block.right_zone;
        zone = std::max(zone, zone_of(plan, tap));
    }
    if (block.gateway) {
        const Length gateway = symbol_of(plan, "gateway").size.width;
        block.right_zone = std::max(block.right_zone, gateway + s.body_pad * 2 + s.lead);
    }
    block.right_zone += converter_room(plan, block);
    const Length least = std::max(s.bus_width, longest_word(plan, block)) +
                         (block.control ? control_room(plan, block) : Length{});
    if (const Length lacking = least - block.left_zone - block.right_zone; lacking > Length{}) {
        block.left_zone += lacking / 2;
        block.right_zone += lacking / 2;
    }
    block.body_width = block.left_zone + block.right_zone;
}

void measure_body(const Plan& plan, Block& block) {
    const Spacing& s = plan.spacing;
    switch (block.form) {
    case Form::symbol:
    case Form::match:
        block.body_width = symbol_of(plan, block.symbol).size.width;
        break;
    case Form::boxed:
        block.body_width = symbol_of(plan, block.symbol).size.width + s.body_pad * 2;
        if (has_transformer(block)) {
            block.body_width += symbol_of(plan, "current-transformer").size.width + s.lead * 2;
        }
        break;
    case Form::splices:
        block.body_width = inches(0.36);
        break;
    case Form::bus:
        measure_bus(plan, block);
        break;
    }
}

/// The first line is broken at `first`, the others at `width`.
std::vector<std::string> wrapped_all(const std::vector<std::string>& lines, const TextStyle& style,
                                     Length first, Length width, const TextMeasure& measure) {
    std::vector<std::string> out;
    for (const std::string& line : lines) {
        for (std::string& piece : wrapped(line, style, out.empty() ? first : width, measure)) {
            out.push_back(std::move(piece));
        }
    }
    return out;
}

/// Lettering is as wide as the body of a bus block, and as the house allows beside a small symbol.
/// Where control wiring leaves through the upper edge, lettering above keeps clear of it.
void measure_lettering(const Plan& plan, Block& block) {
    const Spacing& s = plan.spacing;
    const bool wide = block.form == Form::bus;
    const Length limit =
        wide ? block.body_width : std::max(block.body_width + s.caption_overhang, s.caption_least);
    const Length control = wide && block.control ? control_room(plan, block) : Length{};
    const Length notes = notes_width(block, s);
    const Length electrodes = block.electrodes.empty() ? Length{} : electrode_indent(s);
    // Beside a small symbol the notes may stand out; over an enclosure they keep within its width.
    const Length name = wide ? limit - control - notes : limit;
    block.above = wrapped_all(block.name, plan.style.name, name, limit - control, plan.measure);
    block.below = wrapped_all(block.wording, plan.style.note, limit - electrodes,
                              limit - electrodes, plan.measure);
    const Length above = std::max(
        notes + widest({block.above.begin(), block.above.begin() + (block.above.empty() ? 0 : 1)},
                       plan.style.name, plan.measure),
        widest(block.above, plan.style.name, plan.measure));
    block.name_shift = {};
    if (!wide && block.control && block.form != Form::match) {
        const Length free =
            block.body_width / 2 - control_room(plan, block) + s.control_clear - s.text_gap;
        block.name_shift = std::max(above / 2 - free, Length{});
    }
    block.width = std::max({block.body_width, above + block.name_shift * 2,
                            widest(block.below, plan.style.note, plan.measure),
                            block.electrodes.empty() ? Length{} : electrodes_width(block, s)});
    if (block.form == Form::match && block.control) {
        const Length outside = s.control_clear + s.text_gap * 2;
        block.width = std::max(block.width, block.body_width + outside * 2);
    }
}

} // namespace

void measure(Plan& page) {
    for (Block& block : page.blocks) {
        measure_body(page, block);
        measure_lettering(page, block);
    }
}

} // namespace ohmfolio::diagram
