#include "toml/written.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"

namespace ohmfolio::toml_text {
namespace {

bool is_bare(std::string_view key) {
    return !key.empty() && std::ranges::all_of(key, [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
               c == '-' || c == '_';
    });
}

struct Writer {
    std::string operator()(bool value) const { return value ? "true" : "false"; }
    std::string operator()(std::int64_t value) const { return fmt::format("{}", value); }
    std::string operator()(double value) const {
        std::string text = fmt::format("{}", value);
        return text.find_first_of(".en") == std::string::npos ? text + ".0" : text;
    }
    std::string operator()(const std::string& value) const { return quoted(value); }
    std::string operator()(const Array& array) const {
        std::vector<std::string> items;
        for (const Node& item : array.items) {
            items.push_back(written(item));
        }
        return "[" + join(items, ", ") + "]";
    }
    std::string operator()(const Table& table) const {
        std::vector<std::string> entries;
        for (const Entry& entry : table.entries) {
            entries.push_back((is_bare(entry.key) ? entry.key : quoted(entry.key)) + " = " +
                              written(*entry.value));
        }
        return entries.empty() ? "{}" : "{ " + join(entries, ", ") + " }";
    }
};

} // namespace

std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c == '"' || c == '\\') {
            out += '\\';
            out += c;
        } else if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) {
            out += ' ';
        } else {
            out += c;
        }
    }
    return out;
}

std::string quoted(std::string_view text) { return '"' + escaped(text) + '"'; }

std::string written(const Node& node) { return std::visit(Writer{}, node.value); }

} // namespace ohmfolio::toml_text
