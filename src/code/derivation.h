/// A derivation *is* the calculation: one written expression yields the formula in symbols, the
/// same formula in figures, the result, and what it rests on. Calculation sheets, `explain`,
/// schedules and the report all read it; nothing is worked out or written a second time.
///
///     const auto required = sheet.define({.subject = "circuit:C5", .name = "required_ampacity",
///                                         .symbol = "I_req", .title = "Required ampacity",
///                                         .cite = book.cite("source.conductor.continuous")},
///                                        factor(1.25) * current);
///
/// prints  I_req = 1.25 × I = 1.25 × 11.36 A = 14.20 A   NEC 2023 705.28(B)(1).
///
/// Rounding: values are carried in full; a result is *shown* rounded (amps 2 decimals, volts 2,
/// factors as tabulated). A value that the code says to round is rounded by an explicit step that
/// says so (`rounding`).
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/quantity.h"
#include "code/term.h"

namespace ohmfolio {

/// Which paragraph says so. `unverified` when only memory or one source speaks for the number.
struct Citation {
    std::string edition; ///< "NEC 2023"; empty for trade practice and equipment limits
    std::string section; ///< "705.28(B)(1)"; or "common practice", "equipment nameplate"
    bool unverified = false;
};
std::string text(const Citation& citation); ///< "NEC 2023 705.28(B)(1)"

enum class Verdict { pass, fail };

/// One line of a calculation, as data. Formulas use plain text: × ÷ √ ( ) and names such as I_req,
/// where what follows the underscore is set as a subscript up to the next blank or operator.
struct Derivation {
    std::string id;      ///< subject's key + "." + name: "C5.required_ampacity"; unique in a study
    std::string subject; ///< "circuit:C5"
    std::string name;    ///< "required_ampacity"
    std::string title;   ///< "Required ampacity, before corrections"
    std::string symbol;  ///< "I_req"; empty for a check
    std::string formula; ///< "1.25 × I"; empty for a value taken as stated or from a table
    std::string figures; ///< "1.25 × 11.36 A"
    std::string result;  ///< "14.20 A"
    double value = 0;    ///< in the unit of the quantity's type
    Citation cite;
    std::string source;     ///< where a leaf comes from: "Table 310.16, 10 AWG CU, 90 C column"
    std::string rounding;   ///< "next standard rating up"; empty: shown rounded, carried in full
    std::string comparison; ///< "14.20 A ≤ 20 A" for a check
    std::optional<Verdict> verdict; ///< set for a check
    std::string governs;           ///< reason that decided a choice: "terminal temperature governs"
    std::vector<std::string> from; ///< ids of the derivations it rests on, in order of appearance
    std::vector<Leaf> givens = {}; ///< values of its formula that have no line of their own
};

/// How a line of a calculation is headed.
struct Heading {
    std::string subject;     ///< "circuit:C5"
    std::string name;        ///< "required_ampacity"
    std::string symbol = {}; ///< "I_req"; none for a check or a word
    std::string title = {};
    Citation cite = {};
    std::string source = {};
    std::string rounding = {};
    std::string governs = {};
    /// A share as a percentage, watts as apparent power, a fault current in kA.
    ShownAs as = ShownAs::plain;
};

/// The derivations of a study, in the order in which they were made. Ids must be unique: a second
/// definition of the same id throws std::logic_error (a fault of ours, never of the user's).
class Worksheet {
  public:
    /// Records `symbol = expression` and returns the symbol as a term of later expressions.
    template <class Q> Term<Q> define(const Heading& heading, const Term<Q>& expression) {
        return named<Q>(record(heading, expression.symbols, expression.figures,
                               shown_as(heading.as, expression.value), expression.value.value,
                               expression.from, expression.givens),
                        expression.value);
    }
    /// Records a result that is rounded on purpose: the formula gives one value, `used` is carried
    /// on. The line says both: result "13", rounding "13.51, rounded down".
    template <class Q> Term<Q> define_rounded(Heading heading, const Term<Q>& expression, Q used) {
        heading.rounding = shown_as(heading.as, expression.value) + ", " + heading.rounding;
        return named<Q>(record(heading, expression.symbols, expression.figures,
                               shown_as(heading.as, used), used.value, expression.from,
                               expression.givens),
                        used);
    }
    /// Records a value that is stated or read from a table (`heading.source` says where).
    template <class Q>
    Term<Q> state(const Heading& heading, Q value, const std::vector<std::string>& from = {}) {
        return named<Q>(record(heading, {}, {}, shown_as(heading.as, value), value.value, from),
                        value);
    }
    /// The same for a value that several calculations share: its line is written once. Where the
    /// line holds another value, that one goes into the formula under its symbol alone.
    template <class Q> Term<Q> state_once(const Heading& heading, Q value) {
        const Derivation* line = find(id_of(heading));
        if (line == nullptr)
            return state(heading, value);
        return line->value == value.value ? named<Q>(*line, value)
                                          : given(heading.symbol, value, {}, heading.as);
    }
    /// Records a value that is a word: a conductor size, a trade size, a rule that was chosen. The
    /// reference holds until the next line is recorded.
    const Derivation& choose(const Heading& heading, std::string result,
                             const std::vector<std::string>& from);
    /// Records a comparison; returns true when it passes. `relation` is "≤", "≥" or "<". Equal
    /// within the arithmetic's own error counts as equal. A comparison that fails is printed with
    /// the relation that holds, "22.50 A > 20 A", so that what stands on the sheet is true.
    template <class Q>
    bool check(const Heading& heading, const Term<Q>& left, std::string_view relation,
               const Term<Q>& right) {
        return compare(heading, side(heading, left), relation, side(heading, right),
                       detail::merged(left.from, right.from),
                       detail::merged(left.givens, right.givens));
    }
    /// Records a verdict on something that is not a number: a size, a listing. `statement` is what
    /// holds, "10 AWG is not smaller than 12 AWG".
    bool judge(const Heading& heading, std::string statement, bool passes,
               const std::vector<std::string>& from);

    const std::vector<Derivation>& all() const { return derivations_; }
    const Derivation* find(std::string_view id) const;
    /// Where in all() the lines under a subject stand, in the order in which they were made.
    const std::vector<std::size_t>& under(std::string_view subject) const;

  private:
    static std::string id_of(const Heading& heading);
    template <class Q> Term<Q> named(const Derivation& d, Q value) {
        return {value, d.symbol, d.result, Binding::atom, {d.id}};
    }
    struct Side {
        double value;
        std::string symbols, figures, usual, full;
    };
    template <class Q> static Side side(const Heading& heading, const Term<Q>& term) {
        return {term.value.value, term.symbols, term.figures, shown_as(heading.as, term.value),
                shown_as(heading.as, term.value, Digits::full)};
    }
    Derivation& record(const Heading& heading, std::string formula, std::string figures,
                       std::string result, double value, const std::vector<std::string>& from,
                       const std::vector<Leaf>& givens = {});
    bool compare(const Heading& heading, const Side& left, std::string_view relation,
                 const Side& right, const std::vector<std::string>& from,
                 const std::vector<Leaf>& givens);

    std::map<std::string, std::size_t, std::less<>> places_; ///< id to index, for `find`
    std::map<std::string, std::vector<std::size_t>, std::less<>> subjects_; ///< for `under`
    std::vector<Derivation> derivations_;
};

} // namespace ohmfolio
