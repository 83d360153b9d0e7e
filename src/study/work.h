/// What the steps of a study share while it is being made (namespace workings: nothing outside
/// this room sees it), and the few moves that they all need:
/// recall a term, take a value from a nameplate, require that a limit is kept.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "code/phase_rules.h"
#include "code/rules.h"
#include "code/verdict.h"
#include "model/system.h"
#include "study/study.h"
#include "study/topology.h"

namespace ohmfolio::workings {

struct Work {
    const System& system;
    const CodeBook& book;
    Study& study;
    /// Output current of all sources that flow in a circuit, and 125 % of it; parallel to
    /// System::circuits, nothing where no source flows.
    std::vector<std::optional<Term<Amps>>> sources, sources_125;
    /// What makes up the sources of a circuit of three lines; empty for other circuits.
    std::vector<PhaseSources> phase_sources;
    /// Parallel to System::breakers; nothing where no rating fits.
    std::vector<std::optional<Term<Amps>>> breaker_rating;
    /// What a conductor is sized for; parallel to System::circuits, nothing for the utility's.
    struct Load {
        Term<Amps> current, required, overcurrent;
        bool protected_by_device = true; ///< false: `overcurrent` only tells its size
    };
    std::vector<std::optional<Load>> load;
    /// Of strings, by the id of their equipment: highest voltage, and what others can feed back.
    std::map<std::string, Term<Volts>> string_voltage;
    std::map<std::string, Term<Amps>> string_backfeed;
    /// Load of the whole building by Article 220; nothing where none was calculated.
    std::optional<Term<Watts>> calculated_load;

    Work(const System& s, const CodeBook& b, Study& result);

    Desk desk(std::string subject) { return {study.worksheet, book, std::move(subject)}; }
};

/// What to tell the drafter when a limit is not kept.
struct Complaint {
    std::string rule; ///< "branch.inverters"
    Severity severity = Severity::violation;
    Span span;
    std::string message, expected = {}, hint = {};
    std::string subject = {}; ///< empty: that of the derivation
};

Citation nameplate();       ///< a limit that the equipment states
Citation common_practice(); ///< a custom of the trade without a published source
/// Where a stated value came from, for the source line of a derivation.
std::string nameplate_of(const Record&);

/// "C5" of "circuit:C5": what derivation ids start with.
std::string_view key_of(std::string_view subject);

/// The term that an earlier derivation defined; the id must exist.
template <class Q> Term<Q> recall(const Work& work, const std::string& id) {
    const Derivation& d = work.study.derivation(id);
    return {Q{d.value}, d.symbol, d.result, Binding::atom, {d.id}};
}

/// States a value once, however often it is asked for.
template <class Q> Term<Q> state_once(Work& work, const Heading& heading, Q value) {
    const std::string id = std::string(key_of(heading.subject)) + "." + heading.name;
    return work.study.worksheet.find(id) != nullptr ? recall<Q>(work, id)
                                                    : work.study.worksheet.state(heading, value);
}

/// Defines a value once, however often it is asked for.
template <class Q>
Term<Q> define_once(Work& work, const Heading& heading, const Term<Q>& expression) {
    const std::string id = std::string(key_of(heading.subject)) + "." + heading.name;
    return work.study.worksheet.find(id) != nullptr
               ? recall<Q>(work, id)
               : work.study.worksheet.define(heading, expression);
}

/// A value of a nameplate, under the subject "record:<key>".
template <class Q>
Term<Q> from_nameplate(Work& work, const Record& record, const std::string& name,
                       const std::string& symbol, const std::string& title, Q value,
                       ShownAs as = ShownAs::plain) {
    return state_once(work,
                      {.subject = "record:" + record.key,
                       .name = name,
                       .symbol = symbol,
                       .title = title,
                       .cite = nameplate(),
                       .source = nameplate_of(record),
                       .as = as},
                      value);
}

/// A number of things that the drafter stated, under its symbol: N.
Term<Ratio> count(Work&, const std::string& subject, const std::string& name,
                  const std::string& symbol, const std::string& title, int value);
/// The nominal voltage of the service, between lines.
Term<Volts> nominal_voltage(Work&);
/// Volt-amperes for each ampere of a line: the nominal voltage, times √3 on three phases.
Term<Volts> power_voltage(Work&);

/// Adds `finding` for what the derivation `id` shows; subject, section and derivation follow.
void complain(Work& work, const std::string& id, const Complaint& complaint);

/// Adds a finding that no line of the calculation shows: something is missing from the description.
void complain_of_missing(Work& work, std::string_view paragraph, const Complaint& complaint);

/// Adds a finding for each verdict that fails; `complaint` says the rest of it, its message is
/// followed by the statement of the verdict.
void complain_of_verdicts(Work&, const RuleVerdicts& verdicts, const Complaint& complaint);

/// Checks a limit, shows it, and complains when it is not kept.
template <class Q>
bool require(Work& work, const Heading& heading, const Term<Q>& left, std::string_view relation,
             const Term<Q>& right, const Complaint& complaint) {
    const bool passes = work.study.worksheet.check(heading, left, relation, right);
    if (!passes)
        complain(work, work.study.worksheet.all().back().id, complaint);
    return passes;
}

/// Ids of the derivations made since the worksheet held `count` of them.
std::vector<std::string> ids_since(const Study& study, std::size_t count);
/// Ids of all derivations under any of `subjects`, in the order in which they were made.
std::vector<std::string> ids_under(const Study& study, const std::vector<std::string>& subjects);

} // namespace ohmfolio::workings
