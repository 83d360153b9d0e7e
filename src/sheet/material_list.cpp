#include "sheet/material_list.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/name_runs.h"
#include "base/text.h"
#include "sheet/conductor_words.h"
#include "sheet/placards.h"
#include "sheet/schedule_rows.h"
#include "takeoff/takeoff.h"

namespace ohmfolio::sheets {

namespace {

constexpr std::size_t most_served = 6; ///< pieces of a list of tags; more is counted

std::string_view heading(MaterialGroup group) {
    switch (group) {
    case MaterialGroup::array:
        return "Array";
    case MaterialGroup::wire:
        return "Wire and cable";
    case MaterialGroup::raceway:
        return "Raceway";
    case MaterialGroup::protection:
        return "Overcurrent devices";
    case MaterialGroup::enclosures:
        return "Equipment and enclosures";
    case MaterialGroup::storage:
        return "Storage and generation";
    case MaterialGroup::control:
        return "Metering and control";
    case MaterialGroup::grounding:
        return "Grounding electrode system";
    }
    return {};
}

/// Letters and digits, all else one hyphen: what the marks of a row show stays the same when an
/// item is put before it.
std::string slug(std::string_view text) {
    std::string result;
    for (const char c : text) {
        const bool word =
            (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        if (word)
            result += c;
        else if (!result.empty() && result.back() != '-')
            result += '-';
    }
    while (!result.empty() && result.back() == '-')
        result.pop_back();
    return result;
}

/// "10 %", "1 spare"
std::string more_words(const MaterialItem& item) {
    std::vector<std::string> words;
    if (item.waste > 0)
        words.push_back(trimmed(item.waste * 100, 1) + " %");
    if (item.spares > 0)
        words.push_back(fmt::format("{} spare{}", item.spares, item.spares == 1 ? "" : "s"));
    return join(words, ", ");
}

/// Makes the rows and numbers them.
class Rows {
  public:
    void head(std::string_view words) {
        Row row;
        row.heading = true;
        row.cells.push_back(cell_of(words, {}));
        rows_.push_back(std::move(row));
    }

    void add(const MaterialItem& item) {
        RowMaker row("material:" + slug(item.description + " " + item.model));
        row.count(++number_, "M");
        row.add(item.measured_on_site ? std::string{} : fmt::format("{}", item.quantity()));
        row.add(item.unit).add(item.description).add(item.maker).add(item.model);
        row.add(item.measured_on_site ? std::string{} : trimmed(item.net, 1));
        row.add(more_words(item)).add(runs(item.serves, " to ", most_served)).add(item.note);
        rows_.push_back(row.row());
    }

    void add(const NeededPlacard& needed, const System& system) {
        const Placard& placard = *needed.placard;
        RowMaker row("placard:" + placard.id);
        row.count(++number_, "M");
        const std::string count = needed.count ? fmt::format("{}", *needed.count) : std::string{};
        row.add(count).add("ea").add("Placard, " + placard.title).add({}).add({});
        row.add(count).add({});
        std::vector<std::string> served;
        for (const int e : needed.at)
            served.push_back(system.at(e).id);
        row.add(runs(served, " to ", most_served));
        row.add(needed.count ? needed.section
                             : fmt::format("{}, {}", placard.quantity, needed.section));
        rows_.push_back(row.row());
    }

    std::vector<Row> rows() && { return std::move(rows_); }

  private:
    std::vector<Row> rows_;
    int number_ = 0;
};

} // namespace

Table material_list(const Job& job) {
    Table table;
    table.title = drafting_case("Material list, new work");
    table.columns = {text_column("Item"),     number_column("Order"),
                     text_column("Unit"),     text_column("Description", 3.2),
                     text_column("Maker"),    text_column("Model"),
                     number_column("Drawn"),  number_column("Waste,\nspares"),
                     text_column("For", 2.2), text_column("Remark", 2.7)};
    Rows rows;
    const MaterialItem* before = nullptr;
    const std::vector<MaterialItem> items = take_off(job.system, job.study);
    for (const MaterialItem& item : items) {
        if (before == nullptr || before->group != item.group)
            rows.head(heading(item.group));
        rows.add(item);
        before = &item;
    }
    const std::vector<NeededPlacard> placards = needed_placards(job);
    if (!placards.empty())
        rows.head("Placards and labels");
    for (const NeededPlacard& needed : placards)
        rows.add(needed, job.system);
    table.rows = std::move(rows).rows();
    return table;
}

} // namespace ohmfolio::sheets
