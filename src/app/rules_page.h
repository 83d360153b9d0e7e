/// The reference page: every rule, number and table of the code book with its paragraph in each
/// edition, how sure it is, and where it was read. Gathered from the book itself, so that what is
/// added to its files is on the page without more ado.
#pragma once

#include <string>
#include <vector>

#include "base/edition.h"

namespace ohmfolio {

/// What the page says, before it is set as text or as Markdown.
struct RulesPage {
    /// One cell for each edition.
    using ByEdition = std::vector<std::string>;
    struct Entry {
        std::string id, checks, formula;
        ByEdition sections; ///< "690.7(A)"; with a dagger: unverified; "-": no such rule
        std::string number; ///< "1.25"; empty: it uses none
        std::string source;
    };
    struct Number {
        std::string meaning;
        ByEdition values;
        std::string source;
    };
    struct Chapter {
        std::string title;
        std::vector<Entry> rules;
        std::vector<Number> numbers;
    };
    struct Table {
        std::string title;
        ByEdition sections;
        std::string source, confidence;
    };
    std::vector<std::string> notes;    ///< how to read it
    std::vector<std::string> editions; ///< "NEC 2017"
    std::vector<Chapter> chapters;     ///< in report order
    std::vector<Table> tables;
};

RulesPage rules_page(const std::vector<Edition>& editions);

/// For a terminal: lines of at most 100 characters.
std::string as_text(const RulesPage& page);
/// GitHub's Markdown: a table for each chapter.
std::string as_markdown(const RulesPage& page);

} // namespace ohmfolio
