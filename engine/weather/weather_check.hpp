// What cannot be true of the weather, and what is unlikely of the unit it is said to be in.
#pragma once

#include <optional>
#include <string>

#include "measure/date.hpp"
#include "packs/problem.hpp"
#include "weather/daily_weather.hpp"
#include "weather/weather_layouts.hpp"

namespace ashtriage::weather {

// The world's records (World Meteorological Organization, archive of weather and climate extremes;
// figures from memory): -89.2 C at Vostok in 1983, 56.7 C at Furnace Creek in 1913, 1,825 mm of
// rain in 24 hours at Foc-Foc in 1966, a gust of 113.2 m/s on Barrow Island in 1996, which no mean
// wind of a day comes near.
//
// The problem with a reading that lies outside them; nothing when it does not. The hint names
// another unit in which it would be likely.
std::optional<packs::Problem> beyond_records(const Reading& reading, const std::string& file);

// Adds a problem when the temperatures fit no place where trees grow, in the unit they are in: most
// often C that is read as F or the other way round. The rules, for calendar months of which 20 days
// or more are there:
//   * the mean of July (in the south of January) is below 10 C: beyond the tree line (Koeppen: no
//     trees where the warmest month is colder);
//   * the mean of a month from May to September (November to March) is below 0 C;
//   * the mean of a month from November to March (May to September) is above 30 C.
// The second and the third are this program's own reckoning. The series is taken as southern when
// its place is, or when November to March are warmer than May to September.
void check_unit(const WeatherSeries& series, const std::string& file, packs::Problems& problems);

// Temperatures that swing so little from night to day, on average, are worth a second look; in C.
// This program's own reckoning: inland the mean swing is 8 to 15 C.
inline constexpr double small_swing_celsius = 5.0;
// The mean swing of the series in C; 0 for less than 60 days, of which nothing is said.
double mean_swing_celsius(const WeatherSeries& series);

}  // namespace ashtriage::weather
