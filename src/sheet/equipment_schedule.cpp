#include <algorithm>

#include <fmt/format.h>

#include "base/drafting_case.h"
#include "base/text.h"
#include "sheet/appendix.h"
#include "sheet/conductor_words.h"
#include "sheet/schedule_rows.h"
#include "sheet/schedules.h"

namespace ohmfolio::sheets {

namespace {

/// What a row needs to know of one piece; a load controller is no equipment of the tree.
struct Piece {
    std::string id;
    std::string place;
    bool existing = false;
};

/// Equipment of one record and title in one row: identical pieces differ by id and place only.
struct EquipmentRow {
    std::vector<Piece> pieces;
    int record = -1;
    int quantity = 0;
    std::string role;
};

EquipmentRow& row_for(std::vector<EquipmentRow>& rows, int record, const std::string& role,
                      bool existing) {
    for (EquipmentRow& row : rows) {
        if (row.record == record && row.role == role &&
            (row.pieces.empty() || row.pieces.front().existing == existing))
            return row;
    }
    rows.push_back({{}, record, 0, role});
    return rows.back();
}

/// Modules of an array and what stands at each of them.
void add_array(std::vector<EquipmentRow>& rows, const Equipment& e, const std::string& roof,
               int count, const std::vector<std::pair<int, std::string>>& records) {
    for (const auto& [record, role] : records) {
        if (record < 0)
            continue;
        EquipmentRow& row = row_for(rows, record, role, e.existing);
        row.pieces.push_back({e.id, roof, e.existing});
        row.quantity += count;
    }
}

/// Listings of the power control systems that `e` is or holds.
std::vector<std::string> power_control_listings(const System& system, const Equipment& e) {
    std::vector<std::string> listings;
    for (const PowerControl& control : system.power_controls) {
        if (control.by >= 0 && &system.at(control.by) == &e &&
            std::find(listings.begin(), listings.end(), control.listing) == listings.end())
            listings.push_back(control.listing);
    }
    return listings;
}

std::string role_of(const System& system, const Equipment& e) {
    const auto listings = power_control_listings(system, e);
    return listings.empty()
               ? e.title
               : fmt::format("{}, power control system ({})", e.title, join(listings, ", "));
}

std::vector<EquipmentRow> equipment_rows(const System& system) {
    std::vector<EquipmentRow> rows;
    for (const Equipment& e : system.equipment) {
        if (const auto* branch = e.as<BranchArray>()) {
            add_array(rows, e, branch->roof, branch->count,
                      {{branch->module, "PV module"}, {branch->microinverter, "Microinverter"}});
        } else if (const auto* strings = e.as<StringArray>()) {
            add_array(
                rows, e, strings->roof, strings->modules(),
                {{strings->module, "PV module"}, {strings->electronics, "Module electronics"}});
        } else if (!e.is<Utility>()) {
            EquipmentRow& row = row_for(rows, e.record, role_of(system, e), e.existing);
            row.pieces.push_back({e.id, e.location, e.existing});
            ++row.quantity;
        }
    }
    for (const LoadController& controller : system.load_controllers) {
        EquipmentRow& row =
            row_for(rows, controller.record, "Load controller", controller.existing);
        row.pieces.push_back({controller.id, {}, controller.existing});
        ++row.quantity;
    }
    return rows;
}

/// "PV-" and 3 of "PV-3"; a number of zero where it has none.
std::pair<std::string, int> parted(const std::string& id) {
    const std::size_t digits = id.find_last_not_of("0123456789") + 1;
    const std::string number = id.substr(digits);
    return {id.substr(0, digits), number.empty() || number.size() > 6 ? 0 : std::stoi(number)};
}

/// "PV-1 to PV-4" for three or more in a row, else each by itself.
std::string ids_of(const EquipmentRow& row) {
    std::vector<std::string> parts;
    std::size_t first = 0;
    while (first < row.pieces.size()) {
        std::size_t last = first;
        const auto start = parted(row.pieces[first].id); // letters, number
        const auto follows = [&](std::size_t i) {
            const auto next = parted(row.pieces[i].id);
            return start.second > 0 && next.first == start.first &&
                   next.second == start.second + static_cast<int>(i - first);
        };
        while (last + 1 < row.pieces.size() && follows(last + 1))
            ++last;
        if (last >= first + 2) {
            parts.push_back(row.pieces[first].id + " to " + row.pieces[last].id);
            first = last + 1;
        } else {
            parts.push_back(row.pieces[first++].id);
        }
    }
    return join(parts, ", ");
}

std::string places_of(const EquipmentRow& row) {
    std::vector<std::string> places;
    for (const Piece& piece : row.pieces) {
        if (!piece.place.empty() &&
            std::find(places.begin(), places.end(), piece.place) == places.end())
            places.push_back(piece.place);
    }
    return join(places, "; ");
}

/// The sheet of the appendix that belongs to the row.
std::string appended_sheet(const System& system, const std::vector<std::string>& sheets,
                           const EquipmentRow& row) {
    std::vector<int> equipment;
    for (const Piece& piece : row.pieces)
        equipment.push_back(system.find(piece.id));
    return appended_for(system, sheets, row.record, equipment);
}

Row equipment_row(const System& system, const EquipmentRow& row,
                  const std::vector<std::string>& appendix) {
    const Record* record =
        row.record < 0 ? nullptr : &system.catalogue.records[static_cast<std::size_t>(row.record)];
    RowMaker maker("equipment:" + row.pieces.front().id);
    maker.tag(ids_of(row)).add(row.role);
    maker.add(record ? record->maker : none).add(record ? record->model : none);
    maker.add(record ? ratings_text(*record) : none).add(record ? record->listing : none);
    maker.add(record ? record->enclosure : none).add(places_of(row));
    maker.add(fmt::format("{}", row.quantity));
    maker.add(row.pieces.front().existing ? "existing" : "new");
    if (!appendix.empty())
        maker.sheet(appended_sheet(system, appendix, row));
    return maker.row();
}

} // namespace

Table equipment_schedule(const System& system, const std::vector<std::string>& appendix) {
    Table table;
    table.title = drafting_case("Equipment schedule");
    table.columns = {text_column("Tag", 1.2),     text_column("Equipment"),
                     text_column("Maker"),        text_column("Model"),
                     text_column("Ratings", 4.6), text_column("Listing"),
                     text_column("Enclosure"),    text_column("Location", 1.75),
                     number_column("Qty"),        text_column("Status")};
    if (!appendix.empty())
        table.columns.push_back(number_column("Data"));
    for (const EquipmentRow& row : equipment_rows(system))
        table.rows.push_back(equipment_row(system, row, appendix));
    return table;
}

} // namespace ohmfolio::sheets
