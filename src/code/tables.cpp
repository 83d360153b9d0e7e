#include "code/tables.h"

#include <algorithm>
#include <stdexcept>

#include "code/embedded_tables.h"

namespace ohmfolio {

namespace {

using Tables = CodeBook::Tables;

constexpr double inches_per_foot = 12;
constexpr double feet_per_table_length = 1000; ///< Tables 8 and 9 give ohms per 1000 ft

std::optional<WireSize> wire_size_if_any(const TableRow& row, std::string_view key) {
    return row.has(key) ? std::optional(wire_size(row, key)) : std::nullopt;
}

ByMaterial<WireSize> sizes(const TableRow& row) {
    return {wire_size_if_any(row, "cu"), wire_size_if_any(row, "al")};
}

std::optional<OhmsPerFoot> ohms_if_any(const TableRow& row, std::string_view key) {
    const auto value = row.number_if_any(key);
    return value ? std::optional(OhmsPerFoot{*value / feet_per_table_length}) : std::nullopt;
}

OhmsPerFoot ohms(const TableRow& row, std::string_view key) {
    return OhmsPerFoot{row.number(key) / feet_per_table_length};
}

ByColumn columns(const TableRow& row, const std::string& prefix) {
    return {{row.number_if_any(prefix + "60"), row.number_if_any(prefix + "75"),
             row.number_if_any(prefix + "90")}};
}

RacewayKind raceway_kind(const TableRow& row) {
    static constexpr std::pair<std::string_view, RacewayKind> kinds[] = {
        {"emt", RacewayKind::emt},  {"pvc40", RacewayKind::pvc40}, {"pvc80", RacewayKind::pvc80},
        {"rmc", RacewayKind::rmc},  {"fmc", RacewayKind::fmc},     {"lfmc", RacewayKind::lfmc},
        {"lfnc", RacewayKind::lfnc}};
    const std::string wanted = row.text("kind");
    for (const auto& [word, kind] : kinds) {
        if (word == wanted)
            return kind;
    }
    row.fault(wanted + " is not a kind of raceway");
}

TradeSize trade_size(const TableRow& row, std::string_view key = "trade") {
    const auto size = parse_trade_size(row.text(key));
    if (!size)
        row.fault(row.text(key) + " is not a trade size");
    return *size;
}

template <class Q> std::optional<Q> quantity_if_any(const TableRow& row, std::string_view key) {
    const auto value = row.number_if_any(key);
    return value ? std::optional(Q{*value}) : std::nullopt;
}

/// Opens a file and returns the rows that hold in the edition.
class Opened {
  public:
    Opened(const TableFiles& files, Edition edition, std::string_view name)
        : file_(files.file(name)), edition_(edition) {}
    /// The group of the latest edition that has `key`.
    TableRow with(std::string_view key) const { return file_.in_force(edition_, key); }
    std::vector<TableRow> rows() const { return with("rows").rows("rows"); }

