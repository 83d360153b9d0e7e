#include "toml/laid_over.h"

#include <algorithm>
#include <memory>

namespace ohmfolio::toml_text {

Node laid_over(const Node& under, const Node& over) {
    const auto* low = under.as<Table>();
    const auto* high = over.as<Table>();
    if (!low || !high) {
        return over;
    }
    Node result{*low, over.span};
    auto& entries = std::get<Table>(result.value).entries;
    for (const Entry& entry : high->entries) {
        const auto known = std::ranges::find(entries, entry.key, &Entry::key);
        if (known == entries.end()) {
            entries.push_back(entry);
        } else {
            known->value = std::make_shared<Node>(laid_over(*known->value, *entry.value));
            known->key_span = entry.key_span;
        }
    }
    return result;
}

} // namespace ohmfolio::toml_text
