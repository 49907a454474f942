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
// or more are there, by the seasons of the north (in the south six months later):
//   * the mean of July is below 10 C: beyond the tree line (Koeppen: no trees where the warmest
//     month is colder);
//   * the mean of June is below 8 C, of a month from May to September below 0 C, of April below -8
//   C;
//   * the mean of a month from November to March is above 30 C;
// and for 60 days or more:
//   * the mean swing from night to day is below smallest_swing_celsius.
// All but the first come from no source; they are this program's own reckoning. April of -8 C is
// 17 F, which in C would be the warmest of Aprils.
void check_unit(const WeatherSeries& series, const std::string& file, packs::Problems& problems);

// By its place; without one, whether its November to March are warmer than its May to September, by
// more than 1 C.
bool is_southern(const WeatherSeries& series);

// Temperatures that swing so little from night to day, on average, are worth a second look; in C.
// This program's own reckoning: inland the mean swing is 8 to 15 C.
inline constexpr double small_swing_celsius = 5.0;
// Below this they are taken for another unit: whole F read as tenths of a degree C swing by 2 C.
inline constexpr double smallest_swing_celsius = 3.0;
// The mean swing of the series in C; 0 for less than 60 days, of which nothing is said.
double mean_swing_celsius(const WeatherSeries& series);

}  // namespace ashtriage::weather
