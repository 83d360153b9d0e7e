/// The example system and the house's symbols, laid out without fonts.
#pragma once

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>

#include "code/code_book.h"
#include "diagram/diagram.h"
#include "diagram/plan.h"
#include "input/input.h"
#include "study/study.h"
#include "symbol/symbol.h"
#include "without_plans.h"

namespace ohmfolio::test {

inline std::string text_of(const std::string& path) {
    std::ifstream in(path);
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}

/// A system read from text, its study, and all a diagram needs.
struct Drawn {
    SourceFiles sources;
    Findings findings;
    System system;
    Study study;
    SymbolSet symbols;
    DiagramStyle style;
    std::unique_ptr<TextMeasure> measure = fixed_measure();
    Size area{inches(16), inches(10)};

    explicit Drawn(const std::string& job) {
        const std::string folder = std::string(OHMFOLIO_SOURCE) + "/examples/tolliver-bend/";
        auto read = read_system_text(job, text_of(folder + "catalogue.toml"), sources, findings);
        if (!read) {
            std::string said;
            for (const Finding& finding : findings) {
                said += print(finding, sources, false) + "\n";
            }
            throw std::runtime_error(said);
        }
        system = std::move(*read);
        study = make_study(system, CodeBook(system.edition));
        symbols = SymbolSet::load(std::string(OHMFOLIO_SOURCE) + "/symbols", sources, findings);
        style.note = {points(10.5)}; // capitals of 0.10 in at the fixed measure's 0.7 em
        style.name = style.tag = {points(10.5), true};
        for (const char* kind : {"branch", "junction_box", "combiner", "disconnect", "mid",
                                 "battery", "panel", "meter", "utility", "string", "inverter",
                                 "generator", "transfer_switch", "supply_connection"}) {
            style.callouts[kind] = {{"{id} {status}"}, {"{model}", "{bus}{rating}"}};
        }
        style.callouts["typical"] = {{"Typical of {total}"}, {}};
    }

    Diagram draw() {
        const PageNames names{[](std::size_t page) { return "E-60" + std::to_string(page + 1); },
                              [](Point) { return "B4"; }};
        return draw_diagram(system, study, symbols, style, area, names, *measure, findings);
    }
};

inline std::string example_job() {
    return without_plans(
        text_of(std::string(OHMFOLIO_SOURCE) + "/examples/tolliver-bend/ashgrove.toml"));
}

/// `text` with the first `from` replaced; throws when it is not there, so that a test cannot go
/// stale.
inline std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    if (at == std::string::npos) {
        throw std::runtime_error("not in the example any more: " + from);
    }
    return text.replace(at, from.size(), to);
}

} // namespace ohmfolio::test
