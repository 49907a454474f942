// Daily weather from the tables in which it comes:
//
//   our own CSV       date,tmin_f,tmax_f,rain_in,wind_mph: the unit is part of the name
//   a foreign CSV     any header, its columns declared: "date=DAY, tmin=LOW:F, tmax=HIGH:F"
//   the wide public   STATION,DATE,TMAX,TMIN,PRCP, with or without TMAX_ATTRIBUTES and so on, in a
//   layout            unit that the user states
//   the long public   station,date,element,value,m,q,s,time, with or without a header, in tenths
//   layout            of a degree C, of a millimetre and of a metre a second
//   fixed width       one element and month a line, in the same tenths
//
// The public layouts are those of the Global Historical Climatology Network's daily files.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "measure/date.hpp"
#include "weather/daily_weather.hpp"

namespace ashtriage::weather {

// What the user says of a file.
struct WeatherReading {
    measure::Date today{};         // a later day cannot have been measured
    std::string columns;           // as parse_columns reads it; empty: by the header
    std::string temperature_unit;  // of the wide public layout
    std::string station;           // only its rows; where the table names none, its name
    bool unit_checked = false;     // the temperatures are odd for their unit, and yet right
};

// Something a reader of the results should know.
struct WeatherFinding {
    std::size_t line = 0;  // 0: the file as a whole
    std::string text;
};

struct WeatherFile {
    WeatherSeries series;
    std::vector<WeatherFinding> findings;
};

// Throws packs::BadFile with everything that makes the file unusable: days twice or out of order,
// two stations, minima above maxima, values beyond the world's records, days to come, temperatures
// that fit no place with trees in the unit they are said to be in. Throws measure::InputError for a
// table that cannot be read at all. Flagged values are left out, with a finding.
WeatherFile read_weather(std::string_view text, const std::string& file, const WeatherReading& how);

}  // namespace ashtriage::weather
