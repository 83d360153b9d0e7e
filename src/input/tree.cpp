#include <algorithm>
#include <fmt/format.h>

#include "base/text.h"
#include "input/faults.h"
#include "input/holds_together.h"

namespace ohmfolio {
namespace {

const Declared& at(const std::vector<Declared>& all, int index) {
    return all[static_cast<std::size_t>(index)];
}

/// The circle that `start` lies on, empty when its way ends.
std::vector<int> circle_through(const std::vector<Declared>& all, int start) {
    std::vector<int> way;
    for (int i = start; i >= 0 && way.size() <= all.size(); i = at(all, i).equipment.parent) {
        if (i == start && !way.empty()) {
            return way;
        }
        way.push_back(i);
    }
    return {};
}

/// Each circle once, at the member that stands first in the text.
bool check_circles(const std::vector<Declared>& all, Findings& findings) {
    bool sound = true;
    for (int start = 0; start < static_cast<int>(all.size()); ++start) {
        const auto circle = circle_through(all, start);
        if (circle.empty() || std::ranges::min(circle) != start) {
            continue;
        }
        sound = false;
        std::vector<std::string> ids;
        for (const int member : circle) {
            ids.push_back(at(all, member).equipment.id);
        }
        ids.push_back(ids.front());
        const Declared& first = at(all, start);
        findings.push_back(
            input_fault("input.circle", first.form->span_of("feeds"), first.subject(),
                        fmt::format("{} feed one another in a circle", join(ids, " -> ")),
                        {"each neighbor toward the utility, until its meter", ""}));
    }
    return sound;
}

/// Equipment that states no way to the utility. A missing or unknown `feeds` was reported before.
bool check_ways(const std::vector<Declared>& all, Findings& findings) {
    bool sound = true;
    for (const Declared& one : all) {
        if (one.equipment.parent >= 0 || one.form == nullptr) {
            continue;
        }
        sound = false;
        if (one.equipment.is<Panel>() && !one.feeds_stated) {
            findings.push_back(
                input_fault("input.unfed", one.equipment.span, one.subject(),
                            fmt::format("panel \"{}\" is connected to nothing", one.equipment.id),
                            {"`feeds` in the panel, or `backs_up` in a MID", ""}));
        }
    }
    return sound;
}

void check_root(const std::vector<Declared>& all, Findings& findings) {
    const int utility = static_cast<int>(all.size()) - 1;
    const Declared* service = nullptr;
    for (const Declared& one : all) {
        if (one.equipment.parent != utility) {
            continue;
        }
        if (service != nullptr) {
            findings.push_back(input_fault(
                "input.root", one.equipment.span, one.subject(),
                fmt::format("\"{}\" and \"{}\" both meet the utility", service->equipment.id,
                            one.equipment.id),
                {"one meter without `feeds`", "say with `feeds` what this one is ahead of"}));
        }
        service = service == nullptr ? &one : service;
    }
    if (service == nullptr) {
        findings.push_back(input_fault(
            "input.root", Span{all.front().equipment.span.file, {1, 1}, {1, 1}}, "",
            "nothing meets the utility", {"one meter without `feeds`, as [meter.UM-1]", ""}));
    }
}

bool passes_power_on(const Equipment& e) {
    const auto* panel = e.as<Panel>();
    return !e.is<BranchArray>() && !e.is<StringArray>() && !e.is<Battery>() &&
           (panel == nullptr || panel->collects) && !e.is<Generator>();
}

/// A junction box, combiner, switch, MID, inverter or meter with nothing behind it has no purpose.
void check_sources(const std::vector<Declared>& all, Findings& findings) {
    for (int i = 0; i + 1 < static_cast<int>(all.size()); ++i) {
        const Declared& one = at(all, i);
        const bool fed = std::ranges::any_of(
            all, [&](const Declared& other) { return other.equipment.parent == i; });
        if (!fed && passes_power_on(one.equipment)) {
            findings.push_back(input_fault(
                "input.nothing_behind", one.equipment.span, one.subject(),
                fmt::format("nothing feeds {} \"{}\"", kind_word(one.equipment), one.equipment.id),
                {fmt::format("equipment with feeds = \"{}\"", one.equipment.id), ""}));
        }
    }
}

} // namespace

bool check_tree(const std::vector<Declared>& all, Findings& findings) {
    if (all.size() == 1) {
        findings.push_back(input_fault("input.root", {}, "", "the description has no equipment",
                                       {"branches, panels, a meter", ""}));
        return false;
    }
    const bool no_circles = check_circles(all, findings);
    const bool all_lead_on = check_ways(all, findings);
    if (all_lead_on) { // else what is missing may be behind it
        check_sources(all, findings);
    }
    check_root(all, findings);
    return no_circles;
}

} // namespace ohmfolio
