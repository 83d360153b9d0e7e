// How a number came about, as text for a terminal: the results first, beneath each what it rests
// on, down to table rows and paragraphs. What several results share is written once.

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "base/text.h"
#include "study/topology.h"
#include "study/work.h"

namespace ohmfolio {

using namespace workings;

namespace {

class Tree {
  public:
    explicit Tree(const Study& study) : study_(study) {}

    void write(const std::vector<std::string>& ids) {
        for (const std::string& id : results_among(ids)) {
            node(id, 0);
            text_ += '\n';
        }
    }
    std::string text() const { return text_; }

  private:
    /// Those of `ids` on which no other of them rests.
    std::vector<std::string> results_among(const std::vector<std::string>& ids) const {
        std::set<std::string> used;
        for (const std::string& id : ids) {
            for (const std::string& from : study_.derivation(id).from) {
                used.insert(from);
            }
        }
        std::vector<std::string> results;
        std::ranges::copy_if(ids, std::back_inserter(results),
                             [&](const std::string& id) { return !used.contains(id); });
        return results;
    }

    void line(int depth, std::string_view text) {
        text_ += std::string(static_cast<std::size_t>(depth) * 4, ' ');
        text_ += text;
        text_ += '\n';
    }

    void node(const std::string& id, int depth) {
        const Derivation& d = study_.derivation(id);
        const std::string outcome =
            d.verdict ? (*d.verdict == Verdict::pass ? "passes" : "FAILS") : d.result;
        if (!seen_.insert(id).second) {
            line(depth, fmt::format("- {}: {} (see above)  [{}]", d.title, outcome, id));
            return;
        }
        line(depth, fmt::format("- {}: {}  [{}]", d.title, outcome, id));
        details(d, depth);
        for (const std::string& from : d.from) {
            node(from, depth + 1);
        }
    }

    void details(const Derivation& d, int depth) {
        const auto detail = [&](std::string_view label, const std::string& what) {
            if (!what.empty())
                line(depth, fmt::format("  {}{}", label, what));
        };
        detail("", working(d));
        detail("from: ", d.source);
        detail("by: ", text_of(d.cite));
        detail("why: ", d.governs);
    }

    /// "I_req = 1.25 × I = 1.25 × 11.36 A = 14.20 A", or the comparison of a check.
    static std::string working(const Derivation& d) {
        if (d.verdict) {
            return d.formula.empty() || d.formula == d.comparison
                       ? d.comparison
                       : fmt::format("{}:  {}", d.formula, d.comparison);
        }
        if (d.formula.empty())
            return d.symbol.empty() ? std::string{} : fmt::format("{} = {}", d.symbol, d.result);
        std::string line = fmt::format("{} = {}", d.symbol, d.formula);
        if (d.figures != d.formula)
            line += " = " + d.figures;
        if (!d.rounding.empty())
            return fmt::format("{}{}: {}", line, rounding(d), d.result);
        return d.figures == d.result ? line : line + " = " + d.result;
    }

    /// " = 11.27, rounded down"; the figure once only, where the formula was nothing but it.
    static std::string rounding(const Derivation& d) {
        return d.rounding.starts_with(d.figures + ",") ? d.rounding.substr(d.figures.size())
                                                       : " = " + d.rounding;
    }

    static std::string text_of(const Citation& cite) {
        const std::string section = ohmfolio::text(cite);
        return cite.unverified ? section + " (paragraph number to be verified)" : section;
    }

