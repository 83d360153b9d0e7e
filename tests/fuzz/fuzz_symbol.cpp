// A symbol out of any bytes, as a drafter's own folder may hold.
#include "fuzz/target.h"
#include "symbol/symbol.h"

using namespace ohmfolio;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    SourceFiles sources;
    Findings findings;
    const int file = sources.add("symbol.svg", fuzz::text_of(data, size));
    parse_symbol("symbol", file, sources, findings);
    fuzz::print_all(findings, sources);
    return 0;
}
