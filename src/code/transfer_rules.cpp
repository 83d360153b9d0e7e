#include "code/transfer_rules.h"

namespace ohmfolio {

namespace {

Judgement apart(const Desk& desk, const TransferInput& input) {
    return judged(desk, "standby.transfer", "transfer_apart", "Sources are kept apart",
                  input.keeps_sources_apart ? "normal and standby source cannot be joined"
                                            : "normal and standby source can be joined",
                  input.keeps_sources_apart);
}

Judgement as_service(const Desk& desk, const TransferInput& input) {
    if (!input.is_service_disconnect)
        return not_applicable("transfer.service", "it is not the service disconnect");
    return judged(desk, "transfer.service", "transfer_service",
                  "Transfer switch as service disconnect",
                  input.suitable_as_service ? "suitable as service equipment"
                                            : "not stated that it is suitable as service equipment",
                  input.suitable_as_service);
}

} // namespace

std::vector<Judgement> judge_transfer(const Desk& desk, const TransferInput& input) {
    std::vector<Judgement> checks = {apart(desk, input)};
    if (input.rating) {
        checks.push_back(compared(desk, "transfer.rating", "transfer_rating",
                                  "Transfer switch carries the load", *input.rating, "≥",
                                  input.load));
        if (input.overcurrent) {
            checks.push_back(compared(desk, "transfer.protection", "transfer_protection",
                                      "Transfer switch is protected", *input.rating, "≥",
                                      *input.overcurrent));
        }
    } else if (input.kind != TransferKind::interlock) {
        checks.push_back(judged(desk, "transfer.rating", "transfer_rating",
                                "Transfer switch carries the load",
                                "the rating of the switch is not stated", false));
    }
    checks.push_back(as_service(desk, input));
    return checks;
}

namespace {

Judgement carried(const Desk& desk, const NeutralFacts& facts) {
    const bool reaches = facts.switched || facts.carried;
    return judged(desk, "neutral.carried", "neutral_carried", "Neutral reaches the generator",
                  reaches ? "the neutral reaches the generator"
                          : "open neutral: 120 V loads would share 240 V as they please",
                  reaches);
}

Judgement bonded_once(const Desk& desk, const NeutralFacts& facts) {
    if (facts.switched) {
        return judged(desk, "neutral.derived", "neutral_bond", "Neutral is bonded once",
                      facts.bonded_at_source
                          ? "separately derived, bonded at the source"
                          : "separately derived, but not bonded at the source: a ground fault has "
                            "no path back",
                      facts.bonded_at_source);
    }
    return judged(desk, "neutral.not_derived", "neutral_bond", "Neutral is bonded once",
                  facts.bonded_at_source
                      ? "bonded at the source and at the service: neutral current takes the "
                        "grounding conductors"
                      : "not separately derived, bonded at the service alone",
                  !facts.bonded_at_source);
}

Judgement electrode(const Desk& desk, const NeutralFacts& facts) {
    if (!facts.switched)
        return not_applicable("neutral.derived.electrode", "not separately derived");
    return judged(desk, facts.portable ? "neutral.portable" : "neutral.derived.electrode",
                  "neutral_electrode", "Grounding electrode of the generator",
                  facts.electrode ? "connected to a grounding electrode"
                                  : "no grounding electrode is stated",
                  facts.electrode);
}

} // namespace

NeutralVerdict judge_neutral(const Desk& desk, const NeutralFacts& facts) {
    return {facts.switched,
            {carried(desk, facts), bonded_once(desk, facts), electrode(desk, facts)}};
}

} // namespace ohmfolio
