/// Short ways to say what is wrong with a description.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "base/finding.h"
#include "base/text.h"

namespace ohmfolio {

struct Advice {
    std::string expected;
    std::string hint;
};

inline Finding input_fault(std::string rule, Span span, std::string subject, std::string message,
                           Advice advice = {}) {
    Finding finding;
    finding.rule = std::move(rule);
    finding.span = span;
    finding.subject = std::move(subject);
    finding.message = std::move(message);
    finding.expected = std::move(advice.expected);
    finding.hint = std::move(advice.hint);
    return finding;
}

inline Finding input_warning(std::string rule, Span span, std::string subject, std::string message,
                             Advice advice = {}) {
    Finding finding = input_fault(std::move(rule), span, std::move(subject), std::move(message),
                                  std::move(advice));
    finding.severity = Severity::warning;
    return finding;
}

} // namespace ohmfolio
