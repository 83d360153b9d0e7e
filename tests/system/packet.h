/// A packet on disk, drawn by the program, and its parts as other people's tools read them.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "folders.h"
#include "run_program.h"

namespace ohmfolio::test {

using Json = nlohmann::ordered_json;

/// Draws `system` into a folder of its own. Throws std::runtime_error when the program does not
/// exit with `expected`.
class DrawnPacket {
  public:
    explicit DrawnPacket(const std::filesystem::path& system, const Command& options = {},
                         int expected = 0);

    const std::filesystem::path& folder() const { return folder_; }
    std::filesystem::path pdf() const { return folder_ / (stem_ + ".pdf"); }
    std::filesystem::path svg(const std::string& sheet) const {
        return folder_ / (stem_ + "-" + sheet + ".svg");
    }
    const Json& report() const { return report_; }
    const Outcome& outcome() const { return outcome_; }
    std::vector<std::string> sheet_numbers() const;
    /// Position of the sheet within the packet, from 0. Throws when there is none.
    std::size_t position(const std::string& sheet) const;
    /// Numbers of the sheets whose title begins so.
    std::vector<std::string> sheets_titled(std::string_view beginning) const;

  private:
    TemporaryFolder temporary_;
    std::filesystem::path folder_;
    std::string stem_;
    Outcome outcome_;
    Json report_;
};

/// The example, as it stands in the repository; drawn once.
const DrawnPacket& example_packet();

/// Text of each page as poppler finds it, in the order in which it was drawn, line breaks made
/// spaces, and all in capitals, since lettering on sheets is upper case save for units.
std::vector<std::string> page_texts(const std::filesystem::path& pdf);
std::string joined(const std::vector<std::string>& pages);
/// The pages of these sheets only.
std::string text_of_sheets(const DrawnPacket& packet, const std::vector<std::string>& sheets);

/// ASCII letters in capitals, runs of white space as one space.
std::string flattened(std::string_view text);
/// Where `word` stands by itself from `from` on: not within a longer word or number, and no
/// paragraph within a longer one, 310.15 within 310.15(B).
std::size_t find_word(std::string_view text, std::string_view word, std::size_t from = 0);
bool has_word(std::string_view text, std::string_view word);

/// What the first group of `pattern`, a regular expression, matches, each time.
std::vector<std::string> all_matches(const std::string& text, const std::string& pattern);

/// "50" for 50.0.
std::string whole_number(const Json& value);
/// Sections of the code that the report cites, without the edition before them: "705.12(B)(3)".
std::vector<std::string> cited_sections(const Json& report);

} // namespace ohmfolio::test
