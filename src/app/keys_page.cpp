#include "app/keys_page.h"

#include <algorithm>
#include <deque>
#include <map>

#include <fmt/format.h>

#include "base/text.h"
#include "input/values.h"

namespace ohmfolio {
namespace {

std::string title_of(Document document) {
    switch (document) {
    case Document::catalogue:
        return "Keys of a catalogue";
    case Document::house:
        return "Keys of a house style";
    default:
        return "Keys of a description";
    }
}

std::string otherwise(const Key& key) {
    if (key.required) {
        return "required";
    }
    return key.fallback.empty() ? "" : std::string(key.fallback);
}

KeysPage::Row row_of(const Key& key) {
    const std::string takes = expected(key);
    // The example has a column of its own.
    const auto example = takes.rfind(", such as ");
    return {std::string(key.name),
            (key.many ? "one or a list of: " : "") + takes.substr(0, example), otherwise(key),
            std::string(key.meaning), std::string(key.example)};
}

std::string place_within(const std::string& outer, const Key& key) {
    const std::string place =
        outer.empty() ? std::string(key.name) : fmt::format("{}.{}", outer, key.name);
    switch (key.kind) {
    case Kind::tables_by_id:
        return place + ".ID";
    case Kind::table_list:
        return place + "[]";
    case Kind::values_by_name:
        return place + ".NAME";
    default:
        return place;
    }
}

struct Found {
    const Shape* shape;
    std::string place;
};

bool speaks_of(const KeysPage::Row& row, std::string_view part) {
    return row.key.find(part) != std::string::npos;
}

/// What is left of a table when one asks for `part`.
void narrow(KeysPage& page, std::string_view part) {
    for (KeysPage::Table& table : page.tables) {
        const bool place = std::ranges::any_of(table.places, [part](const std::string& each) {
            return each.find(part) != std::string::npos;
        });
        if (!place) {
            std::erase_if(table.rows, [part](const auto& row) { return !speaks_of(row, part); });
        }
    }
    std::erase_if(page.tables, [](const KeysPage::Table& table) { return table.rows.empty(); });
}

/// A cell of Markdown: a bar would end it.
std::string cell(const std::string& text) {
    std::string out;
    for (const char c : text) {
        out += c == '|' ? "\\|" : std::string(1, c);
    }
    return out;
}

std::string code_cell(const std::string& text) {
    return text.empty() ? "" : "`" + cell(text) + "`";
}

} // namespace

KeysPage keys_page(Document document, std::string_view part) {
    KeysPage page{title_of(document), {}};
    std::map<const Shape*, std::size_t> known; // looked up only, never gone through
    std::deque<Found> waiting{{&shape_of(document), ""}};
    for (; !waiting.empty(); waiting.pop_front()) {
        const auto& [shape, place] = waiting.front();
        const auto [entry, is_new] = known.try_emplace(shape, page.tables.size());
        if (!is_new) {
            page.tables[entry->second].places.push_back(place);
            continue;
        }
        KeysPage::Table table{{place}, {}};
        for (const Key* key : shape->keys()) {
            table.rows.push_back(row_of(*key));
            if (key->shape != nullptr) {
                waiting.push_back({key->shape, place_within(place, *key)});
            }
        }
        page.tables.push_back(std::move(table));
    }
    if (!part.empty()) {
        narrow(page, part);
    }
    return page;
}

std::string as_text(const KeysPage& page) {
    std::string out = page.title + "\n";
    for (const KeysPage::Table& table : page.tables) {
        out += fmt::format("\n{}\n", table.places.front().empty() ? "at the top of the file"
                                                                  : join(table.places, ", "));
        for (const KeysPage::Row& row : table.rows) {
            out += fmt::format("  {}{}\n      {}\n      takes {}\n", row.key,
                               row.otherwise.empty()         ? ""
                               : row.otherwise == "required" ? " (required)"
                                                             : " (default " + row.otherwise + ")",
                               row.meaning, row.takes);
            if (!row.example.empty()) {
                out += fmt::format("      {} = {}\n", row.key, row.example);
            }
        }
    }
    return out;
}

std::string as_markdown(const KeysPage& page) {
    std::string out = fmt::format("# {}\n", page.title);
    for (const KeysPage::Table& table : page.tables) {
        std::vector<std::string> places;
        for (const std::string& place : table.places) {
            places.push_back(place.empty() ? "at the top of the file" : "`" + place + "`");
        }
        out += fmt::format("\n## {}\n\n| key | takes | default | meaning | example |\n"
                           "|---|---|---|---|---|\n",
                           join(places, ", "));
        for (const KeysPage::Row& row : table.rows) {
            out +=
                fmt::format("| `{}` | {} | {} | {} | {} |\n", row.key, cell(row.takes),
                            row.otherwise == "required" ? row.otherwise : code_cell(row.otherwise),
                            cell(row.meaning), code_cell(row.example));
        }
    }
    return out;
}

} // namespace ohmfolio
