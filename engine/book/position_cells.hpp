// How a position on the ground lies in three columns: latitude, longitude, elevation.
#pragma once

#include <optional>

#include "book/row.hpp"
#include "observe/records.hpp"

namespace ashtriage::book {

inline void add_position(Row& row, const std::optional<observe::Position>& position) {
    std::optional<double> latitude;
    std::optional<double> longitude;
    std::optional<measure::Length> elevation;
    if (position) {
        latitude = position->latitude;
        longitude = position->longitude;
        elevation = position->elevation;
    }
    row.add(latitude).add(longitude).add(elevation);
}

inline std::optional<observe::Position> read_position(RowReader& row) {
    const std::optional<double> latitude = row.optional_real();
    const std::optional<double> longitude = row.optional_real();
    const auto elevation = row.optional_quantity<measure::Length>();
    if (!latitude || !longitude) return std::nullopt;
    return observe::Position{*latitude, *longitude, elevation};
}

}  // namespace ashtriage::book
