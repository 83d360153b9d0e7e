#include <algorithm>
#include <cctype>
#include <fmt/format.h>

#include "base/text.h"
#include "input/faults.h"
#include "input/holds_together.h"

namespace ohmfolio {
namespace {

constexpr std::size_t longest_id = 16; // more does not fit a callout

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); }

bool well_formed(std::string_view id) {
    const bool first = !id.empty() && (is_letter(id.front()) || is_digit(id.front()));
    return first && id.size() <= longest_id && std::ranges::all_of(id, [](char c) {
               return is_letter(c) || is_digit(c) || c == '-' || c == '_' || c == '.' || c == '/';
           });
}

/// C3, R12, Q1 and CT-1 are tags that the drawing gives; an id like that would be ambiguous.
bool is_tag(std::string_view id) {
    for (const std::string_view prefix : {"CT-", "C", "R", "Q"}) {
        const std::string_view rest = id.substr(std::min(prefix.size(), id.size()));
        if (id.starts_with(prefix) && !rest.empty() && std::ranges::all_of(rest, is_digit)) {
            return true;
        }
    }
    return id == utility_id;
}

/// Look-alikes made equal: O and 0, I and l and 1, upper and lower case.
std::string folded(std::string_view id) {
    std::string result = upper(id);
    for (char& c : result) {
        c = c == 'O' ? '0' : (c == 'I' || c == 'L' ? '1' : c);
    }
    return result;
}

void check_form(const Declared& one, Findings& findings) {
    const std::string& id = one.equipment.id;
    if (!well_formed(id)) {
        findings.push_back(input_fault(
            "input.id", one.equipment.span, one.subject(),
            fmt::format("\"{}\" cannot be an id", id),
            {fmt::format(
                 "at most {} letters, digits, \"-\", \"_\", \".\" and \"/\", first a letter or "
                 "digit",
                 longest_id),
             "say the rest in `title`"}));
    } else if (is_tag(id)) {
        findings.push_back(input_fault("input.id", one.equipment.span, one.subject(),
                                       fmt::format("\"{}\" is a tag that the drawing gives", id),
                                       {"an id that is no tag of a circuit (C1), raceway (R1), "
                                        "overcurrent device (Q1) or transformer (CT-1)",
                                        ""}));
    }
}

void check_pair(const Declared& earlier, const Declared& later, Findings& findings) {
    const std::string& first = earlier.equipment.id;
    const std::string& second = later.equipment.id;
    if (first == second) {
        findings.push_back(input_fault(
            "input.duplicate_id", later.equipment.span, later.subject(),
            fmt::format("\"{}\" is already the id of a {}", second, kind_word(earlier.equipment)),
            {"an id of its own for each piece of equipment", ""}));
    } else if (folded(first) == folded(second)) {
        findings.push_back(input_warning(
            "input.confusable_ids", later.equipment.span, later.subject(),
            fmt::format("\"{}\" is easily taken for \"{}\"", second, first),
            {"ids that differ by more than O and 0, I and l and 1, or capitals", ""}));
    }
}

} // namespace

void check_ids(const std::vector<Declared>& all, Findings& findings) {
    for (std::size_t i = 0; i + 1 < all.size(); ++i) { // the last is the utility
        check_form(all[i], findings);
        for (std::size_t earlier = 0; earlier < i; ++earlier) {
            check_pair(all[earlier], all[i], findings);
        }
    }
}

} // namespace ohmfolio
