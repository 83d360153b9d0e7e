#include "input/named_equipment.h"

#include "input/declared.h"
#include "input/faults.h"

namespace ohmfolio {

int named_equipment(const System& system, const std::string& id, Span span, Findings& findings) {
    const int index = system.find(id);
    if (index < 0) {
        std::vector<std::string> ids;
        for (const Equipment& e : system.equipment) {
            ids.push_back(e.id);
        }
        findings.push_back(
            no_such_equipment({id, span}, "equipment:" + id, "the id of equipment", ids));
    }
    return index;
}

} // namespace ohmfolio
