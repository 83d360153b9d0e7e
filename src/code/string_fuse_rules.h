/// Overcurrent devices of strings: whether they are needed, and which (690.9).
///
/// A string feeds itself no more than its own short-circuit current; what a device protects it from
/// are the other strings of the same input and what the inverter or storage may feed back. Those
/// currents are taken at 125 % of short circuit, as 690.8(A) has them, against the largest device
/// of the module's label and the ampacity of the conductors.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

/// In which poles the strings have devices.
enum class FusedPoles {
    one,   ///< the same polarity in all circuits of the system
    mixed, ///< some in the positive, some in the negative
    both
};

struct StringFuseInput {
    Term<Amps> string_current{};        ///< of one string, by 690.8(A)
    int parallel = 1;                   ///< strings that meet at one input
    std::optional<Term<Amps>> others{}; ///< of the other strings together, where they differ
    std::optional<Amps>
        module_fuse{};              ///< largest device of the module's label; nothing: not stated
    std::optional<Amps> backfeed{}; ///< from inverter or storage, as it states; nothing: none
    /// Of the string's conductors, in use. Nothing: conductors are not judged here.
    std::optional<Amps> conductor_ampacity{};
    std::vector<Amps> offered{}; ///< PV fuses that the combiner takes; none: standard ratings
    std::string offered_by = "the combiner";
    std::optional<Amps> stated{}; ///< rating in the description
    FusedPoles poles = FusedPoles::one;
    bool listed_for_pv = true;
    bool assembly_at_full_rating = false; ///< listed for 100 % continuous operation
};

struct StringFuseResult {
    bool needed = false;
    std::string reason;                 ///< why it is, or is not
    Term<Amps> backfeed{};              ///< what others can feed into one string
    std::optional<Term<Amps>> rating{}; ///< stated, or chosen where one is needed
    /// No rating carries the string and stays within the module's label: fewer strings in parallel
    /// or other modules are the remedy.
    bool conflict = false;
    int fuses = 0; ///< for all strings of the input
    RuleVerdicts verdicts = {};
    bool passes() const { return !conflict && all_pass(verdicts) && (rating || !needed); }
};
StringFuseResult size_string_fuse(const Desk&, const StringFuseInput&);

/// Most equal strings of the input that need no device: what the module's label leaves for others.
int most_strings_without_fuses(const StringFuseInput&);

} // namespace ohmfolio
