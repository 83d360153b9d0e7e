// Table 450.3(B) and the constants of the point-to-point method.
#include "code/rule_tables.h"

#include <map>

#include "code/tables.h"

namespace ohmfolio {

namespace {

std::string_view word(TransformerSide side) {
    switch (side) {
    case TransformerSide::primary_alone:
        return "primary_alone";
    case TransformerSide::primary_of_both:
        return "primary_of_both";
    case TransformerSide::secondary:
        return "secondary";
    }
    return {};
}

using ConstantKey = std::pair<std::string, WireSize>; ///< "cu_steel" and the size

/// All editions share them: no code gives them.
std::map<ConstantKey, double> read_fault_constants() {
    std::map<ConstantKey, double> constants;
    for (const TableRow& row : code_tables().file("fault_constants").rows("rows")) {
        const WireSize size = wire_size(row, "size");
        for (const char* column : {"cu_steel", "cu_nonmagnetic", "al_steel", "al_nonmagnetic"})
            constants[{column, size}] = row.number(column);
    }
    return constants;
}

} // namespace

TransformerShare transformer_share(const CodeBook& book, TransformerSide side, Amps rated) {
    const TableRow file = code_tables().file("transformer_protection");
    for (const TableRow& row : file.in_force(book.edition(), "rows").rows("rows")) {
        if (row.text("side") == word(side) && rated.value >= row.number("from"))
            return {row.number("share"), row.flag("next_size_up")};
    }
    file.fault("the last row of each side must begin at 0 A");
}

std::optional<FaultConstant> fault_constant(WireSize size, Material material, RacewayKind raceway) {
    static const std::map<ConstantKey, double> constants = read_fault_constants();
    const std::string column = std::string(material == Material::copper ? "cu" : "al") +
                               (is_steel(raceway) ? "_steel" : "_nonmagnetic");
    const auto place = constants.lower_bound({column, size});
    if (place == constants.end() || place->first.first != column)
        return std::nullopt;
    return FaultConstant{FeetPerOhm{place->second}, place->first.second};
}

} // namespace ohmfolio
