/// Reading of the code tables: TOML whose top-level tables ["2017"], ["2020"] ... hold what changed
/// in that edition. The tables are ours, so a fault in one is a fault of the program: every reader
/// here throws std::logic_error with the place and what is wrong.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/edition.h"
#include "base/source.h"
#include "toml/toml.h"

namespace ohmfolio {

/// One row of a table, or any other group of keys.
class TableRow {
  public:
    TableRow(const toml_text::Node& node, const SourceFiles& sources);

    bool has(std::string_view key) const;
    double number(std::string_view key) const;
    std::optional<double> number_if_any(std::string_view key) const;
    std::string text(std::string_view key) const;
    std::string text_or(std::string_view key, std::string_view otherwise) const;
    bool flag(std::string_view key) const; ///< false when absent
    std::vector<TableRow> rows(std::string_view key) const;
    std::vector<TableRow> rows_if_any(std::string_view key) const; ///< empty when absent
    std::vector<double> numbers(std::string_view key) const;
    std::optional<TableRow> group_if_any(std::string_view key) const;
    [[noreturn]] void fault(const std::string& what) const;

    /// The group of the latest edition that is not later than `edition`; with `key`, of those that
    /// have the key.
    std::optional<TableRow> as_of(Edition edition, std::string_view key = {}) const;
    /// The same, which must be there.
    TableRow in_force(Edition edition, std::string_view key = {}) const;
    /// Of the rows in force the first that reaches to `value`: its "through" is not below, or it
    /// has no end.
    TableRow row_reaching(Edition edition, double value) const;
    /// True when an edition that is not later than `edition` is listed.
    bool listed_by(Edition edition) const { return latest(edition, {}) != nullptr; }
    /// The number that holds in `edition` where the editions hold bare numbers.
    double number_as_of(Edition edition) const;

  private:
    const toml_text::Node* find(std::string_view key) const;
    const toml_text::Node& require(std::string_view key) const;
    const toml_text::Node* latest(Edition edition, std::string_view key) const;

    const toml_text::Node* node_;
    const SourceFiles* sources_;
};

/// All table files, parsed. Rows refer into it.
class TableFiles {
  public:
    struct Text {
        std::string_view name, text;
    };
    explicit TableFiles(const std::vector<Text>& texts);
    TableFiles(const TableFiles&) = delete;
    TableFiles& operator=(const TableFiles&) = delete;

    TableRow file(std::string_view name) const;

  private:
    SourceFiles sources_;
    std::vector<toml_text::Node> trees_; ///< parallel to the files of `sources_`
};

} // namespace ohmfolio
