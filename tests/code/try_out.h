/// A worksheet with a book beside it, for tests of single rules.
#pragma once

#include "code/rules.h"

struct TestDesk {
    explicit TestDesk(ohmfolio::Edition edition = ohmfolio::Edition::nec2023) : book(edition) {}

    operator ohmfolio::Desk() { return {sheet, book, "circuit:X"}; }

    /// The line X.name; a test that asks for a line that is not there is wrong.
    const ohmfolio::Derivation& line(const std::string& name) const {
        const auto* found = sheet.find("X." + name);
        if (found == nullptr)
            throw std::logic_error("no line X." + name);
        return *found;
    }
    bool has(const std::string& name) const { return sheet.find("X." + name) != nullptr; }

    ohmfolio::Worksheet sheet;
    ohmfolio::CodeBook book;
};

inline ohmfolio::WireSize wire(const char* text) { return ohmfolio::parse_wire_size(text).value(); }
inline ohmfolio::Term<ohmfolio::Amps> amps(double value, const char* symbol = "I") {
    return ohmfolio::given(symbol, ohmfolio::Amps{value});
}
