// The derivations gathered for the reader: under each circuit, run and breaker, and in the groups
// of the calculation sheet, in the order in which a plan checker reads them.

#include <algorithm>
#include <set>
#include <string_view>

#include <fmt/format.h>

#include "base/text.h"
#include "study/steps.h"

namespace ohmfolio::workings {

namespace {

class Groups {
  public:
    explicit Groups(Work& work) : work_(work) {}

    /// Adds a group of all derivations under `subjects`; an empty one is left out.
    void add(const std::string& title, const std::string& anchor, std::string subject,
             const std::vector<std::string>& subjects) {
        auto steps = ids_under(work_.study, subjects);
        if (!steps.empty()) {
            work_.study.groups.push_back(
                {upper(title), "calc:" + anchor, std::move(subject), std::move(steps)});
        }
    }

    template <class Kind> std::vector<std::string> subjects_of() const {
        std::vector<std::string> subjects;
        for (const Equipment& e : work_.system.equipment) {
            if (e.is<Kind>())
                subjects.push_back(subject_of(e));
        }
        return subjects;
    }

  private:
    Work& work_;
};

using Subjects = std::vector<std::string>;

Subjects both(Subjects a, const Subjects& b) {
    a.insert(a.end(), b.begin(), b.end());
    return a;
}

/// Nameplates of the kinds of record that `wanted` accepts.
template <class Ratings> Subjects records_of(const Work& work) {
    Subjects subjects;
    for (const Record& record : work.system.catalogue.records) {
        if (std::holds_alternative<Ratings>(record.ratings))
            subjects.push_back("record:" + record.key);
    }
    return subjects;
}

Subjects pairs(const Work& work) {
    Subjects subjects;
    for (const Equipment& e : work.system.equipment) {
        const auto* branch = e.as<BranchArray>();
        if (branch == nullptr)
            continue;
        const std::string pair = pair_subject(work.system, *branch);
        if (std::ranges::find(subjects, pair) == subjects.end())
            subjects.push_back(pair);
    }
    return subjects;
}

/// Subjects of a kind, in the order in which their first line was made.
Subjects subjects_starting(const Work& work, std::string_view kind) {
    Subjects subjects;
    std::set<std::string_view> seen;
    for (const Derivation& d : work.study.worksheet.all()) {
        if (d.subject.starts_with(kind) && seen.insert(d.subject).second)
            subjects.push_back(d.subject);
    }
    return subjects;
}

void add_circuits(const Work& work, Groups& groups) {
    for (std::size_t i = 0; i < work.system.circuits.size(); ++i) {
        const Circuit& circuit = work.system.circuits[i];
        Subjects subjects{subject_of(circuit)};
        const int breaker = breaker_of(work.system, static_cast<int>(i));
        if (breaker >= 0)
            subjects.push_back(subject_of(at(work.system.breakers, breaker)));
        groups.add(fmt::format("Circuit {}: {}", circuit.tag, ends(work.system, circuit)),
                   circuit.tag, subject_of(circuit), subjects);
    }
}

void add_raceways(const Work& work, Groups& groups) {
    Subjects subjects;
    for (const Run& run : work.system.runs) {
        subjects.push_back(subject_of(run));
    }
    groups.add("Raceways", "raceways", "site:raceways", subjects);
}

void add_connections(const Work& work, Groups& groups) {
    for (const ConnectionStudy& connection : work.study.connections) {
        const Equipment& e = at(work.system.equipment, connection.panel);
        if (e.is<Combiner>()) // among its own limits
            continue;
        groups.add("Point of connection: " + e.id, e.id, subject_of(e),
                   {subject_of(e), subject_of(e) + ".feed_through",
                    "record:" + work.system.record(e)->key});
    }
}

/// The service first, then each place on the way from it.
Subjects fault_subjects(const Work& work) {
    Subjects subjects;
    for (const int i : work.system.subtree(work.system.root())) {
        subjects.push_back("fault:" + at(work.system.equipment, i).id);
    }
    return subjects;
}

/// Names only what there is.
std::string backup_title(const System& system) {
    const bool device =
        std::ranges::any_of(system.equipment, [](const Equipment& e) { return e.is<Mid>(); });
    if (generators_below(system, system.root()).empty())
        return "Backup";
    return device ? "Backup and generator" : "Generator and transfer";
}

void add_strings(const Work& work, Groups& groups) {
    const auto strings = groups.subjects_of<StringArray>();
    if (strings.empty())
        return;
    groups.add(
        "Strings and inverters", "strings", "site:strings",
        both(both(both(records_of<ModuleRatings>(work), records_of<ModuleElectronicsRatings>(work)),
                  records_of<StringInverterRatings>(work)),
             both(strings, groups.subjects_of<Inverter>())));
}

std::string branches_title(const System& system) {
    if (branches_below(system, system.root()).empty())
        return "Combiner";
    return std::ranges::any_of(system.equipment,
                               [](const Equipment& e) { return e.is<Combiner>(); })
               ? "Branches and combiner"
               : "Branches";
}

void add_backup(const Work& work, Groups& groups) {
    groups.add(backup_title(work.system), "backup", "site:backup",
               both(both(subjects_starting(work, "backup:"), subjects_starting(work, "managed:")),
                    both(records_of<GeneratorRatings>(work), groups.subjects_of<Generator>())));
}

/// Equipment whose limits are in no other group.
void add_equipment(const Work& work, Groups& groups) {
    Subjects subjects;
    for (std::size_t i = 0; i < work.system.equipment.size(); ++i) {
        const Equipment& e = work.system.equipment[i];
        const bool elsewhere =
            e.is<Combiner>() || e.is<Generator>() || e.is<StringArray>() || is_source(e) ||
            std::ranges::find(work.study.connections, static_cast<int>(i),
                              &ConnectionStudy::panel) != work.study.connections.end();
        if (elsewhere)
            continue;
        subjects.push_back(subject_of(e));
        if (e.record >= 0)
            subjects.push_back("record:" + work.system.record(e)->key);
    }
    subjects = both(subjects, subjects_starting(work, "supply:"));
    subjects.push_back("site:service");
    subjects.push_back("site:phases");
    groups.add("Equipment ratings", "equipment", "site:equipment", subjects);
}

} // namespace

void collect_steps(Work& work) {
    const System& system = work.system;
    std::set<std::string_view> violated;
    for (const Finding& finding : work.study.findings) {
        if (finding.severity >= Severity::violation)
            violated.insert(finding.subject);
    }
    for (std::size_t i = 0; i < system.circuits.size(); ++i) {
        work.study.circuits[i].steps = ids_under(work.study, {subject_of(system.circuits[i])});
    }
    for (std::size_t i = 0; i < system.runs.size(); ++i) {
        work.study.runs[i].steps = ids_under(work.study, {subject_of(system.runs[i])});
    }
    for (std::size_t i = 0; i < system.breakers.size(); ++i) {
        BreakerStudy& study = work.study.breakers[i];
        study.steps = ids_under(work.study, {subject_of(system.breakers[i])});
        study.passes = study.rating.value > 0 && !violated.contains(subject_of(system.breakers[i]));
    }
}

void group_calculations(Work& work) {
    Groups groups(work);
    groups.add("Climate", "climate", "site:climate", {"site:climate"});
    groups.add("Module and microinverter", "match", "site:match", pairs(work));
    groups.add(branches_title(work.system), "branches", "site:branches",
               both(both(records_of<MicroinverterRatings>(work), records_of<CombinerRatings>(work)),
                    both(groups.subjects_of<BranchArray>(), groups.subjects_of<Combiner>())));
    add_strings(work, groups);
    add_circuits(work, groups);
    add_raceways(work, groups);
    add_connections(work, groups);
    groups.add("Available fault current", "fault", "site:fault", fault_subjects(work));
    groups.add("Storage", "storage", "site:storage",
               both(records_of<BatteryRatings>(work), groups.subjects_of<Battery>()));
    groups.add("Storage siting", "siting", "site:siting", {"site:siting"});
    groups.add("Access to the roof", "roof_access", "site:roof_access", {"site:roof_access"});
    groups.add("Working space", "space", "site:space", subjects_starting(work, "space:"));
    groups.add("Load calculation", "loads", "site:loads",
               both({"site:loads"}, subjects_starting(work, "load:")));
    add_backup(work, groups);
    groups.add("Accessories", "accessories", "site:accessories",
               both(both(subjects_starting(work, "trunk:"), subjects_starting(work, "controller:")),
                    both(records_of<LoadControllerRatings>(work), {"site:control"})));
    groups.add("Clipped energy", "clipping", "site:clipping", subjects_starting(work, "clipping:"));
    groups.add("Voltage rise", "voltage", "voltage:rise", {"voltage:rise"});
    groups.add("Grounding", "grounding", "grounding:GEC", subjects_starting(work, "grounding:"));
    add_equipment(work, groups);
}

} // namespace ohmfolio::workings
