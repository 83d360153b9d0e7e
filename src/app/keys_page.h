/// The reference page: every key of every file that a user writes, with what it takes, its default,
/// its meaning and an example; gathered from the tables of keys that drive the reading.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "app/schema.h"

namespace ohmfolio {

struct KeysPage {
    struct Row {
        std::string key, takes, otherwise, meaning, example;
    };
    struct Table {
        std::vector<std::string> places; ///< "[branch.ID]", "branch.ID.run"
        std::vector<Row> rows;
    };
    std::string title;
    std::vector<Table> tables; ///< from the outside in
};

/// Only tables and keys with `part` in a place or a name, where it is not empty.
KeysPage keys_page(Document document, std::string_view part = {});

/// For a terminal.
std::string as_text(const KeysPage& page);
/// GitHub's Markdown: a table for each table of the file.
std::string as_markdown(const KeysPage& page);

} // namespace ohmfolio
