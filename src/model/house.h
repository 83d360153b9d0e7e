/// The house style of a crew: what all drafters of an office share, stated once in house.toml. A
/// job's own values come before these. Plain facts; input/house.h reads them, sheet/house_style.h
/// applies them.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/edition.h"
#include "base/length.h"
#include "base/source.h"

namespace ohmfolio {

/// As the title block prints it: given, never proven.
struct Company {
    std::string name;
    std::vector<std::string> address; ///< line by line
    std::string phone, web, licence;
};

/// A drawing (SVG, in the manner of symbols/) or a picture (PNG), whose bytes are the text of
/// `file` in SourceFiles.
struct HouseLogo {
    enum class Kind { drawing, picture } kind = Kind::drawing;
    std::string name; ///< of the file without suffix
    int file = -1;
    int pixels_wide = 0, pixels_high = 0; ///< of a picture
    Span span;
};

/// A general note of the office, with the conditions of src/sheet/texts/notes.toml.
struct HouseNote {
    std::string id;   ///< one of ours: stands in its place; empty: a further note
    std::string text; ///< empty: the note is left out
    bool caution = false;
    std::vector<Spanned<std::string>> needs, unless;
    std::vector<Edition> editions; ///< none: all
    Span span;
};

/// How the sheets of one content are numbered and titled; in the order of the set.
struct HouseSheet {
    Spanned<std::string> content; ///< "schedules"
    Spanned<std::string> first;   ///< number of the first: "E-701"; empty value: the usual
    std::string title;            ///< empty: the usual
};

using PaperLengths = std::map<std::string, Spanned<Length>, std::less<>>;

struct House {
    Company company;
    std::optional<HouseLogo> logo;
    std::vector<HouseNote> notes;
    PaperLengths lettering; ///< size by name in [lettering] of layouts/common.toml
    PaperLengths pens;      ///< width by name, see sheet/house_style.h
    std::vector<HouseSheet> sheets;
    std::filesystem::path layouts, symbols; ///< folders laid over the shipped ones; empty: none
};

} // namespace ohmfolio
