#include "revision/tag_names.h"

#include <cstddef>

#include <fmt/format.h>

namespace ohmfolio::revision {

namespace {

/// Tags by what they belong to. What belongs to the same is told apart by its count.
class Tags {
  public:
    void add(const std::string& owner, const std::string& tag) {
        if (!tag.empty())
            tags_.emplace(fmt::format("{}/{}", owner, counts_[owner]++), tag);
    }
    const std::map<std::string, std::string>& all() const { return tags_; }

  private:
    std::map<std::string, int> counts_;
    std::map<std::string, std::string> tags_;
};

Tags circuits_of(const System& system) {
    Tags tags;
    for (const Circuit& circuit : system.circuits)
        tags.add(system.at(system.child_of(circuit)).id + " " + circuit.from, circuit.tag);
    return tags;
}

Tags runs_of(const System& system) {
    Tags tags;
    for (const Run& run : system.runs)
        tags.add(system.at(run.child).id, run.tag);
    return tags;
}

Tags breakers_of(const System& system) {
    Tags tags;
    for (const Breaker& breaker : system.breakers) {
        const Circuit& circuit = system.circuits[static_cast<std::size_t>(breaker.circuit)];
        tags.add(system.at(system.child_of(circuit)).id + " at " + system.at(breaker.at).id,
                 breaker.tag);
    }
    return tags;
}

/// Stands for a tag that the newer issue does not have.
constexpr std::string_view no_longer = " (earlier)";

} // namespace

TagNames::TagNames(const System& older, const System& newer) {
    match(circuits_of(older).all(), circuits_of(newer).all());
    match(runs_of(older).all(), runs_of(newer).all());
    match(breakers_of(older).all(), breakers_of(newer).all());
}

void TagNames::match(const std::map<std::string, std::string>& older,
                     const std::map<std::string, std::string>& newer) {
    for (const auto& [owner, tag] : older) {
        const auto now = newer.find(owner);
        if (now == newer.end()) {
            names_[tag] = tag + std::string(no_longer);
            continue;
        }
        names_[tag] = now->second;
        if (now->second != tag)
            renamed_[tag] = now->second;
    }
}

std::string TagNames::newer(std::string_view tag) const {
    const auto found = names_.find(tag);
    return found == names_.end() ? std::string(tag) : found->second;
}

std::string TagNames::newer_subject(std::string_view subject) const {
    const auto colon = subject.find(':');
    if (colon == std::string_view::npos)
        return std::string(subject);
    return std::string(subject.substr(0, colon + 1)) + newer(subject.substr(colon + 1));
}

std::string TagNames::newer_id(std::string_view id) const {
    const auto point = id.find('.');
    if (point == std::string_view::npos)
        return newer(id);
    return newer(id.substr(0, point)) + std::string(id.substr(point));
}

} // namespace ohmfolio::revision
