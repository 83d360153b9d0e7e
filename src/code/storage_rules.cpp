#include "code/storage_rules.h"

#include "code/verdict_line.h"

namespace ohmfolio {

namespace {

std::optional<RuleVerdict> shutdown(const Desk& desk, const StorageFacts& facts) {
    if (!facts.dwelling)
        return std::nullopt;
    return stated_by(desk,
                     {"storage_shutdown", "Emergency shutdown of the storage", "storage.shutdown"},
                     "an emergency shutdown outdoors", facts.outdoor_shutdown);
}

std::optional<RuleVerdict> commissioning(const Desk& desk, const StorageFacts& facts) {
    if (facts.dwelling)
        return std::nullopt;
    return stated_by(desk,
                     {"storage_commissioning", "Storage is commissioned", "storage.commissioning"},
                     "commissioning", facts.commissioned);
}

std::optional<RuleVerdict> ventilation(const Desk& desk, const StorageFacts& facts) {
    if (!facts.gives_off_gas)
        return std::nullopt;
    return stated_by(desk, {"storage_ventilation", "Storage is ventilated", "storage.ventilation"},
                     "ventilation", facts.ventilated);
}

void state_article(const Desk& desk, std::string_view rule_id, std::string article) {
    desk.sheet.choose(line_for(desk, "storage_article", {}, "Article that the storage follows",
                               desk.book.cite(rule_id)),
                      std::move(article), {});
}

} // namespace

bool storage_in_scope(const CodeBook& book, const StorageFacts& facts) {
    const auto above = [&](double value, std::string_view id) { return value > book.number(id); };
    return above(facts.energy.value, "storage.scope.energy") &&
           (above(facts.ac.value, "storage.scope.ac") || above(facts.dc.value, "storage.scope.dc"));
}

std::optional<RuleVerdict> check_storage_voltage(const Desk& desk, const StorageFacts& facts) {
    if (!facts.dwelling || facts.dc.value <= 0)
        return std::nullopt;
    const Volts limit{desk.book.number(facts.live_parts_guarded ? "storage.voltage.guarded"
                                                                : "storage.voltage.open")};
    return check_by(desk,
                    {"storage_voltage", "Voltage of storage in a dwelling", "storage.voltage"},
                    given("V_dc", facts.dc), "≤", constant(limit));
}

RuleVerdicts judge_storage(const Desk& desk, const StorageFacts& facts) {
    if (!facts.part_of_listed_system) {
        state_article(desk, "storage.batteries", "Article 480");
        return {};
    }
    if (!storage_in_scope(desk.book, facts))
        return {};
    state_article(desk, "storage.scope", "Article 706");
    return those_given(
        {stated_by(desk, {"storage_listing", "Storage is listed", "storage.listing"}, "a listing",
                   facts.listed),
         shutdown(desk, facts), commissioning(desk, facts),
         stated_by(desk, {"storage_directory", "Directory of sources", "storage.directory"},
                   "a directory", facts.directory),
         check_storage_voltage(desk, facts), ventilation(desk, facts)});
}

namespace {

Term<Ratio> number_of(std::string symbol, int value) {
    return given(std::move(symbol), Ratio{static_cast<double>(value)});
}

void check_count(const Desk& desk, RuleVerdicts& verdicts, std::string name, std::string title,
                 const Term<Ratio>& count, const std::optional<int>& limit, std::string symbol) {
    if (limit) {
        verdicts.push_back(check_by(desk, {std::move(name), std::move(title), "storage.units"},
                                    count, "≤", number_of(std::move(symbol), *limit)));
    }
}

void check_units(const Desk& desk, RuleVerdicts& verdicts, const StorageArrangement& arrangement) {
    if (!arrangement.units_limit)
        return;
    const auto without = number_of("N_limit", *arrangement.units_limit);
    const auto limit =
        arrangement.control_factor == 1 ? without : factor(arrangement.control_factor) * without;
    verdicts.push_back(check_by(desk, {"storage_units", "Units of the system", "storage.units"},
                                number_of("N_units", arrangement.units), "≤", limit));
}

} // namespace

RuleVerdicts check_storage_arrangement(const Desk& desk, const StorageArrangement& arrangement) {
    RuleVerdicts verdicts;
    check_units(desk, verdicts, arrangement);
    check_count(desk, verdicts, "storage_chain", "Units in a chain",
                number_of("N_chain", arrangement.longest_chain), arrangement.chain_limit,
                "N_chain.limit");
    check_count(desk, verdicts, "storage_chains", "Chains of the system",
                number_of("N_chains", arrangement.chains), arrangement.chains_limit,
                "N_chains.limit");
    check_count(desk, verdicts, "storage_input", "Units on an inverter input",
                number_of("N_input", arrangement.most_on_input), arrangement.input_limit,
                "N_input.limit");
    if (arrangement.breaker && arrangement.breaker_limit) {
        verdicts.push_back(
            check_by(desk, {"storage_breaker", "Breaker of a storage chain", "storage.breaker"},
                     *arrangement.breaker, "≤", given("I_limit", *arrangement.breaker_limit)));
    }
    return verdicts;
}

} // namespace ohmfolio
