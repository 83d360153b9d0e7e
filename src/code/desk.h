/// What every rule of the code book is handed. Rules are pure functions: each takes quantities,
/// writes its derivations to the worksheet under the subject given, and returns the outcome. They
/// know no system and no drawing, so that each can be tried alone on a published example.
///
/// `subject` is "circuit:C5", "breaker:Q5" ...; derivation ids start with what follows the colon.
#pragma once

#include <string>

#include "code/code_book.h"
#include "code/derivation.h"

namespace ohmfolio {

/// Where a rule writes: the worksheet, the book it reads, and the subject it speaks of.
struct Desk {
    Worksheet& sheet;
    const CodeBook& book;
    std::string subject;
};

} // namespace ohmfolio
