// A table of equipment data and its map out of any bytes, parted by a line "---".
#include "fuzz/target.h"
#include "input/record_import.h"

using namespace ohmfolio;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string text = fuzz::text_of(data, size);
    const std::string parting = "\n---\n";
    const auto end = text.find(parting);
    SourceFiles sources;
    Findings findings;
    const int table = sources.add("table.csv", text.substr(0, end));
    const int map =
        sources.add("map.toml", end == std::string::npos
                                    ? drawn::repository_text("examples/tables/modules-map.toml")
                                    : text.substr(end + parting.size()));
    import_records(table, map, sources, findings);
    fuzz::print_all(findings, sources);
    return 0;
}
