#include "input/extended_records.h"

#include <algorithm>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "input/faults.h"
#include "toml/laid_over.h"

namespace ohmfolio {
namespace {

using toml_text::Entry;
using toml_text::Node;
using toml_text::Table;

/// Kind and key: "battery", "wickhollow-b10".
using Name = std::pair<std::string, std::string>;

/// Records behind one another; more is a slip, and each takes room on the stack.
constexpr std::size_t most_behind = 20;

/// What a record extends; nullptr where it stands on its own. A value that is no text is the form's
/// to complain of.
const Entry* base_of(const Node& record) {
    const auto* table = record.as<Table>();
    const Entry* entry = table == nullptr ? nullptr : table->find("extends");
    return entry != nullptr && entry->value->as<std::string>() != nullptr ? entry : nullptr;
}

class Extender {
  public:
    Extender(const std::vector<Node>& catalogues, bool complete, Findings& findings)
        : complete_(complete), findings_(findings) {
        for (const Node& catalogue : catalogues) {
            gather(catalogue);
        }
    }

    /// Nothing where what it extends cannot be found.
    std::optional<Node> extended(const Name& name, const Node& record) {
        std::set<Name> passed{name};
        return over_its_base(name, record, passed);
    }

  private:
    void gather(const Node& catalogue) {
        for (const Entry& kind : catalogue.as<Table>()->entries) {
            const auto* table = kind.value->as<Table>();
            for (const Entry& record : table == nullptr ? std::vector<Entry>{} : table->entries) {
                records_.try_emplace({kind.key, record.key}, record.value);
            }
        }
    }

    std::optional<Node> over_its_base(const Name& name, const Node& record,
                                      std::set<Name>& passed) {
        const Entry* base = base_of(record);
        if (base == nullptr) {
            return record;
        }
        const Name wanted{name.first, *base->value->as<std::string>()};
        const auto found = records_.find(wanted);
        if (found == records_.end()) {
            complain_missing(wanted, base->value->span);
            return std::nullopt;
        }
        if (!passed.insert(wanted).second) {
            report("input.circle", base->value->span,
                   fmt::format("\"{}\" leads back to itself", name.second),
                   {"a record that stands on its own at the end", ""});
            return std::nullopt;
        }
        if (passed.size() > most_behind) {
            report("input.value", base->value->span,
                   fmt::format("\"{}\" stands behind too many records", wanted.second),
                   {fmt::format("at most {} records that extend one another", most_behind), ""});
            return std::nullopt;
        }
        const auto whole = over_its_base(wanted, *found->second, passed);
        return whole ? std::optional(laid_over(*whole, record)) : std::nullopt;
    }

    void complain_missing(const Name& wanted, Span span) {
        if (!complete_) {
            return;
        }
        std::vector<std::string> known;
        for (const auto& [name, record] : records_) {
            if (name.first == wanted.first) {
                known.push_back(name.second);
            }
        }
        report("input.reference", span,
               fmt::format("no {} record is called \"{}\"", wanted.first, wanted.second),
               {fmt::format("the key of another {} record of the catalogues that the job names",
                            wanted.first),
                did_you_mean(wanted.second, known)});
    }

    /// Once for each place, however many records extend the one that stands there.
    void report(std::string rule, Span span, std::string message, Advice advice) {
        const bool told = std::ranges::find(findings_, span, &Finding::span) != findings_.end();
        if (!told) {
            findings_.push_back(
                input_fault(std::move(rule), span, "", std::move(message), std::move(advice)));
        }
    }

    bool complete_;
    Findings& findings_;
    std::map<Name, std::shared_ptr<const Node>> records_;
};

} // namespace

std::vector<Node> extended_records(const std::vector<Node>& catalogues, bool complete,
                                   Findings& findings) {
    Extender extender(catalogues, complete, findings);
    std::vector<Node> result = catalogues;
    for (Node& catalogue : result) {
        for (Entry& kind : std::get<Table>(catalogue.value).entries) {
            if (kind.value->as<Table>() == nullptr) {
                continue;
            }
            Node table = *kind.value;
            auto& records = std::get<Table>(table.value).entries;
            std::erase_if(records, [&](Entry& record) {
                auto whole = extender.extended({kind.key, record.key}, *record.value);
                if (whole) {
                    record.value = std::make_shared<Node>(std::move(*whole));
                }
                return !whole;
            });
            kind.value = std::make_shared<Node>(std::move(table));
        }
    }
    return result;
}

} // namespace ohmfolio
