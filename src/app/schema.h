/// JSON Schema (draft 7) of what the program reads, out of the tables of keys, so that an editor
/// that knows TOML completes and checks while one writes.
#pragma once

#include <string>
#include <string_view>

#include "input/keys.h"

namespace ohmfolio {

/// The files that a user writes.
enum class Document { description, catalogue, house };

const Shape& shape_of(Document document);

/// As text, indented, with a line end.
std::string schema(Document document);

} // namespace ohmfolio
