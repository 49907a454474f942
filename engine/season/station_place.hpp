// What weather that was measured elsewhere than the trees stand says of their spring.
#pragma once

#include <optional>
#include <string>

#include "season/hopkins.hpp"
#include "weather/degree_days.hpp"

namespace ashtriage::season {

// Within these, a station is taken for one of the place. They come from no source; by Hopkins' law
// they are 2 to 3 days.
inline constexpr double near_degrees = 0.5;  // of latitude or of longitude
inline constexpr double near_feet = 300.0;

// The place of the station, where its file gives one; a shore is never known of it.
std::optional<Location> location_of_station(const weather::HeatTotals& heat);

// How far the station lies from the place, and by how many days spring differs by Hopkins' law.
// Empty when it is near, or when its file does not say where it is.
std::string caution_about_station(const weather::HeatTotals& heat, const Location& place);

}  // namespace ashtriage::season
