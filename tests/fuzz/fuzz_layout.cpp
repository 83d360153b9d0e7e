// A sheet format out of any bytes, as an office may add.
#include <filesystem>
#include <fstream>

#include "app/temporary_folder.h"
#include "fuzz/target.h"
#include "sheet/layout.h"

using namespace ohmfolio;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const TemporaryFolder own;
    std::ofstream(own.path() / "own.toml", std::ios::binary) << fuzz::text_of(data, size);
    SourceFiles sources;
    Findings findings;
    const sheets::LayoutFolders folders(std::filesystem::path(OHMFOLIO_SOURCE) / "layouts",
                                        own.path());
    sheets::read_layout(folders, {"own", {}}, sources, findings);
    sheets::sheet_formats(own.path());
    fuzz::print_all(findings, sources);
    return 0;
}
