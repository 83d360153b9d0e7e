// When 83 % of the rating is enough for the conductors of a dwelling.
#include "code/dwelling_rules.h"
#include "code/line.h"

namespace ohmfolio {

namespace {

std::string why_not(const CodeBook& book, const DwellingShareInput& input) {
    if (input.supply == DwellingSupply::other)
        return "the supply is neither 120/240 V single phase nor two lines of 208Y/120 V";
    if (input.supply == DwellingSupply::lines_of_a_wye && !input.feeder)
        return "from 208Y/120 V the share is for feeders, not for services";
    if (!input.whole_load)
        return "the conductors do not carry the entire load of the dwelling unit";
    if (!has_dwelling_rating(book, input.rating.value)) {
        return shown(input.rating.value) + " is not within " +
               shown(Amps{book.number("dwelling.share.smallest")}) + " to " +
               shown(Amps{book.number("dwelling.share.largest")});
    }
    return {};
}

} // namespace

bool has_dwelling_rating(const CodeBook& book, Amps rating) {
    return rating >= Amps{book.number("dwelling.share.smallest")} &&
           rating <= Amps{book.number("dwelling.share.largest")};
}

DwellingShare dwelling_share(const Desk& desk, const DwellingShareInput& input) {
    DwellingShare share;
    share.reason = why_not(desk.book, input);
    share.applies = share.reason.empty();
    if (share.applies)
        share.reason = "entire load of a dwelling unit, " + shown(input.rating.value);
    Heading line = line_for(
        desk, "dwelling_share", "", "Share of the rating for a dwelling",
        desk.book.cite(input.feeder ? "conductor.dwelling_feeder" : "conductor.dwelling_service"));
    line.governs = share.reason;
    desk.sheet.choose(line, share.applies ? "applies" : "does not apply", input.rating.from);
    return share;
}

} // namespace ohmfolio
