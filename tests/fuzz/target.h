/// What fuzz targets share: bytes as text, the text of the repository's files.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>

#include "drawn/drawn_job.h"

/// The entry that libFuzzer calls.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace ohmfolio::fuzz {

inline std::string text_of(const std::uint8_t* data, std::size_t size) {
    return {reinterpret_cast<const char*>(data), size};
}

/// The demonstration's own description and catalogue, where a target is about something else.
inline const std::string& example() {
    static const std::string text = drawn::repository_text("examples/tolliver-bend/larkspur.toml");
    return text;
}
inline const std::string& catalogue() {
    static const std::string text = drawn::repository_text("examples/tolliver-bend/catalogue.toml");
    return text;
}

/// All findings as a user reads them: printing is part of what must not break.
inline void print_all(const Findings& findings, const SourceFiles& sources) {
    for (const Finding& finding : findings) {
        print(finding, sources, false);
    }
}

} // namespace ohmfolio::fuzz
