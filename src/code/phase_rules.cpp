// Currents of the lines of a wye.
#include "code/phase_rules.h"

#include <algorithm>
#include <cmath>

#include "code/line.h"
#include "code/rounding.h"

namespace ohmfolio {

namespace {

constexpr std::array line_letters = {"A", "B", "C"};
constexpr std::array line_keys = {"a", "b", "c"};
constexpr std::array pair_letters = {"AB", "BC", "CA"};
constexpr std::array pair_keys = {"ab", "bc", "ca"};
constexpr std::array pair_words = {"A and B", "B and C", "C and A"};

Citation cite(const Desk& desk) { return desk.book.cite("source.output.current"); }

std::string key_of(const Desk& desk) { return desk.subject.substr(desk.subject.find(':') + 1); }

/// The sums as lines of their own, so that the currents of the lines read shortly.
PhaseSources stated(const Desk& desk, const PhaseSources& sources) {
    PhaseSources result;
    const auto one = [&](const std::string& name, const std::string& symbol,
                         const std::string& title, const Term<Amps>& sum) {
        return desk.sheet.define(
            line_for(desk, name, symbol + "," + key_of(desk), title, cite(desk)), sum);
    };
    for (std::size_t i = 0; i < 3; ++i) {
        if (sources.between[i])
            result.between[i] =
                one(std::string("sources_") + pair_keys[i], std::string("I_") + pair_letters[i],
                    std::string("Sources between lines ") + pair_words[i], *sources.between[i]);
    }
    for (std::size_t i = 0; i < 3; ++i) {
        if (sources.to_neutral[i])
            result.to_neutral[i] =
                one(std::string("sources_") + line_keys[i] + "n",
                    std::string("I_") + line_letters[i] + "N",
                    std::string("Sources between line ") + line_letters[i] + " and the neutral",
                    *sources.to_neutral[i]);
    }
    if (sources.three_phase)
        result.three_phase = one("sources_three_phase", "I_3", "Three-phase sources, of each line",
                                 *sources.three_phase);
    return result;
}

/// Sources between this line and either of the others, in the line: √(a² + b² + a × b).
std::optional<Term<Amps>> met_in_line(const std::optional<Term<Amps>>& a,
                                      const std::optional<Term<Amps>>& b) {
    if (!a || !b)
        return a ? a : b;
    if (about_equal(a->value.value, b->value.value))
        return root_three() * *a;
    const auto root = [](const std::string& x, const std::string& y) {
        return "√(" + x + "² + " + y + "² + " + x + " × " + y + ")";
    };
    const double x = a->value.value;
    const double y = b->value.value;
    return Term<Amps>{Amps{std::sqrt(x * x + y * y + x * y)}, root(a->symbols, b->symbols),
                      root(a->figures, b->figures),           Binding::atom,
                      detail::merged(a->from, b->from),       detail::merged(a->givens, b->givens)};
}

/// What line `i` carries; nothing where no source sits on it.
std::optional<Term<Amps>> in_line(const PhaseSources& sources, std::size_t i) {
    std::optional<Term<Amps>> sum = met_in_line(sources.between[i], sources.between[(i + 2) % 3]);
    if (sources.to_neutral[i])
        add_to(sum, *sources.to_neutral[i]);
    if (sources.three_phase)
        add_to(sum, *sources.three_phase);
    return sum;
}

std::array<Term<Amps>, 3> currents_of(const Desk& desk, const PhaseSources& sums) {
    std::array<Term<Amps>, 3> lines;
    for (std::size_t i = 0; i < 3; ++i) {
        lines[i] = desk.sheet.define(
            line_for(desk, std::string("line_") + line_keys[i],
                     std::string("I_") + line_letters[i] + "," + key_of(desk),
                     std::string("Current of line ") + line_letters[i], cite(desk)),
            in_line(sums, i).value_or(constant(Amps{0})));
    }
    return lines;
}

/// Whether every line carries the same, but for what binary arithmetic leaves over.
bool balanced(const PhaseSources& sums) {
    const auto carried = [&](std::size_t i) {
        const auto current = in_line(sums, i);
        return current ? current->value.value : 0.0;
    };
    return carried(0) > 0 && about_equal(carried(1), carried(0)) &&
           about_equal(carried(2), carried(0));
}

} // namespace

bool PhaseSources::single_phase() const {
    const auto there = [](const std::optional<Term<Amps>>& one) { return one.has_value(); };
    return std::ranges::any_of(between, there) || std::ranges::any_of(to_neutral, there);
}

void PhaseSources::add(const PhaseSources& more) {
    const auto both = [](std::optional<Term<Amps>>& sum, const std::optional<Term<Amps>>& one) {
        if (one)
            add_to(sum, *one);
    };
    both(three_phase, more.three_phase);
    for (std::size_t i = 0; i < 3; ++i) {
        both(between[i], more.between[i]);
        both(to_neutral[i], more.to_neutral[i]);
    }
}

std::array<Term<Amps>, 3> line_currents(const Desk& desk, const PhaseSources& sources) {
    return currents_of(desk, stated(desk, sources));
}

Term<Amps> greatest_line_current(const Desk& desk, const PhaseSources& sources) {
    const PhaseSources sums = stated(desk, sources);
    Heading line = line_for(desk, "line_greatest", "I_L," + key_of(desk),
                            "Current of the line that carries most", cite(desk));
    if (balanced(sums)) {
        line.title = "Current of each line";
        line.source = "all three lines are loaded alike";
        Term<Amps> one = *in_line(sums, 0);
        for (std::size_t i = 1; i < 3; ++i)
            one.from = detail::merged(one.from, in_line(sums, i)->from);
        return desk.sheet.define(line, one);
    }
    const auto [a, b, c] = currents_of(desk, sums);
    line.governs = a.value >= b.value && a.value >= c.value ? "line A governs"
                   : b.value >= c.value                     ? "line B governs"
                                                            : "line C governs";
    return desk.sheet.define(line, larger(a, larger(b, c)));
}

} // namespace ohmfolio
