#include "symbol/element.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/text.h"
#include "symbol/number_reader.h"

namespace ohmfolio {

namespace {

std::vector<std::string> words_of(std::initializer_list<std::string_view> words) {
    return {words.begin(), words.end()};
}

} // namespace

void SymbolFaults::add(std::string_view rule, Span span, std::string message, std::string expected,
                       std::string hint) {
    Finding finding;
    finding.rule = rule;
    finding.severity = Severity::error;
    finding.span = span;
    finding.subject = "symbol:" + symbol;
    finding.message = std::move(message);
    finding.expected = std::move(expected);
    finding.hint = std::move(hint);
    findings.push_back(std::move(finding));
    ++count;
}

Element::Element(pugi::xml_node node, const SourcePlaces& places, SymbolFaults& faults)
    : node_(node), places_(places), faults_(faults) {}

Span Element::span() const {
    return places_.element(static_cast<std::size_t>(node_.offset_debug()));
}

std::optional<WrittenAttribute> Element::written(const char* attribute) const {
    for (const auto& found : places_.attributes(static_cast<std::size_t>(node_.offset_debug()))) {
        if (found.name == attribute)
            return found;
    }
    return std::nullopt;
}

Span Element::span(const char* attribute) const {
    const auto found = written(attribute);
    return found ? places_.span(found->value_offset, found->value_end) : span();
}

void Element::allow_only(std::initializer_list<std::string_view> known) const {
    const auto candidates = words_of(known);
    std::vector<std::string_view> seen;
    for (const auto& found : places_.attributes(static_cast<std::size_t>(node_.offset_debug()))) {
        const auto where = places_.span(found.name_offset, found.name_offset + found.name.size());
        if (std::find(seen.begin(), seen.end(), found.name) != seen.end()) {
            faults_.add("symbol.attribute", where,
                        fmt::format("attribute \"{}\" is written twice", found.name));
        } else if (std::find(known.begin(), known.end(), found.name) == known.end()) {
            faults_.add("symbol.attribute", where,
                        fmt::format("<{}> has unknown attribute \"{}\"", name(), found.name),
                        "one of " + join(candidates, ", "), did_you_mean(found.name, candidates));
        }
        seen.push_back(found.name);
    }
}

double Element::length(const char* attribute, std::optional<double> fallback) const {
    if (!has(attribute)) {
        if (!fallback) {
            fault("symbol.value", attribute, fmt::format("<{}> needs \"{}\"", name(), attribute),
                  "a length in millimetres");
        }
        return fallback.value_or(0.0);
    }
    const auto value = whole_number(text(attribute));
    if (!value) {
        fault("symbol.value", attribute, fmt::format("\"{}\" is not a length", text(attribute)),
              "a number of millimetres without unit, at most 1000");
    }
    return value.value_or(0.0);
}

double Element::positive(const char* attribute) const {
    const auto before = faults_.count;
    const double value = length(attribute);
    if (faults_.count == before && !(value > 0.0))
        fault("symbol.value", attribute, fmt::format("\"{}\" has to be more than 0", attribute));
    return value;
}

std::optional<int> Element::one_of(const char* attribute,
                                   std::initializer_list<std::string_view> words) const {
    const auto value = text(attribute);
    const auto found = std::find(words.begin(), words.end(), value);
    if (found != words.end())
        return static_cast<int>(found - words.begin());
    const auto candidates = words_of(words);
    const auto message = has(attribute) ? fmt::format("{} \"{}\" is not known", attribute, value)
                                        : fmt::format("<{}> needs \"{}\"", name(), attribute);
    fault("symbol.value", attribute, message, join(candidates, ", "),
          did_you_mean(value, candidates));
    return std::nullopt;
}

void Element::fault(std::string_view rule, const char* attribute, std::string message,
                    std::string expected, std::string hint) const {
    faults_.add(rule, span(attribute), std::move(message), std::move(expected), std::move(hint));
}

void Element::fault_at(std::string_view rule, const char* attribute, std::size_t offset,
                       std::string message, std::string expected) const {
    Span where = span();
    if (const auto found = written(attribute)) {
        const auto at = std::min(found->value_offset + offset, found->value_end);
        where = places_.span(at, std::min(at + 1, found->value_end));
    }
    faults_.add(rule, where, std::move(message), std::move(expected));
}

} // namespace ohmfolio
