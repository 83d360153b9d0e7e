#include "input/words.h"

#include <algorithm>

namespace ohmfolio {
namespace {

template <class Enum> std::vector<std::string> names_of(std::initializer_list<Enum> values) {
    std::vector<std::string> result;
    for (const Enum value : values) {
        result.emplace_back(name(value));
    }
    return result;
}

} // namespace

std::vector<std::string> words_of(const Key& key) {
    switch (key.kind) {
    case Kind::raceway:
        return names_of({RacewayKind::emt, RacewayKind::pvc40, RacewayKind::pvc80, RacewayKind::rmc,
                         RacewayKind::fmc, RacewayKind::lfmc, RacewayKind::lfnc,
                         RacewayKind::free_air, RacewayKind::cable});
    case Kind::insulation:
        return names_of(
            {Insulation::thwn_2, Insulation::xhhw_2, Insulation::use_2, Insulation::pv_wire});
    case Kind::material:
        return {"copper", "aluminum"};
    case Kind::edition:
        return {name(all_editions[0]), name(all_editions[1]), name(all_editions[2])};
    case Kind::wire_size: {
        std::vector<std::string> sizes;
        for (int step = 0; step < static_cast<int>(wire_size_names.size()); ++step) {
            sizes.push_back(name(WireSize{step}));
        }
        return sizes;
    }
    case Kind::trade_size:
        return {trade_size_names.begin(), trade_size_names.end()};
    default:
        return {key.words.begin(), key.words.end()};
    }
}

std::optional<Value> parse_word(const Key& key, const std::string& text) {
    const auto to_value = [](const auto& parsed) -> std::optional<Value> {
        return parsed ? std::optional<Value>(*parsed) : std::nullopt;
    };
    switch (key.kind) {
    case Kind::raceway:
        return to_value(parse_raceway_kind(text));
    case Kind::material:
        return to_value(parse_material(text));
    case Kind::edition:
        return to_value(parse_edition(text));
    case Kind::wire_size:
        return to_value(parse_wire_size(text));
    case Kind::trade_size:
        return to_value(parse_trade_size(text));
    case Kind::insulation: {
        const auto insulation = parse_insulation(text);
        // Trunk cable comes with the microinverters, and a phase conductor is never bare.
        const bool offered =
            insulation && *insulation != Insulation::trunk_cable && *insulation != Insulation::bare;
        return offered ? std::optional<Value>(*insulation) : std::nullopt;
    }
    default:
        return std::ranges::find(key.words, text) != key.words.end() ? std::optional<Value>(text)
                                                                     : std::nullopt;
    }
}

} // namespace ohmfolio
