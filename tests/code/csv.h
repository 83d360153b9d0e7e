/// Published tables in tests/data: CSV with the sources in comment lines at the head.
#pragma once

#include <charconv>
#include <fstream>
#include <map>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

using CsvRow = std::map<std::string, std::string>;

inline std::vector<std::string> csv_cells(const std::string& line) {
    std::vector<std::string> cells(1);
    for (const char c : line) {
        if (c == ',')
            cells.emplace_back();
        else if (c != '\r')
            cells.back() += c;
    }
    return cells;
}

inline std::vector<CsvRow> read_csv(const std::string& name) {
    std::ifstream file(std::string(OHMFOLIO_SOURCE) + "/tests/data/" + name);
    if (!file)
        throw std::runtime_error("cannot read " + name);
    std::vector<std::string> heads;
    std::vector<CsvRow> rows;
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line.front() == '#')
            continue;
        const auto cells = csv_cells(line);
        if (heads.empty()) {
            heads = cells;
            continue;
        }
        CsvRow row;
        for (std::size_t i = 0; i < heads.size(); ++i)
            row[heads[i]] = i < cells.size() ? cells[i] : "";
        rows.push_back(row);
    }
    return rows;
}

/// A cell as a number; an empty cell is nothing.
inline std::optional<double> csv_number(const CsvRow& row, const std::string& column) {
    const std::string& text = row.at(column);
    if (text.empty())
        return std::nullopt;
    double value = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (fault != std::errc{} || end != text.data() + text.size())
        throw std::runtime_error(column + ": " + text + " is not a number");
    return value;
}
