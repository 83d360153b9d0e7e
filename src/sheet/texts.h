/// The words of notes, abbreviations and placards, as src/sheet/texts/*.toml hold them.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "base/edition.h"
#include "base/finding.h"
#include "drawing/frame.h"

namespace ohmfolio::sheets {

/// When a text is used: see conditions.h for the names.
struct Use {
    std::vector<std::string> needs, unless;
    std::set<Edition> editions;
};

struct Note {
    std::string id;
    bool caution = false; ///< stands among the safety cautions
    std::string text;     ///< template, see facts.h
    Use use;
};

struct Abbreviation {
    std::string letters, meaning;
};

/// The look of a signal word panel, after ANSI Z535.
struct Signal {
    std::string word;
    Color ground, ink;
    bool triangle = true; ///< safety alert symbol before the word
};

/// One part of a placard, from the top down.
struct PlacardPanel {
    enum class Kind {
        signal,    ///< signal word
        lettering, ///< lines of wording
        blank,     ///< a rule to write on
        roof_plan, ///< the building with its array and the switch: in plan where that is described
        plan,      ///< the building in plan with the disconnects; none where it is not described
        directory  ///< table of the power sources and their disconnects
    } kind = Kind::lettering;
    std::string signal;
    std::vector<std::string> lines; ///< templates; mandated wording stands as the code has it
    Length letter_height;           ///< of a capital
    Color ground = white, ink = black;
    bool bold = true;
    bool centred = true;
    std::set<Edition> editions;
};

struct Placard {
    std::string id, title;
    Use use;
    std::string at; ///< name of a place, see places.h
    std::string where;
    std::string where_one;                   ///< where no more than one is made; empty: as `where`
    std::string note;                        ///< "Reflective"
    std::map<Edition, std::string> sections; ///< an edition that is not named does not ask for it
    std::set<Edition> unverified;
    /// Needed only when this paragraph is the one by which the point of connection was permitted.
    bool of_chosen_rule = false;
    std::string quantity; ///< "as spaced"; empty: they are counted
    /// One for each breaker of a power source at a place, not one for each place.
    bool for_each_source_breaker = false;
    Length width;
    std::vector<PlacardPanel> panels;
};

/// Remarks that explain how a sheet is read.
struct Remarks {
    std::string conductors; ///< below the conductor schedule
    std::string calculations, placards;
    std::string material;          ///< below the material list
    std::string paragraphs;        ///< before the edition of all paragraphs of the calculations
    std::string without_paragraph; ///< what a line of a calculation without one rests on
    std::string unverified;        ///< before the list of paragraphs of the calculations to compare
    std::string roof_plan, branch_map; ///< below their tables
    std::string appendix;              ///< beside the origin of an appended page
    std::string unverified_placards;   ///< before the list of sections at the foot of the placards
};

struct SheetTexts {
    Remarks remarks;
    std::vector<Note> notes;
    std::vector<Abbreviation> abbreviations;
    std::map<std::string, Signal, std::less<>> signals;
    std::vector<Placard> placards;
};

/// Reads notes.toml, abbreviations.toml and placards.toml of `folder`; nothing when one holds a
/// fault.
std::optional<SheetTexts> read_texts(const std::filesystem::path& folder, SourceFiles& sources,
                                     Findings& findings);

} // namespace ohmfolio::sheets
