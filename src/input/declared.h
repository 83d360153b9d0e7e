/// Equipment as the drafter declared it: what it is, and by name what it feeds. References to the
/// catalogue are resolved here, references to other equipment in holds_together.h.
#pragma once

#include <string_view>
#include <vector>

#include "base/finding.h"
#include "input/form.h"
#include "model/system.h"

namespace ohmfolio {

struct Declared {
    Equipment equipment;
    const Form* form = nullptr; ///< nullptr for the utility, which nobody declares
    bool feeds_stated = false;  ///< whether or not it names something that exists
    int backs_up = -1;          ///< of a MID: the panel on its backup side
    bool on_backup = false;     ///< of a panel: a MID backs it up

    /// "equipment:JB-1"
    std::string subject() const { return "equipment:" + equipment.id; }
};

inline constexpr std::string_view utility_id = "UTILITY";

/// Records, and whether all catalogue files could be read: if not, a record that is not found may
/// well exist, and is not complained about.
struct Shelf {
    const Catalogue& catalogue;
    bool complete = true;
};

/// All equipment of the description in the order of the text, the utility last. Parents are not
/// known yet.
std::vector<Declared> declare_equipment(const Form& description, Shelf shelf, Findings& findings);

/// The record that `key` of the form names; -1 when there is none, which is reported.
int find_record(const Form& form, std::string_view key, Shelf shelf, Findings& findings);

/// What to say of `name` where no equipment has that id; `ids` are those that would do.
Finding no_such_equipment(const Spanned<std::string>& name, std::string subject,
                          std::string expected, const std::vector<std::string>& ids);

/// The word for its kind: "junction box".
std::string_view kind_word(const Equipment& equipment);

} // namespace ohmfolio
