// A description out of any bytes: understood or told what is wrong, and studied when understood.
#include "code/code_book.h"
#include "fuzz/target.h"

using namespace ohmfolio;

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    SourceFiles sources;
    Findings findings;
    const auto system =
        read_system_text(fuzz::text_of(data, size), fuzz::catalogue(), sources, findings);
    if (system) {
        const Study study = make_study(*system, CodeBook(system->edition));
        findings.insert(findings.end(), study.findings.begin(), study.findings.end());
        // A few of them; a large system has thousands, which would leave no time for other input.
        constexpr std::size_t most = 12;
        const auto ids = explainable(*system, study);
        for (std::size_t i = 0; i < ids.size(); i += ids.size() / most + 1) {
            explain(*system, study, ids[i]);
        }
    }
    fuzz::print_all(findings, sources);
    return 0;
}
