#include "render/pdf_repair.h"

#include <algorithm>
#include <charconv>
#include <fmt/format.h>
#include <stdexcept>
#include <string_view>

namespace ohmfolio {

namespace {

/// "20260302" from "2026-03-02".
std::string day_digits(const std::string& date) {
    constexpr std::string_view form = "0000-00-00";
    const bool fits =
        date.size() == form.size() && std::ranges::equal(date, form, [](char c, char expected) {
            return expected == '-' ? c == '-' : c >= '0' && c <= '9';
        });
    if (!fits) {
        throw std::logic_error(
            fmt::format("the date of a packet must be like 2026-03-02, not \"{}\"", date));
    }
    return date.substr(0, 4) + date.substr(5, 2) + date.substr(8, 2);
}

/// The number that `text` begins with; leading zeros are allowed.
std::size_t leading_number(std::string_view text) {
    std::size_t value = 0;
    const auto end = std::from_chars(text.data(), text.data() + text.size(), value);
    if (end.ec != std::errc{})
        throw std::logic_error("the PDF written has an unknown form of cross-reference table");
    return value;
}

} // namespace

std::string cairo_date(const std::string& date) {
    day_digits(date);
    return date + "T00:00:00Z";
}

void repair_date(std::string& pdf, const std::string& date) {
    constexpr std::string_view key = "/CreationDate (";
    // The information dictionary stands near the end of the file; page contents are compressed and
    // cannot hold the key by accident.
    const auto found = pdf.rfind(key);
    const auto begin = found == std::string::npos ? found : found + key.size() - 1;
    const auto end = found == std::string::npos ? found : pdf.find(')', begin);
    if (end == std::string::npos)
        throw std::logic_error("the PDF written has no creation date");
    const auto length = end + 1 - begin;
    std::string right = fmt::format("(D:{})", day_digits(date));
    if (right.size() > length)
        throw std::logic_error("the PDF written has an unknown form of date");
    right.resize(length, ' ');
    pdf.replace(begin, length, right);
}

void repair_cross_references(std::string& pdf) {
    constexpr std::string_view start_key = "startxref\n";
    constexpr std::string_view free_entry = "0000000000 65535 f ";
    constexpr std::size_t entry_length = 20; // with its line end
    const auto start = pdf.rfind(start_key);
    if (start == std::string::npos)
        throw std::logic_error("the PDF written has no end");
    const auto table = leading_number(std::string_view(pdf).substr(start + start_key.size()));
    if (std::string_view(pdf).substr(table, 5) != "xref\n")
        return; // a cross-reference stream, which no Cairo with this fault writes
    // "xref", then "0 COUNT", then the entries.
    const auto count_line = table + 5;
    const auto count = leading_number(std::string_view(pdf).substr(count_line + 2));
    const auto entries = pdf.find('\n', count_line) + 1;
    for (std::size_t object = 1; object < count; ++object) {
        const auto entry = entries + object * entry_length;
        const auto offset = leading_number(std::string_view(pdf).substr(entry, 10));
        if (!std::string_view(pdf).substr(offset).starts_with(fmt::format("{} 0 obj", object)))
            pdf.replace(entry, free_entry.size(), free_entry);
    }
}

} // namespace ohmfolio
