#include "sheet/schedule_rows.h"

#include <cmath>

#include "base/drafting_case.h"
#include "base/text.h"
#include "drawing/sheet.h"
#include "sheet/conductor_words.h"

namespace ohmfolio::sheets {

RowMaker& RowMaker::add(std::string_view text) {
    row_.cells.push_back(cell_of(text.empty() ? std::string_view(none) : text, shows_));
    return *this;
}

RowMaker& RowMaker::tag(std::string_view text, std::string anchor, std::string link) {
    add(text);
    row_.cells.back().bold = true;
    row_.cells.back().anchor = std::move(anchor);
    row_.cells.back().link = std::move(link);
    return *this;
}

RowMaker& RowMaker::count(int number, std::string_view letter) {
    tag(std::string(letter) + std::to_string(number));
    row_.cells.back().shows = a_count;
    return *this;
}

RowMaker& RowMaker::sheet(const std::string& number) {
    add(number);
    if (!number.empty())
        row_.cells.back().link = "sheet:" + number;
    return *this;
}

Column text_column(std::string_view heading, double widest_inches) {
    return {drafting_case(heading), Align::left, inches(widest_inches), std::string(heading)};
}

Column number_column(std::string_view heading) {
    return {drafting_case(heading), Align::centre, {}, std::string(heading)};
}

std::string id_with_status(const Equipment& e) { return e.existing ? e.id + " (E)" : e.id; }

std::string schedule_amps(Amps amps) {
    if (amps.value <= 0)
        return {};
    constexpr double seen = 0.005;
    const bool whole = std::fabs(amps.value - std::round(amps.value)) < seen;
    return decimal(amps.value, whole ? 0 : 2);
}

std::string schedule_kiloamps(Amps amps) {
    return amps.value > 0 ? trimmed(amps.value / 1000, 1) : std::string{};
}

} // namespace ohmfolio::sheets
