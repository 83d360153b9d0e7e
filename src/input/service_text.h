/// The service as the drafter writes it: "120/240 V, 200 A"; "120/208 V, 3 phase, 800 A".
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "input/values.h"

namespace ohmfolio {

struct ServiceText {
    std::optional<ServiceRating> service; ///< without its rating
    std::string_view rating;              ///< "800 A", a part of what was parsed
    std::string message, hint;            ///< where there is no service
};
ServiceText parse_service(std::string_view text);

} // namespace ohmfolio
