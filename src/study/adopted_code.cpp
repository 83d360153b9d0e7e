#include "study/adopted_code.h"

namespace ohmfolio::workings {

namespace {

/// "IRC 2021" is also written "2021 International Residential Code".
bool names(const std::string& stated, const std::string& known) {
    if (stated.find(known) != std::string::npos)
        return true;
    const auto blank = known.find(' ');
    const std::string letters = known.substr(0, blank), year = known.substr(blank + 1);
    const std::string words = letters == "IRC"   ? "International Residential Code"
                              : letters == "IFC" ? "International Fire Code"
                                                 : "";
    return !words.empty() && stated.find(words) != std::string::npos &&
           stated.find(year) != std::string::npos;
}

} // namespace

AdoptedCode adopted_code(const System& system, const std::vector<std::string>& known,
                         const std::string& usual) {
    for (const std::string& stated : system.project.other_codes) {
        for (const std::string& code : known) {
            if (names(stated, code))
                return {code, true};
        }
    }
    return {usual, false};
}

} // namespace ohmfolio::workings
