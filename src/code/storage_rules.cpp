#include "code/storage_rules.h"

namespace ohmfolio {

namespace {

/// Something that is stated or missing.
Judgement stated(const Desk& desk, std::string_view rule_id, std::string name, std::string title,
                 bool there, std::string_view what) {
    return judged(desk, rule_id, std::move(name), std::move(title),
                  std::string(what) + (there ? " is stated" : " is not stated"), there);
}

Judgement shutdown(const Desk& desk, const StorageFacts& facts) {
    if (!facts.dwelling)
        return not_applicable("storage.shutdown", "not a one- or two-family dwelling");
    return stated(desk, "storage.shutdown", "storage_shutdown", "Emergency shutdown outdoors",
                  facts.outdoor_shutdown, "an emergency shutdown outdoors");
}

Judgement commissioning(const Desk& desk, const StorageFacts& facts) {
    if (facts.dwelling) {
        return not_applicable("storage.commissioning",
                              "not asked for at one- and two-family dwellings");
    }
    return stated(desk, "storage.commissioning", "storage_commissioning", "Storage is commissioned",
                  facts.commissioned, "commissioning");
}

Judgement ventilation(const Desk& desk, const StorageFacts& facts) {
    if (!facts.gives_off_gas)
        return not_applicable("storage.ventilation", "the storage gives off no gas");
    return stated(desk, "storage.ventilation", "storage_ventilation", "Storage is ventilated",
                  facts.ventilated, "ventilation");
}

} // namespace

Judgement storage_in_scope(const Desk& desk, const StorageFacts& facts) {
    const auto above = [&](double value, std::string_view id) {
        return value > desk.book.number(id);
    };
    const bool applies =
        above(facts.energy.value, "storage.scope.energy") &&
        (above(facts.ac.value, "storage.scope.ac") || above(facts.dc.value, "storage.scope.dc"));
    const std::string statement =
        shown(facts.energy) + ", " + shown(facts.ac) + " ac, " + shown(facts.dc) + " dc";
    if (!applies)
        return not_applicable("storage.scope", "Article 706 is not about " + statement);
    return judged(desk, "storage.scope", "storage_scope", "Article 706 is about this storage",
                  statement, true);
}

Judgement check_storage_voltage(const Desk& desk, const StorageFacts& facts) {
    if (!facts.dwelling)
        return not_applicable("storage.voltage", "not a dwelling");
    if (facts.dc.value <= 0)
        return not_applicable("storage.voltage", "the storage has no dc side outside its units");
    const Volts limit{desk.book.number(facts.live_parts_guarded ? "storage.voltage.guarded"
                                                                : "storage.voltage.open")};
    return compared(desk, "storage.voltage", "storage_voltage", "Voltage of storage in a dwelling",
                    given("V_dc", facts.dc), "≤", constant(limit));
}

std::vector<Judgement> judge_storage(const Desk& desk, const StorageFacts& facts) {
    if (!facts.part_of_listed_system) {
        return {not_applicable("storage.scope", "batteries that are no part of listed storage"),
                judged(desk, "storage.batteries", "storage_batteries",
                       "Batteries follow Article 480", "Article 480 applies", true)};
    }
    std::vector<Judgement> checks = {storage_in_scope(desk, facts)};
    if (!checks.front().applies)
        return checks;
    checks.push_back(stated(desk, "storage.listing", "storage_listing", "Storage is listed",
                            facts.listed, "a listing"));
    checks.push_back(shutdown(desk, facts));
    checks.push_back(commissioning(desk, facts));
    checks.push_back(stated(desk, "storage.directory", "storage_directory", "Directory of sources",
                            facts.directory, "a directory"));
    checks.push_back(check_storage_voltage(desk, facts));
    checks.push_back(ventilation(desk, facts));
    return checks;
}

namespace {

Term<Ratio> number_of(std::string symbol, int value) {
    return given(std::move(symbol), Ratio{static_cast<double>(value)});
}

void check_count(const Desk& desk, std::vector<Judgement>& checks, std::string name,
                 std::string title, const Term<Ratio>& count, const std::optional<int>& limit,
                 std::string symbol) {
    if (limit) {
        checks.push_back(compared(desk, "storage.units", std::move(name), std::move(title), count,
                                  "≤", number_of(std::move(symbol), *limit)));
    }
}

void check_units(const Desk& desk, std::vector<Judgement>& checks,
                 const StorageArrangement& arrangement) {
    if (!arrangement.units_limit)
        return;
    const auto without = number_of("N_limit", *arrangement.units_limit);
    const auto limit =
        arrangement.control_factor == 1 ? without : factor(arrangement.control_factor) * without;
    checks.push_back(compared(desk, "storage.units", "storage_units", "Units of the system",
                              number_of("N_units", arrangement.units), "≤", limit));
}

} // namespace

std::vector<Judgement> check_storage_arrangement(const Desk& desk,
                                                 const StorageArrangement& arrangement) {
    std::vector<Judgement> checks;
    check_units(desk, checks, arrangement);
    check_count(desk, checks, "storage_chain", "Units in a chain",
                number_of("N_chain", arrangement.longest_chain), arrangement.chain_limit,
                "N_chain.limit");
    check_count(desk, checks, "storage_chains", "Chains of the system",
                number_of("N_chains", arrangement.chains), arrangement.chains_limit,
                "N_chains.limit");
    check_count(desk, checks, "storage_input", "Units on an inverter input",
                number_of("N_input", arrangement.most_on_input), arrangement.input_limit,
                "N_input.limit");
    if (arrangement.breaker && arrangement.breaker_limit) {
        checks.push_back(compared(desk, "storage.breaker", "storage_breaker",
                                  "Breaker of a storage chain", *arrangement.breaker, "≤",
                                  given("I_limit", *arrangement.breaker_limit)));
    }
    return checks;
}

} // namespace ohmfolio
