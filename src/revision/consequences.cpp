#include "revision/consequences.h"

#include <algorithm>

#include "base/text.h"

namespace ohmfolio::revision {

namespace {

bool of_material(const RowChange& row) { return row.table == "material"; }

struct Alike {
    std::string what;
    std::vector<std::string> rows; ///< a device may stand in two schedules under one tag
};

} // namespace

std::vector<std::string> consequences(const Comparison& comparison) {
    std::vector<Alike> all;
    for (const RowChange& row : comparison.followed) {
        if (of_material(row))
            continue;
        const std::string what = what_changed(row);
        auto alike = std::ranges::find(all, what, &Alike::what);
        if (alike == all.end())
            alike = all.insert(all.end(), {what, {}});
        if (std::ranges::find(alike->rows, row.row) == alike->rows.end())
            alike->rows.push_back(row.row);
    }
    std::vector<std::string> lines = comparison.rules;
    for (const Alike& alike : all)
        lines.push_back(join(alike.rows, ", ") + ": " + alike.what);
    return lines;
}

std::size_t material_rows(const Comparison& comparison) {
    return static_cast<std::size_t>(std::ranges::count_if(comparison.followed, of_material));
}

} // namespace ohmfolio::revision
