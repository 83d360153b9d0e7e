#include "code/transfer_rules.h"

#include "code/verdict_line.h"

namespace ohmfolio {

namespace {

RuleVerdict apart(const Desk& desk, const TransferInput& input) {
    return judge_by(desk, {"transfer_apart", "Sources are kept apart", "standby.transfer"},
                    input.keeps_sources_apart ? "normal and standby source cannot be joined"
                                              : "normal and standby source can be joined",
                    input.keeps_sources_apart);
}

std::optional<RuleVerdict> as_service(const Desk& desk, const TransferInput& input) {
    if (!input.is_service_disconnect)
        return std::nullopt;
    return judge_by(
        desk, {"transfer_service", "Transfer switch as service disconnect", "transfer.service"},
        input.suitable_as_service ? "suitable as service equipment"
                                  : "not stated that it is suitable as service equipment",
        input.suitable_as_service);
}

} // namespace

RuleVerdicts judge_transfer(const Desk& desk, const TransferInput& input) {
    RuleVerdicts verdicts = {apart(desk, input)};
    if (input.rating) {
        verdicts.push_back(check_by(
            desk, {"transfer_rating", "Transfer switch carries the load", "transfer.rating"},
            *input.rating, "≥", input.load));
        if (input.overcurrent) {
            verdicts.push_back(check_by(
                desk,
                {"transfer_protection", "Transfer switch is protected", "transfer.protection"},
                *input.rating, "≥", *input.overcurrent));
        }
    } else if (input.kind != TransferKind::interlock) {
        verdicts.push_back(judge_by(
            desk, {"transfer_rating", "Transfer switch carries the load", "transfer.rating"},
            "the rating of the switch is not stated", false));
    }
    if (const auto service = as_service(desk, input))
        verdicts.push_back(*service);
    return verdicts;
}

namespace {

RuleVerdict carried(const Desk& desk, const NeutralFacts& facts) {
    const bool reaches = facts.switched || facts.carried;
    return judge_by(desk, {"neutral_carried", "Neutral reaches the generator", "neutral.carried"},
                    reaches ? "the neutral reaches the generator"
                            : "open neutral: 120 V loads would share 240 V as they please",
                    reaches);
}

RuleVerdict bonded_once(const Desk& desk, const NeutralFacts& facts) {
    if (facts.switched) {
        return judge_by(
            desk, {"neutral_bond", "Neutral is bonded once", "neutral.derived"},
            facts.bonded_at_source
                ? "separately derived, bonded at the source"
                : "separately derived, but not bonded at the source: a ground fault has "
                  "no path back",
            facts.bonded_at_source);
    }
    return judge_by(desk, {"neutral_bond", "Neutral is bonded once", "neutral.not_derived"},
                    facts.bonded_at_source
                        ? "bonded at the source and at the service: neutral current takes the "
                          "grounding conductors"
                        : "not separately derived, bonded at the service alone",
                    !facts.bonded_at_source);
}

std::optional<RuleVerdict> electrode(const Desk& desk, const NeutralFacts& facts) {
    if (!facts.switched)
        return std::nullopt;
    return judge_by(desk,
                    {"neutral_electrode", "Grounding electrode of the generator",
                     facts.portable ? "neutral.portable" : "neutral.derived.electrode"},
                    facts.electrode ? "connected to a grounding electrode"
                                    : "no grounding electrode is stated",
                    facts.electrode);
}

} // namespace

NeutralVerdict judge_neutral(const Desk& desk, const NeutralFacts& facts) {
    return {facts.switched,
            those_given({carried(desk, facts), bonded_once(desk, facts), electrode(desk, facts)})};
}

} // namespace ohmfolio
