#include <fmt/format.h>

#include "base/text.h"
#include "input/units.h"
#include "input/values.h"
#include "input/words.h"

namespace ohmfolio {
namespace {

std::string quoted_list(const std::vector<std::string>& words) {
    std::vector<std::string> quoted;
    for (const std::string& word : words) {
        quoted.push_back(fmt::format("\"{}\"", word));
    }
    return join(quoted, ", ");
}

std::string expected_one(const Key& key) {
    switch (key.kind) {
    case Kind::flag:
        return "true or false";
    case Kind::count:
        return "a whole number, such as " + std::string(key.example);
    case Kind::number:
        return "a number, such as " + std::string(key.example);
    case Kind::raceway:
    case Kind::material:
    case Kind::insulation:
    case Kind::edition:
    case Kind::choice:
        return "one of " + quoted_list(words_of(key));
    case Kind::wire_size:
        return "a conductor size, such as \"8 AWG\" or \"250 kcmil\"";
    case Kind::trade_size:
        return "a trade size: one of " + quoted_list(words_of(key));
    case Kind::equipment:
        return fmt::format("the id of equipment, such as {}", key.example);
    case Kind::record:
        return fmt::format("the key of a {} record of the catalogue", key.words.front());
    case Kind::date:
        return fmt::format("a date, such as {}", key.example);
    case Kind::load_breaker:
        return "a breaker, such as \"20 A\", \"20 A 2P\" or \"20 A 3P\"";
    case Kind::service:
        return fmt::format("a service, such as {} or \"120/208 V, 3 phase, 800 A\"", key.example);
    case Kind::plan_point:
        return fmt::format("two distances, to the right and up the sheet, such as {}", key.example);
    case Kind::table:
        return "a table" + (key.example.empty() ? "" : ", such as " + std::string(key.example));
    case Kind::tables_by_id:
        return fmt::format("tables, each under its id, as [{}.ID]", key.name);
    case Kind::table_list:
        return fmt::format("a list of tables, as [[{}]]", key.name);
    case Kind::values_by_name:
        return "a table of names and breakers, such as " + std::string(key.example);
    default:
        return fmt::format("text, such as {}", key.example);
    }
}

} // namespace

std::string expected(const Key& key) {
    if (const UnitFamily* family = unit_family(key.kind)) {
        return fmt::format("{} in {}, such as {}", family->noun, family->spellings(), key.example);
    }
    return expected_one(key);
}

} // namespace ohmfolio
