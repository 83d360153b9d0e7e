// What `explain` says of a tag: what it is, the result in a sentence, findings, all results and
// checks in a line each, and then how each came about.

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
#include "study/explain_tree.h"
#include "study/topology.h"
#include "study/work.h"

namespace ohmfolio {

using namespace workings;

namespace {

std::string findings_about(const Study& study, const std::vector<std::string>& subjects) {
    std::string text;
    for (const Finding& finding : study.findings) {
        if (std::ranges::find(subjects, finding.subject) == subjects.end())
            continue;
        text += set_in(fmt::format("{}: {}", name(finding.severity), finding.message), 0, 4);
        if (!finding.expected.empty())
            text += set_in("right would be: " + finding.expected, 4, 2);
        for (const Remedy& remedy : finding.remedies) {
            text +=
                set_in(fmt::format("would do: {}; {}", remedy.change, remedy.consequence), 4, 2);
        }
        text += '\n';
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

/// What is explained, the result in a sentence beneath it.
std::string introduced(const std::string& what, const std::string& result) {
    return set_in(what, 0, 4) + (result.empty() ? "" : set_in("Result: " + result, 0, 4)) + '\n';
}

std::string about(const System& system, const Study& study, std::size_t index) {
    const Circuit& circuit = system.circuits[index];
    const CircuitStudy& result = study.circuits[index];
    const std::string what =
        fmt::format("{}: {}, {}.", circuit.tag, ends(system, circuit), use_in_words(circuit.use));
    if (!result.sized)
        return introduced(what, "the utility's conductors are drawn, not sized.");
    return introduced(
        what, fmt::format(
                  "{}{} × {} {} {}{}{}.{}",
                  result.parallel_sets > 1 ? fmt::format("{} sets of ", result.parallel_sets)
                                           : std::string{},
                  result.phase_conductors * circuit.sets, name(result.size), name(circuit.material),
                  name(circuit.insulation), result.neutral ? " and a neutral" : "",
                  because(result.governs), result.passes ? "" : " It does not comply."));
}

std::string about(const System& system, const Breaker& breaker, const BreakerStudy& result) {
    return introduced(fmt::format("{}: breaker in {}; it protects {}.", breaker.tag,
                                  at(system.equipment, breaker.at).id,
                                  called(system, at(system.circuits, breaker.circuit))),
                      fmt::format("{}, {}.{}", shown(result.rating),
                                  result.stated ? "stated by the drafter" : "chosen",
                                  result.passes ? "" : " It does not comply."));
}

std::string about(const System& system, const Run& run, const RunStudy& result) {
    const Equipment& child = at(system.equipment, run.child);
    return introduced(fmt::format("{}: {} to {}, {}.", run.tag, child.id,
                                  at(system.equipment, child.parent).id, shown(run.length)),
                      result.sized
                          ? fmt::format("{} in {}, {} of it filled.", name(result.trade_size),
                                        name(run.raceway), shown_percent(Ratio{result.fill}))
                          : std::string(name(run.raceway)) + ", no raceway to fill.");
}

/// Which rule lets the sources connect, in a sentence.
std::string connected_by(const ConnectionStudy& connection) {
    const auto chosen = std::ranges::find_if(connection.options, &ConnectionOption::chosen);
    if (chosen == connection.options.end())
        return "no rule of the edition lets its sources connect.";
    return fmt::format("its sources connect by {}, \"{}\": {}.", ohmfolio::text(chosen->cite),
                       chosen->rule, chosen->reason);
}

/// Rules tried on a bus, in a line each. One that does not hold is a fault only where none does.
std::string options_of(const ConnectionStudy& connection) {
    const bool settled = std::ranges::any_of(connection.options, &ConnectionOption::chosen);
    std::string text = "Rules tried for its busbar\n";
    for (const ConnectionOption& option : connection.options) {
        const std::string_view verdict = option.chosen     ? "passes, and is the one used"
                                         : !option.applies ? "does not apply"
                                         : option.passes   ? "passes too"
                                         : settled         ? "does not hold"
                                                           : "FAILS";
        text += set_in(fmt::format("- {} ({}): {}: {}", option.rule, ohmfolio::text(option.cite),
                                   verdict, option.reason),
                       2, 2);
    }
    return text + '\n';
}

/// The steps of rules that were tried where another one is used.
std::vector<std::string> steps_not_used(const ConnectionStudy& connection) {
    std::vector<std::string> used, others;
    for (const ConnectionOption& option : connection.options) {
        auto& steps = option.chosen ? used : others;
        steps.insert(steps.end(), option.steps.begin(), option.steps.end());
    }
    if (used.empty())
        return {};
    std::erase_if(others,
                  [&](const std::string& id) { return std::ranges::find(used, id) != used.end(); });
    return others;
}

struct Topic {
    std::string introduction;
    std::vector<std::string> subjects;
    std::vector<std::string> not_used = {}; ///< derivations of rules tried, where another is used
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

/// Subjects of the study that begin so, each once.
std::vector<std::string> subjects_starting(const Study& study, const std::string& start) {
    std::vector<std::string> subjects;
    for (const Derivation& d : study.worksheet.all()) {
        if (d.subject.starts_with(start) &&
            std::ranges::find(subjects, d.subject) == subjects.end())
            subjects.push_back(d.subject);
    }
    return subjects;
}

/// What concerns the site as a whole, under a word of its own.
struct SiteTopic {
    std::string_view id, what;
    std::vector<std::string_view> subjects; ///< or how they begin
};
const std::vector<SiteTopic>& site_topics() {
    static const std::vector<SiteTopic> topics = {
        {"loads", "load calculation of the building", {"site:loads", "load:"}},
        {"backup", "what stays on when the grid fails", {"backup:", "managed:"}},
        {"phases", "how single-phase sources load the lines", {"site:phases"}},
        {"siting", "where the storage stands", {"site:siting"}},
        {"roof_access", "access to the roof for the fire service", {"site:roof_access"}},
        {"space", "working space in front of equipment on walls", {"space:"}},
        {"accessories",
         "load controllers, control wiring, trunk cable",
         {"trunk:", "controller:", "site:control"}},
        {"clipping", "energy that the inverters clip", {"clipping:"}},
    };
    return topics;
}

std::vector<std::string> subjects_of(const Study& study, const SiteTopic& topic) {
    std::vector<std::string> subjects;
    for (const std::string_view start : topic.subjects) {
        const auto more = subjects_starting(study, std::string(start));
        subjects.insert(subjects.end(), more.begin(), more.end());
    }
    return subjects;
}

std::optional<Topic> site_topic(const System&, const Study& study, std::string_view id) {
    for (const SiteTopic& topic : site_topics()) {
        if (topic.id != id)
            continue;
        auto subjects = subjects_of(study, topic);
        if (!subjects.empty()) {
            return Topic{introduced(fmt::format("{}: {}.", topic.id, topic.what), {}),
                         std::move(subjects)};
        }
    }
    return {};
}

std::optional<Topic> controller_topic(const System& system, const Study&, std::string_view id) {
    for (const LoadController& controller : system.load_controllers) {
        if (controller.id == id) {
            return Topic{
                introduced(fmt::format("{}: load controller commanded by {}.", controller.id,
                                       at(system.equipment, controller.mid).id),
                           {}),
                {"controller:" + controller.id}};
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
    Topic topic{{}, {subject_of(e)}};
    for (const std::string_view kind : {"backup:", "managed:", "trunk:", "clipping:"}) {
        topic.subjects.push_back(std::string(kind) + e.id);
    }
    const auto shared = subjects_starting(study, "supply:" + e.id + "/");
    topic.subjects.insert(topic.subjects.end(), shared.begin(), shared.end());
    std::string result, options;
    if (const auto* branch = e.as<BranchArray>())
        topic.subjects.push_back(pair_subject(system, *branch));
    for (const ConnectionStudy& connection : study.connections) {
        if (connection.panel != index)
            continue;
        result = connected_by(connection);
        options = options_of(connection);
        topic.not_used = steps_not_used(connection);
    }
    topic.introduction = introduced(fmt::format("{}: {}{}{}.", e.id, e.title,
                                                e.location.empty() ? "" : ", ", e.location),
                                    result) +
                         options;
    return topic;
}

std::optional<Topic> topic_of(const System& system, const Study& study, std::string_view id) {
    for (const auto find :
         {circuit_topic, breaker_topic, run_topic, equipment_topic, controller_topic, site_topic}) {
        if (auto topic = find(system, study, id))
            return topic;
    }
    if (id == "GEC") {
        const Derivation* size = study.worksheet.find("GEC.grounding_electrode");
        return Topic{introduced("GEC: grounding electrode conductor.",
                                size == nullptr ? std::string{}
                                                : size->result + because(size->governs) + "."),
                     {"grounding:GEC"}};
    }
    return {};
}

} // namespace

std::string explain(const System& system, const Study& study, std::string_view id) {
    ExplainTree tree(study);
    const auto topic = topic_of(system, study, id);
    if (!topic) {
        if (study.worksheet.find(id) == nullptr)
            return {};
        tree.write({std::string(id)});
        return tree.text();
    }
    tree.only_tried(topic->not_used);
    std::vector<std::string> ids = ids_under(study, topic->subjects), tried;
    std::erase_if(ids, [&](const std::string& one) {
        const bool not_used = std::ranges::find(topic->not_used, one) != topic->not_used.end();
        if (not_used)
            tried.push_back(one);
        return not_used;
    });
    tree.summary(ids);
    if (!ids.empty())
        tree.heading("How it came about");
    tree.write(ids);
    if (!tried.empty())
        tree.heading("Tried, and not used");
    tree.write(tried);
    return topic->introduction + findings_about(study, topic->subjects) + tree.text();
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
    for (const LoadController& controller : system.load_controllers) {
        ids.push_back(controller.id);
    }
    for (const SiteTopic& topic : site_topics()) {
        if (!subjects_of(study, topic).empty())
            ids.emplace_back(topic.id);
    }
    if (!study.grounding_steps.empty())
        ids.emplace_back("GEC");
    for (const Derivation& d : study.worksheet.all()) {
        ids.push_back(d.id);
    }
    return ids;
}

} // namespace ohmfolio
