/// Strings: how long they may be (690.7, and what module and inverter state).
///
/// A voltage limit comes from the building, from the module's label and from the inverter's input;
/// the lowest of them governs, and its name is kept. A string must also reach the inverter's
/// tracking window and start voltage when hot.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "code/array_place.h"
#include "code/module_rules.h"
#include "code/verdict.h"

namespace ohmfolio {

/// Highest direct-current voltage at that place: 600 V, 1000 V or 1500 V.
Term<Volts> building_voltage_limit(const Desk&, ArrayPlace);
/// The rule that says so.
std::string_view building_voltage_rule(ArrayPlace);

/// Table 690.7(A) is for crystalline silicon alone.
enum class CellKind { crystalline_silicon, other };

struct StringModule {
    Volts voc{}, vmp{};
    /// Fraction per C, negative, as the module's instructions state; they prevail over the table.
    std::optional<double> voc_per_celsius = {};
    std::optional<double> vmp_per_celsius = {}; ///< nothing: no shortest string can be told
    CellKind cells = CellKind::crystalline_silicon;
    std::optional<Volts> system_voltage = {}; ///< largest of its label
};

/// One input of an inverter or charge controller, from its nameplate.
struct TrackerInput {
    Volts input_limit{}; ///< never to be exceeded
    std::optional<Volts> tracking_low = {}, tracking_high = {}, start = {};
};

struct StringLimits {
    StringModule module;
    TrackerInput input;
    ArrayPlace place = ArrayPlace::dwelling;
    Celsius coldest{}, hottest_cell{};
};

struct StringRange {
    /// False: the instructions give no coefficient and the table does not apply; a line says why.
    bool known = false;
    int most = 0;
    std::optional<int> fewest = {};
    std::string most_governs, fewest_governs; ///< "building limit governs", "start voltage governs"
    Term<Volts> cold_voltage{};               ///< of one module
    bool possible() const { return known && most >= fewest.value_or(1) && most >= 1; }
};
/// The fewest and the most modules in series.
StringRange string_length(const Desk&, const StringLimits&);

/// Highest voltage of a string of so many modules: `voltage_of_one` as `string_length` found it.
Term<Volts> string_voltage(const Desk&, const Term<Volts>& voltage_of_one, int in_series);
/// A highest voltage, however it was found, against building, input and module label.
RuleVerdicts check_string_voltage(const Desk&, const Term<Volts>&, const StringLimits&);
/// A stated number of modules in series against the range; a verdict "module.series".
RuleVerdict check_string_length(const Desk&, const StringRange&, int stated);

/// A voltage that an engineer states in place of 690.7(A)(1) and (2).
struct EngineeredVoltage {
    Volts stated{};
    Watts generating_capacity{};
    bool documented = false; ///< design documented and stamped
};
struct EngineeredVoltageResult {
    std::optional<Term<Volts>> voltage = {}; ///< nothing: refused
    RuleVerdicts verdicts = {};
};
EngineeredVoltageResult engineered_voltage(const Desk&, const EngineeredVoltage&);

/// Circuit at the output of dc-to-dc converters (690.7(B)).
struct ConverterVoltage {
    Volts rated_output{};
    int in_series = 1;
    std::optional<Volts> by_instructions = {}; ///< of all in series, when their instructions tell
};
Term<Volts> converter_voltage(const Desk&, const ConverterVoltage&);

} // namespace ohmfolio
