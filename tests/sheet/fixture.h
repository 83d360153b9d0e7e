/// A job with everything that sheets are made from, and words read back from what was drawn.
#pragma once

#include <algorithm>
#include <filesystem>
#include <memory>
#include <set>
#include <string>
#include <vector>

#include "../study/example.h"
#include "drawing/lint.h"
#include "sheet/border.h"
#include "sheet/packet.h"
#include "sheet/pages.h"

namespace ohmfolio::sheets {

inline const std::filesystem::path source_folder = OHMFOLIO_SOURCE;

inline PacketOptions shipped_options(bool draft = false) {
    PacketOptions options;
    options.layouts = source_folder / "layouts";
    options.texts = source_folder / "src/sheet/texts";
    options.draft = draft;
    return options;
}

/// Owns what a Job refers to. Lettering is measured without fonts.
struct Bench {
    example::Case job_case;
    SourceFiles sources;
    Findings findings;
    std::unique_ptr<TextMeasure> measure = fixed_measure();
    SymbolSet symbols = SymbolSet::load(source_folder / "symbols", sources, findings);
    SheetLayout layout =
        read_layout(source_folder / "layouts", {"ansi-b", {}}, sources, findings).value();
    SheetTexts texts = read_texts(source_folder / "src/sheet/texts", sources, findings).value();
    DiagramStyle style;
    Facts facts = facts_of(job_case.system, job_case.study);

    explicit Bench(example::Case given) : job_case(std::move(given)) {}

    Job job() {
        const Box area = areas_of(layout, false, *measure).drawing;
        return {job_case.system, job_case.study, symbols,
                layout,          texts,          style,
                facts,           *measure,       {area.width(), area.height()},
                findings};
    }
    Packet packet(bool draft = false) {
        return make_packet(job_case.system, job_case.study, symbols, shipped_options(draft),
                           *measure, sources, findings);
    }
};

/// Points into the frame, which must outlive the result.
std::vector<const Text*> texts_of(Frame&&) = delete;
inline std::vector<const Text*> texts_of(const Frame& frame) {
    std::vector<const Text*> texts;
    for (const Mark& mark : frame.marks)
        if (const auto* text = std::get_if<Text>(&mark.item))
            texts.push_back(text);
    return texts;
}

/// All lettering of a frame, joined by blanks: wrapped sentences read whole.
inline std::string words_of(const Frame& frame) {
    std::string words;
    for (const Text* text : texts_of(frame))
        words += text->text + " ";
    return words;
}

inline bool holds(const std::string& words, const std::string& part) {
    return words.find(part) != std::string::npos;
}

inline std::vector<std::string> anchors_of(const Frame& frame) {
    std::vector<std::string> names;
    for (const Mark& mark : frame.marks)
        if (const auto* anchor = std::get_if<Anchor>(&mark.item))
            names.push_back(anchor->name);
    return names;
}

} // namespace ohmfolio::sheets
