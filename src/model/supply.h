/// The supply of a site: how its lines stand to one another, and on which of them a circuit sits.
/// A *line* is an ungrounded conductor. Lettered A, B, C as on a bus; a single-phase supply has A
/// and B alone.
#pragma once

#include <array>
#include <string>

namespace ohmfolio {

enum class Supply {
    split_phase,     ///< 120/240 V: two lines of one winding and its middle
    lines_of_a_wye,  ///< two lines and the neutral of a wye, 120/208 V single phase
    three_phase_wye, ///< three lines and the neutral: 120/208 V, 277/480 V
};

/// Ungrounded conductors of a supply.
constexpr int lines_of(Supply supply) { return supply == Supply::three_phase_wye ? 3 : 2; }
constexpr bool is_wye(Supply supply) { return supply != Supply::split_phase; }

/// The lines that a circuit sits on, by number: 0 is A.
struct Phases {
    std::array<bool, 3> on{};

    static Phases all(int lines) { return {{lines > 0, lines > 1, lines > 2}}; }
    /// `count` lines from `first` on, in turn around the bus: 2 from C are C and A.
    static Phases from(int first, int count) {
        Phases phases;
        for (int i = 0; i < count; ++i)
            phases.on[static_cast<std::size_t>((first + i) % 3)] = true;
        return phases;
    }
    int count() const { return (on[0] ? 1 : 0) + (on[1] ? 1 : 0) + (on[2] ? 1 : 0); }
    bool has(int line) const { return on[static_cast<std::size_t>(line)]; }
    /// Of two lines: 0 between A and B, 1 between B and C, 2 between C and A.
    int pair() const { return has(0) && has(1) ? 0 : has(1) && has(2) ? 1 : 2; }
    /// The first of its lines.
    int first() const { return has(0) ? 0 : has(1) ? 1 : 2; }
    /// "A", "A-B", "C-A", "A-B-C".
    std::string name() const {
        if (count() == 2 && !has(1))
            return "C-A";
        std::string text;
        for (int line = 0; line < 3; ++line) {
            if (has(line))
                text += (text.empty() ? "" : "-") + std::string(1, "ABC"[line]);
        }
        return text;
    }
    friend bool operator==(const Phases&, const Phases&) = default;
};

} // namespace ohmfolio
