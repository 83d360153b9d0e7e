#include "revision/stated_changes.h"

#include <algorithm>
#include <set>
#include <variant>

#include <fmt/format.h>

#include "base/text.h"
#include "sheet/reading.h"

namespace ohmfolio::revision {

namespace {

using toml_text::Array;
using toml_text::Entry;
using toml_text::Node;
using Path = std::vector<std::string>;

struct Leaf {
    Path path;
    std::string value;
};

std::string value_text(const Node& node);

std::string list_text(const Array& array) {
    std::vector<std::string> items;
    for (const Node& item : array.items)
        items.push_back(value_text(item));
    return join(items, ", ");
}

std::string value_text(const Node& node) {
    if (const auto* flag = node.as<bool>())
        return *flag ? "yes" : "no";
    if (const auto* whole = node.as<std::int64_t>())
        return std::to_string(*whole);
    if (const auto* number = node.as<double>())
        return fmt::format("{}", *number);
    if (const auto* words = node.as<std::string>())
        return *words;
    if (const auto* array = node.as<Array>())
        return list_text(*array);
    std::vector<std::string> entries;
    for (const Entry& entry : node.as<toml_text::Table>()->entries)
        entries.push_back(entry.key + " " + value_text(*entry.value));
    return join(entries, ", ");
}

bool is_list_of_tables(const Node& node) {
    const auto* array = node.as<Array>();
    return array != nullptr && !array->items.empty() &&
           std::ranges::all_of(array->items, [](const Node& item) {
               return item.as<toml_text::Table>() != nullptr;
           });
}

class Flattening {
  public:
    std::vector<Leaf> of(const Node& root) {
        add(root);
        return std::move(leaves_);
    }

  private:
    void add(const Node& node) {
        if (const auto* table = node.as<toml_text::Table>()) {
            if (table->entries.empty())
                leaves_.push_back({path_, "stated"});
            for (const Entry& entry : table->entries)
                add_under(entry.key, *entry.value);
        } else if (is_list_of_tables(node)) {
            int count = 0;
            for (const Node& item : node.as<Array>()->items)
                add_under(std::to_string(++count), item);
        } else {
            leaves_.push_back({path_, value_text(node)});
        }
    }
    void add_under(const std::string& key, const Node& node) {
        path_.push_back(key);
        add(node);
        path_.pop_back();
    }

    Path path_;
    std::vector<Leaf> leaves_;
};

using Values = std::map<Path, std::string>;

Values by_path(const std::vector<Leaf>& leaves) {
    Values values;
    for (const Leaf& leaf : leaves)
        values.emplace(leaf.path, leaf.value);
    return values;
}

/// Turns paths into subject and words.
class Naming {
  public:
    explicit Naming(const KeyWords& words) : words_(words) {}

    StatedChange named(const Path& path, std::string_view where) const {
        StatedChange change;
        change.path = join(path, ".");
        change.where = where;
        // "panel.MSP.main": things under an id are called by it; all else by its table.
        const std::size_t begins = path.size() >= 3 ? 2 : std::min<std::size_t>(1, path.size() - 1);
        if (begins == 2)
            change.subject = is_a_place(path[1]) ? plain({path[0], path[1]}) : path[1];
        else if (begins == 1)
            change.subject = words_for({path[0]});
        change.what = words_for({path.begin() + static_cast<std::ptrdiff_t>(begins), path.end()});
        return change;
    }

    /// The longest end that has words of its own, after the plain keys before it.
    std::string words_for(const Path& keys) const {
        for (std::size_t from = 0; from < keys.size(); ++from) {
            const Path end(keys.begin() + static_cast<std::ptrdiff_t>(from), keys.end());
            const auto found = words_.find(join(end, "."));
            if (found == words_.end())
                continue;
            const Path before(keys.begin(), keys.begin() + static_cast<std::ptrdiff_t>(from));
            return before.empty() ? found->second : plain(before) + " " + found->second;
        }
        return plain(keys);
    }

  private:
    /// In a list of tables: "1".
    static bool is_a_place(const std::string& key) {
        return key.find_first_not_of("0123456789") == std::string::npos;
    }
    static std::string plain(const Path& keys) {
        std::string words = join(keys, " ");
        std::ranges::replace(words, '_', ' ');
        return words;
    }

    const KeyWords& words_;
};

class Differing {
  public:
    Differing(const Naming& naming, std::string_view where, std::vector<StatedChange>& changes)
        : naming_(naming), where_(where), changes_(changes) {}

    template <class Wanted>
    void compare(const std::vector<Leaf>& older, const std::vector<Leaf>& newer, Wanted wanted) {
        const Values before = by_path(older), after = by_path(newer);
        for (const Leaf& leaf : newer) {
            const auto old = before.find(leaf.path);
            if (!wanted(leaf.path) || (old != before.end() && old->second == leaf.value))
                continue;
            if (old != before.end())
                tell(leaf.path, old->second, leaf.value);
            else
                tell_whole(leaf, before, &StatedChange::after);
        }
        for (const Leaf& leaf : older) {
            if (wanted(leaf.path) && !after.contains(leaf.path))
                tell_whole(leaf, after, &StatedChange::before);
        }
    }

    /// Equipment is drawn and tagged in the order in which it is stated.
    void compare_order(const Node& older, const Node& newer) {
        const auto* before = older.as<toml_text::Table>();
        const auto* after = newer.as<toml_text::Table>();
        for (const Entry& entry : after->entries) {
            const Entry* old = before->find(entry.key);
            if (old == nullptr)
                continue;
            const auto [first, second] = common_keys(*old->value, *entry.value);
            if (first != second)
                tell({entry.key, "order"}, join(first, ", "), join(second, ", "));
        }
    }