    const Study& study_;
    std::set<std::string> seen_;
    std::string text_;
};

std::string findings_about(const Study& study, const std::vector<std::string>& subjects) {
    std::string text;
    for (const Finding& finding : study.findings) {
        if (std::ranges::find(subjects, finding.subject) == subjects.end())
            continue;
        text += fmt::format("{}: {}\n", name(finding.severity), finding.message);
        if (!finding.expected.empty())
            text += fmt::format("    right would be: {}\n", finding.expected);
        for (const Remedy& remedy : finding.remedies) {
            text += fmt::format("    would do: {}; {}\n", remedy.change, remedy.consequence);
        }
    }
    return text;
}

std::string use_in_words(CircuitUse use) {
    switch (use) {
    case CircuitUse::trunk:
        return "trunk cable that joins the microinverters of one branch";
    case CircuitUse::string:
        return "direct current of one string of modules on its way to the inverter";
    case CircuitUse::generator:
        return "output of the generator";
    case CircuitUse::supply_side:
        return "sources on their way to the service conductors, ahead of the main";
    case CircuitUse::branch:
        return "one branch of microinverters on its way to the combiner";
    case CircuitUse::pv_output:
        return "the inverter, or all branches of the combiner together";
    case CircuitUse::storage:
        return "output of the battery units beyond it";
    case CircuitUse::source_feeder:
        return "feeder that carries sources out to the panel and loads in from it";
    case CircuitUse::backup_feeder:
        return "feeder of the loads that stay on when the grid fails";
    case CircuitUse::service:
        return "service conductors";
    }
    return {};
}

std::string about(const System& system, const Study& study, std::size_t index) {
    const Circuit& circuit = system.circuits[index];
    const CircuitStudy& result = study.circuits[index];
    std::string text =
        fmt::format("{}: {}, {}.\n", circuit.tag, ends(system, circuit), use_in_words(circuit.use));
    if (!result.sized)
        return text + "These conductors are the utility's: drawn, not sized.\n\n";
    return text + fmt::format("{}: {} × {} {} {}{}. Decided by: {}.\n\n",
                              result.listed_assembly ? "As listed"
                              : result.stated        ? "Stated by the drafter"
                                                     : "Chosen",
                              result.phase_conductors, name(result.size), name(circuit.material),
                              name(circuit.insulation), result.neutral ? " and a neutral" : "",
                              result.governs);
}

std::string about(const System& system, const Breaker& breaker, const BreakerStudy& result) {
    return fmt::format("{}: {} breaker in {}, {}; it protects {}.\n\n", breaker.tag,
                       shown(result.rating), at(system.equipment, breaker.at).id,
                       result.stated ? "stated by the drafter" : "chosen",
                       called(system, at(system.circuits, breaker.circuit)));
}

std::string about(const System& system, const Run& run, const RunStudy& result) {
    const Equipment& child = at(system.equipment, run.child);
    const std::string size = result.sized
                                 ? fmt::format("{} {}", name(result.trade_size), name(run.raceway))
                                 : std::string(name(run.raceway)) + ", no raceway to fill";
    return fmt::format("{}: {} to {}, {}, {}.\n\n", run.tag, child.id,
                       at(system.equipment, child.parent).id, shown(run.length), size);
}

/// Rules tried on a bus, in a line each.
std::string options_of(const ConnectionStudy& connection) {
    std::string text = "Rules tried for its busbar:\n";
    for (const ConnectionOption& option : connection.options) {
        const std::string_view verdict = option.chosen     ? "passes, and is the one used"
                                         : !option.applies ? "does not apply"
                                         : option.passes   ? "passes too"
                                                           : "FAILS";
        text += fmt::format("    {} ({}): {}: {}\n", option.rule, ohmfolio::text(option.cite),
                            verdict, option.reason);
    }
    return text + '\n';
}

struct Topic {
    std::string introduction;
    std::vector<std::string> subjects;
};

std::optional<Topic> circuit_topic(const System& system, const Study& study, std::string_view id) {
    for (std::size_t i = 0; i < system.circuits.size(); ++i) {
        if (system.circuits[i].tag == id)
            return Topic{about(system, study, i), {subject_of(system.circuits[i])}};
    }
    return {};
}

std::optional<Topic> breaker_topic(const System& system, const Study& study, std::string_view id) {
    for (std::size_t i = 0; i < system.breakers.size(); ++i) {
        if (system.breakers[i].tag == id) {
            return Topic{about(system, system.breakers[i], study.breakers[i]),
                         {subject_of(system.breakers[i])}};
        }
    }
    return {};
}

std::optional<Topic> run_topic(const System& system, const Study& study, std::string_view id) {
    for (std::size_t i = 0; i < system.runs.size(); ++i) {
        if (system.runs[i].tag == id) {
            return Topic{about(system, system.runs[i], study.runs[i]),
                         {subject_of(system.runs[i])}};
        }
    }
    return {};
}

std::optional<Topic> equipment_topic(const System& system, const Study& study,
                                     std::string_view id) {
    const int index = system.find(id);
    if (index < 0)
        return {};
    const Equipment& e = at(system.equipment, index);
    Topic topic{
        fmt::format("{}: {}{}{}.\n\n", e.id, e.title, e.location.empty() ? "" : ", ", e.location),
        {subject_of(e)}};
    if (const auto* branch = e.as<BranchArray>())
        topic.subjects.push_back(pair_subject(system, *branch));
    for (const ConnectionStudy& connection : study.connections) {
        if (connection.panel == index)
            topic.introduction += options_of(connection);
    }
    return topic;
}

std::optional<Topic> topic_of(const System& system, const Study& study, std::string_view id) {
    for (const auto find : {circuit_topic, breaker_topic, run_topic, equipment_topic}) {
        if (auto topic = find(system, study, id))
            return topic;
    }
    if (id == "GEC")
        return Topic{"GEC: grounding electrode conductor.\n\n", {"grounding:GEC"}};
    return {};
}

} // namespace

std::string explain(const System& system, const Study& study, std::string_view id) {
    Tree tree(study);
    if (const auto topic = topic_of(system, study, id)) {
        tree.write(ids_under(study, topic->subjects));
        return topic->introduction + tree.text() + findings_about(study, topic->subjects);
    }
    if (study.worksheet.find(id) == nullptr)
        return {};
    tree.write({std::string(id)});
    return tree.text();
}

std::vector<std::string> explainable(const System& system, const Study& study) {
    std::vector<std::string> ids;
    for (const Circuit& circuit : system.circuits) {
        ids.push_back(circuit.tag);
    }
    for (const Breaker& breaker : system.breakers) {
        ids.push_back(breaker.tag);
    }
    for (const Run& run : system.runs) {
        if (!run.tag.empty()) // trunk cable and the utility's conductors bear no tag
            ids.push_back(run.tag);
    }
    for (const Equipment& e : system.equipment) {
        ids.push_back(e.id);
    }
    if (!study.grounding_steps.empty())
        ids.emplace_back("GEC");
    for (const Derivation& d : study.worksheet.all()) {
        ids.push_back(d.id);
    }
    return ids;
}

} // namespace ohmfolio
