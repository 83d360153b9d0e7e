#include "revision/things.h"

#include <cstddef>

namespace ohmfolio::revision {

namespace {

std::string_view key_of(std::string_view shows) {
    const auto colon = shows.find(':');
    if (colon == std::string_view::npos)
        return shows;
    const std::string_view key = shows.substr(colon + 1);
    const auto slash = key.find('/');
    return slash == std::string_view::npos ? key : key.substr(0, slash);
}

} // namespace

Keys keys_of(const System& system, const std::string& id) {
    Keys keys{id};
    const int equipment = system.find(id);
    if (equipment < 0)
        return keys;
    for (std::size_t i = 0; i < system.circuits.size(); ++i) {
        const Circuit& circuit = system.circuits[i];
        if (system.child_of(circuit) != equipment)
            continue;
        keys.insert(circuit.tag);
        keys.insert(system.runs[static_cast<std::size_t>(circuit.run)].tag);
        if (const Breaker* breaker = system.breaker_of(static_cast<int>(i)))
            keys.insert(breaker->tag);
    }
    keys.erase(std::string{});
    return keys;
}

bool about(const Keys& keys, std::string_view shows) {
    return keys.contains(key_of(shows)) || (shows.find(':') != std::string_view::npos &&
                                            keys.contains(shows.substr(shows.find(':') + 1)));
}

} // namespace ohmfolio::revision
