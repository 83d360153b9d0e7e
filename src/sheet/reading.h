/// Reads the data files of this room (layouts/*.toml, texts/*.toml) with every fault reported at
/// its place: a missing key, a value of the wrong kind, a key that nobody knows.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/edition.h"
#include "base/finding.h"
#include "base/length.h"
#include "drawing/frame.h"
#include "toml/toml.h"

namespace ohmfolio::sheets {

/// Reads and parses one file; a file that is missing or malformed is a finding.
std::optional<toml_text::Node> read_file(const std::filesystem::path& path, SourceFiles& sources,
                                         Findings& findings);

/// "11 in", "10.2 pt", "0.35 mm", "3/8 in".
std::optional<Length> parse_length(std::string_view text);
/// "#C8102E".
std::optional<Color> parse_color(std::string_view text);

/// One table of a data file. Each getter marks its key as known; `finish` reports the others. A
/// getter that finds nothing usable reports that and returns an empty value, so that reading goes
/// on and all faults come out at once.
class TableReader {
  public:
    TableReader(const toml_text::Node& node, std::string where, Findings& findings);

    bool has(std::string_view key) const;
    std::string text(std::string_view key);
    std::string text_or(std::string_view key, std::string_view otherwise);
    int whole(std::string_view key);
    int whole_or(std::string_view key, int otherwise);
    bool flag_or(std::string_view key, bool otherwise);
    Length length(std::string_view key);
    Length length_or(std::string_view key, Length otherwise);
    Color color(std::string_view key);
    /// A list of texts; empty when the key is absent.
    std::vector<std::string> texts(std::string_view key);
    /// A list of editions written as years; every edition when the key is absent.
    std::set<Edition> editions(std::string_view key);
    /// A table of text by edition: { 2017 = "690.13(B)" }.
    std::map<Edition, std::string> by_edition(std::string_view key);
    TableReader table(std::string_view key);
    std::vector<TableReader> tables(std::string_view key);
    /// The keys of this table, in the order of the text.
    std::vector<std::string> keys() const;

    void finish();
    /// Reports a fault of the value of `key`.
    void fault(std::string_view key, std::string message, std::string expected);
    const Span& span() const { return span_; }

  private:
    const toml_text::Node* value(std::string_view key, bool required);
    const std::string* string_value(std::string_view key, bool required);
    void report(const Span& span, std::string rule, std::string message, std::string expected);

    const toml_text::Table* table_ = nullptr;
    Span span_;
    std::string where_;
    Findings* findings_;
    std::set<std::string, std::less<>> known_;
};

} // namespace ohmfolio::sheets