  private:
    TableRow file_;
    Edition edition_;
};

std::vector<Tables::Ampacity> ampacities(const Opened& table) {
    std::vector<Tables::Ampacity> result;
    for (const TableRow& row : table.rows())
        result.push_back({wire_size(row, "size"), columns(row, "cu"), columns(row, "al")});
    return result;
}

void read_corrections(const Opened& ambient, const Opened& bundling, Tables& tables) {
    for (const TableRow& row : ambient.rows())
        tables.ambient.push_back({row.number("through"), columns(row, "c")});
    for (const TableRow& row : bundling.rows())
        tables.bundling.push_back({row.number_if_any("through"), row.number("factor")});
}

void read_overcurrent(const Opened& standard, const Opened& small, Tables& tables) {
    for (const double amps : standard.with("ratings").numbers("ratings"))
        tables.standard_ratings.emplace_back(amps);
    tables.standard_fuses = tables.standard_ratings;
    for (const double amps : standard.with("fuses").numbers("fuses"))
        tables.standard_fuses.emplace_back(amps);
    std::sort(tables.standard_fuses.begin(), tables.standard_fuses.end());
    for (const TableRow& row : small.rows()) {
        const bool unverified = row.flag("unverified");
        Tables::SmallConductor& entry = tables.small_conductors[wire_size(row, "size")];
        if (const auto amps = row.number_if_any("cu")) {
            entry.limit.copper = Amps{*amps};
            entry.name.copper = Tables::Name{row.text("cu_cite"), unverified};
        }
        if (const auto amps = row.number_if_any("al")) {
            entry.limit.aluminum = Amps{*amps};
            entry.name.aluminum = Tables::Name{row.text("al_cite"), unverified};
        }
    }
}

void read_properties(const Opened& properties, const Opened& impedance, Tables& tables) {
    for (const TableRow& row : properties.rows()) {
        tables.properties[wire_size(row, "size")] = {
            CircularMils{row.number("cmil")},
            SquareInches{row.number("bare_area")},
            {ohms_if_any(row, "cu"), ohms_if_any(row, "al")}};
    }
    for (const TableRow& row : impedance.rows()) {
        tables.ac_impedance[wire_size(row, "size")] = {
            ohms(row, "x_pvc"),
            ohms(row, "x_steel"),
            {ohms_if_any(row, "cu_pvc"), ohms_if_any(row, "al_pvc")},
            {ohms_if_any(row, "cu_steel"), ohms_if_any(row, "al_steel")}};
    }
}

/// The upper end of a row of Table 250.66: the area of a size, or kcmil where no size has it.
std::optional<CircularMils> service_area(const TableRow& row, std::string_view key,
                                         const Tables& tables) {
    if (!row.has(key))
        return std::nullopt;
    const std::string text = row.text(key);
    if (const auto size = parse_wire_size(text)) {
        const auto properties = tables.properties.find(*size);
        if (properties != tables.properties.end())
            return properties->second.area;
    }
    int kcmil = 0;
    for (const char digit : text) {
        if (digit < '0' || digit > '9')
            row.fault(text + " is neither a conductor size nor an area in kcmil");
        kcmil = kcmil * 10 + (digit - '0');
    }
    return CircularMils{kcmil * 1000.0};
}

std::vector<Tables::GroundingElectrode> by_service_area(const Opened& file, const Tables& tables) {
    std::vector<Tables::GroundingElectrode> result;
    for (const TableRow& row : file.rows()) {
        result.push_back(
            {{service_area(row, "cu_through", tables), service_area(row, "al_through", tables)},
             sizes(row)});
    }
    return result;
}

void read_grounding(const Opened& equipment, const Opened& electrode, const Opened& jumper,
                    const Opened& raceway, Tables& tables) {
    for (const TableRow& row : equipment.rows())
        tables.equipment_ground.push_back({Amps{row.number("through")}, sizes(row)});
    tables.grounding_electrode = by_service_area(electrode, tables);
    tables.bonding_jumper = by_service_area(jumper, tables);
    for (const TableRow& row : raceway.rows()) {
        tables.raceway_grounds.push_back(
            {raceway_kind(row),
             row.has("through") ? std::optional(trade_size(row, "through")) : std::nullopt,
             {quantity_if_any<Amps>(row, "device"), quantity_if_any<Feet>(row, "length")}});
    }
    for (const TableRow& row : electrode.with("caps").rows("caps"))
        tables.electrode_caps[row.text("electrode")] = {sizes(row), row.text("rule")};
}

void read_dimensions(const Opened& conductors, const Opened& raceways, const Opened& fill,
                     Tables& tables) {
    static constexpr std::pair<std::string_view, Insulation> columns_of[] = {
        {"thwn_2", Insulation::thwn_2},
        {"xhhw_2", Insulation::xhhw_2},
        {"use_2", Insulation::use_2}};
    for (const TableRow& row : conductors.rows()) {
        for (const auto& [key, insulation] : columns_of) {
            if (const auto area = row.number_if_any(key))
                tables.conductor_areas[{insulation, wire_size(row, "size")}] = SquareInches{*area};
        }
    }
    for (const auto& [size, properties] : tables.properties)
        tables.conductor_areas[{Insulation::bare, size}] = properties.bare;
    for (const TableRow& row : raceways.rows()) {
        tables.raceways.push_back({raceway_kind(row), trade_size(row),
                                   SquareInches{row.number("area")}, row.number("inside")});
    }
    for (const TableRow& row : fill.rows())
        tables.raceway_fill.push_back({row.number_if_any("through"), row.number("fill")});
    tables.nipple_fill = fill.with("nipple_fill").number("nipple_fill");
    tables.nipple_length =
        Feet{fill.with("nipple_length").number("nipple_length") / inches_per_foot};
}

void read_climate(const Opened& cold, const Opened& rooftop, Tables& tables) {
    for (const TableRow& row : cold.rows())
        tables.voltage_correction.push_back({row.number("from"), row.number("factor")});
    tables.rooftop_height = Feet{rooftop.with("height").number("height") / inches_per_foot};
    tables.rooftop_adder = CelsiusDelta{rooftop.with("adder").number("adder")};
}

Rule read_rule(const TableRow& row, Edition edition) {
    Rule rule;
    rule.id = row.text("id");
    rule.checks = row.text("checks");
    rule.formula = row.text("formula");
    rule.source = row.text("source");
    rule.number = row.text_or("number", "");
    const auto entry = row.as_of(edition);
    if (!entry || entry->flag("deleted")) {
        rule.exists = false;
    } else if (entry->has("practice")) {
        rule.cite.section = entry->text("practice");
    } else {
        rule.cite = {name(edition), entry->text("cite"), entry->flag("unverified")};
    }
    return rule;
}

/// The chapters of the book, in report order: one file each.
constexpr std::string_view chapters[] = {
    "chapter_direct_current", "chapter_currents",  "chapter_overcurrent", "chapter_conductors",
    "chapter_raceways",       "chapter_grounding", "chapter_connection",  "chapter_storage",
    "chapter_loads",          "chapter_standby",   "chapter_backup",      "chapter_accessories",
    "chapter_working_space",  "chapter_roof",      "chapter_surge"};

/// Rules may use numbers of any chapter.
void read_numbers(const TableFiles& files, Edition edition, Tables& tables) {
    for (const std::string_view chapter : chapters) {
        const TableRow file = files.file(chapter);
        for (const TableRow& row : file.rows_if_any("factor")) {
            if (!row.listed_by(edition))
                continue; // a number of a later edition
            const BookNumber number{row.text("id"), row.text("meaning"), row.text("source"),
                                    file.text("title"), row.number_as_of(edition)};
            if (!tables.numbers.emplace(number.id, number.value).second)
                row.fault("the number " + number.id + " is listed twice");
            tables.listed_numbers.push_back(number);
        }
    }
}

/// Conductor sizes that stand alone.
void read_sizes(const TableFiles& files, Edition edition, Tables& tables) {
    for (const std::string_view chapter : chapters) {
        for (const TableRow& row : files.file(chapter).rows_if_any("size")) {
            const auto entry = row.as_of(edition);
            const auto size = entry ? sizes(*entry) : ByMaterial<WireSize>{};
            if (!tables.sizes.emplace(row.text("id"), size).second)
                row.fault("the size " + row.text("id") + " is listed twice");
        }
    }
}

void read_rules(const TableFiles& files, Edition edition, Tables& tables) {
    read_numbers(files, edition, tables);
    read_sizes(files, edition, tables);
    for (const std::string_view chapter : chapters) {
        const TableRow file = files.file(chapter);
        for (const TableRow& row : file.rows_if_any("rule")) {
            Rule rule = read_rule(row, edition);
            rule.chapter = file.text("title");
            if (rule.exists && !rule.number.empty() && !tables.numbers.contains(rule.number))
                row.fault("there is no number " + rule.number);
            // `CodeBook::number` is asked by either name, which must lead to one number.
            if (!rule.number.empty() && rule.number != rule.id && tables.numbers.contains(rule.id))
                row.fault("the rule and another number are both named " + rule.id);
            tables.rules.push_back(std::move(rule));
        }
    }
}

} // namespace

std::optional<double> ByColumn::of(int celsius) const {
    switch (celsius) {
    case 60:
        return values[0];
    case 75:
        return values[1];
    case 90:
        return values[2];
    default:
        throw std::logic_error("the ampacity tables have columns for 60, 75 and 90 C only");
    }
}

CodeBook::Tables::Tables(const TableFiles& files, Edition edition) {
    const auto open = [&](std::string_view name) { return Opened(files, edition, name); };
    ampacity = ampacities(open("ampacity"));
    ampacity_free_air = ampacities(open("ampacity_free_air"));
    read_corrections(open("ambient"), open("bundling"), *this);
    read_overcurrent(open("standard_ratings"), open("small_conductors"), *this);
    read_properties(open("conductor_properties"), open("ac_impedance"), *this);
    read_grounding(open("equipment_ground"), open("grounding_electrode"), open("bonding_jumper"),
                   open("raceway_ground"), *this);
    read_dimensions(open("conductor_dimensions"), open("raceways"), open("raceway_fill"), *this);
    read_climate(open("voltage_correction"), open("rooftop"), *this);
    read_rules(files, edition, *this);
}

WireSize wire_size(const TableRow& row, std::string_view key) {
    const auto size = parse_wire_size(row.text(key));
    if (!size)
        row.fault(row.text(key) + " is not a conductor size");
    return *size;
}

double banded(const std::vector<CodeBook::Tables::Band>& bands, double at) {
    for (const auto& band : bands) {
        if (!band.through || at <= *band.through)
            return band.value;
    }
    throw std::logic_error("the last row of a table must have no end");
}

const TableFiles& code_tables() {
    static const TableFiles files([] {
        std::vector<TableFiles::Text> texts;
        for (const EmbeddedTable& table : embedded_tables())
            texts.push_back({table.name, table.text});
        return texts;
    }());
    return files;
}

std::vector<std::string> table_names() {
    std::vector<std::string> names;
    for (const EmbeddedTable& table : embedded_tables()) {
        if (!table.name.starts_with("chapter_"))
            names.emplace_back(table.name);
    }
    return names;
}

} // namespace ohmfolio
