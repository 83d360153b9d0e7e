/// A tree of TOML read against the tables of keys: every value understood, every fault reported,
/// nothing decided about the system yet.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/finding.h"
#include "input/keys.h"
#include "input/values.h"
#include "toml/toml.h"

namespace ohmfolio {

struct Field;

struct Item {
    Value value;
    Span span;
    std::string name; ///< of a value under a name
};

struct Form {
    const Shape* shape = nullptr;
    std::string path; ///< "branch.PV-1.run"
    std::string id;   ///< of a table under an id
    Span span;        ///< of its id or key: what to point at when something is missing
    std::vector<Field> fields;

    const Field* find(std::string_view key) const;
    /// Written by the drafter, whether it was understood or not.
    bool written(std::string_view key) const;
    /// Where the key's value stands; the table itself when the key is absent.
    Span span_of(std::string_view key) const;
    /// The inner table; nullptr when absent.
    const Form* form(std::string_view key) const;
    /// The inner tables; none when absent.
    const std::vector<Form>& forms(std::string_view key) const;
    const std::vector<Item>& items(std::string_view key) const;

    template <class T> std::optional<Spanned<T>> get(std::string_view key) const {
        for (const Item& item : items(key)) {
            if (const T* value = std::get_if<T>(&item.value)) {
                return Spanned<T>{*value, item.span};
            }
        }
        return std::nullopt;
    }
    /// A fallback for tables with faults; a sound table always holds its required keys.
    template <class T> T value(std::string_view key, T otherwise = {}) const {
        const auto found = get<T>(key);
        return found ? found->value : otherwise;
    }
    std::string text(std::string_view key) const { return value<std::string>(key); }
    /// The values of a list; what was not understood is not among them.
    template <class T> std::vector<T> values(std::string_view key) const {
        std::vector<T> result;
        for (const Item& item : items(key)) {
            if (const T* value = std::get_if<T>(&item.value)) {
                result.push_back(*value);
            }
        }
        return result;
    }
    /// The same with their places.
    template <class T> std::vector<Spanned<T>> placed_values(std::string_view key) const {
        std::vector<Spanned<T>> result;
        for (const Item& item : items(key)) {
            if (const T* value = std::get_if<T>(&item.value)) {
                result.push_back({*value, item.span});
            }
        }
        return result;
    }
    /// Which of the key's words was chosen, from 0; nothing where none was.
    std::optional<int> word(std::string_view key) const;
};

struct Field {
    const Key* key = nullptr;
    Span key_span;
    Span span;
    bool written = true; ///< false: the fallback of the table of keys
    std::vector<Item> items;
    std::vector<Form> forms;
};

/// Reads `root`, the tree of a whole file. `subjects` is what tables under an id are called in
/// findings: "equipment", "record".
Form read_form(const toml_text::Node& root, const Shape& shape, std::string_view subjects,
               Findings& findings);

} // namespace ohmfolio
