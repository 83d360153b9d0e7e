#include "packet.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <regex>
#include <set>
#include <stdexcept>

namespace ohmfolio::test {

namespace {

Outcome draw_into(const std::filesystem::path& system, const std::filesystem::path& folder,
                  const Command& options) {
    Command arguments{"draw", system.string(), "--out", folder.string()};
    arguments.insert(arguments.end(), options.begin(), options.end());
    return run_ohmfolio(arguments);
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); }

bool goes_on_before(std::string_view text, std::size_t at) {
    if (at == 0) {
        return false;
    }
    const char before = text[at - 1];
    return is_digit(before) || is_letter(before) || before == '.' || before == '-' || before == '_';
}

bool goes_on_after(std::string_view text, std::size_t end) {
    if (end >= text.size()) {
        return false;
    }
    const char after = text[end];
    const char next = end + 1 < text.size() ? text[end + 1] : ' ';
    return is_digit(after) || is_letter(after) || after == '(' || after == '_' ||
           ((after == '.' || after == '-') && is_digit(next));
}

} // namespace

DrawnPacket::DrawnPacket(const std::filesystem::path& system, const Command& options, int expected)
    : folder_(temporary_.path() / "packet"), stem_(system.stem().string()),
      outcome_(draw_into(system, folder_, options)) {
    if (outcome_.exit_code != expected) {
        throw std::runtime_error("ohmfolio draw exits with " + std::to_string(outcome_.exit_code) +
                                 ": " + outcome_.err);
    }
    report_ = Json::parse(read_file(folder_ / "report.json"));
}

std::vector<std::string> DrawnPacket::sheet_numbers() const {
    std::vector<std::string> numbers;
    for (const Json& sheet : report_.at("sheets")) {
        numbers.push_back(sheet.at("number"));
    }
    return numbers;
}

std::size_t DrawnPacket::position(const std::string& sheet) const {
    const auto numbers = sheet_numbers();
    const auto found = std::find(numbers.begin(), numbers.end(), sheet);
    if (found == numbers.end()) {
        throw std::runtime_error("no sheet " + sheet);
    }
    return static_cast<std::size_t>(found - numbers.begin());
}

std::vector<std::string> DrawnPacket::sheets_titled(std::string_view beginning) const {
    std::vector<std::string> numbers;
    for (const Json& sheet : report_.at("sheets")) {
        if (sheet.at("title").get<std::string>().starts_with(beginning)) {
            numbers.push_back(sheet.at("number"));
        }
    }
    return numbers;
}

const DrawnPacket& example_packet() {
    static const DrawnPacket packet(ashgrove());
    return packet;
}

std::vector<std::string> page_texts(const std::filesystem::path& pdf) {
    const Outcome read = run_program({"pdftotext", "-raw", "-enc", "UTF-8", pdf.string(), "-"});
    std::vector<std::string> pages;
    std::size_t begin = 0;
    for (std::size_t end; (end = read.out.find('\f', begin)) != std::string::npos;
         begin = end + 1) {
        pages.push_back(flattened(std::string_view(read.out).substr(begin, end - begin)));
    }
    return pages;
}

std::string joined(const std::vector<std::string>& pages) {
    std::string text;
    for (const std::string& page : pages) {
        text += page + " ";
    }
    return text;
}

std::string text_of_sheets(const DrawnPacket& packet, const std::vector<std::string>& sheets) {
    const auto pages = page_texts(packet.pdf());
    std::string text;
    for (const std::string& sheet : sheets) {
        text += pages.at(packet.position(sheet)) + " ";
    }
    return text;
}

std::string flattened(std::string_view text) {
    std::string result;
    bool space = false;
    for (const char c : text) {
        if (c == ' ' || c == '\n' || c == '\r' || c == '\t' || c == '\f') {
            space = true;
            continue;
        }
        if (space && !result.empty()) {
            result += ' ';
        }
        space = false;
        result += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    }
    return result;
}

std::size_t find_word(std::string_view text, std::string_view word, std::size_t from) {
    for (std::size_t at = text.find(word, from); at != std::string_view::npos;
         at = text.find(word, at + 1)) {
        if (!goes_on_before(text, at) && !goes_on_after(text, at + word.size())) {
            return at;
        }
    }
    return std::string_view::npos;
}

bool has_word(std::string_view text, std::string_view word) {
    return find_word(text, word) != std::string_view::npos;
}

std::string whole_number(const Json& value) {
    return std::to_string(std::lround(value.get<double>()));
}

std::vector<std::string> cited_sections(const Json& report) {
    const std::string before = report.at("edition").get<std::string>() + " ";
    std::set<std::string> sections;
    const auto add = [&](const std::string& section) {
        if (section.starts_with(before)) {
            sections.insert(section.substr(before.size()));
        }
    };
    for (const Json& derivation : report.at("derivations")) {
        add(derivation.at("cite").at("section"));
    }
    for (const Json& connection : report.at("connections")) {
        for (const Json& option : connection.at("options")) {
            add(option.at("cite").at("section"));
        }
    }
    for (const Json& finding : report.at("findings")) {
        add(finding.at("section"));
    }
    return {sections.begin(), sections.end()};
}

std::vector<std::string> all_matches(const std::string& text, const std::string& pattern) {
    const std::regex expression(pattern);
    std::vector<std::string> found;
    for (std::sregex_iterator i(text.begin(), text.end(), expression), end; i != end; ++i) {
        found.push_back((*i)[1]);
    }
    return found;
}

} // namespace ohmfolio::test
