#include "code/table_file.h"

#include <fmt/format.h>
#include <stdexcept>

namespace ohmfolio {

namespace {

std::string year(Edition edition) { return fmt::format("{}", static_cast<int>(edition)); }

/// Indexes by file number, which follows the order of `add`.
std::size_t index_of(int file) { return static_cast<std::size_t>(file); }

} // namespace

TableRow::TableRow(const toml_text::Node& node, const SourceFiles& sources)
    : node_(&node), sources_(&sources) {
    if (node.as<toml_text::Table>() == nullptr)
        fault(fmt::format("a table was expected, not {}", node.kind()));
}

void TableRow::fault(const std::string& what) const {
    const Span& span = node_->span;
    const std::string file = span.known() ? sources_->name(span.file) : "code table";
    throw std::logic_error(fmt::format("{}:{}: {}", file, span.begin.line, what));
}

const toml_text::Node* TableRow::find(std::string_view key) const {
    const toml_text::Entry* entry = node_->as<toml_text::Table>()->find(key);
    return entry == nullptr ? nullptr : entry->value.get();
}

const toml_text::Node& TableRow::require(std::string_view key) const {
    const toml_text::Node* node = find(key);
    if (node == nullptr)
        fault(fmt::format("{} is missing", key));
    return *node;
}

bool TableRow::has(std::string_view key) const { return find(key) != nullptr; }

double TableRow::number(std::string_view key) const {
    const auto value = require(key).number();
    if (!value)
        fault(fmt::format("{} must be a number", key));
    return *value;
}

std::optional<double> TableRow::number_if_any(std::string_view key) const {
    if (!has(key))
        return std::nullopt;
    return number(key);
}

std::string TableRow::text(std::string_view key) const {
    const auto* value = require(key).as<std::string>();
    if (value == nullptr)
        fault(fmt::format("{} must be a text", key));
    return *value;
}

std::string TableRow::text_or(std::string_view key, std::string_view otherwise) const {
    return has(key) ? text(key) : std::string(otherwise);
}

bool TableRow::flag(std::string_view key) const {
    const toml_text::Node* node = find(key);
    if (node == nullptr)
        return false;
    const bool* value = node->as<bool>();
    if (value == nullptr)
        fault(fmt::format("{} must be true or false", key));
    return *value;
}

std::vector<TableRow> TableRow::rows(std::string_view key) const {
    const auto* array = require(key).as<toml_text::Array>();
    if (array == nullptr)
        fault(fmt::format("{} must be a list", key));
    std::vector<TableRow> result;
    for (const toml_text::Node& item : array->items)
        result.emplace_back(item, *sources_);
    return result;
}

std::vector<TableRow> TableRow::rows_if_any(std::string_view key) const {
    return has(key) ? rows(key) : std::vector<TableRow>{};
}

std::vector<double> TableRow::numbers(std::string_view key) const {
    const auto* array = require(key).as<toml_text::Array>();
    if (array == nullptr)
        fault(fmt::format("{} must be a list", key));
    std::vector<double> result;
    for (const toml_text::Node& item : array->items) {
        const auto value = item.number();
        if (!value)
            fault(fmt::format("{} must be a list of numbers", key));
        result.push_back(*value);
    }
    return result;
}

std::optional<TableRow> TableRow::group_if_any(std::string_view key) const {
    const toml_text::Node* node = find(key);
    if (node == nullptr)
        return std::nullopt;
    return TableRow(*node, *sources_);
}

const toml_text::Node* TableRow::latest(Edition edition, std::string_view key) const {
    const toml_text::Node* result = nullptr;
    for (const Edition candidate : all_editions) {
        if (candidate > edition)
            break;
        const toml_text::Node* node = find(year(candidate));
        if (node == nullptr)
            continue;
        const auto* group = node->as<toml_text::Table>();
        if (key.empty() || (group != nullptr && group->find(key) != nullptr))
            result = node;
    }
    return result;
}

std::optional<TableRow> TableRow::as_of(Edition edition, std::string_view key) const {
    const toml_text::Node* node = latest(edition, key);
    if (node == nullptr)
        return std::nullopt;
    return TableRow(*node, *sources_);
}

TableRow TableRow::in_force(Edition edition, std::string_view key) const {
    const auto group = as_of(edition, key);
    if (!group)
        fault(fmt::format("no edition up to {} has {}", year(edition),
                          key.empty() ? std::string_view("an entry") : key));
    return *group;
}

TableRow TableRow::row_reaching(Edition edition, double value) const {
    const TableRow group = in_force(edition, "rows");
    for (const TableRow& row : group.rows("rows")) {
        if (!row.has("through") || value <= row.number("through"))
            return row;
    }
    group.fault(fmt::format("no row reaches to {}", value));
}

double TableRow::number_as_of(Edition edition) const {
    const toml_text::Node* node = latest(edition, {});
    if (node == nullptr)
        fault("no edition up to " + year(edition) + " has a number");
    const auto value = node->number();
    if (!value)
        fault("the value under an edition must be a number");
    return *value;
}

TableFiles::TableFiles(const std::vector<Text>& texts) {
    for (const Text& entry : texts) {
        const int file = sources_.add("code/tables/" + std::string(entry.name) + ".toml",
                                      std::string(entry.text));
        Findings findings;
        auto tree = toml_text::parse(file, sources_, findings);
        if (!tree)
            throw std::logic_error(print(findings.front(), sources_, false));
        trees_.push_back(std::move(*tree));
    }
}

TableRow TableFiles::file(std::string_view name) const {
    const std::string wanted = "code/tables/" + std::string(name) + ".toml";
    for (int file = 0; file < sources_.count(); ++file) {
        if (sources_.name(file) == wanted)
            return TableRow(trees_[index_of(file)], sources_);
    }
    throw std::logic_error("there is no code table " + wanted);
}

} // namespace ohmfolio
