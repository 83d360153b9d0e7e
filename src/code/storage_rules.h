/// Storage by the electrical code (Article 706) and by what its equipment states: what it is, what
/// it must have, how many units go together. Currents and conductors are rules of circuits; where
/// it may stand is in storage_siting_rules.h.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "code/desk.h"
#include "code/verdict.h"

namespace ohmfolio {

struct StorageFacts {
    WattHours energy{};                ///< of the whole system
    Volts ac{}, dc{};                  ///< nominal; 0: it has no such side
    bool dwelling = true;              ///< one- or two-family
    bool part_of_listed_system = true; ///< false: batteries on their own, Article 480
    bool listed = false;               ///< as a system, UL 9540
    bool outdoor_shutdown = false;     ///< of a dwelling: initiation outdoors, readily accessible
    bool commissioned = false;         ///< a plan for it is stated
    bool directory = false;
    bool live_parts_guarded = false; ///< not to be reached in routine maintenance
    bool gives_off_gas = false;      ///< while charging, as vented lead-acid does
    bool ventilated = false;
};

/// Whether Article 706 is about this storage; in 2017 the voltage decides, from 2020 on the energy.
bool storage_in_scope(const CodeBook&, const StorageFacts&);
/// Dc voltage of batteries in a dwelling; nothing: no dwelling, or no dc outside the units.
std::optional<RuleVerdict> check_storage_voltage(const Desk&, const StorageFacts&);
/// All that the edition asks of it; none where Article 706 is not about it. The line
/// "storage_article" says which article is.
RuleVerdicts judge_storage(const Desk&, const StorageFacts&);

/// Units as they are arranged, against the limits of the equipment; nothing: not stated, not looked
/// at.
struct StorageArrangement {
    int units = 0;  ///< of the whole system
    int chains = 1; ///< rows of units that share a conductor to the inverter or panel
    int longest_chain = 0;
    int inputs = 0;                      ///< inverter inputs that take storage
    int most_on_input = 0;               ///< units on the input that has the most
    std::optional<int> units_limit = {}; ///< of a system, without power control
    int control_factor = 1; ///< by how much the equipment's power control raises that limit
    std::optional<int> chain_limit = {};
    std::optional<int> chains_limit = {};
    std::optional<int> input_limit = {};
    std::optional<Term<Amps>> breaker = {}; ///< of a chain
    std::optional<Amps> breaker_limit = {};
};
RuleVerdicts check_storage_arrangement(const Desk&, const StorageArrangement&);

} // namespace ohmfolio
