#include "input/values.h"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cmath>
#include <fmt/format.h>

#include "base/text.h"
#include "input/faults.h"
#include "input/service_text.h"
#include "input/units.h"
#include "input/words.h"

namespace ohmfolio {
namespace {

using toml_text::Node;

/// The most of anything that is counted; more is a slip.
constexpr int most = 10'000;
constexpr double largest_number = 1'000;
/// Bytes of one text; more than a sheet has room for.
constexpr std::size_t longest_text = 2'000;

Understood wrong_type(const Node& node, std::string hint = {}) {
    return {std::nullopt, "input.type", fmt::format("is {}", node.kind()), std::move(hint)};
}

Understood not_a_value(std::string message, std::string hint = {}) {
    return {std::nullopt, "input.value", std::move(message), std::move(hint)};
}

Understood not_in_units(std::string message, std::string hint = {}) {
    return {std::nullopt, "input.unit", std::move(message), std::move(hint)};
}

Understood found(Value value) { return {std::move(value), {}, {}, {}}; }

std::string shown(double number) {
    constexpr double most_digits = 1e15;
    return std::abs(number) < most_digits ? trimmed(number, 6) : fmt::format("{}", number);
}

// ---- words -----------------------------------------------------------------------------------

bool is_control(char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte < 0x20 || byte == 0x7F;
}

/// The text of a node that must be text.
const std::string* text_of(const Node& node, Understood& fault) {
    const auto* text = node.as<std::string>();
    if (text == nullptr) {
        const auto number = node.number();
        fault = wrong_type(node, number ? fmt::format("write \"{}\"", shown(*number)) : "");
        return nullptr;
    }
    if (text->size() > longest_text) {
        fault = not_a_value("is longer than a sheet has room for",
                            fmt::format("at most {} letters", longest_text));
        return nullptr;
    }
    if (trim(*text).empty()) {
        fault = not_a_value("is empty", "leave the key out, or say something");
        return nullptr;
    }
    if (std::ranges::any_of(*text, is_control)) {
        fault = not_a_value("holds a line break or another character that cannot be lettered",
                            "write it in one line");
        return nullptr;
    }
    return text;
}

Understood understand_word(const Key& key, const Node& node) {
    Understood fault;
    const std::string* text = text_of(node, fault);
    if (text == nullptr) {
        return fault;
    }
    if (auto value = parse_word(key, *text)) {
        return found(std::move(*value));
    }
    return not_a_value(fmt::format("\"{}\" is not known here", *text),
                       did_you_mean(*text, words_of(key)));
}

// ---- numbers and quantities --------------------------------------------------------------------

Understood understand_count(const Node& node) {
    const auto* number = node.as<std::int64_t>();
    if (number == nullptr) {
        return wrong_type(node);
    }
    if (*number < 1 || *number > most) {
        return not_a_value(fmt::format("{} is out of range", *number),
                           fmt::format("a whole number from 1 to {}", most));
    }
    return found(static_cast<int>(*number));
}

Understood understand_number(const Node& node) {
    const auto number = node.number();
    if (!number) {
        return wrong_type(node);
    }
    if (!(*number > 0 && *number <= largest_number)) {
        return not_a_value(fmt::format("{} is out of range", shown(*number)),
                           fmt::format("a number above 0, at most {}", shown(largest_number)));
    }
    return found(*number);
}

/// The quantity in the unit that the program keeps; the fault otherwise.
std::optional<double> measure(const UnitFamily& family, std::string_view text, Understood& fault) {
    const auto amount = parse_amount(text);
    if (!amount) {
        fault = not_in_units(fmt::format("\"{}\" is not {}", text, family.noun));
        return std::nullopt;
    }
    if (const Unit* unit = family.find(amount->unit)) {
        return (amount->number + unit->offset) * unit->factor;
    }
    const std::string number = shown(amount->number);
    if (amount->unit.empty()) {
        fault =
            not_in_units(fmt::format("\"{}\" has no unit", text),
                         fmt::format("write \"{} {}\" if you mean {}", number,
                                     family.units.front().spelling, family.units.front().spelling));
    } else if (amount->unit.starts_with(',')) {
        fault = not_in_units(fmt::format("\"{}\" is not {}", text, family.noun),
                             "the decimal sign is a point, and thousands are not set apart");
    } else if (const UnitFamily* other = family_of_unit(amount->unit)) {
        fault = not_in_units(fmt::format("\"{}\" is {}, not {}", text, other->noun, family.noun));
    } else {
        std::vector<std::string> spellings;
        for (const Unit& unit : family.units) {
            spellings.emplace_back(unit.spelling);
        }
        const std::string near = nearest(amount->unit, spellings);
        fault =
            not_in_units(fmt::format("\"{}\" is not {}: no such unit as \"{}\"", text, family.noun,
                                     amount->unit),
                         near.empty() ? "" : fmt::format("did you mean \"{} {}\"?", number, near));
    }
    return std::nullopt;
}

bool in_range(const UnitFamily& family, double value, std::string_view text, Understood& fault) {
    if (value >= family.least && value <= family.greatest) {
        return true;
    }
    const bool not_positive = family.least >= 0 && value <= 0;
    fault = not_a_value(not_positive ? fmt::format("\"{}\" is not above 0", text)
                                     : fmt::format("\"{}\" cannot be right", text),
                        not_positive ? "" : "check the number and its unit");
    return false;
}

Value quantity(Kind kind, double value) {
    switch (kind) {
    case Kind::power:
        return Watts{value};
    case Kind::voltage:
        return Volts{value};
    case Kind::current:
        return Amps{value};
    case Kind::energy:
        return WattHours{value};
    case Kind::temperature:
        return Celsius{value};
    case Kind::length:
    case Kind::distance:
    case Kind::paper:
        return Feet{value};
    case Kind::area:
        return SquareFeet{value};
    case Kind::angle:
        return Degrees{value};
    default:
        return Fraction{value};
    }
}

Understood understand_quantity(const UnitFamily& family, const Node& node) {
    if (const auto number = node.number()) {
        const auto unit = family.units.front().spelling;
        const bool likely = *number >= family.least && *number <= family.greatest;
        return not_in_units(
            fmt::format("{} has no unit", shown(*number)),
            likely ? fmt::format("write \"{} {}\" if you mean {}", shown(*number), unit, unit)
                   : "");
    }
    Understood fault;
    const std::string* text = text_of(node, fault);
    if (text == nullptr) {
        return fault;
    }
    const auto value = measure(family, *text, fault);
    if (!value || !in_range(family, *value, *text, fault)) {
        return fault;
    }
    return found(quantity(family.kind, *value));
}

// ---- values of several parts
// ---------------------------------------------------------------------

/// Takes " 2P" from the end of `text`; one pole where nothing is said.
int take_poles(std::string_view& text) {
    for (const int poles : {1, 2, 3}) {
        const std::string suffix = fmt::format("{}P", poles);
        if (text.ends_with(suffix)) {
            text = trim(text.substr(0, text.size() - suffix.size()));
            return poles;
        }
    }
    return 1;
}

Understood understand_load_breaker(const Node& node) {
    Understood fault;
    const std::string* text = text_of(node, fault);
    if (text == nullptr) {
        return fault;
    }
    std::string_view rating = trim(*text);
    const int poles = take_poles(rating);
    const UnitFamily& current = *unit_family(Kind::current);
    const auto amps = measure(current, rating, fault);
    if (!amps || !in_range(current, *amps, *text, fault)) {
        return fault;
    }
    return found(LoadBreaker{Amps{*amps}, poles});
}

Understood understand_service(const Node& node) {
    Understood fault;
    const std::string* text = text_of(node, fault);
    if (text == nullptr) {
        return fault;
    }
    ServiceText parts = parse_service(*text);
    if (!parts.service) {
        return not_a_value(std::move(parts.message), std::move(parts.hint));
    }
    const UnitFamily& current = *unit_family(Kind::current);
    const auto amps = measure(current, parts.rating, fault);
    if (!amps || !in_range(current, *amps, *text, fault)) {
        return fault;
    }
    parts.service->rating = Amps{*amps};
    return found(*parts.service);
}

/// Points may lie to the left of or below the one that they are measured from.
Understood understand_plan_point(const Node& node) {
    Understood fault;
    const std::string* text = text_of(node, fault);
    if (text == nullptr) {
        return fault;
    }
    const auto comma = text->find(',');
    if (comma == std::string::npos || text->find(',', comma + 1) != std::string::npos) {
        return not_a_value(fmt::format("\"{}\" is not two distances with a comma between", *text));
    }
    const UnitFamily& distance = *unit_family(Kind::distance);
    PlanPoint point;
    for (const bool first : {true, false}) {
        const std::string_view whole = *text;
        const auto part = trim(first ? whole.substr(0, comma) : whole.substr(comma + 1));
        const auto value = measure(distance, part, fault);
        if (!value || !in_range(distance, std::abs(*value), part, fault)) {
            return fault;
        }
        (first ? point.x : point.y) = Feet{*value};
    }
    return found(point);
}

Understood understand_date(const Node& node) {
    Understood fault;
    const std::string* text = text_of(node, fault);
    if (text == nullptr) {
        return fault;
    }
    constexpr std::string_view pattern = "0000-00-00";
    bool shaped = text->size() == pattern.size();
    for (std::size_t i = 0; shaped && i < pattern.size(); ++i) {
        const char c = (*text)[i];
        shaped = pattern[i] == '-' ? c == '-' : c >= '0' && c <= '9';
    }
    if (!shaped) {
        return not_a_value(fmt::format("\"{}\" is not a date", *text), "year-month-day");
    }
    const auto number = [&](std::size_t at, std::size_t length) {
        unsigned value = 0;
        std::from_chars(text->data() + at, text->data() + at + length, value);
        return value;
    };
    const std::chrono::year_month month(std::chrono::year(static_cast<int>(number(0, 4))),
                                        std::chrono::month(number(5, 2)));
    if (!month.ok() || !(month / std::chrono::day(number(8, 2))).ok()) {
        return not_a_value(fmt::format("\"{}\" is not a day of the calendar", *text),
                           "year-month-day");
    }
    return found(*text);
}

Understood understand_flag(const Node& node) {
    if (const auto* flag = node.as<bool>()) {
        return found(*flag);
    }
    return wrong_type(node, "write true or false without quotes");
}

Understood understand_text(const Node& node) {
    Understood fault;
    const std::string* text = text_of(node, fault);
    return text == nullptr ? fault : found(std::string(trim(*text)));
}

} // namespace

Understood understand(const Key& key, const Node& node) {
    if (const UnitFamily* family = unit_family(key.kind)) {
        return understand_quantity(*family, node);
    }
    switch (key.kind) {
    case Kind::flag:
        return understand_flag(node);
    case Kind::count:
        return understand_count(node);
    case Kind::number:
        return understand_number(node);
    case Kind::date:
        return understand_date(node);
    case Kind::load_breaker:
    case Kind::values_by_name:
        return understand_load_breaker(node);
    case Kind::service:
        return understand_service(node);
    case Kind::plan_point:
        return understand_plan_point(node);
    case Kind::raceway:
    case Kind::material:
    case Kind::insulation:
    case Kind::wire_size:
    case Kind::trade_size:
    case Kind::edition:
    case Kind::choice:
        return understand_word(key, node);
    default:
        return understand_text(node);
    }
}

Node fallback_node(const Key& key, Span span) {
    const std::string_view text = key.fallback;
    if (text == "true" || text == "false") {
        return {text == "true", span};
    }
    if (text.starts_with('"')) {
        return {std::string(text.substr(1, text.size() - 2)), span};
    }
    const double number = parse_amount(text).value_or(Amount{}).number;
    if (key.kind == Kind::count) {
        return {static_cast<std::int64_t>(number), span};
    }
    return {number, span};
}

} // namespace ohmfolio