  private:
    static std::pair<Path, Path> common_keys(const Node& older, const Node& newer) {
        const auto* before = older.as<toml_text::Table>();
        const auto* after = newer.as<toml_text::Table>();
        std::pair<Path, Path> keys;
        if (before == nullptr || after == nullptr)
            return keys;
        const auto is_thing = [](const Entry& entry) {
            return entry.value->as<toml_text::Table>() != nullptr;
        };
        for (const Entry& entry : before->entries) {
            if (is_thing(entry) && after->find(entry.key) != nullptr)
                keys.first.push_back(entry.key);
        }
        for (const Entry& entry : after->entries) {
            if (is_thing(entry) && before->find(entry.key) != nullptr)
                keys.second.push_back(entry.key);
        }
        return keys;
    }

    /// A table that one side has not at all is told once, with all that it holds.
    void tell_whole(const Leaf& leaf, const Values& other, std::string StatedChange::*side) {
        Path whole = leaf.path;
        for (std::size_t length = 2; length < leaf.path.size(); ++length) {
            const Path prefix(leaf.path.begin(),
                              leaf.path.begin() + static_cast<std::ptrdiff_t>(length));
            if (!has_under(other, prefix)) {
                whole = prefix;
                break;
            }
        }
        std::string words = leaf.value;
        if (whole != leaf.path)
            words =
                naming_.words_for({leaf.path.begin() + static_cast<std::ptrdiff_t>(whole.size()),
                                   leaf.path.end()}) +
                " " + leaf.value;
        const bool goes_on = whole != leaf.path && !changes_.empty() &&
                             changes_.back().path == join(whole, ".") &&
                             changes_.back().where == where_;
        if (goes_on) {
            changes_.back().*side += ", " + words;
            return;
        }
        tell(whole, {}, {});
        changes_.back().*side = words;
    }

    static bool has_under(const Values& values, const Path& prefix) {
        const auto at = values.lower_bound(prefix);
        return at != values.end() && at->first.size() >= prefix.size() &&
               std::equal(prefix.begin(), prefix.end(), at->first.begin());
    }

    void tell(const Path& path, const std::string& before, const std::string& after) {
        StatedChange change = naming_.named(path, where_);
        change.before = before;
        change.after = after;
        changes_.push_back(std::move(change));
    }

    const Naming& naming_;
    std::string_view where_;
    std::vector<StatedChange>& changes_;
};

std::vector<Leaf> leaves_of(const std::vector<Node>& nodes) {
    std::vector<Leaf> all;
    for (const Node& node : nodes) {
        std::vector<Leaf> leaves = Flattening().of(node);
        all.insert(all.end(), leaves.begin(), leaves.end());
    }
    return all;
}

/// Where records are looked for is left out too: what they say is compared itself.
bool tells_of_the_system(const Path& path) {
    return path.front() != "revision" && path.front() != "comment" && path.front() != "catalogue";
}

/// Keys of records occur as values where they are used.
std::set<std::string> words_used(const Statements& statements) {
    std::set<std::string> used;
    for (const Leaf& leaf : Flattening().of(statements.description))
        used.insert(leaf.value);
    for (const Leaf& leaf : leaves_of(statements.house))
        used.insert(leaf.value);
    return used;
}

void compare_files(const Statements& older, const Statements& newer,
                   std::vector<StatedChange>& changes) {
    const auto tell = [&](const std::string& name, const std::string& what,
                          const std::string& before, const std::string& after) {
        changes.push_back({name, {}, what, before, after, "file"});
    };
    for (const auto& [name, bytes] : newer.other_files) {
        const auto old = older.other_files.find(name);
        if (old == older.other_files.end())
            tell(name, "file", "", name);
        else if (old->second != bytes)
            tell(name, "file " + name, "as it was", "another content");
    }
    for (const auto& [name, bytes] : older.other_files) {
        if (!newer.other_files.contains(name))
            tell(name, "file", name, "");
    }
}

} // namespace

KeyWords read_key_words(const std::filesystem::path& texts, SourceFiles& sources,
                        Findings& findings) {
    KeyWords words;
    const auto tree = sheets::read_file(texts / "changes.toml", sources, findings);
    if (!tree)
        return words;
    for (const Leaf& leaf : Flattening().of(*tree))
        words.emplace(leaf.path.back(), leaf.value);
    return words;
}

std::vector<StatedChange> stated_changes(const Statements& older, const Statements& newer,
                                         const KeyWords& words) {
    std::vector<StatedChange> changes;
    const Naming naming(words);
    Differing description(naming, "description", changes);
    description.compare(Flattening().of(older.description), Flattening().of(newer.description),
                        tells_of_the_system);
    description.compare_order(older.description, newer.description);
    Differing(naming, "house style", changes)
        .compare(leaves_of(older.house), leaves_of(newer.house), [](const Path&) { return true; });
    std::set<std::string> used = words_used(older);
    used.merge(words_used(newer));
    Differing(naming, "catalogue", changes)
        .compare(leaves_of(older.catalogues), leaves_of(newer.catalogues),
                 [&](const Path& path) { return path.size() > 1 && used.contains(path[1]); });
    compare_files(older, newer, changes);
    return changes;
}

std::string text(const StatedChange& change) {
    const std::string name =
        change.subject.empty() ? change.what : change.subject + ": " + change.what;
    if (change.before.empty())
        return fmt::format("{} {} (new)", name, change.after);
    if (change.after.empty())
        return fmt::format("{} {} (left out)", name, change.before);
    return fmt::format("{} {} to {}", name, change.before, change.after);
}

} // namespace ohmfolio::revision
