#include "model/catalogue.h"

#include <algorithm>

namespace ohmfolio {

const Record* Catalogue::find(std::string_view key) const {
    const auto found = std::ranges::find(records, key, &Record::key);
    return found == records.end() ? nullptr : &*found;
}

} // namespace ohmfolio
