// A catalogue out of any bytes, beside a description that names records of the demonstration.
#include "code/code_book.h"
#include "fuzz/target.h"

using namespace ohmfolio;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    SourceFiles sources;
    Findings findings;
    const auto system =
        read_system_text(fuzz::example(), fuzz::text_of(data, size), sources, findings);
    if (system) {
        make_study(*system, CodeBook(system->edition));
    }
    fuzz::print_all(findings, sources);
    return 0;
}
