/// How results came about, as text for a terminal: a result, beneath it what it rests on, down to
/// table rows and paragraphs. What several results share is written once. Private to the room.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "study/study.h"

namespace ohmfolio::workings {

inline constexpr int terminal_width = 100;

/// Why a result is what it is, as the end of a sentence: ", because the fill governs"; empty where
/// nothing decided.
std::string because(std::string_view governs);

/// `text` in lines of the terminal's width; lines after the first are set in by `hanging` more.
std::string set_in(std::string_view text, int indent, int hanging = 0);

class ExplainTree {
  public:
    explicit ExplainTree(const Study& study) : study_(study) {}

    /// Verdicts under any of `ids` were tried and not used: one that fails is no fault.
    void only_tried(const std::vector<std::string>& ids);
    /// One line for each result and each check among `ids`, and how many checks fail.
    void summary(const std::vector<std::string>& ids);
    /// Those of `ids` on which no other of them rests, each with all beneath it.
    void write(const std::vector<std::string>& ids);
    void heading(std::string_view text);
    /// What has been written, with the legend that it needs.
    std::string text() const;

  private:
    std::vector<std::string> results_among(const std::vector<std::string>& ids) const;
    std::vector<std::string> in_short(const std::vector<std::string>& ids) const;
    void node(const std::string& id, int depth);
    std::string outcome(const Derivation&) const;
    std::string grounds(const Derivation&);

    const Study& study_;
    std::set<std::string> seen_, only_tried_;
    bool daggers_ = false; ///< a paragraph was marked
    std::string text_;
};

} // namespace ohmfolio::workings
