#include "code/code_book.h"

#include <algorithm>
#include <array>
#include <mutex>
#include <stdexcept>

#include "code/rounding.h"
#include "code/tables.h"

namespace ohmfolio {

namespace {

/// The tables never change, so every book of an edition shares them.
const CodeBook::Tables& tables_of(Edition edition) {
    const auto place = std::find(all_editions.begin(), all_editions.end(), edition);
    if (place == all_editions.end())
        throw std::logic_error("the code book does not know this edition");
    const auto index = static_cast<std::size_t>(place - all_editions.begin());
    // A run needs one edition: each is read when it is first asked for.
    static std::array<std::once_flag, all_editions.size()> read;
    static std::array<std::optional<CodeBook::Tables>, all_editions.size()> editions;
    std::call_once(read[index], [&] { editions[index].emplace(code_tables(), edition); });
    return *editions[index];
}

std::optional<Amps> ampacity_in(const std::vector<CodeBook::Tables::Ampacity>& rows, WireSize size,
                                Material material, int column) {
    for (const CodeBook::Tables::Ampacity& row : rows) {
        if (row.size != size)
            continue;
        const auto amps = (material == Material::copper ? row.copper : row.aluminum).of(column);
        return amps ? std::optional(Amps{*amps}) : std::nullopt;
    }
    return std::nullopt;
}

std::optional<Amps> rating_up(const std::vector<Amps>& ratings, Amps amps) {
    for (const Amps rating : ratings) {
        if (at_most(amps, rating))
            return rating;
    }
    return std::nullopt;
}

template <class Map> auto value_at(const Map& map, const typename Map::key_type& key) {
    const auto place = map.find(key);
    return place == map.end() ? std::nullopt : std::optional(place->second);
}

/// The row that the area of the supply conductors falls in.
std::optional<WireSize> by_area(const std::vector<CodeBook::Tables::GroundingElectrode>& rows,
                                CircularMils area, Material of_supply, Material of_conductor) {
    for (const auto& row : rows) {
        const auto& through = row.through.of(of_supply);
        if (!through || at_most(area, *through))
            return row.size.of(of_conductor);
    }
    return std::nullopt;
}

const std::vector<Amps>& ratings_of(const CodeBook::Tables& tables, DeviceKind kind) {
    return kind == DeviceKind::fuse ? tables.standard_fuses : tables.standard_ratings;
}

} // namespace

bool is_steel(RacewayKind kind) {
    switch (kind) {
    case RacewayKind::emt:
    case RacewayKind::rmc:
    case RacewayKind::fmc:
    case RacewayKind::lfmc:
        return true;
    case RacewayKind::pvc40:
    case RacewayKind::pvc80:
    case RacewayKind::lfnc:
    case RacewayKind::free_air:
    case RacewayKind::cable:
        return false;
    }
    return false;
}

CodeBook::CodeBook(Edition edition)
    : edition_(edition), tables_(&tables_of(edition)), rules_(tables_->rules) {}

void CodeBook::read_ahead() { code_tables(); }

const Rule& CodeBook::rule(std::string_view id) const {
    const auto place =
        std::find_if(rules_.begin(), rules_.end(), [&](const Rule& r) { return r.id == id; });
    if (place == rules_.end())
        throw std::logic_error("the code book has no rule " + std::string(id));
    return *place;
}

Citation CodeBook::cite(std::string_view id) const { return rule(id).cite; }

double CodeBook::number(std::string_view id) const {
    if (const auto place = tables_->numbers.find(id); place != tables_->numbers.end())
        return place->second;
    return tables_->numbers.at(rule(id).number);
}

const std::vector<BookNumber>& CodeBook::numbers() const { return tables_->listed_numbers; }

std::vector<BookTable> CodeBook::tables() const {
    std::vector<BookTable> result;
    for (const std::string& table : table_names()) {
        const TableRow file = code_tables().file(table);
        result.push_back(
            {file.text("title"), cite_table(table), file.text("source"), file.text("confidence")});
    }
    std::ranges::sort(result, {}, &BookTable::title);
    return result;
}

std::optional<Amps> CodeBook::ampacity(WireSize size, Material material, int column) const {
    return ampacity_in(tables_->ampacity, size, material, column);
}

std::optional<Amps> CodeBook::ampacity_free_air(WireSize size, Material material,
                                                int column) const {
    return ampacity_in(tables_->ampacity_free_air, size, material, column);
}

std::optional<double> CodeBook::ambient_factor(Celsius ambient, int column) const {
    for (const Tables::Ambient& row : tables_->ambient) {
        if (ambient.value <= row.through)
            return row.factors.of(column);
    }
    return std::nullopt;
}

double CodeBook::bundling_factor(int current_carrying_conductors) const {
    return banded(tables_->bundling, current_carrying_conductors);
}

std::optional<Amps> CodeBook::standard_rating_up(Amps amps, DeviceKind kind) const {
    return rating_up(ratings_of(*tables_, kind), amps);
}

std::optional<Amps> CodeBook::standard_rating_down(Amps amps, DeviceKind kind) const {
    std::optional<Amps> largest;
    for (const Amps rating : ratings_of(*tables_, kind)) {
        if (at_most(rating, amps))
            largest = rating;
    }
    return largest;
}

bool CodeBook::is_standard_rating(Amps amps, DeviceKind kind) const {
    const auto rating = standard_rating_up(amps, kind);
    return rating && about_equal(rating->value, amps.value);
}

std::optional<Amps> CodeBook::small_conductor_limit(WireSize size, Material material) const {
    const auto entry = value_at(tables_->small_conductors, size);
    return entry ? entry->limit.of(material) : std::nullopt;
}

Citation CodeBook::cite_small_conductor(WireSize size, Material material) const {
    const auto entry = value_at(tables_->small_conductors, size);
    if (!entry || !entry->name.of(material))
        return cite("conductor.small");
    const Tables::Name& paragraph = *entry->name.of(material);
    return {name(edition_), paragraph.cite, paragraph.unverified};
}

std::optional<WireSize> CodeBook::equipment_ground(Amps overcurrent, Material material) const {
    for (const Tables::EquipmentGround& row : tables_->equipment_ground) {
        if (at_most(overcurrent, row.through))
            return row.size.of(material);
    }
    return std::nullopt;
}

std::optional<WireSize> CodeBook::grounding_electrode(WireSize service, Material service_material,
                                                      Material electrode_material) const {
    const auto area = circular_mils(service);
    return area ? grounding_electrode(*area, service_material, electrode_material) : std::nullopt;
}

std::optional<WireSize> CodeBook::grounding_electrode(CircularMils service,
                                                      Material service_material,
                                                      Material electrode_material) const {
    return by_area(tables_->grounding_electrode, service, service_material, electrode_material);
}

std::optional<WireSize> CodeBook::bonding_jumper(CircularMils phase, Material phase_material,
                                                 Material jumper_material) const {
    return by_area(tables_->bonding_jumper, phase, phase_material, jumper_material);
}

std::optional<CodeBook::ElectrodeCap> CodeBook::electrode_cap(std::string_view electrode,
                                                              Material material) const {
    const auto cap = tables_->electrode_caps.find(electrode);
    if (cap == tables_->electrode_caps.end() || !cap->second.size.of(material))
        return std::nullopt;
    return ElectrodeCap{*cap->second.size.of(material), cite(cap->second.rule)};
}

std::optional<WireSize> CodeBook::conductor_size(std::string_view id, Material material) const {
    const auto place = tables_->sizes.find(id);
    if (place == tables_->sizes.end())
        throw std::logic_error("the code book has no conductor size " + std::string(id));
    return place->second.of(material);
}

std::optional<CodeBook::RacewayGround> CodeBook::raceway_ground(RacewayKind kind,
                                                                TradeSize trade) const {
    for (const Tables::RacewayGround& row : tables_->raceway_grounds) {
        if (row.kind == kind && (!row.through || trade <= *row.through))
            return row.limits;
    }
    return std::nullopt;
}

std::optional<double> CodeBook::voltage_table_factor(Celsius coldest) const {
    for (const Tables::Cold& row : tables_->voltage_correction) {
        if (coldest.value >= row.from)
            return row.factor;
    }
    return std::nullopt;
}

std::optional<SquareInches> CodeBook::conductor_area(WireSize size, Insulation insulation) const {
    return value_at(tables_->conductor_areas, {insulation, size});
}

std::optional<SquareInches> CodeBook::raceway_area(RacewayKind kind, TradeSize trade) const {
    for (const Tables::Raceway& row : tables_->raceways) {
        if (row.kind == kind && row.trade == trade)
            return row.area;
    }
    return std::nullopt;
}

std::optional<double> CodeBook::raceway_diameter(RacewayKind kind, TradeSize trade) const {
    for (const Tables::Raceway& row : tables_->raceways) {
        if (row.kind == kind && row.trade == trade)
            return row.inside;
    }
    return std::nullopt;
}

double CodeBook::fill_limit(int conductors, bool nipple) const {
    return nipple ? tables_->nipple_fill : banded(tables_->raceway_fill, conductors);
}

std::optional<CircularMils> CodeBook::circular_mils(WireSize size) const {
    const auto row = value_at(tables_->properties, size);
    return row ? std::optional(row->area) : std::nullopt;
}

std::optional<OhmsPerFoot> CodeBook::dc_resistance(WireSize size, Material material) const {
    const auto row = value_at(tables_->properties, size);
    return row ? row->resistance.of(material) : std::nullopt;
}

std::optional<CodeBook::Impedance> CodeBook::ac_impedance(WireSize size, Material material,
                                                          RacewayKind raceway) const {
    const auto row = value_at(tables_->ac_impedance, size);
    if (!row)
        return std::nullopt;
    const bool steel = is_steel(raceway);
    const auto& resistance = (steel ? row->steel : row->plastic).of(material);
    if (!resistance)
        return std::nullopt;
    return Impedance{*resistance, steel ? row->reactance_steel : row->reactance_other};
}

Feet CodeBook::rooftop_height() const { return tables_->rooftop_height; }
CelsiusDelta CodeBook::rooftop_adder() const { return tables_->rooftop_adder; }
Feet CodeBook::nipple_length() const { return tables_->nipple_length; }

std::string CodeBook::table_name(std::string_view table) const { return cite_table(table).section; }

Citation CodeBook::cite_table(std::string_view table) const {
    const TableRow file = code_tables().file(table);
    if (file.has("practice")) // not of the electrical code
        return {{}, file.text("practice"), false};
    const TableRow latest = file.in_force(edition_);
    return {name(edition_), latest.text("cite"), latest.flag("unverified")};
}

std::vector<WireSize> CodeBook::listed_sizes(Material material) const {
    std::vector<WireSize> result;
    for (const Tables::Ampacity& row : tables_->ampacity) {
        if (ampacity(row.size, material, 75))
            result.push_back(row.size);
    }
    return result;
}

std::vector<TradeSize> CodeBook::listed_trade_sizes(RacewayKind kind) const {
    std::vector<TradeSize> result;
    for (const Tables::Raceway& row : tables_->raceways) {
        if (row.kind == kind)
            result.push_back(row.trade);
    }
    return result;
}

} // namespace ohmfolio
