#include "app/catalogue_list.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <type_traits>

#include <fmt/format.h>

#include "base/text.h"
#include "input/units.h"

namespace ohmfolio {
namespace {

using toml_text::Entry;
using toml_text::Node;
using toml_text::Table;

// ---- conditions ---------------------------------------------------------------------------------

/// The value as it would stand in a file: counts and numbers stand there without quotes.
Node node_of(const Key& key, const std::string& text) {
    const char* const end = text.data() + text.size();
    if (std::int64_t whole = 0; key.kind == Kind::count) {
        if (std::from_chars(text.data(), end, whole).ptr == end) {
            return {whole, {}};
        }
    }
    if (double number = 0; key.kind == Kind::number) {
        if (std::from_chars(text.data(), end, number).ptr == end) {
            return {number, {}};
        }
    }
    if (key.kind == Kind::flag && (text == "true" || text == "false")) {
        return {text == "true", {}};
    }
    return {text, {}};
}

/// Of values that have an order.
std::optional<double> magnitude(const Value& value) {
    return std::visit(
        [](const auto& held) -> std::optional<double> {
            using T = std::decay_t<decltype(held)>;
            if constexpr (std::is_same_v<T, int> || std::is_same_v<T, double>) {
                return static_cast<double>(held);
            } else if constexpr (requires { static_cast<double>(held.value); }) {
                return static_cast<double>(held.value);
            } else if constexpr (std::is_same_v<T, WireSize>) {
                return static_cast<double>(held.step);
            } else {
                return std::nullopt;
            }
        },
        value);
}

bool compares(double left, const std::string& comparison, double right) {
    // Figures of nameplates have a few digits; a difference beyond them is one of binary fractions.
    const bool equal = std::abs(left - right) <= 1e-9 * std::max(std::abs(left), std::abs(right));
    if (comparison == "=") {
        return equal;
    }
    if (comparison.starts_with('<')) {
        return equal ? comparison == "<=" : left < right;
    }
    return equal ? comparison == ">=" : left > right;
}

bool one_meets(const Key& key, const Node& node, const Condition& condition) {
    const Understood has = understand(key, node);
    const Understood wanted = understand(key, node_of(key, condition.value));
    if (!has.value || !wanted.value) {
        return false;
    }
    const auto left = magnitude(*has.value);
    const auto right = magnitude(*wanted.value);
    if (left && right) {
        return compares(*left, condition.comparison, *right);
    }
    const auto* a = node.as<std::string>();
    if (a != nullptr) {
        return condition.comparison == "=" && *a == condition.value;
    }
    const auto* flag = node.as<bool>();
    return flag != nullptr && condition.comparison == "=" &&
           (*flag ? "true" : "false") == condition.value;
}

/// What a record does not state is what the key falls back to; of a list, any value will do.
bool meets(const Shape& shape, const Table& record, const Condition& condition) {
    const Key* key = shape.find(condition.key);
    if (key == nullptr) {
        return false;
    }
    const Entry* entry = record.find(condition.key);
    if (entry == nullptr) {
        return !key->fallback.empty() && one_meets(*key, fallback_node(*key, {}), condition);
    }
    const auto* list = entry->value->as<toml_text::Array>();
    if (list == nullptr) {
        return one_meets(*key, *entry->value, condition);
    }
    return std::ranges::any_of(list->items,
                               [&](const Node& item) { return one_meets(*key, item, condition); });
}

// ---- what is shown ------------------------------------------------------------------------------

std::string text_at(const Table& record, std::string_view key) {
    const Entry* entry = record.find(key);
    const auto* text = entry == nullptr ? nullptr : entry->value->as<std::string>();
    return text == nullptr ? "" : *text;
}

/// The quantities that every record of the kind has to state, as they are written.
std::string figures(const Shape& shape, const Table& record) {
    constexpr std::size_t most = 4; // to a line
    std::vector<std::string> shown;
    for (const Key* key : shape.keys()) {
        const std::string value = text_at(record, key->name);
        if (key->required && unit_family(key->kind) != nullptr && !value.empty() &&
            shown.size() < most) {
            shown.push_back(fmt::format("{} {}", key->name, value));
        }
    }
    return join(shown, ", ");
}

bool mentions(const ListedRecord& record, const std::string& text) {
    const std::string wanted = upper(text);
    return std::ranges::any_of(std::array{&record.key, &record.maker, &record.model},
                               [&wanted](const std::string* part) {
                                   return upper(*part).find(wanted) != std::string::npos;
                               });
}

bool wished_kind(const Key& kind, const ListWishes& wishes) {
    return wishes.kind.empty() || wishes.kind == kind.name;
}

} // namespace

std::optional<Condition> parse_condition(std::string_view text) {
    const auto at = text.find_first_of("<>=");
    if (at == std::string_view::npos) {
        return std::nullopt;
    }
    const bool two = text.substr(at, 1) != "=" && text.substr(at + 1, 1) == "=";
    const std::size_t length = two ? 2 : 1;
    Condition condition{std::string(trim(text.substr(0, at))), std::string(text.substr(at, length)),
                        std::string(trim(text.substr(at + length)))};
    if (condition.key.empty() || condition.value.empty()) {
        return std::nullopt;
    }
    return condition;
}

std::string faults_of(const ListWishes& wishes) {
    std::string faults;
    const Shape& kinds = catalogue_shape();
    if (!wishes.kind.empty() && kinds.find(wishes.kind) == nullptr) {
        return fmt::format("there is no kind \"{}\"; the kinds are {}\n", wishes.kind,
                           join(kinds.names(), ", "));
    }
    for (const Condition& condition : wishes.conditions) {
        std::vector<std::string> names;
        std::string refused;
        bool understood = false;
        for (const Key* kind : kinds.keys()) {
            if (!wished_kind(*kind, wishes)) {
                continue;
            }
            const auto of_kind = kind->shape->names();
            names.insert(names.end(), of_kind.begin(), of_kind.end());
            if (const Key* key = kind->shape->find(condition.key)) {
                const Understood value = understand(*key, node_of(*key, condition.value));
                understood |= value.value.has_value();
                refused = fmt::format("{}: {}; expected {}\n", condition.key, value.message,
                                      expected(*key));
            }
        }
        if (refused.empty()) {
            const std::string near = did_you_mean(condition.key, names);
            faults += fmt::format("no record has a key \"{}\"{}\n", condition.key,
                                  near.empty() ? "" : "; " + near);
        } else if (!understood) {
            faults += refused;
        }
    }
    return faults;
}

std::vector<ListedRecord> listed(const std::vector<Node>& catalogues, const ListWishes& wishes) {
    std::vector<ListedRecord> records;
    for (const Key* kind : catalogue_shape().keys()) {
        if (!wished_kind(*kind, wishes)) {
            continue;
        }
        for (const Node& catalogue : catalogues) {
            const Entry* entry = catalogue.as<Table>()->find(kind->name);
            const auto* table = entry == nullptr ? nullptr : entry->value->as<Table>();
            for (const Entry& each : table == nullptr ? std::vector<Entry>{} : table->entries) {
                const auto* record = each.value->as<Table>();
                if (record == nullptr ||
                    !std::ranges::all_of(wishes.conditions, [&](const Condition& condition) {
                        return meets(*kind->shape, *record, condition);
                    })) {
                    continue;
                }
                ListedRecord one{std::string(kind->name),        each.key,
                                 text_at(*record, "maker"),      text_at(*record, "model"),
                                 figures(*kind->shape, *record), each.key_span};
                if (mentions(one, wishes.text)) {
                    records.push_back(std::move(one));
                }
            }
        }
    }
    return records;
}

} // namespace ohmfolio
