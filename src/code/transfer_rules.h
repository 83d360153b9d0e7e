/// Transfer equipment and the neutral it leaves connected or opens (702.5, 250.30, 250.142(B)).
#pragma once

#include <optional>
#include <vector>

#include "code/desk.h"
#include "code/standby_rules.h"
#include "code/verdict.h"

namespace ohmfolio {

struct TransferInput {
    TransferKind kind = TransferKind::automatic_switch;
    std::optional<Term<Amps>> rating = {};      ///< nothing: an interlock of breakers has none
    Term<Amps> load;                            ///< largest load it carries, from either side
    std::optional<Term<Amps>> overcurrent = {}; ///< device ahead of it
    bool keeps_sources_apart = true;
    bool is_service_disconnect = false;
    bool suitable_as_service = false;
};
RuleVerdicts judge_transfer(const Desk&, const TransferInput&);

/// How the neutrals of generator and service are joined and bonded.
struct NeutralFacts {
    bool switched = false;         ///< the transfer equipment opens the neutral
    bool carried = true;           ///< not switched: the neutral goes through to the generator
    bool bonded_at_source = false; ///< neutral to frame, at the generator or its first disconnect
    bool electrode = false;        ///< the generator is connected to a grounding electrode
    bool portable = false;
};
struct NeutralVerdict {
    bool separately_derived = false; ///< only a neutral that is opened makes it so
    RuleVerdicts verdicts = {};
};
NeutralVerdict judge_neutral(const Desk&, const NeutralFacts&);

} // namespace ohmfolio
