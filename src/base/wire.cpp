#include "base/wire.h"

#include <algorithm>
#include <span>

#include "base/text.h"

namespace ohmfolio {

namespace {

template <class T> struct Named {
    std::string_view name;
    T value;
};

// The first name of a value is the one that sheets show; the others are understood as well.
constexpr std::array<Named<Material>, 4> materials = {{{"CU", Material::copper},
                                                       {"copper", Material::copper},
                                                       {"AL", Material::aluminum},
                                                       {"aluminum", Material::aluminum}}};

constexpr std::array<Named<Insulation>, 6> insulations = {{{"THWN-2", Insulation::thwn_2},
                                                           {"XHHW-2", Insulation::xhhw_2},
                                                           {"USE-2", Insulation::use_2},
                                                           {"PV WIRE", Insulation::pv_wire},
                                                           {"TRUNK CABLE", Insulation::trunk_cable},
                                                           {"BARE", Insulation::bare}}};

constexpr std::array<Named<RacewayKind>, 13> raceways = {{{"EMT", RacewayKind::emt},
                                                          {"PVC SCH 40", RacewayKind::pvc40},
                                                          {"PVC 40", RacewayKind::pvc40},
                                                          {"SCH 40 PVC", RacewayKind::pvc40},
                                                          {"PVC SCH 80", RacewayKind::pvc80},
                                                          {"PVC 80", RacewayKind::pvc80},
                                                          {"SCH 80 PVC", RacewayKind::pvc80},
                                                          {"RMC", RacewayKind::rmc},
                                                          {"FMC", RacewayKind::fmc},
                                                          {"LFMC", RacewayKind::lfmc},
                                                          {"LFNC", RacewayKind::lfnc},
                                                          {"FREE AIR", RacewayKind::free_air},
                                                          {"CABLE", RacewayKind::cable}}};

/// The letters and digits alone: "PVC Sch. 40", "PVC-SCH-40" and "pvc_sch_40" are one word.
std::string bare_word(std::string_view text) {
    std::string word = upper(text);
    std::erase_if(word, [](char c) { return c == ' ' || c == '-' || c == '_' || c == '.'; });
    return word;
}

template <class T>
std::optional<T> find_value(std::span<const Named<T>> list, std::string_view text) {
    const std::string word = bare_word(text);
    for (const auto& entry : list) {
        if (bare_word(entry.name) == word)
            return entry.value;
    }
    return std::nullopt;
}

template <class T> std::string_view find_name(std::span<const Named<T>> list, T value) {
    const auto found =
        std::ranges::find_if(list, [&](const auto& entry) { return entry.value == value; });
    return found == list.end() ? std::string_view{} : found->name;
}

template <class Names> std::optional<int> step_of(const Names& names, std::string_view text) {
    const auto found = std::ranges::find(names, text);
    if (found == names.end())
        return std::nullopt;
    return static_cast<int>(found - names.begin());
}

/// Sizes up to 4/0 are gauge numbers, larger ones areas in thousands of circular mils.
constexpr std::string_view largest_gauge = "4/0";

bool is_gauge(int step) { return step <= *step_of(wire_size_names, largest_gauge); }

} // namespace

std::optional<WireSize> parse_wire_size(std::string_view text) {
    const bool numbered = text.starts_with('#');
    if (numbered)
        text.remove_prefix(1);
    const bool gauge = text.ends_with(" AWG");
    const bool area = text.ends_with(" kcmil");
    if (gauge || area)
        text = text.substr(0, text.rfind(' '));
    const auto step = step_of(wire_size_names, text);
    if (!step)
        return std::nullopt;
    const bool contradicts = is_gauge(*step) ? area : gauge || numbered;
    return contradicts ? std::nullopt : std::optional(WireSize{*step});
}

std::string_view key(WireSize size) {
    return wire_size_names.at(static_cast<std::size_t>(size.step));
}

std::string name(WireSize size) {
    return std::string(key(size)) + (is_gauge(size.step) ? " AWG" : " kcmil");
}

std::optional<Material> parse_material(std::string_view text) {
    return find_value<Material>(materials, text);
}
std::optional<Insulation> parse_insulation(std::string_view text) {
    return find_value<Insulation>(insulations, text);
}
std::optional<RacewayKind> parse_raceway_kind(std::string_view text) {
    return find_value<RacewayKind>(raceways, text);
}
std::string_view name(Material material) { return find_name<Material>(materials, material); }
std::string_view name(Insulation insulation) {
    return find_name<Insulation>(insulations, insulation);
}
std::string_view name(RacewayKind kind) { return find_name<RacewayKind>(raceways, kind); }

std::optional<TradeSize> parse_trade_size(std::string_view text) {
    if (text.ends_with(" in")) {
        text.remove_suffix(3);
    } else if (text.ends_with('"')) {
        text.remove_suffix(1);
    }
    const auto step = step_of(trade_size_names, text);
    return step ? std::optional(TradeSize{*step}) : std::nullopt;
}

std::string_view name(TradeSize size) {
    return trade_size_names.at(static_cast<std::size_t>(size.step));
}

} // namespace ohmfolio
