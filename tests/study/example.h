/// The Tolliver Bend example as text, changed by the smallest step that a test needs.
#pragma once

#include <fstream>
#include <initializer_list>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "base/source.h"
#include "input/input.h"
#include "study/study.h"
#include "without_plans.h"

namespace ohmfolio::example {

/// One replacement in the description or in the catalogue.
struct Change {
    std::string from, to;
};

/// A file of the repository.
inline std::string repository_text(const std::string& path) {
    std::ifstream file(std::string(OHMFOLIO_SOURCE) + "/" + path);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}
inline std::string file_text(const std::string& name) {
    return repository_text("examples/tolliver-bend/" + name);
}

/// Replaces the first `from`; it must occur in one of the two texts.
inline void apply(const Change& change, std::string& description, std::string& catalogue) {
    for (std::string* text : {&description, &catalogue}) {
        const auto at = text->find(change.from);
        if (at == std::string::npos)
            continue;
        text->replace(at, change.from.size(), change.to);
        return;
    }
    throw std::logic_error("the example holds no text \"" + change.from + "\"");
}

inline const std::string ashgrove = "examples/tolliver-bend/ashgrove.toml";
inline const std::string cinder_row =
    "examples/tolliver-bend/cinder-row.toml"; ///< strings, supply side
inline const std::string fernhill =
    "examples/tolliver-bend/fernhill.toml"; ///< whole home, generator

inline System system_with(const std::vector<Change>& changes, Edition edition = Edition::nec2023,
                          const std::string& job = ashgrove) {
    std::string description = repository_text(job);
    if (!changes.empty())
        description = test::without_plans(description);
    std::string catalogue = file_text("catalogue.toml");
    for (const Change& change : changes) {
        apply(change, description, catalogue);
    }
    SourceFiles sources;
    Findings findings;
    auto system = read_system_text(description, catalogue, sources, findings, edition);
    if (!system) {
        std::string faults = "the changed example cannot be read:";
        for (const Finding& finding : findings) {
            faults += "\n" + print(finding, sources, false);
        }
        throw std::logic_error(faults);
    }
    return *system;
}

/// System and study together.
struct Case {
    System system;
    Study study;

    Case(std::initializer_list<Change> changes = {}, Edition edition = Edition::nec2023)
        : system(system_with(changes, edition)), study(make_study(system, CodeBook(edition))) {}
    /// Another job than Ashgrove.
    explicit Case(const std::string& job, const std::vector<Change>& changes = {},
                  Edition edition = Edition::nec2023)
        : system(system_with(changes, edition, job)), study(make_study(system, CodeBook(edition))) {
    }
    explicit Case(System changed)
        : system(std::move(changed)), study(make_study(system, CodeBook(system.edition))) {}
    explicit Case(Edition edition) : Case({}, edition) {}

    const Finding* finding(std::string_view rule, std::string_view subject = {}) const {
        for (const Finding& f : study.findings) {
            if (f.rule == rule && (subject.empty() || f.subject == subject))
                return &f;
        }
        return nullptr;
    }
    int index(std::string_view tag) const {
        for (std::size_t i = 0; i < system.circuits.size(); ++i) {
            if (system.circuits[i].tag == tag)
                return static_cast<int>(i);
        }
        throw std::logic_error("no circuit " + std::string(tag));
    }
    /// The circuit that leaves `id` toward the utility.
    const CircuitStudy& from(std::string_view id) const {
        const int child = system.find(id);
        for (std::size_t i = 0; i < system.circuits.size(); ++i) {
            if (system.child_of(system.circuits[i]) == child)
                return study.circuits[i];
        }
        throw std::logic_error("no circuit from " + std::string(id));
    }
    /// The breaker that protects that circuit.
    const BreakerStudy& breaker_from(std::string_view id) const {
        return study.breakers.at(static_cast<std::size_t>(from(id).breaker));
    }
    const ConnectionStudy& connection(std::string_view id) const {
        for (const ConnectionStudy& c : study.connections) {
            if (system.equipment[static_cast<std::size_t>(c.panel)].id == id)
                return c;
        }
        throw std::logic_error("no point of connection at " + std::string(id));
    }
};

/// All findings in one text, for the message of a failing test.
inline std::string listed(const Study& study) {
    std::string text;
    for (const Finding& f : study.findings) {
        text += f.rule + " " + f.subject + ": " + f.message + "\n";
    }
    return text;
}

} // namespace ohmfolio::example
