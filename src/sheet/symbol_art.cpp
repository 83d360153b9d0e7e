#include "sheet/symbol_art.h"

#include <algorithm>

namespace ohmfolio::sheets {

namespace {

Frame reduced(const Frame& art, double factor, const TextMeasure& measure) {
    Frame frame;
    frame.size = {scaled(art.size.width, factor), scaled(art.size.height, factor)};
    for (Mark mark : art.marks) {
        if (auto* path = std::get_if<Path>(&mark.item)) {
            for (Segment& segment : path->segments) {
                segment.to = scaled(segment.to, factor);
                segment.control1 = scaled(segment.control1, factor);
                segment.control2 = scaled(segment.control2, factor);
            }
        }
        if (auto* text = std::get_if<Text>(&mark.item)) {
            const Length half = measure.cap_height(text->style) / 2;
            text->at = scaled(Point{text->at.x, text->at.y - half}, factor);
            text->at.y += half;
        }
        frame.marks.push_back(std::move(mark));
    }
    return frame;
}

} // namespace

Point scaled(Point at, double factor) { return {scaled(at.x, factor), scaled(at.y, factor)}; }

double symbol_scale(const Symbol& symbol, const Size& room) {
    const auto share = [](Length given, Length needed) {
        return static_cast<double>(given.nm) / static_cast<double>(std::max(needed, Length{1}).nm);
    };
    return std::min(
        {1.0, share(room.width, symbol.size.width), share(room.height, symbol.size.height)});
}

Frame symbol_art(const Symbol& symbol, const Size& room, const TextMeasure& measure) {
    const double factor = symbol_scale(symbol, room);
    Frame art = symbol.art;
    art.size = symbol.size;
    return factor < 1 ? reduced(art, factor, measure) : art;
}

} // namespace ohmfolio::sheets
