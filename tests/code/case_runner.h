// Published worked examples, as data: cases/*.toml. Each case names a procedure, what is given,
// what the publication answers, and where it stands. `expect` must be reproduced to the digits
// published; `refused` is a published answer that is wrong, with `why`, and must not be.
//
// A chapter of the book has one case file and one test file, which holds its procedures.
#pragma once

#include <map>
#include <string>
#include <variant>
#include <vector>

#include "code/rules.h"
#include "toml/toml.h"

namespace ohmfolio {

/// The keys of a case's `given`.
class Given {
  public:
    explicit Given(const toml_text::Table& table) : table_(table) {}
    bool has(std::string_view key) const { return table_.find(key) != nullptr; }
    double number(std::string_view key) const;
    double number_or(std::string_view key, double otherwise) const {
        return has(key) ? number(key) : otherwise;
    }
    int count_or(std::string_view key, int otherwise) const {
        return static_cast<int>(number_or(key, otherwise));
    }
    std::string text(std::string_view key) const;
    std::string text_or(std::string_view key, std::string otherwise) const {
        return has(key) ? text(key) : std::move(otherwise);
    }
    bool flag(std::string_view key) const; ///< false when absent
    std::vector<double> numbers(std::string_view key) const;
    std::vector<std::string> texts(std::string_view key) const;
    WireSize wire(std::string_view key) const;

  private:
    const toml_text::Table& table_;
};

/// What a procedure found: numbers to compare in the digits published, or words.
using Answer = std::variant<double, std::string>;
using Answers = std::map<std::string, Answer>;
using Procedure = Answers (*)(Desk, const Given&);
using Procedures = std::map<std::string, Procedure>;

inline std::string yes_or_no(bool value) { return value ? "yes" : "no"; }

/// Runs every case of cases/<chapter>.toml; returns how many there were.
int run_cases(const std::string& chapter, const Procedures& procedures);

} // namespace ohmfolio
