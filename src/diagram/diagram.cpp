#include "diagram/diagram.h"

#include <algorithm>
#include <map>
#include <set>

#include "diagram/divide.h"

namespace ohmfolio {

namespace {

using diagram::Folding;
using diagram::Plan;

std::vector<std::string> symbols_used(const std::vector<Plan>& pages) {
    std::set<std::string> names;
    for (const Plan& page : pages) {
        for (const diagram::Block& block : page.blocks) {
            const std::vector<std::string> needed = diagram::symbols_needed(block);
            names.insert(needed.begin(), needed.end());
        }
    }
    return {names.begin(), names.end()};
}

/// The whole with everything known that does not depend on pages.
Plan folded(const Plan& nested, Folding folding) {
    Plan whole = nested;
    diagram::fold(whole, folding);
    diagram::caption(whole);
    return whole;
}

/// As few pages as folding everything makes of it, but folded no more than that takes.
std::vector<Plan> divided(const Plan& nested, Findings& findings) {
    constexpr std::size_t small = 150; // blocks; larger ones are folded without trying
    const Plan most = folded(nested, Folding::loads_too);
    std::vector<Plan> pages = diagram::divide(most, findings);
    if (nested.blocks.size() > small) {
        return pages;
    }
    for (const Folding folding : {Folding::none, Folding::many, Folding::equal}) {
        Findings tried;
        std::vector<Plan> less = diagram::divide(folded(nested, folding), tried);
        if (tried.empty() && less.size() <= pages.size()) {
            return less;
        }
    }
    return pages;
}

/// Every one on a page of its own where that fits; else what is alike drawn once, the most
/// repeated first; else on several pages.
std::vector<Plan> paged(const Plan& nested, Findings& findings) {
    for (const Folding folding :
         {Folding::none, Folding::many, Folding::equal, Folding::loads_too}) {
        const Plan whole = folded(nested, folding);
        diagram::Fitted one = diagram::fitted(whole, {{.root = whole.roots.front()}});
        if (one.excess.none()) {
            std::vector<Plan> pages;
            pages.push_back(std::move(one.page));
            return pages;
        }
    }
    return divided(nested, findings);
}

/// Where each match mark stands: page and point, for both of its ends.
using Ends = std::map<std::string, std::vector<std::pair<std::size_t, Point>>>;

Ends ends_of(const std::vector<Plan>& pages) {
    Ends ends;
    for (std::size_t p = 0; p < pages.size(); ++p) {
        for (const diagram::Block& block : pages[p].blocks) {
            if (block.form == diagram::Form::match) {
                ends[block.match].emplace_back(p, block.body.centre());
            }
        }
    }
    return ends;
}

diagram::References references_from(std::size_t page, const Ends& ends, const PageNames& names) {
    return [page, &ends, &names](const std::string& match) -> std::string {
        for (const auto& [other, at] : ends.at(match)) {
            if (other != page || ends.at(match).size() == 1) {
                return names.sheet(other) + " " + names.zone(at);
            }
        }
        return names.sheet(page) + " " + names.zone(ends.at(match).back().second);
    };
}

std::vector<int> notes_on(const Plan& page) {
    std::set<int> notes;
    for (const diagram::Block& block : page.blocks) {
        notes.insert(block.notes.begin(), block.notes.end());
    }
    return {notes.begin(), notes.end()};
}

std::vector<int> circuits_on(const Plan& page) {
    std::set<int> circuits;
    for (const diagram::Wire& wire : page.wires) {
        circuits.insert(wire.circuits.begin(), wire.circuits.end());
    }
    return {circuits.begin(), circuits.end()};
}

/// A page with its tags and control wiring.
struct Lettered {
    Frame frame;
    Findings findings;
    std::vector<int> unplaced; ///< wires whose tags found no place
};

/// Tags of the wires in `first` are placed before the control wiring, which goes around them, the
/// others after it.
Lettered lettered(const Plan& page, const Frame& inked, const std::vector<int>& first) {
    std::vector<int> rest;
    for (std::size_t i = 0; i < page.wires.size(); ++i) {
        if (std::find(first.begin(), first.end(), static_cast<int>(i)) == first.end()) {
            rest.push_back(static_cast<int>(i));
        }
    }
    Lettered result{inked, {}, {}};
    result.unplaced = diagram::letter(page, result.frame, first, result.findings);
    diagram::route_controls(page, result.frame, result.findings);
    const std::vector<int> more = diagram::letter(page, result.frame, rest, result.findings);
    result.unplaced.insert(result.unplaced.end(), more.begin(), more.end());
    return result;
}

/// Control wiring takes the shortest way first, and tags stand clear of it; those that find no
/// place are placed before it.
Lettered best_lettered(const Plan& page, const Frame& inked) {
    constexpr int most_rounds = 4;
    std::vector<int> first;
    Lettered best = lettered(page, inked, first);
    std::vector<int> unplaced = best.unplaced;
    for (int round = 0; round < most_rounds && !unplaced.empty(); ++round) {
        first.insert(first.end(), unplaced.begin(), unplaced.end());
        Lettered again = lettered(page, inked, first);
        unplaced = again.unplaced;
        if (again.findings.size() < best.findings.size()) {
            best = std::move(again);
        }
    }
    return best;
}

Lettered drawn(Plan& page, const diagram::References& references) {
    diagram::route(page);
    return best_lettered(page, diagram::ink(page, references));
}

/// All pages together, since their match marks name the places of one another.
std::vector<Lettered> drawn(std::vector<Plan>& pages, const PageNames& names) {
    const Ends ends = ends_of(pages);
    std::vector<Lettered> all;
    for (std::size_t p = 0; p < pages.size(); ++p) {
        all.push_back(drawn(pages[p], references_from(p, ends, names)));
    }
    return all;
}

/// Where a tag found no place beside control wiring, the wire is made longer by what that wiring
/// takes, or by what the page has left.
Plan roomier(const Plan& page, const std::vector<int>& unplaced) {
    Plan wider = page;
    const auto lengthen = [&](Length by) {
        for (const int wire : unplaced) {
            wider.wire(wire).beside_tag = by;
        }
        return diagram::place(wider);
    };
    const Length wanted = page.spacing.control_clear * 2;
    const Length lacking = lengthen(wanted).width;
    const bool fits = lengthen(std::max(wanted - lacking, Length{})).none();
    return fits ? wider : page;
}

std::size_t tags_unplaced(const std::vector<Lettered>& pages) {
    std::size_t count = 0;
    for (const Lettered& page : pages) {
        count += page.unplaced.size();
    }
    return count;
}

std::vector<Lettered> best_drawn(std::vector<Plan>& pages, const PageNames& names) {
    std::vector<Lettered> best = drawn(pages, names);
    if (tags_unplaced(best) == 0) {
        return best;
    }
    std::vector<Plan> wider;
    for (std::size_t p = 0; p < pages.size(); ++p) {
        const std::vector<int>& unplaced = best[p].unplaced;
        wider.push_back(unplaced.empty() ? pages[p] : roomier(pages[p], unplaced));
    }
    std::vector<Lettered> again = drawn(wider, names);
    if (tags_unplaced(again) < tags_unplaced(best)) {
        pages.swap(wider);
        return again;
    }
    return best;
}

DiagramPage finished(const Plan& page, Lettered done) {
    const bool grounding =
        std::any_of(page.blocks.begin(), page.blocks.end(),
                    [](const diagram::Block& block) { return !block.electrodes.empty(); });
    return {std::move(done.frame), notes_on(page), circuits_on(page), grounding};
}

/// The steps that come before pages.
Plan nested(const diagram::Subject& subject) {
    Plan whole(subject);
    diagram::nest(whole);
    diagram::order(whole);
    diagram::connect(whole);
    return whole;
}

} // namespace

Diagram draw_diagram(const System& system, const Study& study, const SymbolSet& symbols,
                     const DiagramStyle& style, Size area, const PageNames& names,
                     const TextMeasure& measure, Findings& findings) {
    const Plan whole = nested({system, study, symbols, style, measure, area});
    if (!diagram::symbols_present(whole, findings)) {
        return {};
    }
    std::vector<Plan> pages = paged(whole, findings);
    std::vector<Lettered> done = best_drawn(pages, names);
    Diagram result;
    for (std::size_t p = 0; p < pages.size(); ++p) {
        findings.insert(findings.end(), done[p].findings.begin(), done[p].findings.end());
        result.pages.push_back(finished(pages[p], std::move(done[p])));
    }
    result.symbols = symbols_used(pages);
    result.notes = pages.front().notes;
    return result;
}

} // namespace ohmfolio
