// The devices that sources connect by, ground-fault protection, loss of the utility, unbalance and
// the neutral.
#include "code/source_device_rules.h"

#include <algorithm>

#include "code/inquiry.h"

namespace ohmfolio {

namespace {

void ask_backfeed(const SourceDeviceInput& input, Inquiry& inquiry) {
    std::string statement = "no marks of line and load";
    bool suitable = true;
    if (!input.breaker) {
        statement = "fusible disconnect without marks against backfeed";
        suitable = !input.marked_line_and_load || input.rated_for_backfeed;
    } else if (input.rated_for_backfeed) {
        statement = "rated for backfeed";
    } else if (input.marked_line_and_load) {
        suitable = false;
    }
    if (!suitable)
        statement = "marked line and load, not rated for backfeed";
    inquiry.judge("device.backfeed", "device_backfeed", "Device is suitable for backfeed",
                  statement, suitable);
}

void ask_fastening(const SourceDeviceInput& input, Inquiry& inquiry) {
    if (!input.breaker || !input.plug_in)
        return;
    if (input.listed_interactive && !input.fastened) {
        inquiry.judge("device.fastening", "device_fastening", "Plug-in backfed breaker",
                      "listed interactive sources: no further fastener", true);
        return;
    }
    inquiry.stated("device.fastening.general", "device_fastening", "Plug-in backfed breaker",
                   "held by a further fastener", input.fastened);
}

} // namespace

RuleVerdicts check_source_device(const Desk& desk, const SourceDeviceInput& input) {
    Inquiry inquiry(desk);
    inquiry.stated("device.dedicated", "device_dedicated", "Device of the source alone",
                   "breaker or fusible disconnect of the source alone", input.dedicated);
    inquiry.stated("device.marking", "device_marking", "Equipment marked with its sources",
                   "marking of all sources", input.sources_marked);
    ask_backfeed(input, inquiry);
    ask_fastening(input, inquiry);
    return inquiry.verdicts();
}

bool needs_ground_fault_protection(const CodeBook& book, const ServiceFaultInput& input) {
    return input.solidly_grounded_wye &&
           input.main.value >= Amps{book.number("fault.protection.rating")} &&
           input.to_ground > Volts{book.number("fault.protection.to_ground")} &&
           input.between <= Volts{book.number("fault.protection.between")};
}

RuleVerdicts check_ground_fault_protection(const Desk& desk, const ServiceFaultInput& input) {
    Inquiry inquiry(desk);
    const bool needed = needs_ground_fault_protection(desk.book, input);
    if (needed) {
        inquiry.stated("fault.protection", "fault_protection",
                       "Ground-fault protection of equipment, disconnect of " +
                           shown(input.main.value),
                       "ground-fault protection at the service disconnect", input.protection);
    }
    if ((needed || input.protection) && input.source_on_load_side) {
        inquiry.stated("fault.load_side", "fault_load_side",
                       "Source on the load side of ground-fault protection",
                       "protection from all sources of ground-fault current, listed for backfeed",
                       input.from_all_sources);
    }
    return inquiry.verdicts();
}

RuleVerdicts check_loss_of_source(const Desk& desk, const LossOfSourceInput& input) {
    Inquiry inquiry(desk);
    const std::string what = input.listed_interactive
                                 ? "listed interactive equipment, ceases to export"
                                 : "opens all ungrounded conductors until the source returns";
    inquiry.stated("loss.primary", "loss_primary", "Loss of the primary source", what,
                   input.listed_interactive || input.disconnects_all);
    return inquiry.verdicts();
}

UnbalanceResult check_unbalance(const Desk& desk, const PhaseCurrents& input) {
    Inquiry inquiry(desk);
    const auto most = larger(input.a, larger(input.b, input.c));
    const auto least = lesser(input.a, lesser(input.b, input.c));
    const auto difference = desk.sheet.define(
        line_for(desk, "unbalance", "I_unbalance",
                 "Single-phase sources: largest less smallest phase", desk.book.cite("unbalance")),
        most - least);
    if (input.limit)
        inquiry.compare("unbalance", "unbalance_limit", "Unbalance within the utility's limit",
                        difference, "≤", *input.limit);
    return {difference, inquiry.verdicts()};
}

WireSize smallest_sensing_neutral(const SourceNeutralInput& input) {
    return input.supply_side ? std::max(*input.supply_side, input.equipment_ground)
                             : input.equipment_ground;
}

RuleVerdicts check_source_neutral(const Desk& desk, const SourceNeutralInput& input) {
    Inquiry inquiry(desk);
    if (input.source) {
        const auto carried = desk.sheet.define(
            line_for(desk, "neutral_current", "I_neutral", "Source and load on the neutral",
                     desk.book.cite("neutral.line_to_neutral")),
            input.load ? *input.load + *input.source : *input.source);
        inquiry.compare("neutral.line_to_neutral", "neutral", "Neutral carries source and load",
                        input.ampacity, "≥", carried);
    }
    const WireSize least = smallest_sensing_neutral(input);
    const bool enough = input.size >= least;
    const bool by_supply = input.supply_side && *input.supply_side >= input.equipment_ground;
    inquiry.judge(
        by_supply ? "bond.neutral" : "neutral.sensing", "neutral_least", "Smallest neutral",
        name(input.size) + (enough ? " is not smaller than " : " is smaller than ") + name(least),
        enough);
    return inquiry.verdicts();
}

} // namespace ohmfolio
