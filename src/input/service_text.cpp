#include "input/service_text.h"

#include <algorithm>
#include <array>
#include <vector>

#include <fmt/format.h>

#include "base/text.h"
#include "input/units.h"

namespace ohmfolio {
namespace {

/// A supply in the words of a description.
struct Known {
    std::string_view voltage;
    int phases;
    ServiceRating service;
};
constexpr std::array known_supplies = {
    Known{"120/240 V", 1, {Supply::split_phase, Volts{120}, Volts{240}}},
    Known{"120/208 V", 1, {Supply::lines_of_a_wye, Volts{120}, Volts{208}}},
    Known{"120/208 V", 3, {Supply::three_phase_wye, Volts{120}, Volts{208}}},
    Known{"277/480 V", 3, {Supply::three_phase_wye, Volts{277}, Volts{480}}},
};
constexpr std::string_view known_words =
    "\"120/240 V, 200 A\", \"120/208 V, 3 phase, 800 A\", \"277/480 V, 3 phase, 800 A\", or of two "
    "lines of a wye \"120/208 V, 200 A\"";

/// Other ways to write the voltages that are known.
struct Spelling {
    std::string_view other, ours;
};
constexpr std::array spellings = {
    Spelling{"240/120 V", "120/240 V"},  Spelling{"208/120 V", "120/208 V"},
    Spelling{"208Y/120 V", "120/208 V"}, Spelling{"480/277 V", "277/480 V"},
    Spelling{"480Y/277 V", "277/480 V"}, Spelling{"208 V", "120/208 V"},
    Spelling{"240 V", "120/240 V"},      Spelling{"480 V", "277/480 V"},
};

std::vector<std::string_view> parts_of(std::string_view text) {
    std::vector<std::string_view> parts;
    for (auto comma = text.find(','); comma != std::string_view::npos; comma = text.find(',')) {
        parts.push_back(trim(text.substr(0, comma)));
        text.remove_prefix(comma + 1);
    }
    parts.push_back(trim(text));
    return parts;
}

ServiceText refused(std::string message, std::string hint) {
    return {std::nullopt, {}, std::move(message), std::move(hint)};
}

ServiceText unknown_voltage(std::string_view voltage) {
    const auto other = std::ranges::find(spellings, voltage, &Spelling::other);
    return refused(fmt::format("\"{}\" is not the voltage of a service that is known", voltage),
                   other != spellings.end()
                       ? fmt::format("did you mean \"{}\"?", other->ours)
                       : fmt::format("services that are known: {}", known_words));
}

/// The voltage is known, but not on so many phases.
ServiceText wrong_phases(std::string_view voltage, int phases) {
    if (phases == 3) {
        return refused(
            fmt::format("a three-phase service of {} is a delta, which is not known", voltage),
            fmt::format("services that are known: {}", known_words));
    }
    return refused(fmt::format("a service of {} has three phases", voltage),
                   fmt::format("\"{}, 3 phase, 800 A\"", voltage));
}

} // namespace

ServiceText parse_service(std::string_view text) {
    const auto parts = parts_of(text);
    if (parts.size() < 2 || parts.size() > 3) {
        return refused(fmt::format("\"{}\" is not a voltage and a current", text), {});
    }
    const std::string_view words = parts.size() == 3 ? parts[1] : "1 phase";
    if (words != "3 phase" && words != "1 phase") {
        return refused(fmt::format("\"{}\" is not a number of phases", words),
                       "write \"3 phase\" or \"1 phase\"");
    }
    const int phases = words == "3 phase" ? 3 : 1;
    const std::string_view voltage = parts.front();
    if (std::ranges::find(known_supplies, voltage, &Known::voltage) == known_supplies.end()) {
        return unknown_voltage(voltage);
    }
    for (const Known& one : known_supplies) {
        if (one.voltage == voltage && one.phases == phases) {
            return {one.service, parts.back(), {}, {}};
        }
    }
    return wrong_phases(voltage, phases);
}

} // namespace ohmfolio
