/// Graphic symbols: `symbols/*.svg` read into a small closed tree. A symbol is its art, its
/// terminals with the side they face, and its text slots; layout reads only size, ports and slots.
///
/// The SVG subset: one root <svg> with viewBox in millimetres (width and height in mm), a <title>,
/// and <g data-symbol="NAME"> holding <line>, <polyline>, <polygon>, <rect>, <circle>, <path> (M L
/// H V C Z, absolute or relative, and A), stroke and fill black/none/white with class "thin",
/// "medium", "wide" and, for the sake of viewers, the stroke-width that the class means;
/// <circle data-port="NAME" data-side="left|right|top|bottom"> as terminals on the edge of the
/// viewBox (not drawn); <text> as fixed letters, <text data-slot="NAME"> as text slots. A mark,
/// such as the ring of a current transformer, has data-kind="mark" on its root: it may do without
/// ports. Everything else is refused with a message, and so is ink beyond the viewBox. What draws,
/// but not well, is warned of: see lint_symbol.h.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/finding.h"
#include "base/source.h"
#include "drawing/frame.h"

namespace ohmfolio {

enum class Side { left, right, top, bottom };

struct SymbolPort {
    std::string name;
    Side side = Side::left;
    Point at;
    Span span{}; ///< its <circle>
};

/// A place where the diagram may letter something of its own, a rating or a reference.
struct SymbolSlot {
    std::string name;
    Point at; ///< on the baseline, at the left end, centre or right end
    TextStyle style;
    Align align = Align::left;
    std::string sample{}; ///< what stands there in a viewer
};

struct Symbol {
    std::string name;  ///< file name without suffix: "circuit-breaker"
    std::string title; ///< for the legend: "CIRCUIT BREAKER"
    Size size;
    Frame art; ///< strokes, fills and fixed letters, role symbol / lettering
    std::vector<SymbolPort> ports;
    std::vector<SymbolSlot> slots;
    Span span;            ///< its <svg>
    bool is_mark = false; ///< data-kind="mark": laid over other things; ports are optional

    const SymbolPort* port(std::string_view name) const;
    const SymbolSlot* slot(std::string_view name) const;
};

class SymbolSet {
  public:
    /// Reads every *.svg of `folder`; a broken one becomes a finding with file, line and column and
    /// is left out.
    static SymbolSet load(const std::filesystem::path& folder, SourceFiles& sources,
                          Findings& findings);
    /// Lays the symbols of a drafter's own folder over these, by file name. One that takes the
    /// place of another has to have its terminals and text slots, since the diagram asks for them.
    void lay_over(const std::filesystem::path& folder, SourceFiles& sources, Findings& findings);
    const Symbol* find(std::string_view name) const;
    const std::map<std::string, Symbol, std::less<>>& all() const { return symbols_; }
    void add(Symbol symbol);

  private:
    std::map<std::string, Symbol, std::less<>> symbols_;
};

/// One symbol from text; `file` is its index in `sources` for messages.
std::optional<Symbol> parse_symbol(const std::string& name, int file, const SourceFiles& sources,
                                   Findings& findings);

} // namespace ohmfolio
