/// Where an array and its circuits are, as Article 690 tells them apart.
#pragma once

#include <string_view>

namespace ohmfolio {

/// Where direct-current circuits are.
enum class ArrayPlace {
    dwelling, ///< on or in a one- or two-family dwelling
    building, ///< on or in another building
    ground    ///< neither on nor in a building
};

inline bool on_building(ArrayPlace place) { return place != ArrayPlace::ground; }

inline std::string_view words(ArrayPlace place) {
    switch (place) {
    case ArrayPlace::dwelling:
        return "on or in a one- or two-family dwelling";
    case ArrayPlace::building:
        return "on or in a building that is no one- or two-family dwelling";
    case ArrayPlace::ground:
        return "neither on nor in a building";
    }
    return {};
}

} // namespace ohmfolio
