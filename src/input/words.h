/// Kinds of value that are one word out of a list: raceways, insulations, sizes, choices.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "input/values.h"

namespace ohmfolio {

/// The words that the key takes, as messages list them; none where the kind has no list.
std::vector<std::string> words_of(const Key& key);

/// The value that a word stands for.
std::optional<Value> parse_word(const Key& key, const std::string& text);

} // namespace ohmfolio
