/// One element of a symbol file with its attributes, read with messages that point at the value.
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <pugixml.hpp>

#include "base/finding.h"
#include "symbol/source_places.h"

namespace ohmfolio {

/// Where the messages about one symbol go.
struct SymbolFaults {
    std::string symbol;
    Findings& findings;
    int count = 0;

    void add(std::string_view rule, Span span, std::string message, std::string expected = {},
             std::string hint = {});
};

class Element {
  public:
    Element(pugi::xml_node node, const SourcePlaces& places, SymbolFaults& faults);

    std::string_view name() const { return node_.name(); }
    pugi::xml_node node() const { return node_; }
    Span span() const;
    /// The value between its quotes, or the element when the attribute is absent.
    Span span(const char* attribute) const;

    bool has(const char* attribute) const { return !node_.attribute(attribute).empty(); }
    std::string_view text(const char* attribute) const {
        return node_.attribute(attribute).value();
    }

    /// Refuses attributes not in `known` and those written twice.
    void allow_only(std::initializer_list<std::string_view> known) const;
    /// A length in mm; `fallback` when absent. Without a fallback, absence is a fault and reads as
    /// 0.
    double length(const char* attribute, std::optional<double> fallback = std::nullopt) const;
    /// As `length`, but more than nothing.
    double positive(const char* attribute) const;
    /// The position of the value in `words`, or nothing with a fault.
    std::optional<int> one_of(const char* attribute,
                              std::initializer_list<std::string_view> words) const;

    void fault(std::string_view rule, const char* attribute, std::string message,
               std::string expected = {}, std::string hint = {}) const;
    /// A fault `offset` bytes into the value of `attribute`.
    void fault_at(std::string_view rule, const char* attribute, std::size_t offset,
                  std::string message, std::string expected) const;

  private:
    std::optional<WrittenAttribute> written(const char* attribute) const;

    pugi::xml_node node_;
    const SourcePlaces& places_;
    SymbolFaults& faults_;
};

} // namespace ohmfolio
